"""What ways to a buyer are made from: ports, crossings, truck services and the lanes that they drive."""

from collections.abc import Collection, Sequence
from contextlib import suppress
from datetime import date
from functools import lru_cache
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from shipcalc.errors import NoAnswer
from shipcalc.places.place import Place
from shipcalc.places.road.lanes import lane_table
from shipcalc.places.road.miles import FactorRule, road_distance
from shipcalc.places.road.reach import road_reach
from shipcalc.pricing.lines import Trip
from shipcalc.pricing.loads import loads_of, unfit
from shipcalc.pricing.ocean import SeaService, sea_services
from shipcalc.pricing.tariff import Service
from shipcalc.quote.model import LeftOut
from shipcalc.quote.network.arriving import is_passable
from shipcalc.quote.network.columns import Crossing, SeaLanes, crossings, sea_lanes
from shipcalc.quote.network.crossings import by_ferry, crossing_between, road_with_crossing
from shipcalc.quote.network.distances import Lane, factor_rules
from shipcalc.quote.network.holds import shut_countries
from shipcalc.quote.network.ports import Arrivals, ExportPort, arrival_ports, export_ports
from shipcalc.quote.network.territory import is_domestic
from shipcalc.quote.network.trucks import find_trailer, truck_trip
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass
from shipcalc.schedule.border import first_departure

Number = TypeVar("Number", np.int64, np.bool_)


@dataclass(frozen=True, slots=True, eq=False)
class Network:
    """Everything that ways are made from: the ports, the crossings, the truck services and their lanes.

    Truck lane number start × (ports + 1) + port leads from a start to an export port; the last of each start to the buyer.
    `leaves_from` is the first day a truck may set out over a land border; None where no customs ask for its papers.
    """

    exports: tuple[ExportPort, ...]
    arrivals: Arrivals
    crossings: tuple[Crossing, ...]
    sea: SeaLanes
    services: tuple[Service, ...]
    trip: Trip
    starts: tuple[int, ...]
    lanes: tuple[Lane, ...]
    has_direct: bool
    left_out: tuple[LeftOut, ...]
    leaves_from: date | None = None

    @property
    def ends(self) -> tuple[int, ...]:
        """Return where trucks go: the positions of the export ports and, where roads lead there, -1 for the buyer."""
        return (*range(len(self.exports)), *((-1,) if self.has_direct else ()))

    @property
    def lanes_of_a_start(self) -> int:
        """Return how many lanes each start has."""
        return len(self.exports) + self.has_direct

    def lane_of(self, export: int) -> list[int]:
        """Return each vehicle's truck lane to an export port, or to the buyer for -1."""
        port = export if export >= 0 else len(self.exports)
        return [start * self.lanes_of_a_start + port for start in self.starts]

    def at_ends(self, of_lanes: NDArray[Number]) -> NDArray[Number]:
        """Return what is known of vehicles over truck lanes (vehicles, lanes) for all `ends`, (ends, vehicles)."""
        lanes = np.array([self.lane_of(end) for end in self.ends], dtype=np.int64).reshape(-1, len(self.starts))
        return of_lanes[np.arange(len(self.starts)), lanes]


def network_for(request: Request, book: RateBook, as_of: date) -> Network:
    """Return everything that ways to the buyer can be made from, with what was left out on the way."""
    starts = tuple(dict.fromkeys(request.starts))
    shut = shut_countries(request, book, as_of)
    exports, arrivals = tuple(export_ports(book, starts)), arrival_ports(book, request.to, shut)
    lanes, has_direct = _truck_lanes(request, book, starts, exports, shut)
    services, trip = truck_trip(request, book, lanes, as_of)
    # What a driver could deliver, trucks bring to the port: nobody ships a vehicle to spare it the road, and drives it there.
    services = tuple(service for service in services if find_trailer(service))
    loads = [load for load in loads_of(request.vehicles, book.containers) if _is_wished(load.mode, request)]
    ships = [ship for ship in ships_on(book, as_of) if _is_wished(ship.row.mode, request)]
    closed = closed_passages(book)
    found, left_out = crossings(ships, loads, exports, arrivals, request.vehicles, book.loading_ways, closed)
    boxes = book.containers if request.wishes.ocean != "roro" else ()
    unfitting = tuple(LeftOut(carrier=what, reason=why) for what, why in unfit(request.vehicles, boxes))
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
        left_out=(*left_out, *unfitting),
        leaves_from=None if is_domestic(request.to.country) else first_departure(as_of),
    )


@lru_cache(maxsize=8)
def ships_on(book: RateBook, day: date) -> tuple[SeaService, ...]:
    """Return the services by sea that are valid on a day."""
    return sea_services(book.ocean, day)


def closed_passages(book: RateBook) -> tuple[str, ...]:
    """Return the passages that no ship takes today."""
    return tuple(row.passage.casefold() for row in book.passages if row.state == "closed")


def _is_wished(mode: str, request: Request) -> bool:
    return request.wishes.ocean is None or (mode == "roro") == (request.wishes.ocean == "roro")


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
