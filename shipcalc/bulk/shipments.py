"""The vehicles of one start as shipments, each by itself: what trucks, ports and ships take for them, and customs of them."""

from collections.abc import Callable, Hashable, Iterable, Sequence
from functools import cached_property, partial
from itertools import chain
from typing import TypeVar

import numpy as np

from shipcalc.bulk.fleet import Fleet, carried, fleet_of
from shipcalc.bulk.landfalls import Landfall, road_all_the_way
from shipcalc.bulk.plan import Plan, Same
from shipcalc.bulk.sailings import Sailings, sailings
from shipcalc.bulk.sums import Duty, alike
from shipcalc.money import Int64
from shipcalc.places.place import Place
from shipcalc.pricing.columns import Bool
from shipcalc.pricing.landed import applying_import_charges, asks_of_vehicle
from shipcalc.pricing.line import NO_MARKUP
from shipcalc.pricing.lines import sum_of, truck_lines
from shipcalc.pricing.loads import BY_TRUCK, Freight, cannot_be_measured, freight_of
from shipcalc.pricing.markups import alike_abroad, selling_markup
from shipcalc.pricing.stage_charges import arises, is_for
from shipcalc.pricing.truck import truck_price
from shipcalc.quote.choose.ways import term_for
from shipcalc.quote.edges import arrival_port, export_port, ocean
from shipcalc.quote.edges.stages import charges
from shipcalc.quote.edges.truck import TO_PORT
from shipcalc.quote.explain.lead_times import kind_of_destination, kind_of_vehicle, with_lead
from shipcalc.quote.model import Wishes
from shipcalc.quote.network.distances import Lane
from shipcalc.quote.network.territory import is_domestic, stages_without
from shipcalc.quote.network.trucks import find_trailer, truck_trip
from shipcalc.quote.price.gathered import Paid
from shipcalc.quote.price.landing import as_dearest, customs_of, local_minor, with_rates
from shipcalc.quote.price.seasonal import all_year_rows, each_season, seasonal_rows
from shipcalc.quote.price.terms import Term
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.remembered import remembered_by_book
from shipcalc.ratebook.rows.stage_charges import StageCharge
from shipcalc.records import dataclass
from shipcalc.trade import OCEAN_MODES
from shipcalc.vehicles.vehicle import Vehicle

Known = TypeVar("Known")
Table = TypeVar("Table", Int64, Bool)
_DEAREST = np.iinfo(np.int64).max
ByStage = dict[str, Int64]


@dataclass(frozen=True, slots=True, eq=False)
class Trucks:
    """What each truck takes for each vehicle over some lanes (n, trucks, lanes), sold and at cost, and which it takes at all."""

    sold: Int64
    at_cost: Int64
    eligible: Bool

    def price(self, term: Term, stage: str) -> Int64:
        """Return what is counted for them at a stage: at cost where the buyer pays it."""
        return self.sold if term.sells(stage) else self.at_cost


