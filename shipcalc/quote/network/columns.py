"""Every way the vehicles could go, as columns: truck service × (sea service × load × export port × arrival port)."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from shipcalc.money import Int64
from shipcalc.records import dataclass, fields

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from shipcalc.pricing.loads import Load
    from shipcalc.pricing.ocean import SeaService


@dataclass(frozen=True, slots=True, eq=False)
class Crossing:
    """One sea service with one load, over the lanes that it sails: each from an export port to an arrival port, by position."""

    service: "SeaService"
    load: "Load"
    exports: Int64
    arrivals: Int64
    nmi: Int64
    canals: Int64
    passages: tuple[tuple[str, ...], ...]

    def __len__(self) -> int:
        return len(self.nmi)


@dataclass(frozen=True, slots=True, eq=False)
class SeaLanes:
    """The lanes of all crossings one after the other, as columns (z,): their crossing, its load, the ports at both ends.

    `load` is a position in `loads`; `first` says for each crossing where its lanes begin.
    """

    loads: "tuple[Load, ...]"
    first: Int64
    crossing: Int64
    load: Int64
    export: Int64
    arrival: Int64

    def __len__(self) -> int:
        return len(self.crossing)


def sea_lanes(found: Sequence[Crossing]) -> SeaLanes:
    """Return the lanes of all crossings."""
    loads = tuple(dict.fromkeys(crossing.load for crossing in found))
    counts = [len(crossing) for crossing in found]
    number = np.repeat(np.arange(len(found)), counts)
    load = np.array([loads.index(crossing.load) for crossing in found], dtype=np.int64)
    return SeaLanes(
        loads=loads,
        first=np.cumsum([0, *counts])[:-1],
        crossing=number,
        load=load[number],
        export=_joined([crossing.exports for crossing in found]),
        arrival=_joined([crossing.arrivals for crossing in found]),
    )


def _joined(columns: Sequence[Int64]) -> Int64:
    return np.concatenate([np.zeros(0, dtype=np.int64), *columns])


@dataclass(frozen=True, slots=True, eq=False)
class Ways:
    """All ways as columns (w,): positions of truck service and sea lane, and those of the lane's crossing and ports.

    A way by road alone has -1 for all but its truck.
    """

    truck: Int64
    sea_lane: Int64
    crossing: Int64
    lane: Int64
    export: Int64
    arrival: Int64

    def __len__(self) -> int:
        return len(self.truck)

    @property
    def by_road(self) -> "NDArray[np.bool_]":
        """Which ways take no ship."""
        return np.asarray(self.sea_lane < 0)

    def only(self, chosen: np.ndarray) -> "Ways":
        """Return some of the ways, by a mask or by position."""
        return Ways(*(getattr(self, field.name)[chosen] for field in fields(self)))


def every_way(lanes: SeaLanes, trucks: int, *, has_direct: bool) -> Ways:
    """Return all ways of so many truck services: each on every sea lane, and to the door where roads lead there."""
    truck, number = np.repeat(np.arange(trucks), len(lanes)), np.tile(np.arange(len(lanes)), trucks)
    crossing = lanes.crossing[number]
    by_road = np.arange(trucks if has_direct else 0)
    columns = (number, crossing, number - lanes.first[crossing], lanes.export[number], lanes.arrival[number])
    nothing = np.full_like(by_road, -1)
    return Ways(_joined([truck, by_road]), *(_joined([column, nothing]) for column in columns))
