"""The office's weeks with a checklist, on the terminal: made, ticked, read back, moved."""

import json
from datetime import date
from pathlib import Path

import openpyxl
import pytest

DAY = "2026-12-01"


@pytest.fixture
def made(say, here: Path) -> Path:
    """The checklist of a saved quote."""
    quote = (
        "quote",
        "--vehicle",
        "HV-1042",
        "--to",
        "59715",
        "--as-of",
        DAY,
        "--ready",
        "2026-12-15",
        "--out",
        "lindqvist",
    )
    assert say(*quote).status == 0
    assert say("checklist", "lindqvist/office/quote.json", "--accepted", DAY).status == 0
    return here / "lindqvist" / "office" / "checklist.xlsx"


def tick(path: Path, key: str, **cells: object) -> None:
    book = openpyxl.load_workbook(path)
    sheet = book["Checklist"]
    places = {str(cell.value): cell.column for cell in sheet[5]}
    row = next(row for row in range(6, sheet.max_row + 1) if sheet.cell(row, places["Id (do not change)"]).value == key)
    for header, value in cells.items():
        sheet.cell(row, places[header.replace("_", " ")]).value = value
    book.save(path)


@pytest.mark.parametrize(
    "again",
    [
        ("quote", "--vehicle", "HV-1042", "--to", "59715", "--as-of", DAY, "--out", "lindqvist"),
        ("checklist", "lindqvist/office/quote.json", "--accepted", DAY),
    ],
)
def test_a_checklist_in_which_somebody_has_worked_is_never_written_over(
    say, made: Path, again: tuple[str, ...]
) -> None:
    assert say(*again).status == 0, "nobody has touched it yet"
    tick(made, "acceptance", State="done")
    ticked, data = made.read_bytes(), made.with_name("quote.json").read_bytes()
    said = say(*again)
    assert said.status == 2
    assert "lindqvist/office/checklist.xlsx: somebody has worked in this checklist" in said.err
    assert "name another folder with --out" in said.err
    assert (made.read_bytes(), made.with_name("quote.json").read_bytes()) == (ticked, data)


def test_the_verb_may_be_left_out(say, made: Path) -> None:
    with_verb = say("checklist", "make", "lindqvist/office/quote.json", "--accepted", DAY)
    without = say("checklist", "lindqvist/office/quote.json", "--choice", "1", "--accepted", DAY)
    assert with_verb.status == without.status == 0
    assert with_verb.out.splitlines()[2:6] == without.out.splitlines()[2:6]
    assert made.with_suffix(".ics").read_bytes().startswith(b"BEGIN:VCALENDAR\r\n")


def test_everything_is_dated_from_the_day_of_acceptance(say, here: Path) -> None:
    assert say("quote", "--vehicle", "HV-1042", "--to", "59715", "--as-of", DAY, "--out", "lindqvist").status == 0
    ask = ("checklist", "lindqvist/office/quote.json", "--out", "later", "--json")
    told = json.loads(say(*ask, "--accepted", "2026-12-09").out)
    assert {item["id"]: item["due"] for item in told["items"]}["acceptance"] == "2026-12-09"
    assert min(item["due"] for item in told["items"]) == "2026-12-09", "nothing is due before the buyer said yes"


def test_a_quote_that_has_ended_is_not_accepted(say, made: Path) -> None:
    ended = json.loads(made.with_name("quote.json").read_text(encoding="utf-8"))["valid_until"]
    ask = ("checklist", "lindqvist/office/quote.json", "--out", "late")
    assert say(*ask, "--accepted", ended).status == 0
    for words in (("--accepted", "2027-01-20"), ("--as-of", "2027-01-20")):
        said = say(*ask, *words)
        assert (said.status, said.out) == (1, "")
        assert f"expired on {ended}" in said.err
        assert "make the quote anew" in said.err
    early = say(*ask, "--accepted", "2026-11-30")
    assert early.status == 2
    assert "cannot have been accepted on 2026-11-30" in early.err


