"""The lines of a truck price, as columns.

    linehaul   the carrier's base fee, its miles band by band, and what is missing to its minimum; less where several are loaded
    fuel       the surcharge of the carrier's scheme
    extras     the rows of Extra charges, Areas and Seasons whose conditions hold
    ferry      the fare of the ferry on the lane, where there is one: the carrier's own, else the one for all

A price in hand is one line, in place of all of them.

The same function gives the selling price and the cost: the selling tariff is the cost tariff with its rates marked up. A
percentage is taken of the marked-up base and is not marked up again.
"""

from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING

import numpy as np

from shipcalc.money import PPM, Int64, share
from shipcalc.pricing.areas import ChargedEnd
from shipcalc.pricing.columns import Asked, Bool, LaneColumns, VehicleColumns
from shipcalc.pricing.extras import Applying, is_charged_by
from shipcalc.pricing.ferries import fare_on
from shipcalc.pricing.line import FUEL, LINEHAUL, NO_MARKUP, ONE, Line, Markup, marked_up, miles_times
from shipcalc.pricing.linehaul import linehaul_lines, without_fuel
from shipcalc.pricing.loaded import loaded_lines
from shipcalc.pricing.seasons import InSeason
from shipcalc.pricing.service_classes import class_lines
from shipcalc.pricing.spot import Spot, spot_shares
from shipcalc.pricing.tariff import Service
from shipcalc.ratebook.rows.areas import Area
from shipcalc.ratebook.rows.extra_charges import ExtraCharge
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.pricing.columns import AnyFerry


_NOTHING: Int64 = np.zeros((1, 1), dtype=np.int64)


@dataclass(frozen=True, slots=True)
class Trip:
    """What all lines of one call are made from."""

    vehicles: VehicleColumns
    lanes: LaneColumns
    asked: Asked
    extras: tuple[Applying, ...]
    areas: tuple[ChargedEnd, ...]
    seasons: tuple[InSeason, ...]
    ferries: "tuple[tuple[AnyFerry, Bool], ...]"
    currency: str


def truck_lines(service: Service, trip: Trip, markup: Markup) -> tuple[Line, ...]:
    """Return all lines of one service; extra charges whose amount is zero everywhere are left out.

    The caller asks `eligibility` first: where a service is not eligible its lines mean nothing.
    """
    markup = markup.of(service.row.carrier)
    if service.spot is not None:
        spot = _spot_line(service.spot, trip, markup)
        return (spot, *_least_margin((spot,), (_spot_line(service.spot, trip, NO_MARKUP),), markup))
    linehaul = _linehaul(service, trip, markup)
    bases = {"linehaul": sum((line.amount for line in linehaul), start=_NOTHING)}
    fuel = tuple(_fuel_lines(service, trip, markup, bases["linehaul"]))
    bases["linehaul and fuel"] = sum((line.amount for line in fuel), start=bases["linehaul"])
    extras = (
        *(class_lines(service.offer, bases["linehaul"], markup.extras_ppm) if service.offer else ()),
        *_extra_lines(service, trip, markup, bases),
        *_area_lines(trip, markup, bases["linehaul"]),
        *_season_lines(trip, bases["linehaul"]),
        *_ferry_lines(service, trip, markup),
    )
    least = _least_margin(linehaul, _linehaul(service, trip, NO_MARKUP), markup) if markup.least_minor else ()
    return (*linehaul, *least, *fuel, *extras)


def _linehaul(service: Service, trip: Trip, markup: Markup) -> tuple[Line, ...]:
    """Return what the way itself costs, and what several vehicles on one truck pay less."""
    alone = tuple(linehaul_lines(service, trip.lanes, markup, trip.currency))
    if not service.loads:
        return alone
    together = sum((line.amount for line in alone), start=_NOTHING)
    return (*alone, *loaded_lines(service.loads, trip.asked, len(trip.vehicles), together, markup.linehaul_ppm))


def _least_margin(sold: Sequence[Line], cost: Sequence[Line], markup: Markup) -> tuple[Line, ...]:
    """Return what is missing to the least that our price of the way is above the carrier's, in a line of its own."""
    if not markup.least_minor:
        return ()
    margin = sum((line.amount for line in sold), start=_NOTHING) - sum((line.amount for line in cost), start=_NOTHING)
    missing = np.maximum(markup.least_minor - margin, 0)
    line = Line(
        code="truck.margin",
        label="Arranging the transport",
        unit="lump",
        quantity=ONE,
        rate=missing,
        amount=missing,
        cell=markup.least_cell,
        offer="least margin",
    )
    return (line,)


def _spot_line(spot: Spot, trip: Trip, markup: Markup) -> Line:
    """Return the one line of a price in hand: a carrier's sum, marked up as its linehaul would be."""
    asked = marked_up(spot.amount_minor, markup.linehaul_ppm)
    own = spot_shares(asked, len(trip.vehicles), each=spot.each)
    return Line(
        code="truck.spot",
        label="Transport at a price in hand",
        unit="lump",
        quantity=ONE,
        rate=own,
        amount=np.where(spot.lanes[np.newaxis, :], own, 0),
        note=spot.note,
        cell=spot.source,
    )


def sum_of(lines: Iterable[Line], shape: tuple[int, int]) -> Int64:
    """Return the sum of lines' amounts, (n, m); what is the same for all vehicles or lanes is added up before it is spread."""
    sums: dict[tuple[int, ...], Int64] = {}
    for line in lines:
        so_far = sums.get(line.amount.shape)
        sums[line.amount.shape] = line.amount if so_far is None else so_far + line.amount
    total = np.zeros(shape, dtype=np.int64)
    for amount in sums.values():
        total += amount
    return total


