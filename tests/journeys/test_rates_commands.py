"""The manager's commands, as a manager uses them."""

import json
import re
from datetime import date
from decimal import Decimal
from pathlib import Path

import openpyxl
import pytest

from shipcalc.ratebook.rows.paperwork_sheets import PAPERWORK_SHEETS
from shipcalc.ratebook.rows.tables import WORKBOOKS
from tests.ratebook.weekly_files import NOVEMBER_2026, write_rates_csv


def test_new_workbooks_can_be_quoted_from_at_once(say, here: Path) -> None:
    made = say("rates", "new", "mine")
    assert made.status == 0
    assert made.out.split() == [str(Path("mine") / name) for name in WORKBOOKS]
    assert "invented" in made.err
    checked = say("rates", "check", "mine", "--as-of", "2026-12-01")
    assert checked.status == 0
    assert "No faults. Fingerprint " in checked.out
    assert say("quote", "--vehicle", "HV-1042", "--to", "59715", "--rates", "mine", "--as-of", "2026-12-01").status == 0


def test_nothing_of_the_managers_is_written_over(say, here: Path) -> None:
    kept = here / "mine/trucking.xlsx"
    kept.parent.mkdir()
    kept.write_bytes(b"a year of work")
    told = say("rates", "new", "mine")
    assert told.status == 2
    assert "trucking.xlsx: is there already — name another folder, or move it away" in told.err
    assert kept.read_bytes() == b"a year of work"
    assert [path.name for path in kept.parent.iterdir()] == ["trucking.xlsx"]


def test_empty_workbooks_say_what_is_missing(say, here: Path) -> None:
    assert say("rates", "new", "mine", "--empty").status == 0
    told = say("rates", "check", "mine")
    assert told.status == 1
    assert "2 faults: no quote can be made until they are corrected" in told.out
    assert "Carriers" in told.out


def test_empty_workbooks_keep_what_is_no_price(say, here: Path) -> None:
    say("rates", "new", "mine", "--empty")
    say("rates", "new", "full")
    kept, full = (openpyxl.load_workbook(here / name / "paperwork.xlsx") for name in ("mine", "full"))
    for sheet in ("Holds", "Tasks", "Documents", "Countries", "Entry rules"):
        assert list(kept[sheet].values) == list(full[sheet].values)
    ports = list(openpyxl.load_workbook(here / "mine" / "overseas.xlsx")["Ports"].values)
    assert len(ports) > 100
    priced = [n for n, header in enumerate(ports[0]) if header and "$" in header]
    assert priced
    assert not any(row[n] for row in ports[1:] for n in priced)


def test_a_thinned_sheet_is_told(say, here: Path) -> None:
    """Removed: the rows of Iran and Kazakhstan on Holds, and the last document."""
    say("rates", "new", "mine")
    path = here / "mine" / "paperwork.xlsx"
    book = openpyxl.load_workbook(path)
    holds = book["Holds"]
    for number in range(holds.max_row, 1, -1):
        if holds.cell(number, 1).value in ("IR", "KZ"):
            holds.delete_rows(number)
    documents = book["Documents"]
    code = [cell.value for cell in documents["A"] if cell.value][-1]
    for number in range(documents.max_row, 1, -1):
        if documents.cell(number, 1).value == code:
            documents.delete_rows(number)
    book.save(path)
    told = say("rates", "check", "mine", "--as-of", "2026-12-01").out
    assert "no row for Iran, which the program ships as embargoed: they are refused all the same" in told
    assert "no row for Kazakhstan, which the program ships as held: they still wait for release" in told
    assert f"documents that the program ships are not here: {code}" in told
    assert "No faults, but rows are missing that the program ships. Fingerprint " in told


