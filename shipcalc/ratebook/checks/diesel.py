"""The price of diesel is one, however many schemes make a surcharge of it."""

from collections import Counter
from collections.abc import Iterator
from datetime import date

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.remarks import short_cell, warning
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.columns import columns_of
from shipcalc.ratebook.workbook.written import as_shown

_WIDE, _FEWEST_OTHERS = 3, 3


def schemes_share_a_price(tables: Tables) -> Iterator[Problem]:
    """Schemes that go by one price of diesel have the same on a day. Those that go by prices of regions never have."""
    by_day = _by_day(tables)
    for rows in by_day.values():
        prices = Counter(row.price_e4 for row in rows)
        usual, how_many = prices.most_common(1)[0]
        for row in rows:
            if (
                row.price_e4 != usual
                and not _slipped(row, usual, tables)
                and (how_many > 1 or _agree_else(row, rows, by_day))
            ):
                other = next(other for other in rows if other.price_e4 == usual)
                message = f'"{other.scheme}" has {_told(other)} for the same day ({short_cell(other, "price_e4")})'
                yield warning(
                    row, "price_e4", message, f"write one price in both, if both go by one: {_told(row)} here"
                )


def schemes_are_of_one_week(tables: Tables) -> Iterator[Problem]:
    """The price of a week is typed for every scheme, or the others go on by an older one."""
    latest: dict[str, FuelScheme] = {}
    for row in tables.fuel:
        known = latest.get(row.scheme.casefold())
        if known is None or row.as_of > known.as_of:
            latest[row.scheme.casefold()] = row
    newest = max(latest.values(), key=lambda row: row.as_of, default=None)
    for row in latest.values():
        if newest is not None and row.as_of < newest.as_of:
            where = short_cell(newest, "as_of")
            message = (
                f'the last price here is of {row.as_of}, and "{newest.scheme}" has one of {newest.as_of} ({where})'
            )
            yield warning(row, "as_of", message, f"add a row of {newest.as_of} for this scheme as well")


def _by_day(tables: Tables) -> dict[date, list[FuelScheme]]:
    by_day: dict[date, list[FuelScheme]] = {}
    for row in tables.fuel:
        by_day.setdefault(row.as_of, []).append(row)
    return by_day


def _agree_else(row: FuelScheme, rows: list[FuelScheme], by_day: dict[date, list[FuelScheme]]) -> bool:
    """Return whether the row's scheme and another of the day have one price on another day."""
    names = {other.scheme.casefold() for other in rows}
    return any(
        one.scheme.casefold() == row.scheme.casefold()
        and other.scheme.casefold() in names - {row.scheme.casefold()}
        and one.price_e4 == other.price_e4
        for day, others in by_day.items()
        if day != row.as_of
        for one in others
        for other in others
    )


def _slipped(row: FuelScheme, usual: int, tables: Tables) -> bool:
    """Return whether the price is so far off that it is told as a slipped point, beside enough others of its scheme."""
    others = sum(1 for other in tables.fuel if other.scheme == row.scheme)
    return others > _FEWEST_OTHERS and not usual / _WIDE <= row.price_e4 <= usual * _WIDE


def _told(row: FuelScheme) -> str:
    return as_shown(row.price_e4, columns_of(FuelScheme)["price_e4"], "USD")


CHECKS = (schemes_share_a_price, schemes_are_of_one_week)
