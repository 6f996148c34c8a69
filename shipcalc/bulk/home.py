"""A block at home: the cheapest truck of each kind of trailer, by the same functions that a single quote is made of."""

from collections.abc import Iterator, Sequence
from datetime import date
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from shipcalc.bulk.answers import NO_CARRIER, NO_ROAD, NONE, NOT_HOME, REASONS, Answers, no_answers
from shipcalc.bulk.plan import Block, Plan, Same, dated
from shipcalc.errors import NoAnswer
from shipcalc.money import Int64
from shipcalc.places.place import Place
from shipcalc.places.road.lanes import lane_table
from shipcalc.places.road.miles import PlaceColumns, road_miles_columns, whole_miles
from shipcalc.places.road.reach import Land, are_joined, land_of
from shipcalc.pricing.alike import Alike, lanes_alike, lanes_at, vehicles_at
from shipcalc.pricing.areas import extra_days, lane_columns
from shipcalc.pricing.columns import Asked, LaneColumns, VehicleColumns, vehicle_columns
from shipcalc.pricing.many import NO_PRICE, cheapest, many_prices
from shipcalc.pricing.markups import selling_markup
from shipcalc.pricing.tariff import Service, Tariffs, compile_tariffs
from shipcalc.quote.explain.lead_times import with_lead
from shipcalc.quote.model import Wishes
from shipcalc.quote.network.distances import Lane, factor_rules, road_lanes
from shipcalc.quote.network.territory import is_home
from shipcalc.quote.network.trucks import find_trailer, miles_a_day, service_dates
from shipcalc.quote.request import Request
from shipcalc.records import dataclass, replace
from shipcalc.schedule.road import days_of_delivery, driving_days
from shipcalc.vehicles.vehicle import Vehicle

if TYPE_CHECKING:
    from shipcalc.pricing.columns import AnyFerry

Column = NDArray[np.signedinteger]


@dataclass(frozen=True, slots=True, eq=False)
class Ends:
    """The lanes from one start to some places (m,): their columns, which are alike, and which there are at all.

    `driving` (services, kinds of lanes) are the days on the road, `extra` (kinds of lanes) those that areas and ferries add.
    """

    lanes: LaneColumns
    alike: Alike
    why: NDArray[np.int16]
    driving: Column
    extra: Column


def answers_at_home(plan: Plan, block: Block) -> Answers:
    """Return the cheapest price for every vehicle × place × trailer of a block; places beyond the home roads have none."""
    shape = (len(block.vehicles), len(block.places), len(plan.trailers))
    found, carriers = no_answers(shape, ()), dict[str, int]()
    columns = vehicle_columns([plan.vehicles[number] for number in block.vehicles])
    setting_out = [(plan.starts[number], _ready(plan, number)) for number in block.vehicles]
    for start, ready in dict.fromkeys(setting_out):
        rows = np.array([number for number, own in enumerate(setting_out) if own == (start, ready)], dtype=np.int64)
        then = dated(Same(plan), ready)
        tariffs = compile_tariffs(then.book, plan.as_of)
        services = _best_covered_first(tariffs)
        ends = _ends(then, services, start, block.places)
        names = [carriers.setdefault(service.row.carrier, len(carriers)) for service in services]
        _fill(found, rows, then, tariffs, services, vehicles_at(columns, rows), ends, ready, np.array([*names, NONE]))
    return replace(found, carriers=tuple(carriers))


def _fill(
    found: Answers,
    rows: Int64,
    plan: Plan,
    tariffs: Tariffs,
    services: Sequence[Service],
    vehicles: VehicleColumns,
    ends: Ends,
    ready: date,
    names: Int64,
) -> None:
    """Write the answers of the vehicles of one start that may set out on the same day into their rows.

    `names` are the numbers of the services' carriers in the answers; the last is NONE.
    """
    asked, markup = Asked(pickup_day=ready), selling_markup(plan.book, "US")
    prices = many_prices(tariffs, services, vehicles, ends.lanes, asked, markup, alike=ends.alike)
    first_day, last_day = _service_days(plan, services, ready)
    kinds = len(ends.alike)
    at = (prices.vehicles.kind_of[:, np.newaxis] * kinds + ends.alike.kind_of[np.newaxis, :]).astype(np.int32)
    there = ends.why == 0
    at[:, ~there] = len(prices.vehicles) * kinds  # one more than there are: NONE
    miles = np.where(there, ends.lanes.miles, NONE)
    lanes = np.arange(kinds)
    day_0 = plan.ready.toordinal()
    first, last = first_day[:, np.newaxis] + ends.driving, last_day[:, np.newaxis] + ends.driving + ends.extra
    first, last = (days_of_delivery(days + day_0) - day_0 for days in (first, last))
    turn = last * len(services) + np.arange(len(services))[:, np.newaxis]
    for nth, trailer in enumerate(plan.trailers):
        fitting = [number for number, service in enumerate(services) if find_trailer(service) == trailer]
        best = cheapest(prices, fitting, plan.book.pricing.rounding_step_minor, turn)
        known = best.service >= 0
        days = (
            np.where(known, first[best.service, lanes], NONE),
            np.where(known, last[best.service, lanes], NONE),
        )
        columns = (
            (found.price, np.where(known, best.total, NONE)),
            (found.carrier, names[best.service]),
            (found.days_from, days[0]),
            (found.days_to, days[1]),
            (found.way, np.where(known, 0, NONE)),
            (found.why, np.where(known, 0, REASONS.index(NO_CARRIER))),
        )
        for column, by_kind in columns:
            column[rows, :, nth] = np.append(by_kind.ravel(), NONE).astype(column.dtype)[at]
        found.why[rows, :, nth] = np.where(there, found.why[rows, :, nth], ends.why)
        found.miles[rows, :, nth] = miles
    assert NO_PRICE not in found.price, "where there is no price there is no carrier"