@pytest.mark.parametrize(
    ("sheet", "told"),
    [
        ("Import charges", "Import charges: no row for "),
        ("Entry rules", "Entry rules: no row for "),
        ("From the buyer", "things to ask of the buyer that the program ships are not here"),
        ("Tasks", "tasks that the program ships are not here"),
    ],
)
def test_an_emptied_sheet_of_papers_is_told_first(say, here: Path, sheet: str, told: str) -> None:
    say("rates", "new", "mine")
    path = here / "mine" / "paperwork.xlsx"
    book = openpyxl.load_workbook(path)
    book[sheet].delete_rows(2, book[sheet].max_row)
    book.save(path)
    lines = say("rates", "check", "mine", "--as-of", "2026-12-01").out.splitlines()
    to_know = lines[lines.index("To know") + 1 :]
    assert told in to_know[0]


@pytest.mark.parametrize("to", ["Tehran", "Moscow, Russia", "Havana", "Pyongyang", "Minsk"])
def test_an_emptied_workbook_of_papers_opens_no_embargo(say, here: Path, to: str) -> None:
    """15 CFR part 740, supplement 1, Country Group E; 15 CFR 746.10 (Russia, Belarus: vehicles as luxury goods)."""
    say("rates", "new", "mine")
    path = here / "mine" / "paperwork.xlsx"
    book = openpyxl.load_workbook(path)
    for sheet in book:
        sheet.delete_rows(2, sheet.max_row)
    book.save(path)
    said = say("quote", "--vehicle", "HV-1042", "--to", to, "--rates", "mine", "--as-of", "2026-12-01")
    assert said.status == 1
    assert "is not quoted" in said.err
    assert "no legal advice" in said.err


def test_the_shipped_book_lacks_nothing(say, here: Path) -> None:
    say("rates", "new", "mine")
    assert "that the program ships" not in say("rates", "check", "mine", "--as-of", "2026-12-01").out
    assert "which the program ships" not in say("rates", "check", "mine", "--as-of", "2026-12-01").out


def test_one_fault_is_told_as_one(say, here: Path) -> None:
    assert "nowhere: 1 fault: no quote can be made until it is corrected." in say("rates", "check", "nowhere").out


def test_a_check_can_be_had_as_data(say, here: Path) -> None:
    say("rates", "new", "mine")
    told = json.loads(say("rates", "check", "mine", "--as-of", "2026-12-01", "--json").out)
    assert told["faults"] == []
    assert len(told["fingerprint"]) == 16
    assert any("later break" in warning for warning in told["warnings"])


@pytest.mark.parametrize("words", [("rates", "check", "nowhere"), ("rates", "new")])
def test_what_cannot_be_done_is_a_sentence(say, words: tuple[str, ...]) -> None:
    told = say(*words)
    assert told.status in (1, 2)
    assert "Traceback" not in told.out + told.err


@pytest.mark.parametrize("name", ["check", "new", "compare", "trace"])
def test_each_has_help_with_an_example(say, name: str) -> None:
    assert f"Example: shipcalc rates {name}" in say("rates", name, "--help").out


@pytest.fixture
def two_books(say, here: Path) -> tuple[str, str]:
    """The invented book, and a copy in which three prices were changed and a row was added above them."""
    import openpyxl

    say("rates", "new", "before")
    say("rates", "new", "after")
    book = openpyxl.load_workbook("after/trucking.xlsx")
    page = book["Per mile"]
    for cell, value in (("E2", 1.72), ("E4", 1.05), ("E9", 0.99)):
        page[cell] = value
    page.insert_rows(2)
    book.save("after/trucking.xlsx")
    return "before", "after"


DAY = ("--as-of", "2026-12-01")


def basket(here: Path) -> str:
    text = "Vehicle,To,Trailer,Express\nHV-1042,59715,,\nHV-1042,04330,open,\nHV-1069,33040,,yes\nHV-1042,59715,,\n"
    (here / "basket.csv").write_text(text)
    return "basket.csv"


def test_a_comparison_says_what_was_changed_and_what_it_does(say, here: Path, two_books) -> None:
    told = say("rates", "compare", *two_books, "--basket", basket(here), "--out", "c.xlsx", *DAY)
    assert told.status == 0, told.err
    assert "before → after, priced as of 2026-12-01" in told.out
    assert "Rows: 3 changed (3 cells), on Per mile." in told.out
    assert "Three Puffins Haulage, open, over 0: Rate ($ per mile) 1.65 → 1.72" in told.out
    assert "of 3 recommended prices of basket.csv change" in told.out
    assert "Carriers' own prices" in told.out
    assert "written: c.xlsx" in told.err


