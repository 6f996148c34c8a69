"""What must be true of charges by stage, of the last leg, of marine cover and of rates of exchange."""

from collections.abc import Iterator, Sequence
from typing import TypeVar

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.remarks import fault, short_cell
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.rows.stage_charges import StageCharge
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.columns import Row, columns_of
from shipcalc.ratebook.workbook.currency_codes import CURRENCY_CODES
from shipcalc.ratebook.workbook.region_codes import COUNTRIES, MISTAKEN_COUNTRIES
from shipcalc.trade import CROSSING_BY_MODE

R = TypeVar("R", bound=Row)


def charges_have_one_sum(tables: Tables) -> Iterator[Problem]:
    """A charge of a stage is a sum or a percentage of the value, one of the two."""
    for row in tables.stage_charges:
        yield from one_of_two(row, "amount_minor", "percent_ppm")


def charges_can_arise(tables: Tables) -> Iterator[Problem]:
    """What a row of Stage charges asks for can be true together: countries that exist, containers where there are some."""
    for row in tables.stage_charges:
        for field in ("to_country", "not_to_country"):
            yield from countries_in(row, field, getattr(row, field))
        yield from _both(row)
        if row.per == "container" and row.mode is not None and not CROSSING_BY_MODE[row.mode].is_packed:
            message = f"a charge for each container never arises for {row.mode}"
            yield fault(row, "per", message, "write shipment or vehicle, or Mode container")


def seasons_are_whole(tables: Tables) -> Iterator[Problem]:
    """A season has a first and a last day; what is said or takes days in a season has one."""
    for row in tables.stage_charges:
        for filled, empty in (("season_from", "season_to"), ("season_to", "season_from")):
            if getattr(row, filled) is not None and getattr(row, empty) is None:
                yield fault(row, empty, "a season needs its first and its last day", "fill both, or leave both blank")
        for field in ("takes_days", "said"):
            if getattr(row, field) and row.season_from is None and row.season_to is None:
                yield fault(
                    row, field, "it counts in a season only, and the row has none", "fill the season, or clear it"
                )


def _both(row: StageCharge) -> Iterator[Problem]:
    wanted = {code.upper() for code in row.to_country}
    left = [code for code in row.not_to_country if code.upper() in wanted]
    if left:
        message = f'"{left[0]}" stands under To country as well'
        yield fault(row, "not_to_country", message, "remove it in one of the two columns")


def last_legs_are_whole(tables: Tables) -> Iterator[Problem]:
    """The last leg has a price for each country and trailer, once, and comes forward every day."""
    yield from rows_stand_once(
        tables.on_carriage, ("country", "trailer", "port", "postal_codes", "regions", "towns"), "trailer"
    )
    for row in tables.on_carriage:
        if row.rate_e4 == 0 and row.base_minor == 0:
            yield fault(row, "rate_e4", "the last leg costs nothing", "fill the base or the rate")
        if row.miles_a_day == 0:
            yield fault(row, "miles_a_day", "a truck that covers 0 miles a day never arrives", "write e.g. 300")


def cover_stands_once(tables: Tables) -> Iterator[Problem]:
    """Conditions of cover have one rate for each mode."""
    yield from rows_stand_once(tables.marine_cover, ("conditions", "mode"), "conditions")
    for row in tables.marine_cover:
        if row.insured_ppm == 0:
            yield fault(row, "insured_ppm", "nothing is insured", "write 110 %, as delivery terms ask for")


def usual_cover_has_a_rate(tables: Tables, rules: PricingRules) -> Iterator[Problem]:
    """The conditions that the sheet Pricing sets for every quote stand on the sheet Marine cover."""
    conditions = {row.conditions for row in tables.marine_cover}
    if tables.marine_cover and rules.cover_conditions not in conditions:
        where = rules.cells.get("Cover conditions", f"{tables.marine_cover[0].at.workbook} › Marine cover")
        message = f'the sheet Marine cover has no row for the conditions "{rules.cover_conditions}"'
        yield Problem(where, message, "add one, or set other conditions on the sheet Pricing")


def currencies_are_known(tables: Tables) -> Iterator[Problem]:
    """A rate of exchange is of a currency that there is, above zero, once for a day."""
    yield from rows_stand_once(tables.currencies, ("currency", "as_of"), "as_of")
    for row in tables.currencies:
        yield from currency_in(row, row.currency)
        if row.rate == 0:
            yield fault(row, "rate", "one dollar buys nothing", "write what one unit of the book's currency buys")


def currency_in(row: Row, code: str) -> Iterator[Problem]:
    """Yield a fault where the column `currency` of a row holds no code of a currency."""
    if code.upper() not in CURRENCY_CODES:
        remedy = "write its three letters (ISO 4217), e.g. EUR"
        yield fault(row, "currency", f'"{code}" is not the code of a currency', remedy)


def countries_in(row: Row, field: str, codes: Sequence[str]) -> Iterator[Problem]:
    """Yield a fault for each code in a column that no country has."""
    for code in codes:
        if code.upper() not in COUNTRIES:
            meant = MISTAKEN_COUNTRIES.get(code.upper(), "two letters (ISO 3166-1), e.g. DE")
            yield fault(row, field, f'"{code}" is not the code of a country', f"write {meant}")


def one_of_two(row: Row, one: str, other: str) -> Iterator[Problem]:
    """Yield a fault where both of two columns are filled, or neither."""
    columns = columns_of(type(row))
    names = f'"{columns[one].header}" and "{columns[other].header}"'
    filled = [getattr(row, field) is not None for field in (one, other)]
    if all(filled):
        yield fault(row, other, f"{names} are both filled", "empty one of the two")
    elif not any(filled):
        yield fault(row, one, f"{names} are both empty", "fill one of the two")


def rows_stand_once(rows: Sequence[R], fields: Sequence[str], told: str) -> Iterator[Problem]:
    """Yield a fault for a row that is the same as an earlier one in some columns; `told` is the column it is named by."""
    first: dict[tuple[str, ...], R] = {}
    for row in rows:
        key = tuple(str(getattr(row, field) or "").casefold() for field in fields)
        earlier = first.setdefault(key, row)
        if earlier is not row:
            what = " ".join(_told(getattr(row, field)) for field in fields if getattr(row, field))
            yield fault(row, told, f'"{what}" is already at {short_cell(earlier, told)}', "remove one of the two")


def _told(value: object) -> str:
    return ", ".join(value) if isinstance(value, tuple) else str(value)


CHECKS = (
    charges_have_one_sum,
    charges_can_arise,
    seasons_are_whole,
    last_legs_are_whole,
    cover_stands_once,
    currencies_are_known,
)
