"""The rows of a day: a rate book as it is for what is picked up on that day.

Every sheet of prices has a first and a last day for its rows (`rows/sourced.py`), so that next month's price is typed today. A
quote takes the rows of the day of its pickup: the day on which the vehicles are ready to leave, or the later one that a lead
time moves that to (`quote/explain/lead_times.py`). This is asked once, at the head of a quote, and no engine asks again.

Other days decide about the sheets that are not here: the last day that a vehicle is kept (Storage), the day of the quote (Holds,
Entry rules, papers; prices of diesel and rates of exchange, as far as they are known by then).
"""

from datetime import date
from functools import lru_cache, partial
from typing import Any

from shipcalc.ratebook.book import RateBook, not_yet
from shipcalc.ratebook.days import AT_HOME, BEYOND, changes_in, rows_of_day
from shipcalc.ratebook.remembered import remembered_by_book
from shipcalc.ratebook.rows.tables import SHEETS
from shipcalc.ratebook.workbook.columns import Row
from shipcalc.records import fields, replace


def book_of_day(book: RateBook, day: date) -> RateBook:
    """Return the book with the rows that hold on a day of pickup; the book itself where all do."""
    begins = max((change for change in _changes(book) if change <= day), default=date.min)
    return _from_change_on(book, begins)


@lru_cache(maxsize=8)
def _changes(book: RateBook) -> tuple[date, ...]:
    return changes_in(book) if book.changes is None else book.changes


@remembered_by_book(64)
def _from_change_on(book: RateBook, day: date) -> RateBook:
    """Return the book of all days up to the next change, so that what is remembered for one of them serves the others."""
    home: dict[str, Any] = {field: rows_of_day(getattr(book, field), day) for field in AT_HOME}
    pricing = book.pricing.of_day(day)
    if book.overseas is None:
        beyond: dict[str, Any] = {field: rows_of_day(getattr(book, field), day) for field in BEYOND}
        same = all(getattr(book, field) is rows for field, rows in (home | beyond).items())
        return book if same else replace(book, pricing=pricing, **home, **beyond)
    others = {one.name: getattr(book, one.name) for one in fields(RateBook) if one.name not in _LATER | set(home)}
    return not_yet(RateBook(**(others | home | {"pricing": pricing}), overseas=partial(_overseas, book, day)))


def _overseas(book: RateBook, day: date) -> dict[str, tuple[Row, ...]]:
    """Return the rows of the overseas sheets on a day, by field; the book makes them when it is first asked."""
    later = (kind.rows for kind in SHEETS if kind.is_overseas)
    return {
        field: rows_of_day(getattr(book, field), day) if field in BEYOND else getattr(book, field) for field in later
    }


_LATER = {"overseas", "priced_lanes", *(kind.rows for kind in SHEETS if kind.is_overseas)}
