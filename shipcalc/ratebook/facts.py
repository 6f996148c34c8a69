"""Facts with a life: what rows say that was learnt somewhere, how well and when, and from which day to which it holds.

Rows that say the same from the same source are one fact: whoever looks at the source once has checked them all.
"""

from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from typing import Any

from shipcalc.places.gazetteer.regions import country_name
from shipcalc.ratebook.checks.names import naming_field
from shipcalc.ratebook.rows.sheet_kind import SheetKind
from shipcalc.ratebook.rows.tables import SHEETS, Tables
from shipcalc.ratebook.workbook.columns import Row, columns_of
from shipcalc.records import dataclass

# Why somebody should look, the most pressing first.
ENDED, SOON, OLD, UNTOLD, MEMORY, SECOND_HAND = "ended", "changes soon", "old", "untold", "memory", "second hand"
REASONS = (ENDED, SOON, OLD, UNTOLD, MEMORY, SECOND_HAND)
_NOT_LEARNT = ("practice", "invented")
_SAID = {
    "documents": "document",
    "tasks": "task",
    "from_buyer": "asked",
    "countries": "collector_criteria",
    "import_charges": "label",
    "entry_rules": "rule",
    "holds": "reason",
}
_MOST_COUNTRIES = 3
# Factors of a model of roads, a row for each country: nobody looks one up.
_MODELLED = ("road_factors",)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """What one or more rows of a sheet say from one source. `figure` is the percentage, where it is one."""

    field: str
    sheet: str
    rows: tuple[Row, ...]
    said: str
    figure: str
    countries: tuple[str, ...]
    source: str
    address: str
    trust: str
    checked_on: date | None
    valid_from: date | None
    valid_to: date | None

    @property
    def name(self) -> str:
        """Return what is said, and of which countries: `Customs duty, motor car, 10 % (Austria, Belgium and 25 more)`."""
        said = ", ".join(part for part in (self.said.rstrip("."), self.figure) if part)
        named = [country_name(code) for code in self.countries[:_MOST_COUNTRIES]]
        more = len(self.countries) - len(named)
        if not named:
            return said
        return f"{said} ({', '.join(named)} and {more} more)" if more else f"{said} ({', '.join(named)})"

    def cells(self, field: str) -> tuple[str, ...]:
        """Return the cells of a column in all the rows."""
        return tuple(row.at.cell(field) for row in self.rows)


def facts_of(tables: Tables) -> tuple[Fact, ...]:
    """Return what was learnt, in the order of the sheets: what has no source, or is invented, is none of it."""
    return tuple(fact for kind in SHEETS if _tells_trust(kind) for fact in _of_sheet(kind, getattr(tables, kind.rows)))


def reasons_to_look(fact: Fact, day: date, *, soon_days: int, stale_after_days: int) -> tuple[str, ...]:
    """Return why a fact should be looked at on a day, the most pressing reason first."""
    horizon = day + timedelta(days=soon_days)
    begins_soon = fact.valid_from is not None and day < fact.valid_from <= horizon
    ends_soon = fact.valid_to is not None and day <= fact.valid_to <= horizon
    found = {
        ENDED: fact.valid_to is not None and fact.valid_to < day,
        SOON: begins_soon or ends_soon,
        OLD: fact.checked_on is not None and (day - fact.checked_on).days > stale_after_days,
        UNTOLD: not fact.trust,
        MEMORY: fact.trust == MEMORY,
        SECOND_HAND: fact.trust == SECOND_HAND,
    }
    return tuple(reason for reason in REASONS if found[reason])


def _tells_trust(kind: SheetKind) -> bool:
    return kind.rows not in _MODELLED and {"source", "trust", "checked_on"} <= columns_of(kind.row_type).keys()


def _of_sheet(kind: SheetKind, rows: Iterable[Row]) -> Iterator[Fact]:
    alike: dict[tuple[object, ...], list[Row]] = {}
    for row in rows:
        told: Any = row
        is_own = told.trust is None and told.source is None
        if told.trust not in _NOT_LEARNT and not (is_own and kind.rows not in _SAID):
            alike.setdefault(_what_tells(kind, row), []).append(row)
    for together in alike.values():
        yield _fact(kind, tuple(together))


def _what_tells(kind: SheetKind, row: Row) -> tuple[object, ...]:
    """Return what is the same of rows that one look at the source checks."""
    told: Any = row
    days = getattr(row, "valid_from", None), getattr(row, "valid_to", None)
    return _said(kind, row), _figure(row), told.source, told.trust, told.checked_on, days


def _fact(kind: SheetKind, rows: tuple[Row, ...]) -> Fact:
    first: Any = rows[0]
    countries = (getattr(row, "country", None) for row in rows)
    return Fact(
        field=kind.rows,
        sheet=kind.name,
        rows=rows,
        said=_said(kind, rows[0]),
        figure=_figure(rows[0]),
        countries=tuple(dict.fromkeys(code.upper() for code in countries if code)),
        source=first.source or "",
        address=getattr(first, "address", None) or "",
        trust=first.trust or "",
        checked_on=first.checked_on,
        valid_from=getattr(first, "valid_from", None),
        valid_to=getattr(first, "valid_to", None),
    )


def _said(kind: SheetKind, row: Row) -> str:
    field = _SAID.get(kind.rows) or naming_field(kind.row_type) or next(iter(columns_of(kind.row_type)))
    said = getattr(row, field, None)
    if kind.rows == "countries":
        return f"Currency, steering and what the buyer should know{f'; collectors: {said}' if said else ''}"
    return str(said or "")


def _figure(row: Row) -> str:
    percent = getattr(row, "percent_ppm", None)
    return "" if percent is None else f"{percent / 10_000:g} %"
