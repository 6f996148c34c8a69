"""The best ways by ship to one place, for vehicles that leave alike.

First every way is priced with the cheapest truck that is in time for its ship. A dearer truck of the same trailer can come to the
same rounded price, and a quote then shows the one whose row stands first: so what is equal to the best is priced once more, truck
by truck. Where the whole shipment has a least margin, a dearer truck that costs us less can even be cheaper: so all ways are.
"""

from collections.abc import Iterator

import numpy as np

from shipcalc.bulk.best import NO_WAY, Best, all_rows, lowest, nothing_found, rank_of, taken
from shipcalc.bulk.landfalls import Landfall
from shipcalc.bulk.last_legs import kinds_of, last_legs
from shipcalc.bulk.shipments import Leaving, Shipments
from shipcalc.bulk.sums import Cells, Least, cells_of, come_to, first_alike
from shipcalc.money import Int64
from shipcalc.pricing.columns import Bool
from shipcalc.quote.choose.choices import beyond_the_port
from shipcalc.quote.choose.ways import cover_conditions, term_for
from shipcalc.quote.edges.ocean import most_of_the_road
from shipcalc.quote.edges.on_carriage import days_driven
from shipcalc.quote.edges.truck import TO_PORT
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.price.marine_cover import cover_row
from shipcalc.quote.price.terms import Term
from shipcalc.ratebook.rows.marine_cover import MarineCover
from shipcalc.records import dataclass, replace
from shipcalc.trade import CROSSING_BY_MODE


@dataclass(frozen=True, slots=True, eq=False)
class Offered:
    """The ways by ship to a place, as columns (k,): `at` are their positions among all sailings, `ways` arrive at its own ports.

    Days count from the plan's day; `beyond` is what the way on from a port may cost, for the comparison alone.
    """

    at: Int64
    ways: Ways
    term: Term
    days_from: Int64
    days_to: Int64
    shelter: Int64
    beyond: Int64
    covers: tuple[MarineCover | None, ...]
    cover: Int64

    def covered(self) -> Iterator[tuple[Bool, MarineCover]]:
        """Yield each row of cover once, and which ways (k,) it covers."""
        for cover in {id(row): row for row in self.covers if row is not None}.values():
            by_load = np.array([row is cover for row in self.covers], dtype=np.bool_)
            yield by_load[self.cover], cover


def best_by_ship(shipments: Shipments, leaving: Leaving, landfall: Landfall, by_road: Bool, by_road_mi: int) -> Best:
    """Return the best ways by ship. `by_road` (n, trailers) says for which of the vehicles a truck goes all the way, in so many
    miles: then nobody is left at a port, and no ship is offered that leaves most of the road to be driven.
    """
    plan, rows = shipments.plan, leaving.rows
    best = nothing_found((len(rows), len(plan.trailers)))
    if not len(shipments.fleet.network.sea):
        return best
    offered = _offered(shipments, leaving, landfall)
    if not len(offered.at):
        return best
    paid, rank = _with_the_cheapest_truck(shipments, leaving, landfall, offered, by_road, by_road_mi)
    trailer = shipments.sailings(leaving).trailer[offered.at]
    if shipments.margin_minor:
        row, way = np.nonzero(rank < NO_WAY)
        if len(row):
            _write_first_of_equals(best, shipments, leaving, landfall, offered, paid, (row, way))
        return best
    least = lowest(rank, trailer, len(plan.trailers))
    row, way = np.nonzero((rank == least[:, trailer]) & (rank < NO_WAY))
    if len(row):
        _write_first_of_equals(best, shipments, leaving, landfall, offered, paid, (row, way))
        assert (best.rank == least)[best.rank < NO_WAY].all(), "no truck is cheaper than the cheapest"
    return best


