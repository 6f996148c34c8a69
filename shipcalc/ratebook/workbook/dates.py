"""Dates in cells: Excel dates, and dates typed as text where they can be only one day."""

import re
from datetime import date, datetime
from typing import NoReturn

from shipcalc.ratebook.workbook.columns import Column
from shipcalc.ratebook.workbook.misread import Misread
from shipcalc.ratebook.workbook.shown import shown, write_like
from shipcalc.sheets.numbers import plain_text
from shipcalc.sheets.reading import CellValue

EARLIEST_YEAR, LATEST_YEAR = 1990, 2099

_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_YEAR_FIRST = re.compile(r"([0-9]{4})[-/.]([0-9]{1,2})[-/.]([0-9]{1,2})(?:[T ]00:00(?::00)?)?")
_YEAR_LAST = re.compile(r"([0-9]{1,2})[-/.]([0-9]{1,2})[-/.]([0-9]{4})")
_DAY_MONTH = re.compile(r"([0-9]{1,2})\.?[ -]([a-z]+)\.?,?[ -]([0-9]{4})")
_MONTH_DAY = re.compile(r"([a-z]+)\.? ([0-9]{1,2}),? ([0-9]{4})")
# Serial numbers of 1990 to 2099 in both of Excel's calendars.
_SERIALS = range(31_000, 73_051)


def day(cell: CellValue, column: Column, currency: str) -> date:
    """Return the date in a cell. A text with day and month that could be exchanged is refused."""
    if isinstance(cell, datetime):
        found = cell.date()
    elif isinstance(cell, date):
        found = cell
    elif isinstance(cell, str):
        found = day_in_text(cell) or _refuse(cell, column)
    elif isinstance(cell, (int, float)) and _SERIALS.start <= cell < _SERIALS.stop:
        raise Misread(
            f"{shown(cell)} is a date without a date format, and two calendars are in use for such numbers",
            "format the cell as a date, or write it as text, e.g. 2026-01-01",
        )
    else:
        _refuse(cell, column)
    if not EARLIEST_YEAR <= found.year <= LATEST_YEAR:
        raise Misread(f"the year {found.year} cannot be meant", write_like(column))
    return found


def day_in_text(cell: str) -> date | None:
    """Return the day that a text names, or None for no day. Raises Misread where it could be two days."""
    text = plain_text(cell).casefold()
    try:
        if found := _YEAR_FIRST.fullmatch(text):
            return date(int(found[1]), int(found[2]), int(found[3]))
        if found := _DAY_MONTH.fullmatch(text):
            return date(int(found[3]), _month(found[2]), int(found[1]))
        if found := _MONTH_DAY.fullmatch(text):
            return date(int(found[3]), _month(found[1]), int(found[2]))
        if found := _YEAR_LAST.fullmatch(text):
            return _year_last(cell, int(found[1]), int(found[2]), int(found[3]))
    except ValueError:  # a thirty-first of June, a month of no name
        return None
    return None


def _year_last(cell: str, first: int, second: int, year: int) -> date:
    """Return `12/31/2026` and `31.12.2026`, which are one day only; refuse `1/2/2026`, which could be two."""
    if first == second or second > 12:
        return date(year, first, second)
    if first > 12:
        return date(year, second, first)
    american, other = date(year, first, second), date(year, second, first)
    raise Misread(f"{shown(cell)} can be read as {american} or as {other}", f"write {american} or {other}")


def _month(name: str) -> int:
    if len(name) < 3:
        raise ValueError(name)
    number = next((number for number, short in enumerate(_MONTHS, 1) if name.startswith(short)), 0)
    if not number:
        raise ValueError(name)
    return number


def _refuse(cell: CellValue, column: Column) -> NoReturn:
    raise Misread(f"{shown(cell)} is not a date", write_like(column))