def test_a_comparison_can_be_asked_for_a_day_of_pickup(say, here: Path, two_books) -> None:
    told = say("rates", "compare", *two_books, "--basket", basket(here), "--on", "2027-02-05", *DAY)
    assert told.status == 0, told.err
    assert "before → after, priced as of 2026-12-01 for pickups on 2027-02-05" in told.out
    assert (
        json.loads(
            say("rates", "compare", *two_books, "--basket", basket(here), "--on", "2026-11-02", "--json", *DAY).out
        )["on"]
        == "2026-11-02"
    )


def test_what_a_lost_workbook_held_is_told_in_a_line_a_sheet(say, here: Path) -> None:
    assert say("rates", "new", "whole").status == 0
    assert say("rates", "new", "thin").status == 0
    (here / "thin" / "paperwork.xlsx").unlink()
    lines = say("rates", "compare", "whole", "thin", "--basket", basket(here), *DAY).out.splitlines()
    (tasks,) = (line for line in lines if "paperwork.xlsx › Tasks" in line)
    sheet = openpyxl.load_workbook(here / "whole" / "paperwork.xlsx")["Tasks"]
    codes = [row[0] for row in sheet.iter_rows(min_row=2, values_only=True) if row[0]]
    assert tasks.startswith(f"· paperwork.xlsx › Tasks  {len(codes)} rows removed: {codes[0]}; ")
    assert sum(" rows removed: " in line for line in lines) == len(PAPERWORK_SHEETS)


def test_a_comparison_as_data_has_every_price(say, here: Path, two_books) -> None:
    told = json.loads(say("rates", "compare", *two_books, "--basket", basket(here), "--json", *DAY).out)
    assert [len(row["cells"]) for row in told["rows"]] == [1, 1, 1]
    effects = told["basket"]["effects"]
    assert len(effects) == told["basket"]["priced"] == 3  # the fourth row is the first once more
    for effect in effects:
        assert Decimal(effect["new"]) - Decimal(effect["old"]) == Decimal(effect["change"])
    assert any(carrier["dearer"] for carrier in told["carriers"])


def test_the_workbook_of_a_comparison_adds_up_by_itself(say, here: Path, two_books, recalculate) -> None:
    say("rates", "compare", *two_books, "--basket", basket(here), "--out", "c.xlsx", *DAY)
    told = json.loads(say("rates", "compare", *two_books, "--basket", basket(here), "--json", *DAY).out)
    book = recalculate([here / "c.xlsx"])["c.xlsx"]
    assert [sheet.name for sheet in book.sheets] == ["What it does", "What was changed", "Basket", "Carriers"]
    rows = {row[0]: row for row in book.find_sheet("Basket").rows[1:]}
    for effect in told["basket"]["effects"]:
        _, was, now, change, *_ = rows[effect["transport"]]
        assert (was, now) == (float(effect["old"]), float(effect["new"]))
        assert round(change, 2) == float(effect["change"])
    changed = book.find_sheet("What was changed").rows[1:]
    assert [row[6] for row in changed] == [row["cells"][0]["cell"] for row in told["rows"]]


def test_open_quotes_are_priced_by_both_books_and_the_others_are_told(say, here: Path, two_books) -> None:
    quotes = here / "quotes"
    for name, day in (("open", "2026-12-01"), ("ended", "2026-10-01")):
        words = ("--vehicle", "HV-1042", "--to", "59715", "--rates", "before", "--as-of", day)
        say("quote", *words, "--buyer", name.capitalize(), "--out", str(quotes / name))
    (quotes / "other.json").write_text("{}")
    told = say("rates", "compare", *two_books, "--basket", basket(here), "--quotes", "quotes", "--json", *DAY)
    found = json.loads(told.out)
    (one,) = found["open_quotes"]
    assert one["transport"].startswith("Open: ")
    assert one["promised"] == one["old"]
    assert any("1 quote in quotes expired and is left out" in note for note in found["notes"])
    assert any("In quotes, 1 file is not a complete quote: other.json" in note for note in found["notes"])


