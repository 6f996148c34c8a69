"""What ways to a buyer are made from: truck services and the lanes that they drive, ports and the ships between them."""

from datetime import date
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from shipcalc.pricing.lines import Trip
from shipcalc.pricing.tariff import Service
from shipcalc.quote.model import LeftOut
from shipcalc.quote.network.columns import Crossing, SeaLanes, sea_lanes
from shipcalc.quote.network.distances import Lane, road_lanes
from shipcalc.quote.network.port_ends import NO_PORTS, Arrivals, ExportPort
from shipcalc.quote.network.territory import is_home
from shipcalc.quote.network.trucks import truck_trip
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass

Number = TypeVar("Number", np.int64, np.bool_)


@dataclass(frozen=True, slots=True, eq=False)
class Network:
    """Everything that ways are made from: the ports, the crossings, the truck services and their lanes.

    Truck lane number start × (ports + 1) + port leads from a start to an export port; the last of each start to the buyer.
    `at_home`: trucks go to the door, by a ferry where they must; no port, no ship and no customs.
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
    left_out: tuple[LeftOut, ...] = ()
    at_home: bool = False
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
    """Return everything that ways to the buyer can be made from, with what was left out on the way.

    Raises NoAnswer where no road leads to a buyer at home.
    """
    if is_home(request.to.country, request.to.subdivision):
        return _home_network(request, book, as_of)
    # Late: a quote at home, the commonest, should not wait for ships.
    from shipcalc.quote.network.beyond import network_beyond

    return network_beyond(request, book, as_of)


def _home_network(request: Request, book: RateBook, as_of: date) -> Network:
    lanes = road_lanes(book, request.starts, request.to)
    services, trip = truck_trip(request, book, lanes, as_of)
    starts = [lane.start for lane in lanes]
    return Network(
        exports=(),
        arrivals=NO_PORTS,
        crossings=(),
        sea=sea_lanes(()),
        services=services,
        trip=trip,
        starts=tuple(starts.index(start) for start in request.starts),
        lanes=lanes,
        has_direct=True,
        at_home=True,
    )
