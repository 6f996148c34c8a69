"""What must be true of carriers and of their distance bands."""

from collections.abc import Iterator
from itertools import pairwise

from shipcalc.errors import Problem
from shipcalc.money import text, times_rate
from shipcalc.ratebook.checks.remarks import fault, short_cell, warning
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.lanes import says
from shipcalc.ratebook.rows.mile_bands import MileBand
from shipcalc.ratebook.rows.pricing_settings import currency_of
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.trade import DRIVEN, TRAILERS

Service = tuple[str, str]


def a_trailer(trailer: str) -> str:
    """Return a kind of trailer as a sentence names one: `an open trailer`, `a driven trailer`."""
    return f"{'an' if trailer[:1] in 'aeiou' else 'a'} {trailer} trailer"


def services_stand_once(tables: Tables) -> Iterator[Problem]:
    """A carrier has one row for each kind of trailer at any time, or it would have two prices."""
    earlier: dict[Service, list[Carrier]] = {}
    for row in tables.carriers:
        others = earlier.setdefault(_service(row), [])
        twin = next((other for other in others if _overlap(row, other)), None)
        if twin is not None:
            where = short_cell(twin, "carrier")
            message = f'"{row.carrier}" with {a_trailer(row.trailer)} is already at {where}'
            yield fault(row, "carrier", message, "remove one of the two, or let one end before the other begins")
        others.append(row)


def pickup_days_rise(tables: Tables) -> Iterator[Problem]:
    """A pickup window ends after it begins, and express pickup is not later than the ordinary one."""
    for row in tables.carriers:
        if row.pickup_to_days < row.pickup_from_days:
            message = f"pickup ends after {row.pickup_to_days} days, before it begins after {row.pickup_from_days}"
            yield fault(row, "pickup_to_days", message, "swap the two")
        if row.express_pickup_days is not None and row.express_pickup_days > row.pickup_to_days:
            message = (
                f"express pickup within {row.express_pickup_days} days is later than the ordinary {row.pickup_to_days}"
            )
            yield fault(row, "express_pickup_days", message, "write fewer days, or leave it blank")


def trucks_come_along(tables: Tables) -> Iterator[Problem]:
    """A truck that comes no mile a day never arrives."""
    for row in tables.carriers:
        if row.miles_a_day == 0:
            message = "covers no miles a day, so it never arrives"
            yield fault(row, "miles_a_day", message, "write its road miles a day, e.g. 450, or leave it blank")


def winches_serve_inoperable(tables: Tables) -> Iterator[Problem]:
    """A carrier that winches a vehicle aboard takes vehicles that do not run."""
    for row in tables.carriers:
        if row.winch and not row.takes_inoperable:
            message = "has a winch and yet takes no inoperable vehicle, so the winch is never used"
            yield warning(row, "takes_inoperable", message, "write yes, or no under Has a winch")


def raised_cover_has_a_price(tables: Tables) -> Iterator[Problem]:
    """Cover that can be raised has an extra charge that says what this costs."""
    priced = [row for row in tables.extras if row.of == "value above cover"]
    if tables.unread.get("Extra charges", frozenset()):
        return
    for row in tables.carriers:
        if row.cover_can_rise and not any(
            extra.carrier in (None, row.carrier)
            and extra.trailer in (None, row.trailer)
            and (extra.trailer or row.trailer != DRIVEN)
            for extra in priced
        ):
            message = "its cover can be raised, but no extra charge of value above cover says what this costs"
            yield warning(row, "cover_can_rise", message, "add the charge on the sheet Extra charges, or write no")


def carriers_have_bands(tables: Tables) -> Iterator[Problem]:
    """Every carrier has at least one distance band or one price of a lane, or it could never be priced."""
    priced = {_service(band) for band in tables.bands}
    priced |= {
        (row.carrier.casefold(), trailer)
        for row in tables.lanes
        if says(row, "price")
        for trailer in ((row.trailer,) if row.trailer else TRAILERS)
    }
    for row in tables.carriers:
        told_elsewhere = any(tables.may_stand_in(sheet, row.carrier) for sheet in ("Per mile", "Lanes"))
        if _service(row) not in priced and not told_elsewhere:
            message = f'"{row.carrier}" with {a_trailer(row.trailer)} has no band on the sheet Per mile'
            yield fault(row, "carrier", message, "add its bands there, the first beginning at 0, or remove the row")


def schemes_hold(tables: Tables) -> Iterator[Problem]:
    """A carrier's fuel scheme has a row on every day, or its surcharge is left out (one that never has is told by its name)."""
    held = {row.scheme.casefold() for row in tables.fuel}
    for row in tables.carriers:
        if row.fuel_scheme and row.fuel_scheme.casefold() not in held:
            message = f'no row of the sheet Fuel holds for "{row.fuel_scheme}", so that no surcharge is charged'
            yield warning(row, "fuel_scheme", message, "let its row end later, or add the one that follows")


