"""`shipcalc rates take`: a mail of rates is shown, asked where it is open, and written into a copy of the rate book, never into it."""

import json
import shutil
from datetime import date
from pathlib import Path

import pytest
from openpyxl import Workbook, load_workbook

from shipcalc.ratebook.book import check_rate_book
from shipcalc.ratebook.rows.lanes import LaneRow
from shipcalc.ratebook.rows.mile_bands import MileBand
from shipcalc.ratebook.workbook.reader import read_rows
from shipcalc.sheets.reading import read_workbook

RATES = Path(__file__).parents[2] / "rates"
CARRIER = "Wren and Thistle"  # on the shipped sheet Carriers, with open trailers
LANES = [("Bellingham, WA", "Boise, ID", 650), ("Bellingham, WA", "597", 940)]


@pytest.fixture(autouse=True)
def own_book(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(here.parent / "data"))
    shutil.copytree(RATES, here / "rates")


def mail(path: Path, lanes=LANES, *, valid="12/01/2026 - 12/31/2026", fuel="fuel included, ", header="Open") -> str:
    book = Workbook()
    page = book.active
    page.title = "Rates"
    rows = [(f"{CARRIER} LLC",), (f"USD, {fuel}valid {valid}",), (), ("From", "To", header), *lanes]
    for row in rows:
        page.append(row)
    book.save(path)
    return str(path)


def lanes_of(folder: Path):
    sheet = read_workbook(folder / "trucking.xlsx").find_sheet("Lanes")
    return [row for row in read_rows(sheet, LaneRow).rows if row.source and row.source.startswith("mail")]


def test_without_a_yes_it_is_only_shown(say, here):
    said = say("rates", "take", mail(here / "mail.xlsx"), "--into", "next")

    assert said.status == 1
    assert "650.00 USD" in said.out
    assert "Rates!C5" in said.out
    assert "--yes" in said.err
    assert not (here / "next").exists()


def test_with_a_yes_rows_go_into_a_copy_that_has_no_fault(say, here):
    before = (here / "rates" / "trucking.xlsx").read_bytes()
    said = say("rates", "take", mail(here / "mail.xlsx"), "--into", "next", "--yes")

    assert said.status == 0, said.err
    assert "2 new, 0 changed, 0 the same" in said.out
    assert "shipcalc rates adopt next" in said.out
    assert (here / "rates" / "trucking.xlsx").read_bytes() == before
    found = lanes_of(here / "next")
    assert [
        (row.carrier, row.trailer, row.from_end, row.to_end, row.flat_minor, row.fuel_included) for row in found
    ] == [
        (CARRIER, "open", "Bellingham, WA", "Boise, ID", 65_000, True),
        (CARRIER, "open", "Bellingham, WA", "597", 94_000, True),
    ]
    assert {(row.valid_from, row.valid_to) for row in found} == {(date(2026, 12, 1), date(2026, 12, 31))}
    assert [row.source for row in found] == ["mail.xlsx › Rates!C5", "mail.xlsx › Rates!C6"]
    assert not [problem for problem in check_rate_book(here / "next") if problem.severity == "fault"]


BANDS = [("Miles", "Open"), ("0-600", 1.9), ("601+", 1.1)]


def bands_of(folder: Path):
    sheet = read_workbook(folder / "trucking.xlsx").find_sheet("Per mile")
    return [row for row in read_rows(sheet, MileBand).rows if row.carrier == CARRIER]


def band_mail(path: Path, valid: str) -> str:
    book = Workbook()
    for row in [(f"{CARRIER} LLC",), (f"USD per mile, fuel surcharge extra{valid}",), (), *BANDS]:
        book.active.append(row)
    book.save(path)
    return str(path)


