"""The best trucks that drive all the way to one place abroad, for vehicles that leave alike."""

import numpy as np

from shipcalc.bulk.best import NO_WAY, Best, nothing_found, rank_of
from shipcalc.bulk.landfalls import Landfall
from shipcalc.bulk.shipments import Leaving, Shipments, Trucks
from shipcalc.bulk.sums import Least, cells_of, come_to, first_alike
from shipcalc.money import Int64
from shipcalc.pricing.columns import Bool
from shipcalc.quote.choose.choices import shelter
from shipcalc.quote.choose.ways import term_for
from shipcalc.quote.edges.kinds import days
from shipcalc.quote.edges.truck import ALL_THE_WAY
from shipcalc.quote.network.columns import every_way, sea_lanes
from shipcalc.quote.network.distances import Lane
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.territory import is_domestic
from shipcalc.quote.network.trucks import find_trailer, truck_trip
from shipcalc.quote.price.terms import Term
from shipcalc.records import replace
from shipcalc.schedule.border import first_departure


def best_by_road(shipments: Shipments, leaving: Leaving, landfall: Landfall, lane: Lane) -> tuple[Best, Bool]:
    """Return the best trucks over a lane, and for which vehicles and trailers (n, trailers) any drives there."""
    plan, rows = shipments.plan, leaving.rows
    best = nothing_found((len(rows), len(plan.trailers)))
    drives = np.zeros(best.rank.shape, dtype=np.bool_)
    network = _network(shipments, leaving, landfall, lane)
    ways = every_way(network.sea, len(network.services), has_direct=True)
    when, ready = days(leaving.request, plan.book, network, ways), plan.ready.toordinal()
    days_from, days_to = when.delivery.earliest - ready, when.delivery.latest - ready
    term, _ = term_for(leaving.request, plan.book, to_door=True)
    trucks = shipments.trucks(leaving, (lane,))
    eligible = trucks.eligible[rows, :, 0]
    total, locally = _sums(shipments, rows, landfall, trucks, term)
    rank = rank_of(total + locally, days_to, shelter(network, ways, plan.book))
    rank[~eligible] = NO_WAY
    kinds = np.array([service.row.trailer for service in network.services])
    for number, trailer in enumerate(plan.trailers):
        own = np.flatnonzero(kinds == trailer)
        drives[:, number] = eligible[:, own].any(axis=1)
        row = np.flatnonzero(drives[:, number])
        if term.sea_only or not len(row):
            continue
        truck, at = own[np.argmin(rank[np.ix_(row, own)], axis=1)], (row, number)
        best.rank[at], best.total[at], best.locally[at] = rank[row, truck], total[row, truck], locally[row, truck]
        best.truck[at], best.days_from[at], best.days_to[at] = truck, days_from[truck], days_to[truck]
    return best, drives


def _network(shipments: Shipments, leaving: Leaving, landfall: Landfall, lane: Lane) -> Network:
    plan = shipments.plan
    services, trip = truck_trip(leaving.request, plan.book, (lane,), plan.as_of)
    return Network(
        exports=(),
        arrivals=landfall.arrivals,
        crossings=(),
        sea=sea_lanes(()),
        services=tuple(service for service in services if find_trailer(service)),
        trip=trip,
        starts=(0,),
        lanes=(lane,),
        has_direct=True,
        left_out=(),
        leaves_from=None if is_domestic(landfall.place.country) else first_departure(plan.as_of),
    )


def _paid(shipments: Shipments, rows: Int64, landfall: Landfall, trucks: Trucks, term: Term) -> dict[str, Int64]:
    """Return the sum of each stage of every vehicle with every truck (n, trucks); no sea."""
    charges = shipments.charges(term, landfall.place.country).always
    paid = {stage: amounts[rows][:, -1:] for stage, amounts in charges.items()}
    name = first_alike(term, ALL_THE_WAY)
    paid[name] = paid.get(name, 0) + trucks.price(term, ALL_THE_WAY)[rows, :, 0]
    return paid


def _sums(shipments: Shipments, rows: Int64, landfall: Landfall, trucks: Trucks, term: Term) -> tuple[Int64, Int64]:
    """Return the price and what the buyer pays beside it of every vehicle with every truck (n, trucks); no cover."""
    paid, least = _paid(shipments, rows, landfall, trucks, term), None
    if shipments.margin_minor:
        at_cost = _paid(shipments, rows, landfall, trucks, replace(term, at_cost=True))
        least = Least(at_cost, shipments.margin_minor)
    group_of, duties = shipments.duties(landfall.place.country)
    values, step = shipments.values[rows][:, np.newaxis], shipments.plan.book.pricing.rounding_step_minor
    return come_to(term, paid, values, (), cells_of(group_of[rows], duties), step, least)
