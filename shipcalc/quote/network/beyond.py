"""The network to a place beyond the home roads: over a border, over the sea, or both."""

from collections.abc import Collection, Sequence
from contextlib import suppress
from datetime import date
from functools import lru_cache, partial

from shipcalc.errors import NoAnswer
from shipcalc.places.place import Place
from shipcalc.places.road.factor_rules import FactorRule
from shipcalc.places.road.lanes import lane_table
from shipcalc.places.road.miles import road_distance
from shipcalc.places.road.reach import road_reach
from shipcalc.pricing.loads import loads_of, unfit
from shipcalc.pricing.ocean import SeaService, sea_services
from shipcalc.pricing.quotations import quoted_between
from shipcalc.quote.model import LeftOut
from shipcalc.quote.network.arriving import is_passable
from shipcalc.quote.network.columns import Crossing, sea_lanes
from shipcalc.quote.network.crossings import by_ferry, crossing_between, road_with_crossing
from shipcalc.quote.network.distances import Lane, factor_rules
from shipcalc.quote.network.holds import shut_countries
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.port_ends import Arrivals, ExportPort
from shipcalc.quote.network.ports import arrival_ports, export_ports
from shipcalc.quote.network.sailing import QuotedBetween, crossings
from shipcalc.quote.network.territory import is_domestic
from shipcalc.quote.network.trucks import find_trailer, truck_trip
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.schedule.border import first_departure
from shipcalc.trade import CROSSING_BY_MODE


def network_beyond(request: Request, book: RateBook, as_of: date) -> Network:
    """Return everything that ways to the buyer can be made from, with what was left out on the way."""
    starts = tuple(dict.fromkeys(request.starts))
    shut = shut_countries(request, book, as_of)
    exports, arrivals = tuple(export_ports(book, starts)), arrival_ports(book, request.to, shut)
    lanes, has_direct = _truck_lanes(request, book, starts, exports, shut)
    services, trip = truck_trip(request, book, lanes, as_of)
    # What a driver could deliver, trucks bring to the port: nobody ships a vehicle to spare it the road, and drives it there.
    services = tuple(service for service in services if find_trailer(service))
    found, left_out = ships_between(exports, arrivals, request, book, as_of)
    return Network(
        exports=exports,
        arrivals=arrivals,
        crossings=found,
        sea=sea_lanes(found),
        services=services,
        trip=trip,
        starts=tuple(starts.index(start) for start in request.starts),
        has_direct=has_direct,
        lanes=lanes,
        left_out=left_out,
        day=as_of,
        leaves_from=None if is_domestic(request.to.country) else first_departure(as_of),
    )


def ships_between(
    exports: Sequence[ExportPort], arrivals: Arrivals, request: Request, book: RateBook, as_of: date
) -> tuple[tuple[Crossing, ...], tuple[LeftOut, ...]]:
    """Return every crossing between the ports that takes the vehicles, and what was left out with the reason."""
    loads = [load for load in loads_of(request.vehicles, book.containers) if _is_wished(load.mode, request)]
    ships = [ship for ship in ships_of(book) if _is_wished(ship.row.mode, request)]
    closed = closed_passages(book)
    quoted = quotations_of(book, as_of)
    found, left_out = crossings(ships, loads, exports, arrivals, request.vehicles, book.loading_ways, closed, quoted)
    boxes = book.containers if request.wishes.ocean != "roro" else ()
    unfitting = tuple(LeftOut(carrier=what, reason=why) for what, why in unfit(request.vehicles, boxes))
    return found, (*left_out, *unfitting)


@lru_cache(maxsize=8)
def ships_of(book: RateBook) -> tuple[SeaService, ...]:
    """Return the services by sea."""
    return sea_services(book.ocean)


def quotations_of(book: RateBook, as_of: date) -> QuotedBetween | None:
    """Return what says how a ship is quoted, at the rates of exchange of a day; None where the book has no quotation at all."""
    return partial(quoted_between, book, as_of) if book.quotations else None


def closed_passages(book: RateBook) -> tuple[str, ...]:
    """Return the passages that no ship takes today."""
    return tuple(row.passage.casefold() for row in book.passages if row.state == "closed")


def _is_wished(mode: str, request: Request) -> bool:
    return request.wishes.ocean in (None, CROSSING_BY_MODE[mode].ocean)


def _truck_lanes(
    request: Request, book: RateBook, starts: Sequence[Place], exports: Sequence[ExportPort], shut: Collection[str]
) -> tuple[tuple[Lane, ...], bool]:
    """Return for each start its lanes to the export ports and, where roads lead from all, to the buyer; and whether they do."""
    rules = factor_rules(book)
    to_buyer = [road_to_buyer(start, request.to, rules, book, shut) for start in starts]
    lanes: list[Lane] = []
    for number, (start, direct) in enumerate(zip(starts, to_buyer, strict=True)):
        lanes += [Lane(start, port.place, port.roads[number]) for port in exports]
        if direct is not None and None not in to_buyer:
            lanes.append(direct)
    return tuple(lanes), None not in to_buyer


def road_to_buyer(
    start: Place, to: Place, rules: Sequence[FactorRule], book: RateBook, shut: Collection[str]
) -> Lane | None:
    """Return the road from a start to the buyer, by a ferry abroad where none leads there; None where no such ferry goes, or
    nobody has said how long the road is, or where it passes a country that is shut.
    """
    if not is_passable(start.country, to.country, shut):
        return None
    reach = road_reach(start, to)
    with suppress(NoAnswer):
        if reach.reached:
            return Lane(start, to, road_distance(start, to, rules, lanes=lane_table()), reach.need)
        crossing = crossing_between(book.ferries_abroad, start, to, rules)
        if crossing is not None:
            return Lane(start, to, road_with_crossing(crossing, start, to), by_ferry(to, crossing), crossing)
    return None
