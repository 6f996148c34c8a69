"""What of a rate book grows old: the days that stand in it, by cell, from which any day finds what is out of date on it."""

from collections.abc import Iterable, Iterator
from datetime import date
from typing import NamedTuple

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.dates import dated_rows
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.rows.tables import SHEETS, Tables
from shipcalc.ratebook.workbook.columns import Row
from shipcalc.records import dataclass

# What was read on a day was not read in a year's time; next week's price may be typed today.
_FARTHEST_AHEAD_DAYS = 180


class Dated(NamedTuple):
    """A day in a cell. `name` is the scheme or currency that is priced; `rows` how many rows of its sheet share the day."""

    cell: str
    day: date
    name: str = ""
    rows: int = 1


@dataclass(frozen=True, slots=True)
class ShelfLife:
    """The last days of rows and, once each, of quotations, the days of fuel prices and rates of exchange, and when sources were
    read, once a sheet and day.

    It is all that a kept book is asked for on another day: no row needs to be read again.
    """

    ends: tuple[Dated, ...] = ()
    fuel: tuple[Dated, ...] = ()
    rates: tuple[Dated, ...] = ()
    sources: tuple[Dated, ...] = ()
    quotations: tuple[Dated, ...] = ()


def shelf_life_of(tables: Tables) -> ShelfLife:
    """Return the days that stand in the rows, in their order."""
    return ShelfLife(
        ends=tuple(
            Dated(row.at.cell("valid_to"), row.valid_to) for row in dated_rows(tables) if row.valid_to is not None
        ),
        fuel=tuple(_of_fuel(tables)),
        rates=tuple(Dated(row.at.cell("as_of"), row.as_of, row.currency) for row in tables.currencies),
        sources=tuple(told for kind in SHEETS for told in _sources(getattr(tables, kind.rows))),
        quotations=tuple(_of_quotations(tables)),
    )


def _of_quotations(tables: Tables) -> Iterator[Dated]:
    """Yield the last day of each quotation's freight, with the first cell that says it."""
    told: set[tuple[object, ...]] = set()
    for row in tables.quotations:
        key = row.forwarder.casefold(), row.quotation.casefold(), row.valid_to
        if row.surcharge is None and row.valid_to is not None and key not in told:
            told.add(key)
            yield Dated(row.at.cell("valid_to"), row.valid_to, f"{row.quotation} of {row.forwarder}")


def _of_fuel(tables: Tables) -> Iterator[Dated]:
    """Yield the days of the prices of fuel: those of the sheet Diesel, and those that a scheme has for itself."""
    for price in tables.diesel:
        yield Dated(price.at.cell("as_of"), price.as_of, f"diesel, {price.region}" if price.region else "diesel")
    for row in tables.fuel:
        if row.as_of is not None and row.price_e4 is not None:
            yield Dated(row.at.cell("as_of"), row.as_of, row.scheme)


def out_of_date(life: ShelfLife, rules: PricingRules, as_of: date) -> Iterator[Problem]:
    """The rate book and its rows are valid on the day they are used, the price of fuel and the sources are late ones."""
    if rules.valid_to is not None and as_of > rules.valid_to:
        message = f"the rate book ended on {rules.valid_to}"
        yield Problem(rules.cells["Valid to"], message, "check the prices and set a later date", "warning")
    if rules.valid_from is not None and as_of < rules.valid_from:
        message = f"the rate book begins on {rules.valid_from} only"
        yield Problem(rules.cells["Valid from"], message, "use the earlier prices, or set an earlier date", "warning")
    for end in life.ends:
        if end.day < as_of:
            message = f"the row ended on {end.day} and is not used any more"
            yield _warning(end, message, "give it a later date if it still holds, or remove it")
    for end in life.quotations:
        days = (end.day - as_of).days
        if 0 <= days <= rules.days_valid:
            when = "today" if not days else "tomorrow" if days == 1 else f"in {days} days"
            message = f"the quotation {end.name} ends on {end.day}, {when}, and no quote that it prices holds longer"
            yield _warning(end, message, "ask for the next one")
    for told in (*life.fuel, *life.rates, *life.sources):
        if (told.day - as_of).days > _FARTHEST_AHEAD_DAYS:
            yield _warning(told, f"{told.day} is {(told.day - as_of).days} days ahead", "correct the year")
    yield from _stale_fuel(life.fuel, rules, as_of)
    yield from _stale_rates(life.rates, rules, as_of)
    yield from _stale_sources(life.sources, rules, as_of)


def _sources(rows: Iterable[Row]) -> Iterator[Dated]:
    """Yield the days on which the sources of a sheet were looked at: each with its first cell, and how many rows share it."""
    by_day: dict[date, list[Row]] = {}
    for row in rows:
        checked_on = getattr(row, "checked_on", None)
        if checked_on is not None:
            by_day.setdefault(checked_on, []).append(row)
    for day, of_the_day in sorted(by_day.items()):
        yield Dated(of_the_day[0].at.cell("checked_on"), day, rows=len(of_the_day))


def _stale_sources(sources: tuple[Dated, ...], rules: PricingRules, as_of: date) -> Iterator[Problem]:
    """What is from a source was compared with it not too long ago. Rows looked at on one day are told once."""
    for first in sources:
        age = (as_of - first.day).days
        if age > rules.source_stale_after_days:
            others = first.rows - 1
            more = "" if not others else ", and so was one more" if others == 1 else f", and so were {others} more"
            message = f"the source was last looked at on {first.day}, {age} days ago{more}"
            yield _warning(first, message, "look at it again and write the new date")


def _stale_fuel(prices: tuple[Dated, ...], rules: PricingRules, as_of: date) -> Iterator[Problem]:
    latest: dict[str, Dated] = {}
    for price in prices:
        known = latest.get(price.name.casefold())
        if price.day <= as_of and (known is None or price.day > known.day):
            latest[price.name.casefold()] = price
        elif price.day > as_of and known is None:
            latest.setdefault(price.name.casefold(), price)
    for price in latest.values():
        age = (as_of - price.day).days
        if age < 0:
            message = f'"{price.name}" has no price of {as_of} or before'
            yield _warning(price, message, "add a row with an earlier date")
        elif age > rules.fuel_stale_after_days:
            yield _warning(price, f'the price of "{price.name}" is {age} days old', "add a row with this week's price")


def _stale_rates(rates: tuple[Dated, ...], rules: PricingRules, as_of: date) -> Iterator[Problem]:
    """Rates of exchange are late ones; those of one day are told once."""
    latest: dict[str, Dated] = {}
    for rate in rates:
        known = latest.get(rate.name.casefold())
        if known is None or (rate.day <= as_of and (known.day > as_of or rate.day > known.day)):
            latest[rate.name.casefold()] = rate
    by_day: dict[date, list[Dated]] = {}
    for rate in latest.values():
        if not 0 <= (as_of - rate.day).days <= rules.currency_stale_after_days:
            by_day.setdefault(rate.day, []).append(rate)
    for day, of_the_day in sorted(by_day.items()):
        first = of_the_day[0]
        names = first.name if len(of_the_day) == 1 else f"{first.name} and {len(of_the_day) - 1} more"
        if day > as_of:
            message = f"there is no rate of {names} of {as_of} or before"
            yield _warning(first, message, "add a row with an earlier date")
        else:
            message = f"the rate of {names} is {(as_of - day).days} days old"
            yield _warning(first, message, "add a row with a late rate")


def _warning(dated: Dated, message: str, remedy: str) -> Problem:
    return Problem(dated.cell, message, remedy, "warning")