def test_a_book_compared_with_itself_says_so(say, here: Path) -> None:
    say("rates", "new", "mine")
    told = say("rates", "compare", "mine", "mine", "--basket", basket(here), *DAY)
    assert "The sheets say the same in both books." in told.out
    assert "None of the 3 recommended prices of basket.csv changes." in told.out


def test_a_basket_with_slips_names_its_cells(say, here: Path, two_books) -> None:
    (here / "basket.csv").write_text("Vehicle,To,Trailer\nHV-1042,59715,covered\nHV-9999,59715,\n")
    told = say("rates", "compare", *two_books, "--basket", "basket.csv", *DAY)
    assert told.status == 2
    assert 'basket.csv › C2: "covered"' in told.err
    assert "basket.csv › A3: " in told.err


def test_a_comparison_does_not_write_over_a_rate_book(say, here: Path, two_books) -> None:
    kept = (here / "after/trucking.xlsx").read_bytes()
    told = say("rates", "compare", *two_books, "--basket", basket(here), "--out", "after/trucking.xlsx", *DAY)
    assert told.status == 2
    assert "is a workbook of the rate book" in told.err
    assert (here / "after/trucking.xlsx").read_bytes() == kept


def test_a_line_is_traced_to_its_cell_and_to_what_it_says_today(say, here: Path, two_books) -> None:
    say("quote", "--vehicle", "HV-1042", "--to", "59715", "--rates", "before", "--out", "q", *DAY)
    one = say("rates", "trace", "q/office/quote.json", "1", "--rates", "before", *DAY)
    assert one.status == 0
    assert re.search(r"from trucking\.xlsx › Carriers![A-Z]+3\b", one.out)
    assert "The rate book is the one that priced the quote." in one.out
    whole = say("rates", "trace", "q/office/quote.json", "--rates", "after", *DAY)
    assert "The rate book was changed since" in whole.out
    told = json.loads(say("rates", "trace", "q/office/quote.json", "--rates", "after", "--json", *DAY).out)
    assert [line["line"] for line in told["lines"]] == [str(n + 1) for n in range(len(told["lines"]))]
    quote = json.loads((here / "q/office/quote.json").read_text())
    assert told["total"] == quote["options"][quote["recommended"]]["total"]


def test_the_buyers_copy_cannot_be_traced_and_says_so(say, here: Path) -> None:
    copy = say("quote", "--vehicle", "HV-1042", "--to", "59715", "--for", "buyer", "--json", *DAY).out
    (here / "buyer.json").write_text(copy)
    told = say("rates", "trace", "buyer.json", "1")
    assert (told.status, told.out) == (2, "")
    assert told.err.count("\n") == 1
    assert "is the buyer's copy of a quote, which names neither cost nor cell" in told.err


def test_a_check_marks_a_copy(say, here: Path) -> None:
    import openpyxl

    say("rates", "new", "mine")
    book = openpyxl.load_workbook("mine/trucking.xlsx")
    book["Per mile"]["E3"] = "1,9O"
    book.save("mine/trucking.xlsx")
    told = say("rates", "check", "mine", "--mark", "marks", *DAY)
    assert told.status == 1
    assert f"written: {Path('marks/trucking-marked.xlsx')}" in told.err.splitlines()
    assert openpyxl.load_workbook("marks/trucking-marked.xlsx")["Per mile"]["E3"].comment.text.startswith(
        "To correct: "
    )


def test_notes_that_say_the_same_are_told_once_and_a_new_one_stands_above_them(say, here: Path) -> None:
    say("rates", "new", "mine")
    path = here / "mine" / "trucking.xlsx"
    book = openpyxl.load_workbook(path)
    book["Diesel"]["C6"].value = 38.56
    book.save(path)
    checked = say("rates", "check", "mine", "--as-of", "2026-12-01")
    notes = [line for line in checked.out.split("To know")[1].splitlines() if line.startswith("·")]
    assert "Diesel!C6" in notes[0]
    alike = [note for note in notes if "the program charges the later break" in note]
    assert len(alike) == 1
    assert "and 10 more like it: E4, E5, E6, E12, E13, E22 …; --full lists each" in alike[0]
    full = say("rates", "check", "mine", "--as-of", "2026-12-01", "--full")
    assert full.out.count("the program charges the later break") == 11


