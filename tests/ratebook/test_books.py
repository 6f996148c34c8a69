"""The rate book as a whole: what is missing, what stands for its content, what ends when."""

import io
import shutil
from datetime import date
from pathlib import Path

import openpyxl
import pytest

from shipcalc.actions.rates import check_rates
from shipcalc.errors import FaultyWorkbook, WrongInput
from shipcalc.ratebook.book import check_rate_book, read_rate_book

RATES = Path(__file__).parents[2] / "rates"
DAY = date(2026, 12, 1)


def resaved(path, change=lambda book: None):
    book = openpyxl.load_workbook(path)
    change(book)
    book.save(path)


def test_a_book_is_read_into_rows_that_remember_their_cells(sound_book):
    book = read_rate_book(sound_book)

    assert [band.rate_e4 for band in book.bands] == [10_000, 8_000, 16_000]
    assert book.bands[2].at.cell("rate_e4") == "trucking.xlsx › Per mile!E4"
    assert book.pricing.markup_linehaul_ppm == 140_000
    assert book.pricing.rounding_step_minor == 500
    assert book.pricing.cells["Rounding step"] == "trucking.xlsx › Pricing!B8"
    assert (book.pricing.valid_from, book.pricing.valid_to) == (date(2026, 1, 1), date(2027, 12, 31))
    assert [task.code for task in book.tasks] == ["wash", "photographs", "report"]


def test_a_name_spelt_otherwise_is_read_as_it_is_spelt_on_its_own_sheet(broken):
    book = read_rate_book(broken({"Per mile": {"A2": "owl AND anchor"}, "Carriers": {"E2": "KEYS; northwest"}}))

    assert book.bands[0].carrier == "Owl and Anchor"
    assert book.carriers[0].to_areas == ("Keys", "Northwest")


def test_a_folder_that_is_not_there_is_said(tmp_path):
    with pytest.raises(WrongInput, match=r"there is no such folder — name the folder that holds trucking\.xlsx"):
        read_rate_book(tmp_path / "nowhere")


def test_a_folder_without_the_workbook_is_said_and_its_likely_name(tmp_path):
    (tmp_path / "Trucking (2).xlsx").write_bytes(b"")

    with pytest.raises(WrongInput, match=r"there is no trucking.xlsx in this folder — rename Trucking \(2\).xlsx"):
        read_rate_book(tmp_path)
    assert [str(problem) for problem in check_rate_book(tmp_path)] == [
        f"{tmp_path}: there is no trucking.xlsx in this folder — rename Trucking (2).xlsx"
    ]


@pytest.mark.parametrize("content", [b"", b"PK\x03\x04 half written", b"not a workbook at all"])
def test_a_workbook_that_is_none_is_said(content, tmp_path):
    (tmp_path / "trucking.xlsx").write_bytes(content)

    with pytest.raises(WrongInput, match=r"trucking.xlsx: .* — "):
        read_rate_book(tmp_path)


def test_without_the_paperwork_the_book_has_no_papers_and_says_so(broken):
    folder = broken({})
    (folder / "paperwork.xlsx").unlink()

    book = read_rate_book(folder)

    assert (book.documents, book.tasks) == ((), ())
    (said,) = (str(problem) for problem in book.warnings)
    assert said == (
        f"{folder / 'paperwork.xlsx'}: there is no such workbook, so quotes name no papers, tasks, duty or tax; "
        "embargoes hold all the same — put it back from an earlier copy, or take it from shipcalc rates new"
    )


def test_without_the_overseas_workbook_a_rate_of_exchange_that_is_asked_for_is_one_fault(lacking):
    (said,) = (problem for problem in lacking("overseas.xlsx") if "overseas.xlsx" in problem.cell)
    assert said.severity == "fault"
    assert "no rate of exchange is known, which trucking.xlsx › Carriers!J14 (CAD) asks for" in said.message


def test_a_lost_workbook_is_told_in_one_sentence_with_where_it_is_to_be_found(lacking):
    (said,) = (problem for problem in lacking("paperwork.xlsx", beside=RATES) if "paperwork" in problem.cell)
    assert str(said).endswith(f"— copy it from {RATES}")


def test_without_the_overseas_workbook_the_countries_of_the_other_are_told(broken):
    folder = broken({})
    (folder / "overseas.xlsx").unlink()
    (said,) = (str(problem) for problem in check_rate_book(folder))
    assert "nothing is priced by sea and no rate of exchange is known, though paperwork.xlsx has" in said
    assert said.endswith("nothing to do where you sell at home alone")


def test_a_workbook_that_the_book_in_force_has_is_missed_even_where_no_other_asks_for_it(broken):
    folder = broken({})
    for name in ("overseas.xlsx", "paperwork.xlsx"):
        (folder / name).unlink()
    gone = folder / "overseas.xlsx"
    assert not [problem for problem in check_rate_book(folder) if "overseas" in problem.cell]
    said = [str(problem) for problem in check_rates(folder, as_of=DAY, beside=RATES).problems]
    (line,) = (line for line in said if line.startswith(str(gone)))
    assert line.startswith(
        f"{gone}: there is no such workbook, and {RATES} has one: all that stands in it counts no more"
    )
    assert line.endswith(f"— copy it from {RATES}; nothing to do where that is meant")


@pytest.fixture
def lacking(tmp_path):
    """What a check says of the shipped book without one of its workbooks."""

    def said(name, beside=None):
        folder = Path(shutil.copytree(RATES, tmp_path / "lacking"))
        (folder / name).unlink()
        return check_rates(folder, as_of=DAY, beside=beside).problems

    return said


