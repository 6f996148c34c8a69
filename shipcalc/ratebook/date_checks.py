"""What must be true of dates: of each row by itself, against the book's own validity, and on a given day."""

from collections.abc import Iterator, Sequence
from datetime import date

from shipcalc.errors import Problem
from shipcalc.ratebook.columns import Row
from shipcalc.ratebook.import_rows import Hold
from shipcalc.ratebook.overseas_rows import Currency, OceanService
from shipcalc.ratebook.remarks import fault, warning
from shipcalc.ratebook.rules import PricingRules
from shipcalc.ratebook.tables import SHEETS, Tables
from shipcalc.ratebook.trucking_rows import Carrier, ExtraCharge, FuelScheme


def rows_end_after_they_begin(tables: Tables) -> Iterator[Problem]:
    """A row's last day is not before its first."""
    for row in _dated(tables):
        if row.valid_from is not None and row.valid_to is not None and row.valid_to < row.valid_from:
            message = f"the row ends on {row.valid_to}, before it begins on {row.valid_from}"
            yield fault(row, "valid_to", message, "exchange the two dates or mend the year")


def rows_meet_the_book(tables: Tables, rules: PricingRules) -> Iterator[Problem]:
    """A row is valid on some day of the rate book, or it never counts."""
    for row in _dated(tables):
        if row.valid_to is not None and rules.valid_from is not None and row.valid_to < rules.valid_from:
            message = f"the row ended on {row.valid_to}, before the rate book begins on {rules.valid_from}"
            yield warning(row, "valid_to", message, "remove the row, or give it a later date")
        elif row.valid_from is not None and rules.valid_to is not None and row.valid_from > rules.valid_to:
            message = f"the row begins on {row.valid_from}, after the rate book ends on {rules.valid_to}"
            yield warning(row, "valid_from", message, "mend the date, or let the rate book end later (sheet Pricing)")


def rows_out_of_date(tables: Tables, rules: PricingRules, as_of: date) -> Iterator[Problem]:
    """The rate book and its rows are valid on the day they are used, the price of fuel and the sources are late ones."""
    if rules.valid_to is not None and as_of > rules.valid_to:
        message = f"the rate book ended on {rules.valid_to}"
        yield Problem(rules.cells["Valid to"], message, "check the prices and set a later date", "warning")
    if rules.valid_from is not None and as_of < rules.valid_from:
        message = f"the rate book begins on {rules.valid_from} only"
        yield Problem(rules.cells["Valid from"], message, "use the earlier prices, or set an earlier date", "warning")
    for row in _dated(tables):
        if row.valid_to is not None and row.valid_to < as_of:
            message = f"the row ended on {row.valid_to} and is not used any more"
            yield warning(row, "valid_to", message, "give it a later date if it still holds, or remove it")
    yield from _stale_fuel(tables, rules, as_of)
    yield from _stale_rates(tables, rules, as_of)
    for kind in SHEETS:
        yield from _stale_sources(getattr(tables, kind.rows), rules, as_of)


def _stale_sources(rows: Sequence[Row], rules: PricingRules, as_of: date) -> Iterator[Problem]:
    """What is from a source was compared with it not too long ago. Rows looked at on one day are told once."""
    by_day: dict[date, list[Row]] = {}
    for row in rows:
        checked_on = getattr(row, "checked_on", None)
        if checked_on is not None and (as_of - checked_on).days > rules.source_stale_after_days:
            by_day.setdefault(checked_on, []).append(row)
    for day, old in sorted(by_day.items()):
        others = len(old) - 1
        more = "" if not others else ", and so was one more" if others == 1 else f", and so were {others} more"
        message = f"the source was last looked at on {day}, {(as_of - day).days} days ago{more}"
        yield warning(old[0], "checked_on", message, "look at it again and write the new date")


def _stale_fuel(tables: Tables, rules: PricingRules, as_of: date) -> Iterator[Problem]:
    latest: dict[str, FuelScheme] = {}
    for row in tables.fuel:
        known = latest.get(row.scheme.casefold())
        if row.as_of <= as_of and (known is None or row.as_of > known.as_of):
            latest[row.scheme.casefold()] = row
        elif row.as_of > as_of and known is None:
            latest.setdefault(row.scheme.casefold(), row)
    for row in latest.values():
        age = (as_of - row.as_of).days
        if age < 0:
            message = f'"{row.scheme}" has no price of {as_of} or before'
            yield warning(row, "as_of", message, "add a row with an earlier date")
        elif age > rules.fuel_stale_after_days:
            message = f'the price of "{row.scheme}" is {age} days old'
            yield warning(row, "as_of", message, "add a row with this week's price")


def _stale_rates(tables: Tables, rules: PricingRules, as_of: date) -> Iterator[Problem]:
    """Rates of exchange are late ones; those of one day are told once."""
    latest: dict[str, Currency] = {}
    for row in tables.currencies:
        known = latest.get(row.currency.casefold())
        if known is None or (row.as_of <= as_of and (known.as_of > as_of or row.as_of > known.as_of)):
            latest[row.currency.casefold()] = row
    by_day: dict[date, list[Currency]] = {}
    for row in latest.values():
        if not 0 <= (as_of - row.as_of).days <= rules.currency_stale_after_days:
            by_day.setdefault(row.as_of, []).append(row)
    for day, rows in sorted(by_day.items()):
        names = rows[0].currency if len(rows) == 1 else f"{rows[0].currency} and {len(rows) - 1} more"
        if day > as_of:
            message = f"there is no rate of {names} of {as_of} or before"
            yield warning(rows[0], "as_of", message, "add a row with an earlier date")
        else:
            message = f"the rate of {names} is {(as_of - day).days} days old"
            yield warning(rows[0], "as_of", message, "add a row with a late rate")


def _dated(tables: Tables) -> tuple[Carrier | ExtraCharge | OceanService | Hold, ...]:
    return (*tables.carriers, *tables.extras, *tables.ocean, *tables.holds)


CHECKS = (rows_end_after_they_begin,)
