"""Every slip of a manager by its cell: one tiny workbook a slip, with the whole of what the check says beside it."""

import tomllib
from pathlib import Path

import pytest

from shipcalc.errors import FaultyWorkbook
from shipcalc.ratebook.book import check_rate_book, read_rate_book

CASES = sorted((Path(__file__).parent / "cases").glob("*slips.toml"))
SLIPS = [slip for case in CASES for slip in tomllib.loads(case.read_text(encoding="utf-8"))["slip"]]
WARNING = "warning: "


def told(problem):
    return f"{WARNING if problem.severity == 'warning' else ''}{problem}"


def test_the_sound_book_has_nothing_wrong_in_it(sound_book):
    assert check_rate_book(sound_book) == ()


@pytest.mark.parametrize("slip", SLIPS, ids=lambda slip: slip["is"])
def test_a_slip_is_told_by_its_cell_and_only_a_fault_stops_the_book(slip, broken):
    folder = broken({slip["sheet"]: slip["cells"]})
    faults = [line for line in slip["says"] if not line.startswith(WARNING)]

    assert [told(problem) for problem in check_rate_book(folder)] == slip["says"]
    if faults:
        with pytest.raises(FaultyWorkbook) as refused:
            read_rate_book(folder)
        assert [str(problem) for problem in refused.value.problems] == faults
    else:
        assert [told(problem) for problem in read_rate_book(folder).warnings] == slip["says"]


def test_no_two_slips_are_the_same():
    assert len({slip["is"] for slip in SLIPS}) == len(SLIPS) >= 90


def test_all_slips_of_all_sheets_are_told_at_once_in_the_order_of_the_sheets(broken):
    folder = broken({"Areas": {"C2": "WX"}, "Per mile": {"E2": "1,9O", "C4": "ten"}, "Carriers": {"N2": "perhaps"}})

    cells = [problem.cell.split(" › ")[1] for problem in check_rate_book(folder)]

    assert cells == ["Carriers!N2", "Per mile!E2", "Per mile!C4", "Areas!C2"]