def test_a_carriers_new_bands_end_all_of_its_earlier_ones(say, here):
    earlier = bands_of(here / "rates")
    said = say("rates", "take", band_mail(here / "mail.xlsx", ", valid from 1 January 2027"), "--into", "next", "--yes")

    assert said.status == 0, said.err
    found = bands_of(here / "next")
    assert [(row.from_mi, row.to_mi, row.rate_e4, row.valid_from) for row in found[len(earlier) :]] == [
        (0, 600, 19_000, date(2027, 1, 1)),
        (600, None, 11_000, date(2027, 1, 1)),
    ]
    assert {row.valid_to for row in found[: len(earlier)]} == {date(2026, 12, 31)}
    assert not [problem for problem in check_rate_book(here / "next") if problem.severity == "fault"]


def test_bands_without_a_first_day_are_told_beside_the_earlier_ones(say, here):
    said = say("rates", "take", band_mail(here / "mail.xlsx", ""), "--into", "next")

    assert "the mail says no first day" in said.out


def test_zones_of_a_mail_are_areas_once_however_often_it_comes(say, here):
    book = Workbook()
    legend = [("Zone", "States"), ("A", "WA, OR"), ("B", "CA"), ()]
    head = [(f"{CARRIER} LLC",), ("USD, open, fuel included, valid from 1 January 2027",), ()]
    for row in [*head, *legend, ("From/To", "A", "B"), ("A", 500, 700), ("B", 720, 450)]:
        book.active.append(row)
    book.save(here / "mail.xlsx")

    first = say("rates", "take", str(here / "mail.xlsx"), "--into", "next", "--yes")
    again = say("rates", "take", str(here / "mail.xlsx"), "--into", "next", "--yes")

    assert "7 new, 0 changed, 0 the same" in first.out
    assert "0 new, 0 changed, 7 the same" in again.out
    assert not [problem for problem in check_rate_book(here / "next") if problem.severity == "fault"]


def test_the_same_mail_once_more_changes_nothing(say, here):
    say("rates", "take", mail(here / "mail.xlsx"), "--into", "next", "--yes")
    once = (here / "next" / "trucking.xlsx").read_bytes()
    said = say("rates", "take", mail(here / "mail.xlsx"), "--into", "next", "--yes")

    assert "0 new, 0 changed, 2 the same" in said.out
    assert (here / "next" / "trucking.xlsx").read_bytes() == once


def test_a_later_price_ends_the_earlier_one_and_says_old_and_new(say, here):
    say("rates", "take", mail(here / "mail.xlsx", valid="12/01/2026 - 12/31/2027"), "--into", "next", "--yes")
    raised = [("Bellingham, WA", "Boise, ID", 700)]
    said = say(
        "rates", "take", mail(here / "mail-2.xlsx", raised, valid="01/15/2027 - 12/31/2027"), "--into", "next", "--yes"
    )

    assert "650 USD → 700.00 USD" in said.out
    found = {
        (row.flat_minor, row.valid_from, row.valid_to) for row in lanes_of(here / "next") if row.to_end == "Boise, ID"
    }
    assert found == {(65_000, date(2026, 12, 1), date(2027, 1, 14)), (70_000, date(2027, 1, 15), date(2027, 12, 31))}
    assert not [problem for problem in check_rate_book(here / "next") if problem.severity == "fault"]


def test_a_price_for_the_same_days_is_written_over_the_earlier_one(say, here):
    say("rates", "take", mail(here / "mail.xlsx"), "--into", "next", "--yes")
    said = say(
        "rates", "take", mail(here / "mail-2.xlsx", [("Bellingham, WA", "Boise, ID", 700)]), "--into", "next", "--yes"
    )

    assert "0 new, 1 changed, 0 the same" in said.out
    assert [row.flat_minor for row in lanes_of(here / "next") if row.to_end == "Boise, ID"] == [70_000]