def _with_the_cheapest_truck(
    shipments: Shipments, leaving: Leaving, landfall: Landfall, offered: Offered, by_road: Bool, by_road_mi: int
) -> tuple[dict[str, Int64], Int64]:
    """Return the sum of each stage and the rank of all ways (n, k), each with the cheapest truck that is in time for its ship."""
    rows, ways, table = leaving.rows, offered.ways, shipments.sailings(leaving)
    together, trailer = table.together[offered.at], table.trailer[offered.at]
    paid, name = _paid(shipments, leaving, landfall, offered), first_alike(offered.term, TO_PORT)
    paid[name] = paid.get(name, 0) + taken(shipments.cheapest(leaving, offered.term), rows, together)
    is_open = taken(shipments.reached(leaving), rows, together) & taken(shipments.carried, rows, ways.sea_lane)
    if by_road.any():
        is_open &= ~by_road[:, trailer] | _spares(shipments, landfall, ways, by_road_mi)
    is_open &= _suits(shipments, offered)
    group_of, duties = shipments.duties(landfall.place.country)
    values, step = shipments.values[rows][:, np.newaxis], shipments.plan.book.pricing.rounding_step_minor
    covers = _covered(shipments, rows, offered)
    total, locally = come_to(offered.term, paid, values, covers, cells_of(group_of[rows], duties), step)
    rank = rank_of(total + locally + offered.beyond, offered.days_to, offered.shelter)
    rank[~is_open] = NO_WAY
    return paid, rank


def _truck_by_truck(
    shipments: Shipments, leaving: Leaving, offered: Offered, equal: tuple[Int64, Int64]
) -> tuple[Int64, Int64, Int64]:
    """Return row, way and truck of cells (row, way), for every truck that is in time for the ship and takes the vehicle."""
    table, (row, way) = shipments.sailings(leaving), equal
    members = table.members[table.together[offered.at[way]]]
    which, place = np.nonzero(members >= 0)
    row, way, truck = row[which], way[which], members[which, place]
    able = shipments.to_ports(leaving).eligible[leaving.rows[row], truck, offered.ways.export[way]]
    return row[able], way[able], truck[able]


def _write_first_of_equals(
    best: Best,
    shipments: Shipments,
    leaving: Leaving,
    landfall: Landfall,
    offered: Offered,
    paid: dict[str, Int64],
    equal: tuple[Int64, Int64],
) -> None:
    """Price cells (row, way) that are as cheap as the best truck by truck, and write the first of each vehicle and trailer."""
    table, ways = shipments.sailings(leaving), offered.ways
    row, way, truck = _truck_by_truck(shipments, leaving, offered, equal)
    own, trailer = leaving.rows[row], table.trailer[offered.at[way]]
    price = shipments.to_ports(leaving).price(offered.term, TO_PORT)[own, truck, ways.export[way]]
    cheapest = shipments.cheapest(leaving, offered.term)[own, table.together[offered.at[way]]]
    each, name = {stage: amounts[row, way] for stage, amounts in paid.items()}, first_alike(offered.term, TO_PORT)
    each[name] = each[name] + price - cheapest
    least = _least(shipments, leaving, landfall, offered, (row, way, truck)) if shipments.margin_minor else None
    covers = [(np.flatnonzero(ways_of[way] & shipments.has_value[own]), cover) for ways_of, cover in offered.covered()]
    group_of, duties = shipments.duties(landfall.place.country)
    values, step = shipments.values[own], shipments.plan.book.pricing.rounding_step_minor
    total, locally = come_to(offered.term, each, values, covers, cells_of(group_of[own], duties), step, least)
    rank = rank_of(total + locally + offered.beyond[way], offered.days_to[way], offered.shelter[way])
    cell = row * len(shipments.plan.trailers) + trailer
    order = np.lexsort((ways.arrival[way], ways.export[way], ways.crossing[way], truck, rank, cell))
    chosen = order[np.unique(cell[order], return_index=True)[1]]
    at, way = (row[chosen], trailer[chosen]), way[chosen]
    best.rank[at], best.total[at], best.locally[at] = rank[chosen], total[chosen], locally[chosen]
    best.truck[at], best.sea_lane[at] = truck[chosen], ways.sea_lane[way]
    best.days_from[at], best.days_to[at] = offered.days_from[way], offered.days_to[way]


def _least(
    shipments: Shipments, leaving: Leaving, landfall: Landfall, offered: Offered, cells: tuple[Int64, Int64, Int64]
) -> Least:
    """Return what the price of cells (row, way), each with a truck, is at least."""
    row, way, truck = cells
    at_cost = replace(offered, term=replace(offered.term, at_cost=True))
    paid = {stage: sums[row, way] for stage, sums in _paid(shipments, leaving, landfall, at_cost).items()}
    name, export = first_alike(offered.term, TO_PORT), offered.ways.export[way]
    paid[name] = paid.get(name, 0) + shipments.to_ports(leaving).at_cost[leaving.rows[row], truck, export]
    return Least(paid, shipments.margin_minor)


