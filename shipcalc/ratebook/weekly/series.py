"""What a rate book keeps of a published figure: the row that counts now, and whether the book keeps the former ones."""

from collections.abc import Iterable, Iterator
from datetime import date
from decimal import Decimal
from typing import TypeVar

from shipcalc.ratebook.rows.currencies import Currency
from shipcalc.ratebook.rows.diesel import DieselPrice
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.weekly.energy_office import SOURCE, find_region
from shipcalc.ratebook.weekly.figures import WHOLE_COUNTRY, Subject
from shipcalc.ratebook.workbook.columns import Row
from shipcalc.records import dataclass
from shipcalc.sheets.numbers import exact

R = TypeVar("R", bound=Row)


@dataclass(frozen=True, slots=True)
class Series:
    """One figure that a book keeps current, in its newest row.

    `key` is how publishers call it (a region, a currency; None: nobody publishes it), `name` how people do. `value` and `day` are
    what stands in the newest row, in the columns of `value_field` and `day_field`. Where `adds`, a newer figure gets a row of
    its own and the former one stays, for quotes of former days. `told` stands in the column Source, and stays before the new one.
    """

    subject: Subject
    key: str | None
    name: str
    row: Row
    value_field: str
    day_field: str
    value: Decimal
    day: date
    adds: bool
    told: str = ""


def series_of(book: Tables) -> tuple[Series, ...]:
    """Return every figure that a book keeps current from publications, in the order of its sheets."""
    schemes = _schemes(book.fuel, are_alone=not book.diesel)
    return (*_diesel(book.diesel), *schemes, *_currencies(book.currencies))


def _diesel(rows: Iterable[DieselPrice]) -> Iterator[Series]:
    for history in _histories((row.key, row) for row in rows):
        row = max(history, key=lambda one: one.as_of)
        price, name = Decimal(row.price_e4).scaleb(-4), f"Diesel, {row.region}" if row.region else "Diesel"
        region = find_region(row.region or WHOLE_COUNTRY)
        yield Series("diesel", region, name, row, "price_e4", "as_of", price, row.as_of, adds=True)


def _schemes(rows: Iterable[FuelScheme], *, are_alone: bool) -> Iterator[Series]:
    """Yield the schemes that have a price of their own. Where the sheet Diesel has prices, that is one which nobody publishes."""
    for history in _histories((row.scheme, row) for row in rows):
        row = max(history, key=lambda one: one.as_of or date.min)
        if row.price_e4 is None or row.as_of is None:
            continue
        region = find_region(row.diesel_region or WHOLE_COUNTRY) if are_alone else None
        name, price, told = f"Diesel, {row.scheme}", Decimal(row.price_e4).scaleb(-4), _own_source(row)
        yield Series("diesel", region, name, row, "price_e4", "as_of", price, row.as_of, adds=True, told=told)


def _own_source(row: FuelScheme) -> str:
    """Return what a row says of its scheme's source, without what was written there of an earlier price."""
    return (row.source or "").partition(SOURCE)[0].rstrip("; ")


def _currencies(rows: Iterable[Currency]) -> Iterator[Series]:
    """Yield the currencies. Where a book has one row of each it keeps no former rates, and it stays so."""
    for history in _histories((row.currency, row) for row in rows):
        row = max(history, key=lambda one: one.as_of)
        code, rate = row.currency.upper(), exact(row.rate)
        yield Series("exchange", code, code, row, "rate", "as_of", rate, row.as_of, adds=len(history) > 1)


def _histories(named: Iterable[tuple[str, R]]) -> Iterator[list[R]]:
    """Yield the rows of each name, names made comparable."""
    by_name: dict[str, list[R]] = {}
    for name, row in named:
        by_name.setdefault(name.casefold(), []).append(row)
    yield from by_name.values()