def test_a_question_is_answered_by_a_file_and_not_asked_the_next_month(say, here):
    first = mail(here / "mail.xlsx", fuel="")
    asked = say("rates", "take", first, "--into", "next", "--yes")
    assert asked.status == 1
    assert "fuel = " in asked.err

    (here / "answers.toml").write_text('fuel = "not included"\n')
    assert say("rates", "take", first, "--into", "next", "--map", "answers.toml", "--yes").status == 0
    following = mail(here / "mail january.xlsx", fuel="", valid="01/01/2027 - 01/31/2027")
    said = say("rates", "take", following, "--into", "next", "--yes")
    assert said.status == 0, said.err
    assert "As answered last time: fuel: not included" in said.out


def test_a_column_is_told_by_a_file(say, here):
    (here / "answers.toml").write_text('[columns]\n"Tier A" = "flat price, open"\n')
    said = say(
        "rates", "take", mail(here / "mail.xlsx", header="Tier A"), "--into", "next", "--map", "answers.toml", "--yes"
    )

    assert said.status == 0, said.err
    assert [row.trailer for row in lanes_of(here / "next")] == ["open", "open"]


def test_the_rate_book_that_counts_is_not_written_into(say, here):
    said = say("rates", "take", mail(here / "mail.xlsx"), "--into", "rates", "--yes")

    assert said.status == 2
    assert "--into" in said.err


def test_a_formula_in_a_mail_is_text_in_the_book(say, here):
    book = load_workbook(mail(here / "mail.xlsx"))
    book["Rates"]["D4"] = "Notes"
    book["Rates"]["D5"] = "'=1+1"
    book["Rates"]["D6"].value = "=HYPERLINK(1)"
    book["Rates"]["D6"].data_type = "s"
    book.save(here / "mail.xlsx")
    said = say("rates", "take", str(here / "mail.xlsx"), "--into", "next", "--yes")

    assert said.status == 0, said.err
    page = load_workbook(here / "next" / "trucking.xlsx")["Lanes"]
    kinds = {cell.data_type for row in page.iter_rows() for cell in row if str(cell.value).startswith("=")}
    assert kinds <= {"s"}


def test_as_data_it_is_all_there(say, here):
    said = say("rates", "take", mail(here / "mail.xlsx", [("Bellingham, WA", "Springfield", 650), *LANES]), "--json")
    found = json.loads(said.out)

    assert [(row["cell"], row["flat"], row["currency"], row["book"]) for row in found["rows"]] == [
        ("Rates!C6", "650", "USD", "new"),
        ("Rates!C7", "940", "USD", "new"),
    ]
    assert [item["cell"] for item in found["left_out"]] == ["Rates!B5"]
    assert found["written"] is None


BAD = {
    "empty.xlsx": b"",
    "half.xlsx": b"PK\x03\x04 half a workbook",
    "text.xlsx": b"From,To,Rate\nWA,ID,700\n",
    "blank.csv": b"\n\n",
    "picture.csv": b"\x89PNG\x00\x00\x00",
}


@pytest.mark.parametrize("name", BAD)
def test_a_file_that_holds_no_rates_is_one_sentence(say, here, name):
    (here / name).write_bytes(BAD[name])
    said = say("rates", "take", name)

    assert said.status == 2
    assert said.err.count("\n") == 1
    assert name in said.err


def test_a_workbook_with_a_picture_alone_is_one_sentence(say, here):
    Workbook().save(here / "scan.xlsx")
    said = say("rates", "take", "scan.xlsx")

    assert said.status == 2
    assert "picture" in said.err


def test_too_many_rows_are_one_sentence(say, here):
    (here / "long.csv").write_text("From,To,Rate\n" + "WA,ID,700\n" * 600_000)
    said = say("rates", "take", "long.csv")

    assert said.status == 2
    assert "100,000 rows" in said.err


def test_wrong_answers_are_told_by_their_line(say, here):
    (here / "answers.toml").write_text('fuel = "maybe"\n')
    said = say("rates", "take", mail(here / "mail.xlsx"), "--map", "answers.toml")

    assert said.status == 2
    assert "included or not included" in said.err
