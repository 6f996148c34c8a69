"""Workbooks made from the descriptions of the rows: what the manager fills in, with notes, drop-downs and formats."""

from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path

from shipcalc.ratebook.rows.tables import WORKBOOKS
from shipcalc.ratebook.starter.drop_downs import name_the_lists
from shipcalc.ratebook.starter.notes import write_notes
from shipcalc.ratebook.starter.one_sheet import write_sheet
from shipcalc.ratebook.starter.overview import begin_overview, fill_overview, tab_of
from shipcalc.ratebook.workbook.columns import Row
from shipcalc.sheets.writing import Book


def write_workbook(
    path: Path,
    rows: Mapping[str, Sequence[Row]],
    *,
    about: Sequence[str] = (),
    currency: str = "USD",
    made: date = date(2026, 1, 1),
) -> None:
    """Write the workbook whose name is `path.name` (trucking.xlsx or paperwork.xlsx): front sheet, its sheets, notes.

    `rows` maps a sheet's name to its rows; a sheet without rows gets its headers alone. `about` is what the notes say first, one
    paragraph each. Reading the workbook gives the same rows back.
    """
    kinds = WORKBOOKS[path.name]
    book = Book(title=f"Rate book: {path.stem}", creator="shipcalc", made=made)
    front = begin_overview(book)
    named = name_the_lists(book, kinds)
    told = [
        write_sheet(book, kind, rows.get(kind.name, ()), currency=currency, named=named, tab=tab_of(kind))
        for kind in kinds
    ]
    fill_overview(front, path.stem, told, about, made)
    write_notes(book, kinds, about)
    book.save(path)
