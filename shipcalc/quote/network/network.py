"""What ways to a buyer are made from: truck services and the lanes that they drive, ports and the ships between them."""

from datetime import date
from typing import TYPE_CHECKING, TypeVar

import numpy as np
from numpy.typing import NDArray

from shipcalc.pricing.lines import Trip
from shipcalc.pricing.tariff import Service
from shipcalc.quote.model import LeftOut
from shipcalc.quote.network.columns import Crossing, SeaLanes, Ways
from shipcalc.quote.network.distances import Lane
from shipcalc.quote.network.port_ends import Arrivals, ExportPort
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.trade import Mode

Number = TypeVar("Number", np.int64, np.bool_)


@dataclass(frozen=True, slots=True, eq=False)
class Network:
    """Everything that ways are made from: the ports, the crossings, the truck services and their lanes.

    Truck lane number start × (ports + 1) + port leads from a start to an export port; the last of each start to the buyer.
    `at_home`: trucks go to the door, by a ferry where they must; no port, no ship and no customs.
    `in_the_yard`: nothing is carried at all, the vehicle is handed over where it stands.
    `leaves_from` is the first day a truck may set out over a land border; None where no customs ask for its papers. `day` is
    the one whose rates the ports ask.
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
    in_the_yard: bool = False
    leaves_from: date | None = None
    day: date | None = None

    @property
    def leads_abroad(self) -> bool:
        """Return whether ways may pass ports or customs, whose charges, cover and duty are then reckoned."""
        return not self.at_home and not self.in_the_yard

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


def mode_of(network: Network, ways: Ways, way: int) -> "Mode":
    """Return how the vehicles cross: "roro", "container", "shared container", or "truck" by road alone."""
    crossing = int(ways.crossing[way])
    return network.crossings[crossing].load.mode if crossing >= 0 else "truck"