def _offered(shipments: Shipments, leaving: Leaving, landfall: Landfall) -> Offered:
    plan, fleet, table = shipments.plan, shipments.fleet, shipments.sailings(leaving)
    request = leaving.request
    term, _ = term_for(request, plan.book, to_door=landfall.arrivals.arrive)
    at, port = table.of_ports([fleet.number_of[id(one.row)] for one in landfall.arrivals.ports])
    may = shipments.promising(leaving, term)[at]
    at, port = at[may], port[may]
    ways = replace(table.ways.only(at), arrival=port)
    network = replace(fleet.network, arrivals=landfall.arrivals)
    drive, spare = days_driven(network, ways)
    conditions = cover_conditions(request, plan.book, term)
    modes = [load.mode for load in network.sea.loads]
    covers = tuple(cover_row(plan.book.marine_cover, mode, conditions) for mode in modes)
    ready = plan.ready.toordinal()
    return Offered(
        at=at,
        ways=ways,
        term=term,
        days_from=table.released_from[at] + drive - ready,
        days_to=table.released_to[at] + drive + spare - ready,
        shelter=table.shelter[at],
        beyond=beyond_the_port(network, ways, plan.book),
        covers=covers,
        cover=network.sea.load[ways.sea_lane],
    )


def _paid(shipments: Shipments, leaving: Leaving, landfall: Landfall, offered: Offered) -> dict[str, Int64]:
    """Return the sum of each stage but what the truck to the port takes (n, k)."""
    plan, rows, ways, term = shipments.plan, leaving.rows, offered.ways, offered.term
    paid = {
        stage: taken(amounts, rows, ways.sea_lane)
        for stage, amounts in shipments.between_ports(term, landfall.place).items()
    }
    shape = (len(rows), len(offered.at))

    def add(stage: str, amounts: Int64) -> None:
        paid[stage] = paid[stage] + amounts if stage in paid else np.broadcast_to(amounts, shape)

    charges, load = shipments.charges(term, landfall.place.country), shipments.fleet.network.sea.load[ways.sea_lane]
    for stage, amounts in charges.always.items():
        add(stage, taken(amounts, rows, load))
    table = shipments.sailings(leaving)
    for season, by_stage in zip(table.in_season, charges.seasonal, strict=True):
        own = season[offered.at]
        for stage, amounts in by_stage.items() if own.any() else ():
            add(stage, taken(amounts, rows, load) * own)
    if landfall.arrivals.on_carriage:
        kind = kinds_of(shipments.freight)[rows][:, np.newaxis]
        column = table.trailer[offered.at] * len(landfall.arrivals.ports) + ways.arrival
        for stage, by_kind in last_legs(landfall, plan.trailers, term, plan.book, plan.as_of).items():
            add(stage, by_kind[kind, column])
    return paid


def _spares(shipments: Shipments, landfall: Landfall, ways: Ways, by_road_mi: int) -> Bool:
    """Return which ways a forwarder would take where a truck goes to the door."""
    arrivals = landfall.arrivals
    if not arrivals.arrive:
        return np.zeros(len(ways), dtype=np.bool_)
    onward = np.array([port.road.miles if port.road else port.onward_mi for port in arrivals.ports], dtype=np.int64)
    to_port = shipments.fleet.network.trip.lanes.miles
    driven = to_port[ways.export] + onward[ways.arrival]
    share = most_of_the_road(shipments.request(landfall.place), shipments.plan.book)
    return np.asarray(driven <= share * by_road_mi)


def _suits(shipments: Shipments, offered: Offered) -> Bool:
    """Return which ways the delivery term suits: rules for the sea are refused where a container is handed over earlier."""
    if not offered.term.sea_only:
        return np.ones(len(offered.at), dtype=np.bool_)
    network = shipments.fleet.network
    by_sea = np.array(
        [CROSSING_BY_MODE[crossing.load.mode].ocean == "roro" for crossing in network.crossings], dtype=np.bool_
    )
    return by_sea[offered.ways.crossing]


def _covered(shipments: Shipments, rows: Int64, offered: Offered) -> list[tuple[Cells, MarineCover]]:
    """Return which cells of the table are covered by which row: none of a vehicle whose value is not known."""
    known = np.flatnonzero(shipments.has_value[rows])
    found: list[tuple[Cells, MarineCover]] = []
    for ways, cover in offered.covered():
        columns = np.flatnonzero(ways)
        found.append(((slice(None), columns) if all_rows(known, len(rows)) else np.ix_(known, columns), cover))
    return found
