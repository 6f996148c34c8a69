"""What the check says of a row of the sheet Ferries abroad."""

import pytest

from shipcalc.ratebook.checks.ferries_abroad import CHECKS
from shipcalc.ratebook.rows.ferries_abroad import FerryAbroad
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.columns import RowRef
from shipcalc.records import replace

AT = RowRef("overseas.xlsx", "Ferries abroad", 2, {"ferry": "A", "from_port": "B", "to_port": "D", "source": "L"})
SOUND = FerryAbroad(
    ferry="Car ferry Nynäshamn – Visby", from_port="SENYN", from_name="Nynäshamn", to_port="SEVBY", to_name="Visby",
    amount_minor=310_00, source="invented", at=AT,
)  # fmt: skip


def said(*rows: FerryAbroad) -> list[str]:
    return [str(problem) for check in CHECKS for problem in check(Tables(ferries_abroad=rows))]


def test_a_sound_row_is_not_spoken_of() -> None:
    assert said(SOUND) == []


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"from_port": "SEXXX"}, '"SEXXX" does not stand in the program\'s table of ports'),
        ({"to_port": "senyn"}, "the ferry ends where it begins"),
        ({"source": None}, "the ferry has no source"),
    ],
)
def test_a_slip_is_told(change: dict[str, object], words: str) -> None:
    (told,) = said(replace(SOUND, **change))  # type: ignore[arg-type]
    assert words in told


def test_two_rows_for_one_ferry_are_told_whichever_way_they_run() -> None:
    (told,) = said(SOUND, replace(SOUND, ferry="Back", from_port="SEVBY", to_port="SENYN"))
    assert "the same ports stand already" in told


@pytest.mark.parametrize(("hours", "days"), [(None, 0), (3.4, 0), (11.9, 0), (12, 1), (30, 1), (36, 2)])
def test_a_crossing_takes_the_nearest_whole_day(hours: float | None, days: int) -> None:
    assert replace(SOUND, crossing_hours=hours).crossing_days == days
