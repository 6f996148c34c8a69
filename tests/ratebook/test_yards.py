"""Slips on the sheets Storage and Terminals are told by their cell, and a book without the sheets is sound."""

import shutil
from datetime import date
from pathlib import Path

import openpyxl
import pytest

from shipcalc.actions.quoting import Order, open_books, quote
from shipcalc.actions.sources import invented_sources
from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.ratebook.book import read_rate_book
from shipcalc.ratebook.checks.yards import CHECKS
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.rows.yards import Storage, Terminal
from shipcalc.ratebook.workbook.columns import RowRef
from shipcalc.records import replace

AT = RowRef("trucking.xlsx", "Terminals", 4, {"zip_code": "B", "yard": "B", "amount_minor": "E"})


def problems(**rows: object) -> list[tuple[str, str]]:
    return [(found.cell, found.message) for check in CHECKS for found in check(Tables(**rows))]


@pytest.mark.parametrize("zip_code", ["99", "00000"])
def test_a_terminal_where_there_is_no_zip_is_a_fault(zip_code) -> None:
    row = Terminal(terminal="Nowhere", zip_code=zip_code, at=AT)
    assert problems(terminals=(row,)) == [("trucking.xlsx › Terminals!B4", f"there is no ZIP {zip_code}")]


def test_the_second_of_two_terminals_at_a_zip_is_warned_of() -> None:
    row = Terminal(terminal="Spokane", zip_code="99224", at=AT)
    again = replace(row, terminal="Spokane west", at=replace(AT, row=5))
    ((cell, message),) = problems(terminals=(row, again))
    assert cell.endswith("B5")
    assert "is already at Terminals!B4" in message


def test_the_second_storage_of_a_yard_is_warned_of_unless_its_days_are_others() -> None:
    row = Storage(storage="In", yard="Savannah", amount_minor=600, at=AT, valid_to=date(2026, 12, 31))
    later = replace(row, at=replace(AT, row=5), valid_from=date(2027, 1, 1), valid_to=None)
    assert problems(storage=(row, later)) == []
    assert len(problems(storage=(row, replace(later, valid_from=None, yard="savannah")))) == 1


def test_an_older_book_without_the_sheets_is_read_and_has_nothing_beside_and_keeps_nothing(tmp_path) -> None:
    for book in Path("rates").glob("*.xlsx"):
        shutil.copy(book, tmp_path)
    workbook = openpyxl.load_workbook(tmp_path / "trucking.xlsx")
    for sheet in ("Storage", "Terminals", "Lanes"):  # rows of Lanes may name a terminal
        del workbook[sheet]
    workbook.save(tmp_path / "trucking.xlsx")
    sources = invented_sources()
    older = read_rate_book(tmp_path)
    books = replace(open_books(sources), rates=older)
    order = Order(vehicles=("HV-1042",), to="59801")
    day = date(2026, 12, 1)
    assert (older.storage, older.terminals, quote(order, sources, as_of=day, books=books).also) == ((), (), ())
    with pytest.raises(NoAnswer, match="no price for keeping a vehicle"):
        quote(replace(order, keep_until=date(2027, 4, 1)), sources, as_of=day, books=books)
    with pytest.raises(WrongInput, match="no terminal of the rate book is near"):
        quote(replace(order, terminal=True), sources, as_of=day, books=books)
