"""How far a sheet of an .xlsx file reaches: one blank typed into its last cell, and a reader lays out seventeen billion cells.

Told from the XML before anything is laid out. ECMA-376 part 1, 18.3.1.73 (row) and 18.3.1.4 (c): both may leave out where they
stand, and then follow the one before them; a cell that holds nothing but a look does not count.
"""

import re
from collections.abc import Iterator, Mapping

from shipcalc.errors import WrongInput

MOST_ROWS, MOST_COLUMNS, MOST_CELLS, MOST_SHEETS = 100_000, 702, 3_000_000, 250
_LAST_COLUMN = "ZZ"

# Column AAA, row 10,000, or AA1000: only from there on is it worth asking how far the sheet reaches.
_MAY_BE_FAR = re.compile(rb"""\br\s*=\s*["'][A-Za-z]*(?:[A-Za-z]{3}[0-9]|[A-Za-z]{2}[0-9]{4}|[0-9]{5})""")
_TAG = re.compile(rb"<(?:\w+:)?(row|c)\b((?:[^>/]|/(?!>))*)(/?)>(?=(\s*<[^/])?)")
_ADDRESS = re.compile(rb"""(?:^|\s)r\s*=\s*["']([A-Za-z]{0,3})([0-9]{0,8})["']""")

Spot = tuple[int, int]


def check_extent(workbook: str, sheets: Mapping[str, bytes]) -> None:
    """Raise WrongInput for a sheet that reaches further than anything that is read here, with the cell that makes it so."""
    for name, xml in sheets.items():
        if _MAY_BE_FAR.search(xml):
            _check(workbook, name, xml)


def check_size(where: str, *, rows: int, columns: int) -> None:
    """Raise WrongInput for a table that is larger than anything that is read here."""
    if rows > MOST_ROWS or columns > MOST_COLUMNS or rows * columns > MOST_CELLS:
        what = f"has {rows:,} rows and {columns:,} columns, and no more than {MOST_CELLS:,} cells are read"
        if rows > MOST_ROWS:
            what = f"has {rows:,} rows, and no more than {MOST_ROWS:,} are read"
        raise WrongInput(what, where=where, remedy="split it, or leave out what is not needed")


def _check(workbook: str, name: str, xml: bytes) -> None:
    lowest, rightmost = (0, 0), (0, 0)
    for row, column in _filled(xml):
        if row > lowest[0]:
            lowest = (row, column)
        if column > rightmost[1]:
            rightmost = (row, column)
    rows, columns = lowest[0], rightmost[1]
    if rows > MOST_ROWS or (rows * columns > MOST_CELLS and columns <= MOST_COLUMNS):
        remedy = f"select the rows below the last one that is meant, down to {rows:,}, delete them and save"
        raise WrongInput(
            f"something stands in this cell, far below all that is read here (row {MOST_ROWS:,} at most)",
            where=f"{workbook} › {name}!{_letters(lowest[1])}{rows}",
            remedy=remedy,
        )
    if columns > MOST_COLUMNS:
        remedy = (
            f"select the columns behind the last one that is meant, up to {_letters(columns)}, delete them and save"
        )
        raise WrongInput(
            f"something stands in this cell, far to the right of all that is read here (column {_LAST_COLUMN} at most)",
            where=f"{workbook} › {name}!{_letters(columns)}{rightmost[0]}",
            remedy=remedy,
        )


def _filled(xml: bytes) -> Iterator[Spot]:
    """Yield (row, column), counted from 1, of each cell that holds anything."""
    row = column = 0
    for tag, told, closed, filled in _TAG.findall(xml):
        address = _ADDRESS.search(told)
        if tag == b"row":
            row, column = (int(address[2]) if address and address[2] else row + 1), 0
            continue
        column += 1
        if address and address[1] and address[2]:
            row, column = int(address[2]), _number(address[1].upper())
        if filled and not closed:
            yield row, column


def _number(letters: bytes) -> int:
    number = 0
    for sign in letters:
        number = number * 26 + sign - ord("A") + 1
    return number


def _letters(column: int) -> str:
    letters = ""
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters
