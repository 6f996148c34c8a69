"""What every way costs at every stage, at selling rates and at cost: parts are priced once and gathered into columns."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import cache, cached_property, partial
from typing import Protocol

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.lines import NO_MARKUP, Line, selling_markup, sum_of, truck_lines
from shipcalc.pricing.loading import loading_lines
from shipcalc.pricing.loads import BY_TRUCK, Freight, Load, Mode, freight_of
from shipcalc.pricing.ocean import charged_by, ocean_lines
from shipcalc.pricing.on_carriage import on_carriage_lines
from shipcalc.pricing.passages import has_surcharge, passage_lines
from shipcalc.pricing.ports import arrival_port_lines, export_port_lines
from shipcalc.pricing.stage_charges import stage_lines
from shipcalc.pricing.truck import TruckPrice, truck_price
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.ports import Arrivals
from shipcalc.quote.network.territory import stages_without
from shipcalc.quote.network.trucks import trailer_of
from shipcalc.quote.price.seasonal import all_year_rows, seasonal_rows
from shipcalc.quote.price.terms import Term
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.loading import LoadingWay
from shipcalc.ratebook.rows.ways import PassageState
from shipcalc.records import dataclass, field

TO_PORT, ALL_THE_WAY = "pre-carriage", "main carriage"


class Priced(Protocol):
    """What prices one part of a way at the carriers' rates with a markup on them, in millionths."""

    def __call__(self, *, markup_ppm: int) -> Iterable[Line]:
        """Return its lines."""
        ...


@dataclass(eq=False)
class Part:
    """The lines of one part of a way over its own columns, at selling rates and at cost; priced when they are asked for.

    Most parts are asked for their cost only where a way of theirs is shown.
    """

    priced: Priced
    markup_ppm: int

    @cached_property
    def selling(self) -> tuple[Line, ...]:
        """The lines as they are sold."""
        return tuple(self.priced(markup_ppm=self.markup_ppm))

    @cached_property
    def cost(self) -> tuple[Line, ...]:
        """The same lines at cost."""
        return tuple(self.priced(markup_ppm=0))


def _no_lines(*, markup_ppm: int) -> tuple[Line, ...]:
    return ()


NO_PART = Part(_no_lines, 0)


@dataclass(frozen=True, slots=True, eq=False)
class Parts:
    """All parts that ways are made of, by what tells them apart.

    `seasonal` are the charges that hold for ships of a season only, one for each row (`seasonal.seasonal_rows`).
    Trucks stand as they are priced; their lines at cost, for the ways that are shown, are made when they are asked for.
    """

    trucks: tuple[TruckPrice, ...]
    truck_at_cost: Callable[[int], tuple[Line, ...]]
    export_ports: Mapping[Load, Part]
    sea: Sequence["SeaPart"]
    loading: Sequence["SeaPart"]
    arrival_ports: Mapping[Load, Part]
    last_leg: Mapping[str, Part]
    stages: Mapping[Load, Part]
    seasonal: tuple[Mapping[Load, Part], ...] = ()
    passages: Sequence["SeaPart"] = ()

    def sea_of(self, sea_lane: int) -> Iterator[tuple[Part, int]]:
        """Yield the parts that a sea lane is in, freight, loading and passages, each with its column there."""
        for sea in (*self.sea, *self.loading, *self.passages):
            if sea_lane in sea.lanes:
                yield sea.part, sea.lanes.index(sea_lane)

    def last_leg_by(self, trailer: str) -> Part:
        """Return the last leg by a kind of trailer, by the other kind where the country has only that."""
        return leg_by(self.last_leg, trailer)


def price_parts(request: Request, book: RateBook, network: Network) -> Parts:
    """Price every part once."""
    markup, currency, freight = selling_markup(book.pricing), book.pricing.currency, freight_of(request.vehicles)
    loads = tuple(dict.fromkeys([crossing.load for crossing in network.crossings]))
    leaving, arriving = [port.row for port in network.exports], [port.row for port in network.arrivals.ports]
    country = request.to.country

    def part(priced: Priced, markup_ppm: int = markup.port_ppm) -> Part:
        return Part(priced, markup_ppm)

    seasonal = seasonal_rows(book)
    always = all_year_rows(book)

    @cache
    def stages(mode: Mode, containers: int, season: int | None = None) -> Part:
        rows = always if season is None else seasonal[season : season + 1]
        lines = partial(stage_lines, rows, request.vehicles, mode=mode, containers=containers)
        return part(partial(lines, to_country=country, without=stages_without(country)))

    return Parts(
        trucks=tuple(truck_price(service, network.trip, markup) for service in network.services),
        truck_at_cost=cache(lambda number: truck_lines(network.services[number], network.trip, NO_MARKUP)),
        export_ports={
            load: part(partial(export_port_lines, load, freight, leaving, currency=currency)) for load in loads
        },
        sea=tuple(_sea_parts(network, freight, markup.ocean_ppm, currency)),
        loading=tuple(_loading_parts(network, request, book.loading_ways, markup.port_ppm)),
        arrival_ports={
            load: part(partial(arrival_port_lines, load, freight, arriving, currency=currency)) for load in loads
        },
        last_leg=last_legs(network.arrivals, freight, book),
        stages={load: stages(load.mode, load.containers) for load in (*loads, BY_TRUCK)},
        seasonal=tuple(
            {load: stages(load.mode, load.containers, season) for load in loads} for season in range(len(seasonal))
        ),
        passages=tuple(_passage_parts(network, request, book.passages, markup.ocean_ppm)),
    )


def last_legs(arrivals: Arrivals, freight: Freight, book: RateBook) -> dict[str, Part]:
    """Return the carriage from every arrival port to the buyer, by the kind of trailer."""
    miles = np.array([port.road.miles if port.road else 0 for port in arrivals.ports], dtype=np.int64)
    ferries, currency = [port.ferry for port in arrivals.ports], book.pricing.currency
    markup_ppm = selling_markup(book.pricing).port_ppm
    return {
        row.trailer: Part(partial(on_carriage_lines, row, miles, ferries, freight, currency=currency), markup_ppm)
        for row in arrivals.on_carriage
    }


def leg_by(legs: Mapping[str, Part], trailer: str) -> Part:
    """Return the last leg by a kind of trailer, by the other kind where the country has only that."""
    return legs.get(trailer) or next(iter(legs.values()), NO_PART)


@dataclass(frozen=True, slots=True, eq=False)
class SeaPart:
    """Crossings of one load, priced together: one column for each of their sea lanes."""

    part: Part
    lanes: tuple[int, ...]


def _sea_parts(network: Network, freight: Freight, markup_ppm: int, currency: str) -> Iterator[SeaPart]:
    together: dict[tuple[Load, str], list[int]] = {}
    for number, crossing in enumerate(network.crossings):
        together.setdefault((crossing.load, charged_by(crossing.service, crossing.load)), []).append(number)
    for (load, _), numbers in together.items():
        own = [network.crossings[number] for number in numbers]
        of_lane, nmi = np.repeat(np.arange(len(own)), [len(c) for c in own]), np.concatenate([c.nmi for c in own])
        priced = partial(ocean_lines, [c.service for c in own], of_lane, load, freight, nmi, currency=currency)
        lanes = np.flatnonzero(np.isin(network.sea.crossing, numbers))
        yield SeaPart(Part(priced, markup_ppm), tuple(lanes.tolist()))


def _loading_parts(
    network: Network, request: Request, ways: Sequence[LoadingWay], markup_ppm: int
) -> Iterator[SeaPart]:
    """Yield how the vehicles are loaded and unloaded, for the crossings of each mode."""
    modes = np.array([crossing.load.mode for crossing in network.crossings])
    services = [crossing.service.row for crossing in network.crossings]
    for mode in dict.fromkeys(modes.tolist()):
        lanes = np.flatnonzero(modes[network.sea.crossing] == mode)
        of_lane = network.sea.crossing[lanes]
        priced = partial(loading_lines, request.vehicles, services, of_lane, ways)
        yield SeaPart(Part(priced, markup_ppm), tuple(lanes.tolist()))


def _passage_parts(
    network: Network, request: Request, states: Sequence[PassageState], markup_ppm: int
) -> Iterator[SeaPart]:
    """Yield what lines ask for a passage, over the sea lanes that take it."""
    taken = [names for crossing in network.crossings for names in crossing.passages]
    for row in states:
        lanes = tuple(number for number, names in enumerate(taken) if row.passage.casefold() in names)
        if lanes and has_surcharge(row):
            yield SeaPart(Part(partial(passage_lines, row, request.vehicles), markup_ppm), lanes)


