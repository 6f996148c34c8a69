"""What every way costs at every stage, at selling rates and at cost: parts are priced once and gathered into columns."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import field
from functools import cache
from typing import TypeVar

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.lines import NO_MARKUP, Line, Markup, selling_markup
from shipcalc.pricing.loads import BY_TRUCK, Load, freight_of
from shipcalc.pricing.ocean import ocean_lines
from shipcalc.pricing.on_carriage import on_carriage_lines
from shipcalc.pricing.ports import arrival_port_lines, export_port_lines
from shipcalc.pricing.stage_charges import stage_lines
from shipcalc.pricing.truck import TruckPrice, truck_price
from shipcalc.quote.candidates import trailer_of
from shipcalc.quote.overseas.columns import Ways
from shipcalc.quote.overseas.network import Network
from shipcalc.quote.request import Request
from shipcalc.quote.terms import Term
from shipcalc.quote.territory import stages_without
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass

TO_PORT, ALL_THE_WAY = "pre-carriage", "main carriage"


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """The lines of one part of a way over its own columns, at selling rates and at cost."""

    selling: tuple[Line, ...]
    cost: tuple[Line, ...]


NO_PART = Part((), ())


@dataclass(frozen=True, slots=True, eq=False)
class Parts:
    """All parts that ways are made of, by what tells them apart.

    Trucks, the dearest to price, are priced at cost only when asked for: for the ways that are shown.
    """

    trucks: tuple[TruckPrice, ...]
    truck_at_cost: Callable[[int], TruckPrice]
    export_ports: Mapping[Load, Part]
    sea: Mapping[int, Part]
    arrival_ports: Mapping[Load, Part]
    last_leg: Mapping[str, Part]
    stages: Mapping[Load, Part]

    def last_leg_by(self, trailer: str) -> Part:
        """Return the last leg by a kind of trailer, by the other kind where the country has only that."""
        return self.last_leg.get(trailer) or next(iter(self.last_leg.values()), NO_PART)


def price_parts(request: Request, book: RateBook, network: Network) -> Parts:
    """Price every part once at selling rates and once at cost."""
    markup = selling_markup(book.pricing)
    selling, cost = (_priced(request, book, network, rates) for rates in (markup, NO_MARKUP))
    return Parts(
        trucks=tuple(truck_price(service, network.trip, markup) for service in network.services),
        truck_at_cost=cache(lambda number: truck_price(network.services[number], network.trip, NO_MARKUP)),
        export_ports=_joined(selling.export_ports, cost.export_ports),
        sea=_joined(selling.sea, cost.sea),
        arrival_ports=_joined(selling.arrival_ports, cost.arrival_ports),
        last_leg=_joined(selling.last_leg, cost.last_leg),
        stages=_joined(selling.stages, cost.stages),
    )


@dataclass(frozen=True, slots=True, eq=False)
class _Priced:
    """The lines of all parts but the trucks at one set of rates."""

    export_ports: Mapping[Load, Sequence[Line]]
    sea: Mapping[int, Sequence[Line]]
    arrival_ports: Mapping[Load, Sequence[Line]]
    last_leg: Mapping[str, Sequence[Line]]
    stages: Mapping[Load, Sequence[Line]]


def _priced(request: Request, book: RateBook, network: Network, markup: Markup) -> _Priced:
    currency, port_ppm, freight = book.pricing.currency, markup.port_ppm, freight_of(request.vehicles)
    loads = tuple(dict.fromkeys([crossing.load for crossing in network.crossings]))
    leaving, arriving = [port.row for port in network.exports], [port.row for port in network.arrivals.ports]
    miles = np.array([port.road.miles if port.road else 0 for port in network.arrivals.ports], dtype=np.int64)
    return _Priced(
        export_ports={
            load: export_port_lines(load, freight, leaving, markup_ppm=port_ppm, currency=currency) for load in loads
        },
        sea={
            number: ocean_lines(c.service, c.load, freight, c.nmi, markup_ppm=markup.ocean_ppm, currency=currency)
            for number, c in enumerate(network.crossings)
        },
        arrival_ports={
            load: arrival_port_lines(load, freight, arriving, markup_ppm=port_ppm, currency=currency) for load in loads
        },
        last_leg={
            row.trailer: tuple(on_carriage_lines(row, miles, len(freight), markup_ppm=port_ppm, currency=currency))
            for row in network.arrivals.on_carriage
        },
        stages={
            load: tuple(
                stage_lines(
                    book.stage_charges,
                    load,
                    request.vehicles,
                    to_country=request.to.country,
                    without=stages_without(request.to.country),
                    markup_ppm=port_ppm,
                )
            )
            for load in (*loads, BY_TRUCK)
        },
    )


Key = TypeVar("Key")


def _joined(selling: Mapping[Key, Sequence[Line]], cost: Mapping[Key, Sequence[Line]]) -> Mapping[Key, Part]:
    return {key: Part(tuple(lines), tuple(cost[key])) for key, lines in selling.items()}


def stage_sums(network: Network, parts: Parts, ways: Ways, term: Term) -> dict[str, Int64]:
    """Return what is paid at every stage but cover, duty and tax over all ways (w,): by the buyer at cost."""
    sums = _Paid(len(ways), term, len(network.starts))
    for stage, where in ((TO_PORT, np.flatnonzero(ways.export >= 0)), (ALL_THE_WAY, np.flatnonzero(ways.export < 0))):
        if len(where):
            prices = parts.trucks if sums.is_sold(stage) else tuple(map(parts.truck_at_cost, range(len(parts.trucks))))
            sums.add(stage, where, truck_totals(network, prices)[ways.truck[where], ways.export[where]])
    for stage, by_lane in _lane_sums(network, parts, term).items():
        sums.add(stage, slice(None), by_lane[ways.sea_lane])
    trailers = np.array([trailer_of(service) for service in network.services])
    for trailer in dict.fromkeys(trailers.tolist()):
        where = np.flatnonzero((ways.arrival >= 0) & (trailers[ways.truck] == trailer))
        sums.add_part(parts.last_leg_by(trailer), where, ways.arrival[where])
    return sums.by_stage


def _lane_sums(network: Network, parts: Parts, term: Term) -> dict[str, Int64]:
    """Return what is paid at every stage from port to port (z + 1,), whatever truck comes before; the last is without a ship."""
    lanes = network.sea
    sums = _Paid(len(lanes) + 1, term, len(network.starts))
    for number, load in enumerate(lanes.loads):
        own = np.flatnonzero(lanes.load == number)
        sums.add_part(parts.export_ports[load], own, lanes.export[own])
        sums.add_part(parts.arrival_ports[load], own, lanes.arrival[own])
        sums.add_part(parts.stages[load], own, np.zeros_like(own))
    for number, first in enumerate(lanes.first.tolist()):
        count = len(network.crossings[number])
        sums.add_part(parts.sea[number], slice(first, first + count), np.arange(count))
    sums.add_part(parts.stages[BY_TRUCK], slice(len(lanes), None), np.zeros(1, dtype=np.int64))
    return sums.by_stage


def truck_totals(network: Network, prices: Sequence[TruckPrice]) -> Int64:
    """Return what each truck service takes for all vehicles to each export port, and in the last column to the buyer."""
    each = np.arange(len(network.starts))
    totals = [[price.total[each, network.lane_of(end)].sum() for end in network.ends] for price in prices]
    return np.array(totals, dtype=np.int64)


@dataclass(slots=True, eq=False)
class _Paid:
    """What is paid at every stage over all ways (w,), in minor units, while it is added up."""

    ways: int
    term: Term
    vehicles: int
    by_stage: dict[str, Int64] = field(default_factory=dict)

    def is_sold(self, stage: str) -> bool:
        """Return whether the seller pays the stage, and so asks his own price for it."""
        return self.term.payer(stage) == "seller"

    def add(self, stage: str, where: np.ndarray | slice, amounts: Int64) -> None:
        """Add amounts to some of the ways."""
        self.by_stage.setdefault(stage, np.zeros(self.ways, dtype=np.int64))[where] += amounts

    def add_part(self, part: Part, where: np.ndarray | slice, column: Int64) -> None:
        """Add a part's lines to some of the ways, each at its own column of the part."""
        if not len(column):
            return
        for stage in dict.fromkeys(line.stage for line in part.selling):
            lines = part.selling if self.is_sold(stage) else part.cost
            amounts = self._together([line for line in lines if line.stage == stage])
            self.add(stage, where, amounts[column] if len(amounts) > 1 else np.broadcast_to(amounts, column.shape))

    def _together(self, lines: Sequence[Line]) -> Int64:
        """Return the sum of lines over the vehicles (m or 1,)."""
        total: Int64 = np.zeros(1, dtype=np.int64)
        for line in lines:
            one_for_all = line.shared or line.amount.shape[0] == self.vehicles
            total = total + line.amount.sum(axis=0) * (1 if one_for_all else self.vehicles)
        return total
