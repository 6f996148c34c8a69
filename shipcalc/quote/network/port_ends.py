"""The ports at both ends of a crossing, and the roads to and from them."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from shipcalc.places.place import Place
from shipcalc.places.road.miles import RoadDistance
from shipcalc.quote.network.crossings import Crossing
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.ratebook.rows.ferries_abroad import FerryAbroad
    from shipcalc.ratebook.rows.on_carriage import OnCarriage
    from shipcalc.ratebook.rows.ports import Port


@dataclass(frozen=True, slots=True)
class ExportPort:
    """A port to ship from, and the road to it from each start."""

    row: "Port"
    place: Place
    roads: tuple[RoadDistance, ...]


@dataclass(frozen=True, slots=True)
class ArrivalPort:
    """A port to arrive at, and the road on to the buyer; None where the price ends at the port.

    Where a ferry lies on the way, `road` is what is driven before and after it. `is_there`: the port is the buyer's own town.
    `onward_mi` is about how far it is from a port where the price ends, for the order of choices alone.
    """

    row: "Port"
    place: Place
    road: RoadDistance | None
    crossing: Crossing | None = None
    is_there: bool = False
    onward_mi: int = 0

    @property
    def ferry(self) -> "FerryAbroad | None":
        """Return the ferry on the way to the buyer."""
        from shipcalc.ratebook.rows.ferries_abroad import FerryAbroad

        ferry = self.crossing.ferry if self.crossing else None
        assert ferry is None or isinstance(ferry, FerryAbroad), "the last leg takes no ferry of the home sheet"
        return ferry


@dataclass(frozen=True, slots=True)
class LastLeg:
    """The rates of the last leg by a kind of trailer: a row for each port of arrival."""

    trailer: str
    rows: "tuple[OnCarriage, ...]"


@dataclass(frozen=True, slots=True)
class Arrivals:
    """The ports to arrive at, the rates of the last leg by trailer, and what must be said about them.

    `every` is all ports of the rate book that vehicles may arrive at; `none` says why none of them serves the buyer, `why` what
    is missing where the price ends at a port.
    """

    ports: tuple[ArrivalPort, ...]
    on_carriage: "tuple[LastLeg, ...]"
    every: "tuple[Port, ...]"
    note: str = ""
    none: str = ""
    why: str = ""

    @property
    def arrive(self) -> bool:
        """Return whether the price goes on from the port to the buyer, or the port is the buyer's own town."""
        return bool(self.on_carriage) or (bool(self.ports) and all(port.is_there for port in self.ports))


# Where trucks go to the door there is no port at all.
NO_PORTS = Arrivals((), (), ())


def on_carriage_by(legs: Sequence[LastLeg], trailer: str) -> LastLeg | None:
    """Return the rates of the last leg by a kind of trailer, by the other kind where the country has only that."""
    return next((leg for leg in legs if leg.trailer == trailer), legs[0] if legs else None)