def _fuel_lines(service: Service, trip: Trip, markup: Markup, linehaul: Int64) -> Iterator[Line]:
    fuel = service.fuel
    if fuel is None:
        return
    cell = fuel.cell
    included = without_fuel(service, trip.lanes)
    if fuel.rate_e4:
        miles = trip.lanes.miles[np.newaxis, :]
        miles = miles if included is None else np.where(included, 0, miles)
        rate = fuel.rate_e4 * (PPM + markup.fuel_ppm)
        amount = miles_times(miles, rate, trip.currency)
        yield Line(code="truck.fuel", label=fuel.label, unit="mi", quantity=miles, rate=rate, amount=amount, cell=cell)
    if fuel.percent_ppm:
        linehaul = linehaul if included is None else np.where(included, 0, linehaul)
        amount = share(linehaul, fuel.percent_ppm)
        yield Line(
            code="truck.fuel",
            label=fuel.label,
            unit="%",
            quantity=linehaul,
            rate=fuel.percent_ppm,
            amount=amount,
            of=LINEHAUL,
            cell=cell,
        )


def _extra_lines(service: Service, trip: Trip, markup: Markup, bases: dict[str, Int64]) -> Iterator[Line]:
    for applying in trip.extras:
        extra = applying.row
        if not is_charged_by(extra, service.row):
            continue
        line = _charge_line(extra, f"extra.{extra.code}", extra.label, applying.where, trip, markup, service, bases)
        if line.amount.any():
            yield line


def _area_lines(trip: Trip, markup: Markup, linehaul: Int64) -> Iterator[Line]:
    for charged in trip.areas:
        area, end, where = charged.area, charged.end, charged.where[np.newaxis, :]
        label = area.label or f"{area.area} ({end})"
        yield _charge_line(area, f"area.{end}", label, where, trip, markup, None, {"linehaul": linehaul})


def _season_lines(trip: Trip, linehaul: Int64) -> Iterator[Line]:
    for held in trip.seasons:
        season, base = held.row, np.where(held.where[np.newaxis, :], linehaul, 0)
        yield Line(
            code="season",
            label=season.label,
            unit="%",
            quantity=base,
            rate=season.percent_ppm,
            amount=share(base, season.percent_ppm),
            of=LINEHAUL,
            cell=season.at.cell("percent_ppm"),
        )


def _ferry_lines(service: Service, trip: Trip, markup: Markup) -> Iterator[Line]:
    """Yield a line for each ferry on the lanes, for every vehicle that it carries."""
    for ferry, where in trip.ferries:
        row = fare_on(ferry, service.fares)
        assert row.amount_minor is not None, "a lane goes only by ferries that take vehicles"
        fare = marked_up(row.amount_minor, markup.extras_ppm)
        amount = np.where(where[np.newaxis, :], fare, 0)
        yield Line(
            code="ferry",
            label=ferry.ferry,
            unit="lump",
            quantity=ONE,
            rate=fare,
            amount=amount,
            cell=row.at.cell("amount_minor"),
        )


def _charge_line(
    row: ExtraCharge | Area,
    code: str,
    label: str,
    where: Bool,
    trip: Trip,
    markup: Markup,
    service: Service | None,
    bases: dict[str, Int64],
) -> Line:
    """Return the line of a row that charges a flat sum, a percentage or a rate a mile, where `where` (n, m) holds."""
    line = partial(Line, code=code, label=label)
    if row.charge == "per mile":
        assert row.rate_e4 is not None
        miles = trip.lanes.miles[np.newaxis, :]
        rate = row.rate_e4 * (PPM + markup.extras_ppm)
        return line(
            unit="mi",
            quantity=np.where(where, miles, 0),
            rate=rate,
            amount=np.where(where, miles_times(miles, rate, trip.currency), 0),
            cell=row.at.cell("rate_e4"),
        )
    if row.charge == "flat":
        assert row.amount_minor is not None
        fee = marked_up(row.amount_minor, markup.extras_ppm)
        return line(
            unit="lump",
            quantity=ONE,
            rate=fee,
            amount=np.where(where, fee, 0),
            cell=row.at.cell("amount_minor"),
        )
    assert row.percent_ppm is not None
    name = getattr(row, "of", None) or "linehaul"
    of = {"linehaul": LINEHAUL, "linehaul and fuel": (*LINEHAUL, *FUEL)}.get(name, ())
    ppm = row.percent_ppm if of else marked_up(row.percent_ppm, markup.extras_ppm)
    base = bases[name] if of else _value_base(name, trip.vehicles, service)
    return line(
        unit="%",
        quantity=np.where(where, base, 0),
        rate=ppm,
        amount=np.where(where, share(base, ppm), 0),
        of=of,
        cell=row.at.cell("percent_ppm"),
    )


def _value_base(name: str, vehicles: VehicleColumns, service: Service | None) -> Int64:
    """Return the vehicles' value (n, 1), or the part of it above the carrier's cover; an unknown value counts as none."""
    covered = 0
    if name == "value above cover":
        assert service is not None
        covered = service.row.cover_minor
    above: Int64 = np.maximum(vehicles.value_minor - covered, 0)[:, np.newaxis]
    return above
