"""Rows and columns that nobody sees and that count all the same: hidden by hand, or left out by a filter.

Columns of a group that folds away are not among them: a sign above the sheet shows that they are there.

ECMA-376 part 1, 18.3.1.73 (row), 18.3.1.13 (col) and 18.3.2.7 (filterColumn).
"""

import re
from collections.abc import Mapping

from shipcalc.records import dataclass
from shipcalc.sheets.parts import attributes, hides_rows, is_true

_ROW = re.compile(rb"<row\b[^>]*\bhidden=[^>]*>")
_COLUMN = re.compile(rb"<col\b[^>]*\bhidden=[^>]*>")
_FILTER = re.compile(rb"<filterColumn\b")
_MOST_COLUMNS = 16_384


@dataclass(frozen=True, slots=True)
class Hidden:
    """Hidden rows and columns, counted from 0, and whether a filter is at work on the sheet."""

    rows: frozenset[int] = frozenset()
    columns: frozenset[int] = frozenset()
    is_filtered: bool = False


NOTHING_HIDDEN = Hidden()


def hidden_cells(sheets: Mapping[str, bytes]) -> dict[str, Hidden]:
    """Return what is hidden on each sheet that hides anything, by the sheet's name, given the sheets' XML."""
    found = {name: _in_sheet(xml) for name, xml in sheets.items() if b"hidden=" in xml}
    return {name: hidden for name, hidden in found.items() if hidden.rows or hidden.columns}


def _in_sheet(xml: bytes) -> Hidden:
    rows = (attributes(tag) for tag in (_ROW.findall(xml) if hides_rows(xml) else ()))
    columns = (attributes(tag) for tag in _COLUMN.findall(xml))
    return Hidden(
        rows=frozenset(int(row[b"r"]) - 1 for row in rows if is_true(row.get(b"hidden")) and b"r" in row),
        columns=frozenset(
            number - 1
            for column in columns
            if is_true(column.get(b"hidden")) and b"min" in column and b"max" in column and not _is_folded(column)
            for number in range(int(column[b"min"]), min(int(column[b"max"]), _MOST_COLUMNS) + 1)
        ),
        is_filtered=_FILTER.search(xml) is not None,
    )


def _is_folded(column: Mapping[bytes, bytes]) -> bool:
    return column.get(b"outlineLevel", b"0") != b"0"