def bands_have_carriers(tables: Tables) -> Iterator[Problem]:
    """Every band belongs to a carrier's row with the same kind of trailer."""
    services = {_service(row) for row in tables.carriers}
    names = {row.carrier.casefold() for row in tables.carriers}
    for band in tables.bands:
        if tables.may_stand_in("Carriers", band.carrier) or _service(band) in services:
            continue
        if band.carrier.casefold() in names:
            message = f'"{band.carrier}" has no {band.trailer} trailer on the sheet Carriers'
            yield fault(band, "trailer", message, "write its other trailer, or add the row there")
        # A name that stands nowhere is told by name_checks.references_are_known.


def bands_join(tables: Tables) -> Iterator[Problem]:
    """The bands of a carrier begin at 0 and join without gap or overlap, or a mile would have no price or two."""
    carriers = {row.carrier.casefold() for row in tables.carriers}
    for bands in _tariffs(tables):
        if bands[0].carrier.casefold() not in carriers:
            continue  # one slip in a name is told once
        expected: int | None = 0
        before: MileBand | None = None
        for band in bands:
            yield from _join(before, expected, band)
            before, expected = band, band.to_mi


def _join(before: MileBand | None, expected: int | None, band: MileBand) -> Iterator[Problem]:
    if band.to_mi is not None and band.to_mi <= band.from_mi:
        message = f"the band ends at {band.to_mi:,} miles, before it begins at {band.from_mi:,}"
        yield fault(band, "to_mi", message, "write a larger number, or leave it blank for no end")
    if before is None:
        if band.from_mi != 0:
            message = f"the first band of {band.carrier} begins at {band.from_mi:,} miles: shorter trips have no price"
            yield fault(band, "from_mi", message, "write 0, or add a band before it")
        return
    where = short_cell(before, "to_mi")
    if expected is None:
        message = f"the band before it, at {where}, has no end, so both hold from {band.from_mi:,} miles on"
        yield fault(band, "from_mi", message, f"write {band.from_mi} at {where}")
    elif band.from_mi > expected:
        message = f"no band holds from {expected:,} to {band.from_mi:,} miles"
        yield fault(band, "from_mi", message, f"write {expected}, where the band before it ends ({where})")
    elif band.from_mi < expected:
        message = f"two bands hold from {band.from_mi:,} to {min(expected, band.to_mi or expected):,} miles"
        yield fault(band, "from_mi", message, f"write {expected}, where the band before it ends ({where})")


def longer_trips_cost_no_less(tables: Tables) -> Iterator[Problem]:
    """A longer trip never costs less; where the rates would make it so, the later break is charged."""
    currency = currency_of(tables.settings)
    by_service = {_service(row): row for row in tables.carriers}
    for bands in _tariffs(tables):
        row = by_service.get(_service(bands[0]))
        if row is None or row.bands != "whole trip":
            continue
        for band, later in pairwise(bands):
            edge = band.to_mi
            if edge is None or edge != later.from_mi:
                continue
            last, first = _whole_trip(row, band, edge, currency), _whole_trip(row, later, edge + 1, currency)
            if first < last:
                message = f"{edge:,} miles would cost {text(last, currency)}, and {edge + 1:,} miles only {text(first, currency)}"
                remedy = "the program charges the later break; if that is not meant, raise this rate"
                yield warning(later, "rate_e4", message, remedy)


def _whole_trip(row: Carrier, band: MileBand, miles: int, currency: str) -> int:
    """Return base fee and miles, or the minimum, in minor units."""
    return max(row.base_minor + times_rate(miles, band.rate_e4, currency), row.minimum_minor)


def _tariffs(tables: Tables) -> Iterator[list[MileBand]]:
    """Yield the bands of each carrier and trailer, by their beginning; not those with a row that could not be read."""
    tariffs: dict[Service, list[MileBand]] = {}
    for band in tables.bands:
        tariffs.setdefault(_service(band), []).append(band)
    for bands in tariffs.values():
        if not tables.may_stand_in("Per mile", bands[0].carrier):
            yield sorted(bands, key=lambda band: (band.from_mi, band.to_mi or 0))


def _service(row: Carrier | MileBand) -> Service:
    return row.carrier.casefold(), row.trailer


def _overlap(one: Carrier, other: Carrier) -> bool:
    """Return whether two rows are valid on a common day; a blank date is no bound."""
    ends_before = one.valid_to is not None and other.valid_from is not None and one.valid_to < other.valid_from
    begins_after = one.valid_from is not None and other.valid_to is not None and one.valid_from > other.valid_to
    return not (ends_before or begins_after)


CHECKS = (
    services_stand_once,
    pickup_days_rise,
    trucks_come_along,
    winches_serve_inoperable,
    raised_cover_has_a_price,
    carriers_have_bands,
    schemes_hold,
    bands_have_carriers,
    bands_join,
    longer_trips_cost_no_less,
)