def _best_covered_first(tariffs: Tariffs) -> tuple[Service, ...]:
    """Return the services so that of equal prices and days the first is the one that a quote shows (`quote.choices`).

    That is the better covered, then the upper in the sheet.
    """
    return tuple(sorted(tariffs.services, key=lambda service: -service.row.cover_minor))


def _ready(plan: Plan, vehicle: int) -> date:
    """Return the day on which a vehicle may set out: the plan's, or later where its title must be got first."""
    return with_lead(_request(plan, plan.vehicles[vehicle], plan.ready), plan.book, plan.as_of).request.ready


def _service_days(plan: Plan, services: Sequence[Service], ready: date) -> tuple[Column, Column]:
    """Return for each service the days from the plan's day to the first pickup, and to the last with the days to spare.

    With the days of driving, and at the last those of areas, they come to the day of delivery (`schedule.road_dates`).
    """
    request = _request(plan, plan.vehicles[0], ready)
    windows = [service_dates(service, 0, 0, request, plan.book).pickup for service in services]
    first, last = (np.array([(window[end] - plan.ready).days for window in windows], dtype=np.int64) for end in (0, 1))
    return first, last + np.array([max(service.row.spare_days, 0) for service in services], dtype=np.int64)


def _request(plan: Plan, vehicle: Vehicle, ready: date) -> Request:
    """Return a request of a vehicle and a day, at home: dates ask for no more of it."""
    place = plan.starts[0]
    return Request(vehicles=(vehicle,), starts=(place,), to=place, ready=ready, wishes=Wishes())


def _ends(plan: Plan, services: tuple[Service, ...], start: Place, places: range) -> Ends:
    paces = tuple(miles_a_day(service, plan.book) for service in services)
    return _known_ends(Same(plan), paces, start, places)


@lru_cache(maxsize=4)
def _known_ends(same: Same, paces: tuple[int, ...], start: Place, places: range) -> Ends:
    """Return the lanes from a start; blocks of the same places follow each other, so that few are remembered."""
    plan = same.plan
    to = plan.destinations.places[places.start : places.stop]
    columns = PlaceColumns.of(to)
    why = np.array(list(_why_not(start, to, _lands(same, places))), dtype=np.int16)
    road_mi = road_miles_columns(start, columns, factor_rules(plan.book), lanes=lane_table())
    miles = whole_miles(np.nan_to_num(road_mi))
    why[np.isnan(road_mi) & (why == 0)] = REASONS.index(NO_ROAD)
    ferries: list[AnyFerry | None] = [None] * len(to)
    for number in np.flatnonzero(why == REASONS.index(NO_ROAD)).tolist():
        lane = _lane_by_ferry(plan, start, to[number])
        if lane is not None and lane.crossing is not None:
            why[number], miles[number], ferries[number] = 0, lane.road.miles, lane.crossing.ferry
    prices = compile_tariffs(plan.book, plan.as_of).lanes
    lanes = lane_columns(PlaceColumns.of([start]), columns, miles, plan.book.areas, tuple(ferries), prices)
    alike = lanes_alike(lanes)
    speed_mph = plan.book.pricing.road_speed_mph
    driving = driving_days(miles[alike.first], speed_mph, np.array(paces, dtype=np.int64))
    return Ends(lanes, alike, why, driving, extra_days(plan.book.areas, lanes_at(lanes, alike.first)))


def _lane_by_ferry(plan: Plan, start: Place, to: Place) -> Lane | None:
    """Return the lane to a place that roads do not reach, None where no ferry takes vehicles there."""
    try:
        return road_lanes(plan.book, (start,), to)[0]
    except NoAnswer:
        return None


@lru_cache(maxsize=2)
def _lands(same: Same, places: range) -> tuple[Land, ...]:
    return tuple(land_of(place) for place in same.plan.destinations.places[places.start : places.stop])


def _why_not(start: Place, places: Sequence[Place], lands: Sequence[Land]) -> Iterator[int]:
    """Yield for each place why a truck does not get there, 0 where it does."""
    own = land_of(start)
    for place, land in zip(places, lands, strict=True):
        if not is_home(place.country, place.subdivision):
            yield REASONS.index(NOT_HOME)
        else:
            yield 0 if are_joined(start, own, place, land) else REASONS.index(NO_ROAD)
