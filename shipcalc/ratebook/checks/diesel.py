"""The price of diesel is one, however many schemes make a surcharge of it; every scheme finds the price it goes by."""

from collections import Counter
from collections.abc import Iterator
from datetime import date

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.remarks import fault, short_cell, warning
from shipcalc.ratebook.rows.diesel import DieselPrice, region_key
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.columns import columns_of
from shipcalc.ratebook.workbook.misread import nearest
from shipcalc.ratebook.workbook.written import as_shown

_WIDE, _FEWEST_OTHERS = 3, 3


def prices_have_their_day(tables: Tables) -> Iterator[Problem]:
    """A price that a scheme has for itself has its day, or nobody could say when it is old."""
    for row in tables.fuel:
        if row.price_e4 is not None and row.as_of is None:
            remedy = "write the day of the price, or leave the price blank: the sheet Diesel has it then"
            yield fault(row, "as_of", "the price has no day", remedy)


def schemes_find_their_price(tables: Tables) -> Iterator[Problem]:
    """A scheme without a price of its own goes by one of the sheet Diesel, for a region that stands there."""
    regions = {row.key: row.region for row in tables.diesel}
    if "Diesel" in tables.unread and tables.unread["Diesel"] is None:
        return
    for row in tables.fuel:
        region, key = row.diesel_region, region_key(row.diesel_region)
        if row.price_e4 is not None:
            if region:
                message = f'the price in this row counts, and not that of "{region}" on the sheet Diesel'
                yield warning(row, "diesel_region", message, "leave one of the two blank")
        elif key not in regions and not tables.may_stand_in("Diesel", region or ""):
            yield _without_price(row, tables, [name for name in regions.values() if name])


def _without_price(row: FuelScheme, tables: Tables, known: list[str]) -> Problem:
    if row.diesel_region and tables.diesel:
        near = nearest(row.diesel_region, known)
        remedy = f'write "{near}"' if near else "add its price there, or leave the region blank"
        return fault(row, "diesel_region", f'"{row.diesel_region}" is no region of the sheet Diesel', remedy)
    message = f'"{row.scheme}" has no price here, and the sheet Diesel has none for the whole country'
    return fault(row, "price_e4", message, "add a row there with the week's price, its region blank")


def regions_are_used(tables: Tables) -> Iterator[Problem]:
    """A region's price is there for a scheme that goes by it: a slip in its name would leave the scheme with older prices."""
    used = {region_key(row.diesel_region) for row in tables.fuel if row.price_e4 is None}
    told: set[str] = set()
    for price in tables.diesel:
        if price.key not in used and price.key not in told and not tables.unread.get("Fuel", frozenset()):
            told.add(price.key)
            whose = f'of "{price.region}"' if price.region else "of the whole country"
            message = f"no scheme of the sheet Fuel goes by the price {whose}"
            yield warning(price, "region", message, "write the region as the scheme names it, or leave the row out")


def diesel_prices_stand_once(tables: Tables) -> Iterator[Problem]:
    """A week has one price of diesel in a region."""
    first: dict[tuple[str, date], DieselPrice] = {}
    for row in tables.diesel:
        earlier = first.setdefault((row.key, row.as_of), row)
        if earlier is not row:
            message = f"there is a price of {row.as_of} already at {short_cell(earlier, 'as_of')}"
            yield fault(row, "as_of", message, "correct the date or the region, or remove one of the two rows")


def regions_are_of_one_week(tables: Tables) -> Iterator[Problem]:
    """The price of a week is typed for every region, or schemes of the others go on by an older one."""
    latest: dict[str, DieselPrice] = {}
    for row in tables.diesel:
        if row.key not in latest or row.as_of > latest[row.key].as_of:
            latest[row.key] = row
    newest = max(latest.values(), key=lambda row: row.as_of, default=None)
    for row in latest.values():
        if newest is not None and row.as_of < newest.as_of:
            other = f'"{newest.region}"' if newest.region else "the whole country"
            where = short_cell(newest, "as_of")
            message = f"the last price here is of {row.as_of}, and {other} has one of {newest.as_of} ({where})"
            yield warning(row, "as_of", message, f"add a row of {newest.as_of} for this region as well")


def schemes_share_a_price(tables: Tables) -> Iterator[Problem]:
    """Schemes that go by one price of diesel have the same on a day. Those that go by prices of regions never have."""
    by_day = _by_day(tables)
    for rows in by_day.values():
        prices = Counter(row.price_e4 for row in rows)
        usual, how_many = prices.most_common(1)[0]
        for row in rows:
            if (
                row.price_e4 != usual
                and not _slipped(row, usual or 0, tables)
                and (how_many > 1 or _agree_else(row, rows, by_day))
            ):
                other = next(other for other in rows if other.price_e4 == usual)
                message = f'"{other.scheme}" has {_told(other)} for the same day ({short_cell(other, "price_e4")})'
                remedy = f"write one price in both, if both go by one: {_told(row)} here"
                yield warning(row, "price_e4", message, remedy)


def schemes_have_one_source(tables: Tables) -> Iterator[Problem]:
    """Where schemes go by the sheet Diesel, one with a price of its own is told: a price is typed once, for all of them."""
    others = [row for row in tables.fuel if row.price_e4 is None]
    common = max(tables.diesel, key=lambda row: row.as_of, default=None)
    if not others or common is None:
        return
    latest = {row.scheme.casefold(): row for row in sorted(_with_a_price(tables), key=_day)}
    for row in latest.values():
        column = columns_of(DieselPrice)["price_e4"]
        there = f"{as_shown(common.price_e4, column, 'USD')} of {common.as_of} ({short_cell(common, 'price_e4')})"
        message = f'this scheme alone goes by {_told(row)} of {row.as_of}, and "{others[0].scheme}" by the sheet Diesel, {there}'
        yield warning(row, "price_e4", message, "leave price and day blank, if it goes by the same")


def schemes_are_of_one_week(tables: Tables) -> Iterator[Problem]:
    """The price of a week is typed for every scheme, or the others go on by an older one."""
    latest: dict[str, FuelScheme] = {}
    for row in _with_a_price(tables):
        known = latest.get(row.scheme.casefold())
        if known is None or _day(row) > _day(known):
            latest[row.scheme.casefold()] = row
    newest = max(latest.values(), key=_day, default=None)
    for row in latest.values():
        if newest is not None and _day(row) < _day(newest):
            where = short_cell(newest, "as_of")
            message = (
                f'the last price here is of {row.as_of}, and "{newest.scheme}" has one of {newest.as_of} ({where})'
            )
            yield warning(row, "as_of", message, f"add a row of {newest.as_of} for this scheme as well")


def _with_a_price(tables: Tables) -> list[FuelScheme]:
    return [row for row in tables.fuel if row.price_e4 is not None and row.as_of is not None]


def _day(row: FuelScheme) -> date:
    return row.as_of or date.min


def _by_day(tables: Tables) -> dict[date, list[FuelScheme]]:
    by_day: dict[date, list[FuelScheme]] = {}
    for row in _with_a_price(tables):
        by_day.setdefault(_day(row), []).append(row)
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
    return others > _FEWEST_OTHERS and not usual / _WIDE <= (row.price_e4 or 0) <= usual * _WIDE


def _told(row: FuelScheme) -> str:
    return as_shown(row.price_e4, columns_of(FuelScheme)["price_e4"], "USD")


CHECKS = (
    prices_have_their_day,
    schemes_find_their_price,
    regions_are_used,
    diesel_prices_stand_once,
    regions_are_of_one_week,
    schemes_share_a_price,
    schemes_have_one_source,
    schemes_are_of_one_week,
)
