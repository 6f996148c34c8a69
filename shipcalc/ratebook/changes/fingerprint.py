"""What stands for a rate book's content: a hash of its cells' values, whatever program saved them."""

import hashlib
import json
from collections.abc import Iterator, Mapping
from datetime import date, datetime
from functools import cache, lru_cache

from shipcalc.ratebook.rows.tables import WORKBOOKS
from shipcalc.sheets.numbers import exact, plain
from shipcalc.sheets.reading import CellValue, Sheet, WorkbookFile, is_blank

LENGTH = 16
# Made once: there is one for every row.
_encoded = json.JSONEncoder(ensure_ascii=False).encode


def fingerprint_of(files: Mapping[str, WorkbookFile]) -> str:
    """Return 16 hexadecimal digits of the SHA-256 of the sheets that are read, in a fixed order.

    Formats, colours, notes, other sheets, empty rows at the end, and the order of the sheets do not count.
    """
    digest = hashlib.sha256()
    for name, kinds in WORKBOOKS.items():
        file = files.get(name)
        for kind in kinds:
            sheet = file.find_sheet(kind.name) if file is not None else None
            if sheet is not None:
                begin = f"[{_encoded(name)}, {_encoded(kind.name)}, "
                for line in _lines(sheet):
                    digest.update(f"{begin}{line}]".encode("utf-8", "replace"))
    return digest.hexdigest()[:LENGTH]


def _lines(sheet: Sheet) -> Iterator[str]:
    """Yield each row as JSON, without its brackets: its number, and its cells as column, kind and text."""
    for number, cells in sheet.filled_rows():
        told = [_cell(at, cell) for at, cell in enumerate(cells) if cell is not None and not is_blank(cell)]
        yield f"{number}, [{', '.join(told)}]"


# Most cells stand further up in their column as well.
@lru_cache(maxsize=100_000, typed=True)
def _cell(column: int, cell: CellValue) -> str:
    return _encoded([column, *_told(cell)])


def _told(cell: CellValue) -> tuple[str, str]:
    """Return a value as its kind and its text: whole numbers are the same with and without a point."""
    if isinstance(cell, bool):
        return "yes or no", str(cell)
    if isinstance(cell, (int, float)):
        return "number", _plain_number(float(cell))
    if isinstance(cell, datetime):
        return "date", cell.isoformat()
    if isinstance(cell, date):
        return "date", f"{cell.isoformat()}T00:00:00"
    return "text", " ".join(str(cell).split())


@cache
def _plain_number(number: float) -> str:
    return plain(exact(number))
