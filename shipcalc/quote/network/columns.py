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
    from shipcalc.pricing.quotations import Offers


@dataclass(frozen=True, slots=True, eq=False)
class Crossing:
    """One sea service with one load, over the lanes that it sails: each from an export port to an arrival port, by position.

    `offers` is what is quoted on each lane; empty where nothing is on any.
    """

    service: "SeaService"
    load: "Load"
    exports: Int64
    arrivals: Int64
    nmi: Int64
    canals: Int64
    passages: tuple[tuple[str, ...], ...]
    offers: "tuple[Offers | None, ...]" = ()

    def __len__(self) -> int:
        return len(self.nmi)

    @property
    def cutoff_days(self) -> Int64:
        """The working days before departure that are quoted on each lane; -1 where none are, and the terminal's own count."""
        if not self.offers:
            return np.full(len(self), -1, dtype=np.int64)
        told = (offers.cutoff_days if offers else None for offers in self.offers)
        return np.array([-1 if days is None else days for days in told], dtype=np.int64)


@dataclass(frozen=True, slots=True, eq=False)
class SeaLanes:
    """The lanes of all crossings one after the other, as columns (z,): their crossing, its load, the ports at both ends.

    `load` is a position in `loads`; `first` says for each crossing where its lanes begin. `cutoff_days` are those of a quotation
    (-1: the terminal's); `leaves` numbers what leaves together: one service from one port, with one cut-off.
    """

    loads: "tuple[Load, ...]"
    first: Int64
    crossing: Int64
    load: Int64
    export: Int64
    arrival: Int64
    cutoff_days: Int64
    leaves: Int64

    def __len__(self) -> int:
        return len(self.crossing)


def sea_lanes(found: Sequence[Crossing]) -> SeaLanes:
    """Return the lanes of all crossings."""
    loads = tuple(dict.fromkeys(crossing.load for crossing in found))
    counts = [len(crossing) for crossing in found]
    number = np.repeat(np.arange(len(found)), counts)
    load = np.array([loads.index(crossing.load) for crossing in found], dtype=np.int64)
    export, cutoff = (_joined([getattr(each, name) for each in found]) for name in ("exports", "cutoff_days"))
    ends, cutoffs = (int(column.max(initial=-1)) + 2 for column in (export, cutoff))
    return SeaLanes(
        loads=loads,
        first=np.cumsum([0, *counts])[:-1],
        crossing=number,
        load=load[number],
        export=export,
        arrival=_joined([crossing.arrivals for crossing in found]),
        cutoff_days=cutoff,
        leaves=(number * ends + export) * cutoffs + cutoff + 1,
    )


def _joined(columns: Sequence[Int64]) -> Int64:
    return np.concatenate([np.zeros(0, dtype=np.int64), *columns])


@dataclass(frozen=True, slots=True, eq=False)
class Ways:
    """All ways as columns (w,): positions of truck service and sea lane, and those of the lane's crossing and ports.

    A way by road alone has -1 for all but its truck; what is handed over in the yard has no truck either.
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


IN_THE_YARD = Ways(*[np.array([-1], dtype=np.int64)] * len(fields(Ways)))


def every_way(lanes: SeaLanes, trucks: int, *, has_direct: bool) -> Ways:
    """Return all ways of so many truck services: each on every sea lane, and to the door where roads lead there."""
    truck, number = np.repeat(np.arange(trucks), len(lanes)), np.tile(np.arange(len(lanes)), trucks)
    crossing = lanes.crossing[number]
    by_road = np.arange(trucks if has_direct else 0)
    columns = (number, crossing, number - lanes.first[crossing], lanes.export[number], lanes.arrival[number])
    nothing = np.full_like(by_road, -1)
    return Ways(_joined([truck, by_road]), *(_joined([column, nothing]) for column in columns))