def test_the_border_waits_for_the_acceptance_and_72_hours(say, here: Path) -> None:
    """19 CFR 192.2(c) and 15 CFR 30.4(b)(5): papers and filing are there 72 hours before export over land."""
    assert say("quote", "--vehicle", "HV-1042", "--to", "Toronto", "--as-of", DAY, "--out", "to").status == 0
    for day in (DAY, "2026-12-04", "2026-12-07"):
        told = json.loads(say("checklist", "to/office/quote.json", "--accepted", day, "--out", day, "--json").out)
        due = {item["id"]: date.fromisoformat(item["due"]) for item in told["items"]}
        for paper in ("title-export", "export-filing", "papers-presented", "screening"):
            assert (due["driver"] - due[paper]).days >= 3, (day, paper)
            assert due[paper] <= due["release"] or paper != "screening"
        assert due["export-filing"] <= due["release"]


def test_a_ship_that_is_no_longer_reached_is_told(say, here: Path) -> None:
    assert say("quote", "--vehicle", "HV-1042", "--to", "Bremen", "--as-of", DAY, "--out", "sea").status == 0
    quote = json.loads((here / "sea/office/quote.json").read_text(encoding="utf-8"))
    said = say("checklist", "sea/office/quote.json", "--accepted", quote["valid_until"], "--out", "late")
    assert (said.status, "can no longer be reached" in said.out + said.err) in {(0, True), (1, True)}


def test_what_was_ticked_is_read_back_and_told(say, made: Path) -> None:
    tick(made, "acceptance", State="done", Done_on=date(2026, 12, 1), Done_by="Ines")
    told = say("checklist", "read", str(made), "--as-of", "2026-12-03")
    assert told.status == 0
    assert "done by Ines on 2026-12-01, was open" in told.out
    assert "Send the invoice with deposit and balance" in told.out.partition("Late")[2].partition("Next")[0]
    assert "checklist-2.xlsx" in told.err
    assert (made.parent / "checklist-2.xlsx").is_file()
    assert (made.parent / "checklist-2.ics").is_file()


def test_it_is_told_as_data_too(say, made: Path) -> None:
    tick(made, "acceptance", State="done")
    told = json.loads(say("checklist", "read", str(made), "--as-of", "2026-12-03", "--json").out)
    assert told["version"] == 2
    assert told["late"] == ["invoice"]
    assert {item["id"]: item["state"] for item in told["items"]}["acceptance"] == "done"
    assert Path(told["file"]).is_file()


def test_the_pickup_moves_a_week(say, made: Path) -> None:
    told = say("checklist", "move", str(made), "--stage", "pickup", "--days", "7", "--as-of", "2026-12-03")
    assert told.status == 0
    assert "Pickup: 2026-12-25 to 2026-12-31, was 2026-12-18 to 2026-12-24" in told.out
    assert "Pickup: 2026-12-25 is a Sunday or a holiday" in told.out
    assert "open lines have new due dates" in told.out


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("read", "lindqvist/buyer/quote.xlsx"), ("quote.xlsx: has no sheet Checklist", "shipcalc checklist has written")),
        (("read", "nowhere.xlsx"), ("nowhere.xlsx: there is no such file",)),
        (("move", "lindqvist/office/checklist.xlsx"), ("it is not clear what moves and to when", "--sailing DATE")),
        (("move", "lindqvist/office/checklist.xlsx", "--sailing", "2026-12-30"), ("this shipment has no sailing", "ready, pickup, delivery")),
        (("move", "lindqvist/office/checklist.xlsx", "--stage", "lunch", "--days", "1"), ("this shipment has no lunch",)),
        (("move", "lindqvist/office/checklist.xlsx", "--sailing", "soon"), ('--sailing: "soon" is not a date',)),
        (("move", "lindqvist/office/checklist.xlsx", "--stage", "pickup", "--to", "2026-12-20", "--days", "1"), ("it is not clear",)),
    ],
)  # fmt: skip
def test_what_cannot_be_done_is_told_in_one_sentence(say, made: Path, words, told) -> None:
    said = say("checklist", *words)
    assert (said.status, said.out) == (2, "")
    (sentence,) = said.err.splitlines()
    for part in told:
        assert part in sentence
    assert [path.name for path in made.parent.glob("checklist-*.xlsx")] == []


def test_a_cell_that_cannot_be_read_is_named(say, made: Path) -> None:
    tick(made, "acceptance", State="done", Done_on="last Tuesday")
    said = say("checklist", "read", str(made))
    assert said.status == 2
    first, second = said.err.splitlines()
    assert first == "shipcalc: checklist.xlsx: 1 cell cannot be read — correct it and read the file again"
    assert second.startswith('  checklist.xlsx › Checklist!I6: "last Tuesday" is not a date — write ')
