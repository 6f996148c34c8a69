"""The parts of all ways, priced once and gathered into the sums that are paid at every stage."""

from collections.abc import Mapping, Sequence
from functools import cache

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.lines import NO_MARKUP, Line, selling_markup, sum_of, truck_lines
from shipcalc.pricing.truck import truck_price
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.trucks import trailer_of
from shipcalc.quote.price.parts import TO_PORT, Part, Parts, road_stage
from shipcalc.quote.price.terms import Term
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass, field


def price_parts(request: Request, book: RateBook, network: Network) -> Parts:
    """Price every part once."""
    markup = selling_markup(book.pricing)
    parts = Parts(
        trucks=tuple(truck_price(service, network.trip, markup) for service in network.services),
        truck_at_cost=cache(lambda number: truck_lines(network.services[number], network.trip, NO_MARKUP)),
    )
    if network.at_home:
        return parts
    # Late: what is priced beside trucks, no quote at home need import.
    from shipcalc.quote.price.sea_parts import with_ports_and_ships

    return with_ports_and_ships(parts, request, book, network)


def stage_sums(
    network: Network, parts: Parts, ways: Ways, term: Term, seasonal: Sequence[np.ndarray] = ()
) -> dict[str, Int64]:
    """Return what is paid at every stage but cover, duty and tax over all ways (w,): by the buyer at cost.

    `seasonal` says for each part of a season for which ways it arises.
    """
    sums = Paid(len(ways), term, len(network.starts))
    to_door = ways.export < 0
    for stage, where in ((TO_PORT, np.flatnonzero(~to_door)), (road_stage(network), np.flatnonzero(to_door))):
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
    sums.add_part(parts.by_road, slice(len(lanes), None), np.zeros(1, dtype=np.int64))
    return sums.by_stage


def add_between_ports(sums: "Paid", network: Network, parts: Parts) -> None:
    """Add what ports and ships take on every sea lane, whoever the buyer there is."""
    lanes = network.sea
    for number, load in enumerate(lanes.loads):
        own = np.flatnonzero(lanes.load == number)
        sums.add_part(parts.export_ports[load], own, lanes.export[own], parts.held)
        sums.add_part(parts.arrival_ports[load], own, lanes.arrival[own], parts.held)
    for sea in (*parts.sea, *parts.loading, *parts.passages):
        sums.add_part(sea.part, np.array(sea.lanes), np.arange(len(sea.lanes)))


def truck_totals(network: Network, parts: Parts, *, at_cost: bool) -> Int64:
    """Return what each truck service takes for all vehicles to each export port, and in the last column to the buyer."""
    totals = (
        sum_of(parts.truck_at_cost(number), price.total.shape) if at_cost else price.total
        for number, price in enumerate(parts.trucks)
    )
    return np.array([network.at_ends(total).sum(axis=1) for total in totals], dtype=np.int64)


NOTHING_HELD: Mapping[str, np.ndarray] = {}


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

    def add_part(
        self, part: Part, where: np.ndarray | slice, column: Int64, held: Mapping[str, np.ndarray] = NOTHING_HELD
    ) -> None:
        """Add a part's lines to some of the ways, each at its own column of the part.

        `held` says of stages which ways have them in other lines.
        """
        if not len(column):
            return
        for stage in dict.fromkeys(line.stage for line in part.selling):
            lines = part.selling if self.is_sold(stage) else part.cost
            amounts = self._together([line for line in lines if line.stage == stage])
            own, at = where, column
            if stage in held:
                own, at = (each[~held[stage][where]] for each in (np.asarray(where), column))
            self.add(stage, own, amounts[..., at] if amounts.shape[-1] > 1 else amounts)

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