def test_the_way_of_a_change_from_a_copy_into_force_and_back(say, here: Path) -> None:
    assert say("rates", "new", "rates").status == 0
    assert say("rates", "copy", "rates", "next").status == 0
    path = here / "next" / "trucking.xlsx"
    book = openpyxl.load_workbook(path)
    book["Per mile"]["E2"].value = 1.75
    book.save(path)
    checked = say("rates", "check", "next").out
    assert "No faults" in checked
    new = checked.split("Fingerprint ")[1].split(".")[0]
    adopted = say("rates", "adopt", "next")
    assert f"{new} is in force in" in adopted.out
    former = adopted.out.split("Kept: ")[1].split(".")[0]
    history = json.loads(say("rates", "history", "--json").out)
    assert [(one["fingerprint"], one["state"]) for one in history["editions"]] == [
        (new, "in force"),
        (former, "former"),
    ]
    asked = ("quote", "--vehicle", "HV-1042", "--to", "59715", "--as-of", "2026-12-01", "--json")
    assert json.loads(say(*asked).out)["rate_book"]["fingerprint"] == new
    assert f"{former} is in force in" in say("rates", "adopt", former).out
    assert json.loads(say(*asked).out)["rate_book"]["fingerprint"] == former
    refused = say("rates", "adopt", "nothing")
    assert refused.status == 2
    assert "is neither a folder nor the fingerprint of a kept rate book" in refused.err


def test_the_weeks_figures_are_written_and_told(say, here: Path) -> None:
    say("rates", "new", "mine")
    write_rates_csv(here / "eurofxref.csv", NOVEMBER_2026, date(2026, 11, 27))

    told = say("rates", "weekly", "--file", "eurofxref.csv", "--into", "mine", "--as-of", "2026-12-01")

    assert told.status == 0
    assert told.out.startswith("mine: 6 figures moved.")
    # 1.5970 ÷ 1.1540 = 1.383882…, and 1.383882 ÷ 1.384 − 1 = −0.0085 %: invented rates, divided by hand.
    row = next(line for line in told.out.splitlines() if line.startswith("CAD"))
    assert row.split("\t")[:6] == ["CAD", "1.384", "2026-11-23", "1.383882", "2026-11-27", "-0.01 %"]
    assert "overseas.xlsx › Currencies!C" in row
    assert "written: mine/overseas.xlsx" in told.err
    again = json.loads(say("rates", "weekly", "--file", "eurofxref.csv", "--into", "mine", "--json").out)
    assert (again["moved"], again["written"]) == ([], [])
    assert sorted(again["same"]) == ["CAD", "CHF", "EUR", "GBP", "JPY", "SEK"]
    assert again["publications"][0]["day"] == "2026-11-27"


def test_weekly_asks_for_a_file_and_for_a_book_of_ones_own(say, here: Path) -> None:
    told = say("rates", "weekly", "--file", "eurofxref.csv")
    assert told.status == 2
    assert "there is no rate book of your own here" in told.err
    say("rates", "new", "mine")
    told = say("rates", "weekly", "--into", "mine")
    assert told.status == 2
    assert "no file of figures was named — name one with --file: https://www.eia.gov/" in told.err
    assert "or fetch them with --online" in told.err
    told = say("rates", "weekly", "--file", "gone.xls", "--into", "mine")
    assert (told.status, "gone.xls: there is no such file" in told.err) == (2, True)


def test_weekly_says_how_an_unlikely_step_is_written_all_the_same(say, here: Path) -> None:
    say("rates", "new", "mine")
    write_rates_csv(here / "eurofxref.csv", {**NOVEMBER_2026, "CAD": "15.97"}, date(2026, 11, 27))
    told = say("rates", "weekly", "--file", "eurofxref.csv", "--into", "mine", "--as-of", "2026-12-01")
    assert told.status == 2
    assert "nothing was written — look at the cell and at the file; if both are right, write it with --jump" in told.err
