"""How vehicles are handed over to a ship: driven aboard, in a container of their own, or in one they share."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.columns import Bool
from shipcalc.pricing.fit import MOST_VEHICLES, Packing, does_not_fit, packings
from shipcalc.pricing.measurement import revenue_tons_thousandths, volume_thousandths
from shipcalc.records import dataclass
from shipcalc.trade import CROSSINGS, Mode
from shipcalc.vehicles.vehicle import Vehicle

if TYPE_CHECKING:
    from shipcalc.ratebook.rows.containers import ContainerType


@dataclass(frozen=True, slots=True, eq=False)
class Freight:
    """The vehicles as freight, columns (n, 1): revenue tons and cubic metres in thousandths, whether each drives and rolls.

    `measured`: the sizes of all are known.
    """

    revenue_tons: Int64
    cubic_metres: Int64
    drives: Bool
    rolls: Bool
    measured: bool = True

    def __len__(self) -> int:
        return len(self.drives)


@dataclass(frozen=True, slots=True, eq=False)
class Load:
    """One way to hand a request over.

    `mode` is "truck" (no ship), "roro", "container" (`packing` says which) or "shared container".
    """

    mode: Mode
    packing: Packing | None = None

    @property
    def boxes(self) -> "tuple[tuple[ContainerType, int], ...]":
        """Return each size of container with how many of it; nothing where the vehicles are not packed in their own."""
        if self.packing is None:
            return ()
        names = [kind.container for kind, _ in self.packing.containers]
        by_name = {kind.container: kind for kind, _ in self.packing.containers}
        return tuple((kind, names.count(name)) for name, kind in by_name.items())

    @property
    def sizes(self) -> tuple[str, ...]:
        """Return the sizes of its containers; "" alone where the vehicles are not packed in their own."""
        return tuple(kind.container for kind, _ in self.boxes) or ("",)

    @property
    def containers(self) -> int:
        """Return how many containers of their own the vehicles are packed in."""
        return len(self.packing.containers) if self.packing else 0


BY_TRUCK = Load("truck")
_DRIVEN_ABOARD = tuple(Load(crossing.mode) for crossing in CROSSINGS if crossing.is_driven_aboard)
_SHARED = tuple(Load(own.mode) for own in CROSSINGS if own.handled == "container" and not own.is_packed)


def freight_of(vehicles: Sequence[Vehicle]) -> Freight:
    """Return the vehicles as freight; one whose sizes are not known measures nothing, and `cannot_be_measured` says so."""

    def column(values: Iterator[int]) -> Int64:
        return np.array([list(values)], dtype=np.int64).T

    length = column(vehicle.length_mm or 0 for vehicle in vehicles)
    width = column(vehicle.width_mm or 0 for vehicle in vehicles)
    height = column(vehicle.height_mm or 0 for vehicle in vehicles)
    mass = column(vehicle.mass_grams or 0 for vehicle in vehicles)
    return Freight(
        revenue_tons=revenue_tons_thousandths(length, width, height, mass),
        cubic_metres=volume_thousandths(length, width, height),
        drives=np.array([[vehicle.drives] for vehicle in vehicles], dtype=np.bool_),
        rolls=np.array([[vehicle.rolls] for vehicle in vehicles], dtype=np.bool_),
        measured=not cannot_be_measured(vehicles),
    )


def cannot_be_measured(vehicles: Sequence[Vehicle]) -> str:
    """Return which vehicle has no sizes to charge freight by, as a sentence's end; empty where all have."""
    unknown = [v.stock_number for v in vehicles if None in (v.length_mm, v.width_mm, v.height_mm)]
    return f"the sizes of {', '.join(unknown)} are not known" if unknown else ""


def loads_of(vehicles: Sequence[Vehicle], containers: "Sequence[ContainerType]") -> tuple[Load, ...]:
    """Return every way to hand the vehicles over that is worth pricing.

    More than MOST_VEHICLES are not packed into containers at all; what does not fit is told by `unfit`.
    """
    packed = packings(vehicles, containers) if len(vehicles) <= MOST_VEHICLES else ()
    own = tuple(Load("container", packing) for packing in packed)
    return every_load(own)


def every_load(own: Sequence[Load]) -> tuple[Load, ...]:
    """Return the ways to hand over in the order in which they are considered; what fits no container of its own shares none."""
    return (*_DRIVEN_ABOARD, *own, *(_SHARED if own else ()))


def unfit(vehicles: Sequence[Vehicle], containers: "Sequence[ContainerType]") -> Iterator[tuple[str, str]]:
    """Yield (container, reason) for each size that some vehicle does not fit."""
    if len(vehicles) > MOST_VEHICLES:
        yield "Container", f"more than {MOST_VEHICLES} vehicles: ask for them in several quotes"
        return
    for kind in containers:
        for vehicle in vehicles:
            reason = does_not_fit(vehicle, kind)
            if reason:
                yield (
                    f"{kind.container} container",
                    f"{vehicle.stock_number} is {reason}" if reason.startswith("too") else reason,
                )
                break
