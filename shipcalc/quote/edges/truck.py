"""The truck from the yard: to a port, to a border, or all the way to the door."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cache, cached_property, lru_cache
from typing import TYPE_CHECKING

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.areas import extra_days
from shipcalc.pricing.line import NO_MARKUP, Line, Markup
from shipcalc.pricing.lines import sum_of, truck_lines
from shipcalc.pricing.truck import TruckPrice, truck_prices
from shipcalc.quote.edges.edge import Refused, Words
from shipcalc.quote.edges.road import road_legs
from shipcalc.quote.model import LeftOut, Leg, Milestone
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.network.trucks import (
    find_trailer,
    miles_a_day,
    nobody,
    obstacles_on,
    pickup_days,
    service_dates,
)
from shipcalc.quote.price.marked_up import markup_on
from shipcalc.quote.price.parts import Charged, Group
from shipcalc.quote.request import Request
from shipcalc.quote.time.dated import Dated, Days, Span, step
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass, replace
from shipcalc.schedule.road import RoadDates, Window, days_of_delivery, driving_days, pickup_window
from shipcalc.schedule.working_days import YARD, working_day_from
from shipcalc.trade import AT_HOME, DRIVEN

if TYPE_CHECKING:
    from shipcalc.vehicles.vehicle import Vehicle

TO_PORT, ALL_THE_WAY = "pre-carriage", "main carriage"
BORDER_WAIT = "Not before its papers have been with customs at the border for 72 hours."


def ineligible(request: Request, book: RateBook, network: Network, ways: Ways) -> Refused:
    """Return which ways have a truck that does not take a vehicle to their end, and the trucks that reach no end at all."""
    prices = _prices(network, markup_on(request, book))
    reached = [network.at_ends(price.eligible).all(axis=1) for price in prices]
    at_ends = np.array(reached, dtype=np.bool_).reshape(len(prices), len(network.ends))
    idle = np.flatnonzero(~at_ends.any(axis=1)).tolist() if network.ends else ()
    idle = [number for number in idle if prices[number].service.offer is None]
    return ~at_ends[ways.truck, ways.export], tuple(_idle(network, prices[number]) for number in idle)


def _idle(network: Network, price: TruckPrice) -> LeftOut:
    in_the_way = obstacles_on(price, network.lane_of(network.ends[0]))
    reasons = "; ".join(obstacle.reason for obstacle in in_the_way)
    return LeftOut(carrier=price.service.row.carrier, trailer=find_trailer(price.service), reason=reasons)


def why_none(network: Network) -> str:
    """Return why no truck takes the vehicles to where any might, in the words of a transport at home."""
    lane_of = network.lane_of(network.ends[0])
    ordinary = [price for price in _prices(network, NO_MARKUP) if price.service.offer is None]
    return nobody([(price.service, obstacles_on(price, lane_of)) for price in ordinary])


@lru_cache(maxsize=2)
def _prices(network: Network, markup: Markup) -> tuple[TruckPrice, ...]:
    """Return every service as it is sold: asked for what it takes, and again for what that costs."""
    return truck_prices(network.services, network.trip, markup)


def lines(request: Request, book: RateBook, network: Network) -> Iterable[Charged]:
    """Return all services together: column truck × ends + end, the door last."""
    ends = np.append(network.sea.export, len(network.ends) - 1 if network.has_direct else -1)
    first = np.arange(len(network.services))[:, np.newaxis] * len(network.ends)
    return (
        Charged(_Trucks(network, _prices(network, markup_on(request, book))), np.where(ends < 0, -1, first + ends)),
    )


@dataclass(eq=False)
class _Trucks:
    """Every truck service to every end: a stage to the ports, another to the door. A vehicle's lane begins where it stands."""

    network: Network
    prices: Sequence[TruckPrice]

    @cached_property
    def stage_of(self) -> tuple[str, ...]:
        """The stage of a truck to each end."""
        to_door = AT_HOME if self.network.at_home else ALL_THE_WAY
        return tuple(TO_PORT if end >= 0 else to_door for end in self.network.ends)

    @property
    def stages(self) -> Iterable[str]:
        """The stages of all ends."""
        return dict.fromkeys(self.stage_of)

    @cached_property
    def cost(self) -> Callable[[int], tuple[Line, ...]]:
        """The lines of a service at cost, made when they are asked for."""
        return cache(lambda number: truck_lines(self.network.services[number], self.network.trip, NO_MARKUP))

    def amounts(self, stage: str, *, sold: bool, vehicles: int, alone: bool) -> Int64:
        """Return what each service takes for all vehicles to the ends of a stage, nothing to others."""
        assert not alone, "a list of vehicles that go alone compares trucks by itself"
        totals = [
            price.total if sold else sum_of(self.cost(number), price.total.shape)
            for number, price in enumerate(self.prices)
        ]
        own = [name == stage for name in self.stage_of]
        return np.concatenate([np.where(own, self.network.at_ends(total).sum(axis=1), 0) for total in totals])

    def groups(self, column: int, vehicles: "Sequence[Vehicle]") -> Iterator[Group]:
        """Yield the lines of each vehicle with one service to one end."""
        truck, end = divmod(column, len(self.network.ends))
        selling, cost, lanes = self.prices[truck].lines, self.cost(truck), self.network.lane_of(self.network.ends[end])
        for number, (vehicle, lane) in enumerate(zip(vehicles, lanes, strict=True)):
            yield Group(self.stage_of[end], selling, cost, number, lane, vehicle.stock_number)


