"""The first and the last days of rows: which rows of a sheet hold on a day of pickup, and on which days that changes."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta
from typing import Any

from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.columns import Row
from shipcalc.records import replace

# By the field of Tables.
AT_HOME = (
    "carriers",
    "bands",
    "lanes",
    "loaded",
    "classes",
    "occasions",
    "extras",
    "areas",
    "seasons",
    "fuel",
    "ferries",
    "terminals",
    "settings",
)
BEYOND = (
    "ports",
    "ocean",
    "quotations",
    "port_charges",
    "containers",
    "loading_ways",
    "stage_charges",
    "on_carriage",
    "ferries_abroad",
    "passages",
    "marine_cover",
)
DATED = AT_HOME + BEYOND
# Facts of countries and rules of papers: their rows count by the day of the quote, as conditions of their decision tables.
FACTS = ("documents", "tasks", "from_buyer", "countries", "import_charges", "entry_rules", "holds")


def tables_of_day(tables: Tables, day: date) -> Tables:
    """Return the rows that hold on a day."""
    held: dict[str, Any] = {field: rows_of_day(getattr(tables, field), day) for field in DATED + FACTS}
    return replace(tables, **held)


def rows_of_day(rows: tuple[Any, ...], day: date) -> tuple[Any, ...]:
    """Return the rows that hold on a day: the same tuple where all do."""
    held = tuple(row for row in rows if _holds(row, day))
    return rows if len(held) == len(rows) else held


def changes_in(tables: Tables, sheets: Sequence[str] = DATED) -> tuple[date, ...]:
    """Return the days on which other rows hold than on the day before, in order."""
    return tuple(sorted(set(_days(row for field in sheets for row in getattr(tables, field)))))


def _days(rows: Iterable[Row]) -> Iterator[date]:
    for row in rows:
        first, last = getattr(row, "valid_from", None), getattr(row, "valid_to", None)
        if first is not None:
            yield first
        if last is not None and last < date.max:
            yield last + timedelta(days=1)


def _holds(row: Row, day: date) -> bool:
    first, last = getattr(row, "valid_from", None), getattr(row, "valid_to", None)
    return (first is None or first <= day) and (last is None or day <= last)
