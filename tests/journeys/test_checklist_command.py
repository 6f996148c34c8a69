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
    assert say("checklist", "lindqvist/office/quote.json").status == 0
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
        ("checklist", "lindqvist/office/quote.json"),
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
    with_verb = say("checklist", "make", "lindqvist/office/quote.json")
    without = say("checklist", "lindqvist/office/quote.json", "--choice", "1")
    assert with_verb.status == without.status == 0
    assert with_verb.out.splitlines()[2:6] == without.out.splitlines()[2:6]
    assert made.with_suffix(".ics").read_bytes().startswith(b"BEGIN:VCALENDAR\r\n")


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
    assert first == "shipcalc: checklist.xlsx: 1 cell cannot be read — mend it and read the file again"
    assert second.startswith('  checklist.xlsx › Checklist!I6: "last Tuesday" is not a date — write ')