def days(request: Request, book: RateBook, network: Network, ways: Ways, when: Days) -> Days:
    """Return the days on which the truck of every way is at its end; nothing is later until another edge says so."""
    trucks = _truck_days(request, book, network)
    there = trucks.at((ways.truck, ways.export))
    return Days(trucks, there, there, there, there, there, there)


def _truck_days(request: Request, book: RateBook, network: Network) -> Span:
    """Return the days of `truck_dates` on which each truck service (down) is at each end (across, the buyer last)."""
    lanes = [network.lane_of(end) for end in network.ends]
    miles, extra = network.trip.lanes.miles[lanes].max(axis=1), extra_days(book.areas, network.trip.lanes)[lanes]
    paces = np.array([miles_a_day(service, book) for service in network.services], dtype=np.int64)
    driving = driving_days(miles, book.pricing.road_speed_mph, paces)
    windows = [pickup_window(request.ready, *pickup_days(service, request)) for service in network.services]
    first, last = (_by_end(windows, end, network) for end in (0, 1))
    spare = np.array([[service.row.spare_days] for service in network.services], dtype=np.int64)
    latest = last + driving + spare + extra.max(axis=1)
    return Span(days_of_delivery(first + driving), days_of_delivery(latest))


def _by_end(windows: Sequence[Window], which: int, network: Network) -> Int64:
    """Return the first (0) or the last (1) day of pickup of each truck service (down) for each end (across)."""
    each = [
        [(window if end >= 0 else _border_window(window, network))[which].toordinal() for end in network.ends]
        for window in windows
    ]
    return np.array(each, dtype=np.int64).reshape(len(windows), len(network.ends))


def _border_window(pickup: Window, network: Network) -> Window:
    """Return the days of pickup of a truck that drives over the border: none before the papers' 72 hours are over."""
    if network.leaves_from is None:
        return pickup
    first = working_day_from(network.leaves_from, YARD)
    return max(pickup[0], first), max(pickup[1], first)


def truck_dates(one: OneWay) -> RoadDates:
    """Return the dates of a way's truck to its end: to the buyer's, it waits for the border's 72 hours."""
    network, lanes = one.network, one.network.lane_of(one.end)
    miles, extra = network.trip.lanes.miles[lanes].max(), extra_days(one.book.areas, network.trip.lanes)[lanes].max()
    not_before = network.leaves_from if one.end < 0 else None
    return service_dates(one.service, int(miles), int(extra), one.request, one.book, not_before=not_before)


def words(one: OneWay, dated: Dated) -> Words:
    """Return the road from each start; the pickup, and at home the delivery."""
    return Words(legs=tuple(_legs(one)), steps=tuple(_steps(one, dated)))


def _steps(one: OneWay, dated: Dated) -> Iterator[Milestone]:
    yield step("Picked up", dated.pickup, "pickup", _pickup_note(one, dated))
    if one.at_home:
        driven = dated.truck.driving_days
        told = "1 day of driving." if driven == 1 else f"{driven} days of driving."
        yield step("Delivered", dated.delivery, "delivery", told, office_note=dated.truck.note)


def _pickup_note(one: OneWay, dated: Dated) -> str:
    if dated.held:
        return f"Held in the yard for {dated.held} days, so that no storage is due at the port."
    leaves_from = one.network.leaves_from if one.end < 0 else None
    return BORDER_WAIT if leaves_from is not None and leaves_from > one.request.ready else ""


def _legs(one: OneWay) -> Iterator[Leg]:
    request, network, row = one.request, one.network, one.service.row
    numbers = [vehicle.stock_number for vehicle in request.vehicles]
    for number, _ in enumerate(dict.fromkeys(request.starts)):
        on_it = tuple(stock for stock, at in zip(numbers, network.starts, strict=True) if at == number)
        lane = network.lanes[network.lane_of(one.end)[network.starts.index(number)]]
        for part in road_legs(lane.start, lane.to, lane.road, lane.crossing):
            mode = part.mode if one.trailer or part.mode != "truck" else DRIVEN
            yield replace(part, mode=mode, carrier=row.carrier, vehicles=on_it, carrier_named=not row.private)
