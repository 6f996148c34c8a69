"""Columns that may be left out, and are: what every row is then taken to say. An older workbook lacks the newer ones."""

import re
from collections.abc import Iterator

from shipcalc.errors import Problem
from shipcalc.ratebook.workbook.columns import Column, Row, columns_of
from shipcalc.ratebook.workbook.headers import Headers
from shipcalc.ratebook.workbook.misread import nearest
from shipcalc.ratebook.workbook.written import as_shown
from shipcalc.records import MISSING, fields
from shipcalc.sheets.reading import Sheet, is_blank

# Columns that no price, day or paper is made of.
_ONLY_READ = ("source", "trust", "note", "office_note", "checked_on", "address")
_BLANK = re.compile(r"Blank: ([^.]+)\.")


def absent_columns(sheet: Sheet, headers: Headers, row_type: type[Row], currency: str) -> Iterator[Problem]:
    """A column of this version of the program that is gone is told with what counts in its place, or prices would move unseen."""
    strange = [
        str(cell)
        for number, cell in enumerate(sheet.rows[headers.row])
        if not is_blank(cell) and number not in headers.at.values()
    ]
    defaults = {field.name: field.default for field in fields(row_type)}
    gone = {
        field: column
        for field, column in columns_of(row_type).items()
        if not column.required and field not in headers.at and field not in _ONLY_READ
    }
    misspelt = {nearest(name, (column.header for column in gone.values())) for name in strange}
    for field, column in gone.items():
        if column.header in misspelt:
            continue  # the slip is told at its header
        taken = _taken(defaults[field], column, currency)
        yield Problem(
            sheet.cell(headers.row, 0),
            f'the column "{column.header}" is missing, so every row counts as {taken}',
            f"put it back into row {headers.row + 1}, filled as in an earlier copy; without one, left blank",
            "warning",
        )


def _taken(default: object, column: Column, currency: str) -> str:
    """Return what a row without the column says: `2`, `no`, `blank (no limit)`."""
    if default is not MISSING and default not in (None, ()):
        return as_shown(default, column, currency)
    meaning = _BLANK.search(column.note)
    return f"blank ({meaning[1]})" if meaning else "blank"
