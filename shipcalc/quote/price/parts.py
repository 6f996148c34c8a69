"""The parts that ways are made of, priced once each, at selling rates and at cost; and which of them each way has."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cached_property
from typing import TYPE_CHECKING, Protocol

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.line import Line
from shipcalc.quote.network.columns import SeaLanes
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.pricing.loads import Load
    from shipcalc.quote.network.network import Network
    from shipcalc.vehicles.vehicle import Vehicle


class Priced(Protocol):
    """What prices one part of a way at the carriers' rates with a markup on them, in millionths."""

    def __call__(self, *, markup_ppm: int) -> Iterable[Line]:
        """Return its lines."""
        ...


@dataclass(frozen=True, slots=True)
class Group:
    """Lines of one stage for one vehicle (`row`), or for the whole shipment (None), and the way's column in them."""

    stage: str
    selling: Sequence[Line]
    cost: Sequence[Line]
    row: int
    column: int
    vehicle: str | None


class Part(Protocol):
    """What is priced once for all ways that have it, over columns of its own."""

    @property
    def stages(self) -> Iterable[str]:
        """The cost stages that it has lines of."""
        ...

    def amounts(self, stage: str, *, sold: bool, vehicles: int, alone: bool) -> Int64:
        """Return what a stage of it takes for all vehicles (m or 1,), sold or at cost; `alone`: for each (n or 1, m or 1)."""
        ...

    def groups(self, column: int, vehicles: "Sequence[Vehicle]") -> Iterator[Group]:
        """Yield the lines of one of its columns."""
        ...


@dataclass(eq=False)
class Rated:
    """A part that is priced when it is asked for: most are asked for their cost only where a way of theirs is shown."""

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

    @property
    def stages(self) -> Iterable[str]:
        """The cost stages that it has lines of."""
        return dict.fromkeys(line.stage for line in self.selling)

    def amounts(self, stage: str, *, sold: bool, vehicles: int, alone: bool) -> Int64:
        """Return what a stage of it takes for all vehicles (m or 1,), sold or at cost; `alone`: for each (n or 1, m or 1)."""
        total: Int64 = np.zeros(1, dtype=np.int64)
        for line in self.selling if sold else self.cost:
            if line.stage == stage:
                one_for_all = line.shared or line.amount.shape[0] == vehicles
                times = 1 if alone or one_for_all else vehicles
                total = total + (line.amount if alone else line.amount.sum(axis=0) * times)
        return total

    def groups(self, column: int, vehicles: "Sequence[Vehicle]") -> Iterator[Group]:
        """Yield the lines of one of its columns."""
        return groups_of(self.selling, self.cost, column, vehicles)


def groups_of(
    selling: Sequence[Line], cost: Sequence[Line], column: int, vehicles: "Sequence[Vehicle]"
) -> Iterator[Group]:
    """Yield the lines of each vehicle together, then those of the whole shipment, stage by stage."""
    whose = [*((number, vehicle.stock_number) for number, vehicle in enumerate(vehicles)), (0, None)]
    for row, vehicle in whose:
        own, own_cost = ([line for line in lines if line.shared == (vehicle is None)] for lines in (selling, cost))
        for stage in dict.fromkeys(line.stage for line in own):
            sold, paid = ([line for line in lines if line.stage == stage] for lines in (own, own_cost))
            yield Group(stage, sold, paid, row, column, vehicle)


@dataclass(frozen=True, slots=True, eq=False)
class Charged:
    """A part, and which of its columns each way has: of truck service t (or of all) on sea lane s `columns[t, s]`, -1 for none.

    `columns` is (1, z + 1), or (t, z + 1) where it hangs on the truck; the last lane is that of a way without a ship.
    `season` is the number of the seasonal row (`seasonal.seasonal_rows`) that must arise for the way; None all the year.
    """

    part: Part
    columns: Int64
    season: int | None = None

    @property
    def hangs_on_the_truck(self) -> bool:
        """Return whether it is not the same for all trucks on a sea lane."""
        return self.season is not None or len(self.columns) != 1

    def column_of(self, truck: int, sea_lane: int) -> int:
        """Return the column that one way has, -1 for none."""
        return int(self.columns[truck if len(self.columns) > 1 else 0, sea_lane])

    def columns_of(self, trucks: Int64, sea_lanes: Int64) -> Int64:
        """Return the column that each way has, -1 for none."""
        own: Int64 = self.columns[trucks if len(self.columns) > 1 else 0, sea_lanes]
        return own


def by_load(sea: SeaLanes, end: Int64, part: Callable[["Load"], Part]) -> Iterator[Charged]:
    """Yield a part for each load alone, with a column for every port at one end of the sea lanes: `end` (z,) is theirs."""
    for number, load in enumerate(sea.loads):
        yield Charged(part(load), np.append(np.where(sea.load == number, end, -1), -1)[np.newaxis, :])


def on_every_way(network: "Network", priced: Priced) -> Charged:
    """Return a part that is the same for every way, sold at what it costs."""
    return Charged(Rated(priced, markup_ppm=0), np.zeros((1, len(network.sea) + 1), dtype=np.int64))


# All parts that the ways of a network are made of, edge by edge.
Parts = tuple[Charged, ...]
