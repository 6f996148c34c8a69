"""A cell that names one end of a lane, spelt as the program spells it; what kind of end it is, `ratebook/lane_ends.py` says."""

import re

from shipcalc.ratebook.workbook.columns import Column
from shipcalc.ratebook.workbook.misread import Misread
from shipcalc.ratebook.workbook.shown import shown, write_like
from shipcalc.sheets.reading import CellValue

_ZIP = re.compile(r"[0-9]{1,5}")
_ZIP_AND_FOUR = re.compile(r"([0-9]{5})-[0-9]{4}")
_RANGE = re.compile(r"([0-9]{1,5}) ?(?:-|–|to) ?([0-9]{1,5})", re.IGNORECASE)
_PLUS_ANY = re.compile(r"([0-9]{1,4})(?:\*+|x+)", re.IGNORECASE)
_LETTERS = re.compile(r"[A-Za-z]{2}(?:-[A-Za-z]{2,3})?")
_CITY = re.compile(r"(.*[^\s,]) ?, ?([A-Za-z]{2})")


def end_text(words: str, cell: CellValue, column: Column) -> str:
    """Return one end of a lane: figures (`597`, `590-599`), `MT`, `US-MT`, `Bozeman, MT`, or a name as it is written.

    Raises Misread where figures are no ZIPs, or a range falls.
    """
    if found := _ZIP_AND_FOUR.fullmatch(words):
        return found[1]
    if found := _PLUS_ANY.fullmatch(words):
        return found[1]
    if found := _RANGE.fullmatch(words):
        return _range(found[1], found[2], cell)
    if _LETTERS.fullmatch(words):
        return words.upper()
    if found := _CITY.fullmatch(words):
        return f"{found[1]}, {found[2].upper()}"
    if words[:1].isdigit() and not _ZIP.fullmatch(words):
        raise Misread(f"{shown(cell)} is not a ZIP", write_like(column))
    return words


def _range(first: str, last: str, cell: CellValue) -> str:
    if len(first) != len(last):
        message = f"{shown(cell)} begins with {len(first)} figures and ends with {len(last)}"
        raise Misread(message, f"write both with as many, e.g. {first}-{first[:1] + '9' * (len(first) - 1)}")
    if last < first:
        raise Misread(f"{shown(cell)} ends before it begins", f"write {last}-{first}")
    return first if first == last else f"{first}-{last}"