@dataclass(frozen=True, slots=True, eq=False)
class Charges:
    """The charges by stage of a country (n, loads + 1), the last without a ship; and those of each season."""

    always: ByStage
    seasonal: tuple[ByStage, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Leaving:
    """Some of the vehicles, by position: ready on the same day, those of one kind for what takes days before a ship, and to
    countries that are `sold` to alike.
    """

    rows: Int64
    request: Request
    kind: Hashable
    sold: Hashable


class Shipments:
    """The vehicles of one start in a block; what is worked out for some of its places is kept for the others."""

    def __init__(self, plan: Plan, places: range, start: Place, vehicles: tuple[Vehicle, ...]) -> None:
        self.plan = plan
        self.places = places
        self.start = start
        self.vehicles = vehicles
        self._known: dict[Hashable, object] = {}

    def once(self, key: Hashable, made: Callable[[], Known]) -> Known:
        """Return what was made for a key, made now if it was not."""
        if key not in self._known:
            self._known[key] = made()
        return self._known[key]  # type: ignore[return-value]

    def of_plan(self, plan: Plan, rows: Int64) -> "Shipments":
        """Return some of the vehicles, by position, as shipments of another plan, the same ones each time."""
        vehicles = tuple(self.vehicles[row] for row in rows.tolist())
        key = ("of plan", id(plan), tuple(rows.tolist()))
        return self.once(key, lambda: Shipments(plan, self.places, self.start, vehicles))

    @property
    def margin_minor(self) -> int:
        """The least that a whole shipment brings."""
        return self.plan.book.pricing.least_abroad_minor

    @cached_property
    def fleet(self) -> Fleet:
        """The ships that these vehicles may go with."""
        return fleet_of(Same(self.plan), self.places, self.start)

    @cached_property
    def freight(self) -> Freight:
        """The vehicles as freight."""
        return freight_of(self.vehicles)

    @cached_property
    def values(self) -> Int64:
        """What each vehicle is worth (n,), nothing where that is not known."""
        return np.array([vehicle.value_minor or 0 for vehicle in self.vehicles], dtype=np.int64)

    @cached_property
    def has_value(self) -> Bool:
        """Whether that is known (n,)."""
        return np.array([vehicle.value_minor is not None for vehicle in self.vehicles], dtype=np.bool_)

    @cached_property
    def carried(self) -> Bool:
        """Which vehicles can go by which sea lanes (n, z)."""
        return carried(self.vehicles, self.fleet, self.plan.book)

    def request(self, to: Place, rows: Sequence[int] = ()) -> Request:
        """Return a request for some of the vehicles, all where none is named."""
        own = tuple(self.vehicles[row] for row in rows) if rows else self.vehicles
        starts = (self.start,) * len(own)
        return Request(vehicles=own, starts=starts, to=to, ready=self.plan.ready, wishes=Wishes())

    def road(self, landfall: Landfall) -> Lane | None:
        """Return the road all the way to a place, None where none leads there."""
        return self.once(("road", landfall.place), lambda: road_all_the_way(self.plan, self.start, landfall))

    def leaving(self, to: Place) -> tuple[Leaving, ...]:
        """Return the vehicles in groups that leave for a place alike."""
        book = self.plan.book
        slow = tuple(row for row in seasonal_rows(book) if row.takes_days and is_for(row, to.country))
        kind = kind_of_destination(self.start, to, book), alike_abroad(book, to.country)
        key = ("leaving", kind, tuple(map(id, slow)), to.country if slow else "")
        return self.once(key, lambda: tuple(self._leaving(to, slow)))

    def _leaving(self, to: Place, slow: Sequence[StageCharge]) -> list[Leaving]:
        plan = self.plan
        groups: dict[Hashable, tuple[Request, Hashable, list[int]]] = {}
        known: dict[Hashable, Request] = {}
        for row, vehicle in enumerate(self.vehicles):
            own = kind_of_vehicle(vehicle, plan.book, plan.as_of)
            if own not in known:
                known[own] = with_lead(self.request(to, (row,)), plan.book, plan.as_of).request
            request = known[own]
            meets = [
                arises(each, (vehicle,), mode=mode, to_country=to.country) for each in slow for mode in OCEAN_MODES
            ]
            kind = (*map(id, slow), *meets) if any(meets) else ()
            groups.setdefault((request.ready, kind), (request, kind, []))[2].append(row)
        sold = alike_abroad(plan.book, to.country)
        return [Leaving(np.array(rows), request, kind, sold) for (request, kind, rows) in groups.values()]

    def sailings(self, leaving: Leaving) -> Sailings:
        """Return the ways by ship of a group."""
        plan, request = self.plan, leaving.request
        key = ("sailings", request.ready, leaving.kind)
        return self.once(key, lambda: sailings(self.fleet, request, plan.book, plan.trailers))

    def to_ports(self, leaving: Leaving) -> Trucks:
        """Return what trucks take to every export port on a group's day, for all vehicles."""
        key = ("to ports", leaving.request.ready, leaving.sold)
        return self.once(key, lambda: self.trucks(leaving, self.fleet.network.lanes))

    def trucks(self, leaving: Leaving, lanes: tuple[Lane, ...]) -> Trucks:
        """Return what trucks take over some lanes on a group's day, for all vehicles."""
        plan = self.plan
        request = Request(
            vehicles=self.vehicles,
            starts=(self.start,) * len(self.vehicles),
            to=leaving.request.to,
            ready=leaving.request.ready,
            wishes=Wishes(),
        )
        services, trip = truck_trip(request, plan.book, lanes, plan.as_of, alone=True)
        own = [service for service in services if find_trailer(service)]
        shape, markup = (len(self.vehicles), len(lanes)), selling_markup(plan.book, leaving.request.to.country)
        none: Int64 = np.zeros(shape, dtype=np.int64)
        prices = [truck_price(service, trip, markup) for service in own]
        return Trucks(
            sold=_stacked([price.total for price in prices], none),
            at_cost=_stacked([sum_of(truck_lines(service, trip, NO_MARKUP), shape) for service in own], none),
            eligible=_stacked([price.eligible for price in prices], none.astype(np.bool_)),
        )

    def cheapest(self, leaving: Leaving, term: Term) -> Int64:
        """Return what the cheapest of trucks that are together takes for each vehicle (n, together), 0 where none takes it."""
        key = ("cheapest", leaving.request.ready, leaving.kind, leaving.sold, term.payer(TO_PORT))
        return self.once(key, lambda: self._of_trucks(leaving, self.to_ports(leaving).price(term, TO_PORT)))

    def _of_trucks(self, leaving: Leaving, prices: Int64) -> Int64:
        eligible, found = self.to_ports(leaving).eligible, np.zeros_like(self.reached(leaving), dtype=np.int64)
        for number, one in enumerate(self.sailings(leaving).trucks):
            at = (slice(None), list(one.trucks), one.export)
            least = np.where(eligible[at], prices[at], _DEAREST).min(axis=1)
            found[:, number] = np.where(least < _DEAREST, least, 0)
        return found

    def reached(self, leaving: Leaving) -> Bool:
        """Return which vehicles any of the trucks takes that are together (n, together)."""
        key = ("reached", leaving.request.ready, leaving.kind)
        return self.once(key, lambda: self._reached(leaving))

    def promising(self, leaving: Leaving, term: Term) -> Bool:
        """Return which ways by ship (k,) may be the cheapest for any vehicle.

        Of what differs in truck and sailing alone, the price rises with the truck's: by a step of rounding or more, and it is
        dearer for certain, sooner or not.
        """
        key = ("promising", leaving.request.ready, leaving.kind, leaving.sold, term.payer(TO_PORT))
        return self.once(key, lambda: self._promising(leaving, term))

    def _promising(self, leaving: Leaving, term: Term) -> Bool:
        if self.margin_minor:  # a dearer truck that costs us less may come to a lower price
            return np.ones(len(self.sailings(leaving).together), dtype=np.bool_)
        table, prices = self.sailings(leaving), self.cheapest(leaving, term)
        step = max(self.plan.book.pricing.rounding_step_minor, 1)
        dear = np.where(self.reached(leaving), prices, _DEAREST - step)
        may = np.zeros((len(table.sets), prices.shape[1]), dtype=np.bool_)
        for number, rivals in enumerate(table.sets):
            own = dear[:, list(rivals)]
            least = own.min(axis=1, keepdims=True)
            may[number, list(rivals)] = ((own < least + step) & (own < _DEAREST - step)).any(axis=0)
        return may[table.rivals, table.together]

    def _reached(self, leaving: Leaving) -> Bool:
        eligible, together = self.to_ports(leaving).eligible, self.sailings(leaving).trucks
        columns = [eligible[:, list(one.trucks), one.export].any(axis=1) for one in together]
        return np.stack(columns, axis=1) if columns else np.zeros((len(self.vehicles), 0), dtype=np.bool_)

    def is_by_sea_alone(self, landfall: Landfall) -> bool:
        """Return whether the delivery term is one that only ships suit on which nothing is handed over in a container."""
        term, _ = term_for(self.request(landfall.place), self.plan.book, to_door=landfall.arrivals.arrive)
        return term.sea_only

    def between_ports(self, term: Term, to: Place) -> ByStage:
        """Return what ports and ships take on every sea lane (n, z), as it is sold to a place's country."""
        key = ("ports", term, alike_abroad(self.plan.book, to.country))
        return self.once(key, lambda: self._between_ports(term, to))

    def _between_ports(self, term: Term, to: Place) -> ByStage:
        """Return it for the vehicles whose sizes are known, and for the others: what is quoted by measure is not for these."""
        groups: dict[bool, list[int]] = {}
        for row, vehicle in enumerate(self.vehicles):
            groups.setdefault(bool(cannot_be_measured((vehicle,))), []).append(row)
        tables = [self._between_ports_of(rows, term, to) for rows in groups.values()]
        if len(tables) == 1:
            return tables[0]
        return {stage: together([table.get(stage) for table in tables], groups.values()) for stage in chain(*tables)}

    def _between_ports_of(self, rows: Sequence[int], term: Term, to: Place) -> ByStage:
        network, request = self.fleet.network, self.request(to, rows)
        sums = Paid(len(network.sea), term, len(rows), alone=True)
        for edge in (export_port, ocean, arrival_port):
            sums.add_lanes(edge.lines(request, self.plan.book, network))
        return alike(term, sums.by_stage)

    def charges(self, term: Term, country: str) -> Charges:
        """Return the charges by stage on the way to a country."""
        rows = rows_for(self.plan.book, country)
        key = ("charges", term, rows, stages_without(country), alike_abroad(self.plan.book, country))
        return self.once(key, lambda: self._charges(term, country))

    def _charges(self, term: Term, country: str) -> Charges:
        book = self.plan.book

        def summed(rows: tuple[StageCharge, ...]) -> ByStage:
            loads = (*self.fleet.network.sea.loads, BY_TRUCK)
            sums = Paid(len(loads), term, len(self.vehicles), alone=True)
            for number, load in enumerate(loads):
                part = charges(rows, self.vehicles, load, country, book, alone=True)
                sums.add_part(part, np.array([number]), np.zeros(1, dtype=np.int64))
            return alike(term, sums.by_stage)

        return Charges(summed(all_year_rows(book)), tuple(summed(rows) for rows in each_season(book)))

    def duties(self, country: str) -> tuple[Int64, tuple[Duty, ...]]:
        """Return what a country's customs ask, and which of it of each vehicle (n,): -1, nothing, where no value is known."""
        return self.once(("duties", country), lambda: self._duties(country))

    def _duties(self, code: str) -> tuple[Int64, tuple[Duty, ...]]:
        book, day = self.plan.book, self.plan.as_of
        country, rows = customs_of(book, code, day)
        group_of: Int64 = np.full(len(self.vehicles), -1, dtype=np.int64)
        if is_domestic(code) or country is None or not rows:
            return group_of, ()
        known, _ = with_rates(rows, country, book, day)
        asking = [row for row in known if asks_of_vehicle(row)]
        duties: dict[tuple[int, ...], Duty] = {}
        for number in np.flatnonzero(self.has_value).tolist():
            vehicle = as_dearest(self.vehicles[number], known, country, book, day)
            applies = partial(applying_import_charges, vehicle=vehicle, country=code, treatment="ordinary", day=day)
            kind = tuple(map(id, applies(asking)))
            if kind not in duties:
                rows = applies(known)
                duties[kind] = Duty(rows, local_minor(rows, country, book, day))
            group_of[number] = list(duties).index(kind)
        return group_of, tuple(duties.values())


def together(tables: Sequence[Int64 | None], rows: Iterable[Sequence[int]]) -> Int64:
    """Return tables (n, m) of some of the vehicles each as one table of all; None is nothing at all."""
    own = list(rows)
    some = next(table for table in tables if table is not None)
    found: Int64 = np.zeros((sum(map(len, own)), some.shape[-1]), dtype=np.int64)
    for table, numbers in zip(tables, own, strict=True):
        if table is not None:
            found[numbers] = table
    return found


def _stacked(tables: Sequence[Table], none: Table) -> Table:
    """Return tables (n, m) one behind the other (n, tables, m)."""
    return np.stack(tables, axis=1) if tables else np.stack([none], axis=1)[:, :0]


def lacks_duty(country: str, plan: Plan, has_value: Bool) -> Bool:
    """Return for which vehicles the customs of a country will ask for something that no figure is known for."""
    row, rows = customs_of(plan.book, country, plan.as_of)
    nobody_knows = row is None or not rows
    return np.zeros_like(has_value) if is_domestic(country) else nobody_knows | ~has_value


@remembered_by_book(1_024)
def rows_for(book: RateBook, country: str) -> tuple[int, ...]:
    """Return the charges by stage, by number, that may arise on the way to a country."""
    return tuple(number for number, row in enumerate(book.stage_charges) if is_for(row, country))