def test_a_missing_sheet_is_one_fault_and_its_likely_name_is_said(broken):
    folder = broken({})
    resaved(folder / "trucking.xlsx", lambda book: setattr(book["Areas"], "title", "Area list"))

    with pytest.raises(FaultyWorkbook) as refused:
        read_rate_book(folder)

    assert [str(problem) for problem in refused.value.problems] == [
        'trucking.xlsx › Areas: there is no sheet "Areas" — rename the sheet "Area list" to "Areas"'
    ]
    assert str(refused.value) == f"{folder}: the rate book has 1 fault — correct the cells named"


def test_a_sheet_with_another_name_is_known_by_its_headers(broken):
    folder = broken({})
    resaved(folder / "trucking.xlsx", lambda book: setattr(book["Fuel"], "title", "Diesel, weekly"))

    assert [str(problem) for problem in check_rate_book(folder)] == [
        'trucking.xlsx › Fuel: there is no sheet "Fuel" — rename the sheet "Diesel, weekly" to "Fuel"'
    ]


def test_a_workbook_where_a_folder_is_asked_for_is_said(broken):
    folder = broken({})

    assert [str(problem) for problem in check_rate_book(folder / "trucking.xlsx")] == [
        f"{folder / 'trucking.xlsx'}: is a file, and a rate book is a folder of workbooks — name its folder, {folder}"
    ]


def test_sheets_and_columns_of_ones_own_stay_and_are_told_in_one_line(broken):
    folder = broken({"Carriers": {"AC1": "Phone", "AC2": "555 0100"}, "Fuel": {"AA3": "ask again"}})
    resaved(folder / "trucking.xlsx", lambda book: book.create_sheet("Bill's sums").append([1]))

    assert [str(problem) for problem in check_rate_book(folder)] == [
        (
            'trucking.xlsx › Carriers!AC1: what is your own stays as it is and is not read: "Phone", "ask again", '
            'the sheet "Bill\'s sums" — nothing to do, unless it was meant to count'
        )
    ]


def test_a_sheet_that_must_have_rows_and_has_none_is_a_fault(broken):
    folder = broken({})
    resaved(folder / "trucking.xlsx", lambda book: book["Per mile"].delete_rows(2, 5))

    assert [str(problem) for problem in check_rate_book(folder)] == [
        "trucking.xlsx › Per mile: the sheet has no rows below its headers — fill at least one row"
    ]


def test_the_fingerprint_stays_where_only_the_file_changes_and_changes_with_a_price(broken):
    folder = broken({})
    before = read_rate_book(folder).fingerprint
    bytes_before = (folder / "trucking.xlsx").read_bytes()

    def only_looks(book):
        book["Per mile"]["E2"].number_format = "0.000"
        book["Per mile"].column_dimensions["E"].width = 40
        book["Notes"]["A30"] = "see Bill"
        book.move_sheet("Fuel", -3)

    resaved(folder / "trucking.xlsx", only_looks)
    assert (folder / "trucking.xlsx").read_bytes() != bytes_before
    assert read_rate_book(folder).fingerprint == before

    resaved(folder / "trucking.xlsx", lambda book: book["Per mile"]["E2"].__setattr__("value", 1.01))
    after = read_rate_book(folder).fingerprint
    assert after != before
    assert len(after) == 16
    assert int(after, 16) >= 0


def test_what_is_out_of_date_on_a_day_is_said(sound_book, broken):
    assert check_rate_book(sound_book, as_of=date(2026, 12, 1)) == ()

    assert [str(problem) for problem in check_rate_book(sound_book, as_of=date(2028, 1, 10))] == [
        'trucking.xlsx › Fuel!B2: the price of "Per mile" is 413 days old — add a row with this week\'s price',
        'trucking.xlsx › Fuel!B3: the price of "Steps" is 413 days old — add a row with this week\'s price',
        "trucking.xlsx › Pricing!B4: the rate book ended on 2027-12-31 — check the prices and set a later date",
        "overseas.xlsx › Currencies!B2: the rate of EUR is 413 days old — add a row with a late rate",
    ]
    ended = broken({"Carriers": {"Y2": date(2026, 6, 30)}})
    assert [str(problem) for problem in check_rate_book(ended, as_of=date(2026, 12, 1))] == [
        (
            "trucking.xlsx › Carriers!Y2: the row ended on 2026-06-30 and is not used any more — "
            "give it a later date if it still holds, or remove it"
        )
    ]


def test_what_has_only_prices_that_lie_ahead_is_said(sound_book):
    assert [str(problem) for problem in check_rate_book(sound_book, as_of=date(2026, 11, 1))] == [
        'trucking.xlsx › Fuel!B2: "Per mile" has no price of 2026-11-01 or before — add a row with an earlier date',
        'trucking.xlsx › Fuel!B3: "Steps" has no price of 2026-11-01 or before — add a row with an earlier date',
        "overseas.xlsx › Currencies!B2: there is no rate of EUR of 2026-11-01 or before — add a row with an earlier date",
    ]


def test_excels_calendar_of_1904_reads_as_the_same_days(sound_bytes, tmp_path):
    book = openpyxl.load_workbook(io.BytesIO(sound_bytes["trucking.xlsx"]))
    book.epoch = openpyxl.utils.datetime.CALENDAR_MAC_1904
    book.save(tmp_path / "trucking.xlsx")

    assert read_rate_book(tmp_path).seasons[0].first_day == date(2026, 10, 1)
