"""What every way costs at every stage, at selling rates and at cost: parts are priced once and gathered into columns."""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from functools import cached_property, partial
from typing import TYPE_CHECKING, Protocol

from shipcalc.pricing.columns import Bool
from shipcalc.pricing.lines import Line
from shipcalc.pricing.truck import TruckPrice
from shipcalc.quote.network.network import Network
from shipcalc.records import dataclass, field
from shipcalc.trade import AT_HOME

if TYPE_CHECKING:
    from shipcalc.pricing.loads import Load

TO_PORT, ALL_THE_WAY = "pre-carriage", "main carriage"


def road_stage(network: Network) -> str:
    """Return the stage of a truck that goes to the door."""
    return AT_HOME if network.at_home else ALL_THE_WAY


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

    `held` says of stages on which sea lanes (z,) the freight, as it is quoted, holds what the ports charge there.
    `by_road` are the charges by stage of a way without a ship; `seasonal` those that hold for ships of a season only, one for
    each row (`seasonal.seasonal_rows`).
    Trucks stand as they are priced; their lines at cost, for the ways that are shown, are made when they are asked for.
    """

    trucks: tuple[TruckPrice, ...]
    truck_at_cost: Callable[[int], tuple[Line, ...]]
    export_ports: "Mapping[Load, Part]" = field(default_factory=dict)
    sea: Sequence["SeaPart"] = ()
    loading: Sequence["SeaPart"] = ()
    passages: Sequence["SeaPart"] = ()
    arrival_ports: "Mapping[Load, Part]" = field(default_factory=dict)
    held: Mapping[str, Bool] = field(default_factory=dict)
    last_leg: Mapping[str, Part] = field(default_factory=dict)
    stages: "Mapping[Load, Part]" = field(default_factory=dict)
    by_road: Part = field(default_factory=lambda: NO_PART)
    seasonal: "tuple[Mapping[Load, Part], ...]" = ()

    def at_ports(self, load: "Load", sea_lane: int, export: int, arrival: int) -> Iterator[tuple[Part, int]]:
        """Yield what both ports of a sea lane charge, but for what its freight holds, each with its column."""
        held = [stage for stage, lanes in self.held.items() if lanes[sea_lane]]
        for part, column in ((self.export_ports[load], export), (self.arrival_ports[load], arrival)):
            yield (Part(partial(_without, part, held), part.markup_ppm) if held else part), column

    def sea_of(self, sea_lane: int) -> Iterator[tuple[Part, int]]:
        """Yield the parts that a sea lane is in, freight, loading and passages, each with its column there."""
        for sea in (*self.sea, *self.loading, *self.passages):
            if sea_lane in sea.lanes:
                yield sea.part, sea.lanes.index(sea_lane)

    def last_leg_by(self, trailer: str) -> Part:
        """Return the last leg by a kind of trailer, by the other kind where the country has only that."""
        return leg_by(self.last_leg, trailer)


def _without(part: Part, stages: Collection[str], *, markup_ppm: int) -> Iterator[Line]:
    """Yield the lines of a part but those of some stages."""
    lines = part.selling if markup_ppm == part.markup_ppm else part.cost
    yield from (line for line in lines if line.stage not in stages)


def leg_by(legs: Mapping[str, Part], trailer: str) -> Part:
    """Return the last leg by a kind of trailer, by the other kind where the country has only that."""
    return legs.get(trailer) or next(iter(legs.values()), NO_PART)


@dataclass(frozen=True, slots=True, eq=False)
class SeaPart:
    """Crossings of one load, priced together: one column for each of their sea lanes."""

    part: Part
    lanes: tuple[int, ...]