def stage_sums(
    network: Network, parts: Parts, ways: Ways, term: Term, seasonal: Sequence[np.ndarray] = ()
) -> dict[str, Int64]:
    """Return what is paid at every stage but cover, duty and tax over all ways (w,): by the buyer at cost.

    `seasonal` says for each part of a season for which ways it arises.
    """
    sums = Paid(len(ways), term, len(network.starts))
    for stage, where in ((TO_PORT, np.flatnonzero(ways.export >= 0)), (ALL_THE_WAY, np.flatnonzero(ways.export < 0))):
        if len(where):
            totals = truck_totals(network, parts, at_cost=not sums.is_sold(stage))
            sums.add(stage, where, totals[ways.truck[where], ways.export[where]])
    for stage, by_lane in _lane_sums(network, parts, term).items():
        sums.add(stage, slice(None), by_lane[ways.sea_lane])
    trailers = np.array([trailer_of(service) for service in network.services])
    for trailer in dict.fromkeys(trailers.tolist()):
        where = np.flatnonzero((ways.arrival >= 0) & (trailers[ways.truck] == trailer))
        sums.add_part(parts.last_leg_by(trailer), where, ways.arrival[where])
    for by_load, mask in zip(parts.seasonal, seasonal, strict=True):
        for number, load in enumerate(network.sea.loads):
            where = np.flatnonzero(mask)
            where = where[network.sea.load[ways.sea_lane[where]] == number]
            sums.add_part(by_load[load], where, np.zeros_like(where))
    return sums.by_stage


def _lane_sums(network: Network, parts: Parts, term: Term) -> dict[str, Int64]:
    """Return what is paid at every stage from port to port (z + 1,), whatever truck comes before; the last is without a ship."""
    lanes = network.sea
    sums = Paid(len(lanes) + 1, term, len(network.starts))
    add_between_ports(sums, network, parts)
    for number, load in enumerate(lanes.loads):
        own = np.flatnonzero(lanes.load == number)
        sums.add_part(parts.stages[load], own, np.zeros_like(own))
    sums.add_part(parts.stages[BY_TRUCK], slice(len(lanes), None), np.zeros(1, dtype=np.int64))
    return sums.by_stage


def add_between_ports(sums: "Paid", network: Network, parts: Parts) -> None:
    """Add what ports and ships take on every sea lane, whoever the buyer there is."""
    lanes = network.sea
    for number, load in enumerate(lanes.loads):
        own = np.flatnonzero(lanes.load == number)
        sums.add_part(parts.export_ports[load], own, lanes.export[own])
        sums.add_part(parts.arrival_ports[load], own, lanes.arrival[own])
    for sea in (*parts.sea, *parts.loading, *parts.passages):
        sums.add_part(sea.part, np.array(sea.lanes), np.arange(len(sea.lanes)))


def truck_totals(network: Network, parts: Parts, *, at_cost: bool) -> Int64:
    """Return what each truck service takes for all vehicles to each export port, and in the last column to the buyer."""
    totals = (
        sum_of(parts.truck_at_cost(number), price.total.shape) if at_cost else price.total
        for number, price in enumerate(parts.trucks)
    )
    return np.array([network.at_ends(total).sum(axis=1) for total in totals], dtype=np.int64)


@dataclass(slots=True, eq=False)
class Paid:
    """What is paid at every stage over all ways (w,), in minor units, while it is added up.

    `alone`: every vehicle is a shipment by itself, and all sums are (vehicles, w).
    """

    ways: int
    term: Term
    vehicles: int
    alone: bool = False
    by_stage: dict[str, Int64] = field(default_factory=dict)

    def is_sold(self, stage: str) -> bool:
        """Return whether the seller pays the stage, and so asks his own price for it."""
        return self.term.payer(stage) == "seller"

    def add(self, stage: str, where: np.ndarray | slice, amounts: Int64) -> None:
        """Add amounts to some of the ways."""
        shape = (self.vehicles, self.ways) if self.alone else (self.ways,)
        self.by_stage.setdefault(stage, np.zeros(shape, dtype=np.int64))[..., where] += amounts

    def add_part(self, part: Part, where: np.ndarray | slice, column: Int64) -> None:
        """Add a part's lines to some of the ways, each at its own column of the part."""
        if not len(column):
            return
        for stage in dict.fromkeys(line.stage for line in part.selling):
            lines = part.selling if self.is_sold(stage) else part.cost
            amounts = self._together([line for line in lines if line.stage == stage])
            self.add(stage, where, amounts[..., column] if amounts.shape[-1] > 1 else amounts)

    def _together(self, lines: Sequence[Line]) -> Int64:
        """Return the sum of lines over the vehicles (m or 1,), or for each of them (n or 1, m or 1)."""
        total: Int64 = np.zeros(1, dtype=np.int64)
        for line in lines:
            if self.alone:
                total = total + line.amount
                continue
            one_for_all = line.shared or line.amount.shape[0] == self.vehicles
            total = total + line.amount.sum(axis=0) * (1 if one_for_all else self.vehicles)
        return total
