"""Cells of an .xlsx file that hold a formula and yet no value: a reader of values takes them for blank.

An error (`#REF!`) and a formula whose result was never saved are such cells. Where blank means "any" or "none", reading them
so would give a wrong price without a word. ECMA-376 part 1, 18.3.1.4 (c) and 18.18.11 (ST_CellType): an error has t="e".
"""

import re
from collections.abc import Iterator, Mapping

from shipcalc.sheets.parts import attributes, plain

Lost = dict[tuple[int, int], str]
"""(row, column), both counted from 0 → the error shown, or an empty text where a formula has no saved result."""

_CELL = re.compile(rb"<c\b([^>]*[^/])>(.*?)</c>", re.DOTALL)
_VALUE = re.compile(rb"<v\b[^>]*>(.+?)</v>", re.DOTALL)
_FORMULA = re.compile(rb"<f[ >/]")
_ADDRESS = re.compile(rb"([A-Z]{1,3})([0-9]{1,7})")


def lost_cells(sheets: Mapping[str, bytes]) -> dict[str, Lost]:
    """Return the lost cells of each sheet that has any, by the sheet's name, given the sheets' XML."""
    may_have = {name: xml for name, xml in sheets.items() if b'"e"' in xml or _FORMULA.search(xml)}
    found = {name: dict(_in_sheet(xml)) for name, xml in may_have.items()}
    return {name: lost for name, lost in found.items() if lost}


def _in_sheet(xml: bytes) -> Iterator[tuple[tuple[int, int], str]]:
    for tag, inside in _CELL.findall(xml):
        told = attributes(tag)
        address = _ADDRESS.fullmatch(told.get(b"r", b""))
        value = _VALUE.search(inside)
        is_error = told.get(b"t") == b"e"
        if address and (is_error or (value is None and _FORMULA.search(inside) and b"<is" not in inside)):
            shown = plain(value[1]) if is_error and value else ""
            yield (int(address[2]) - 1, _column(address[1])), shown


def _column(letters: bytes) -> int:
    number = 0
    for sign in letters:
        number = number * 26 + sign - ord("A") + 1
    return number - 1
