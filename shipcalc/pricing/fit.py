"""What fits a container, and which containers hold several vehicles: exact for up to eight.

A vehicle fits where its length leaves the end clearances, its width the side clearances at the narrower of inside and door,
and its height the top clearance under the door's lintel. Several stand nose to tail, with one clearance more than vehicles.
"""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from shipcalc.measures import mm_to_inches
from shipcalc.records import dataclass
from shipcalc.vehicles.vehicle import Vehicle

if TYPE_CHECKING:
    from shipcalc.ratebook.rows.containers import ContainerType

MOST_VEHICLES = 8


@dataclass(frozen=True, slots=True)
class Packing:
    """One way to pack a request: for each container its type and the vehicles in it, by their position in the request."""

    containers: "tuple[tuple[ContainerType, tuple[int, ...]], ...]"

    @property
    def name(self) -> str:
        """Return the containers in words: `1 × 20′, 2 × 40′HC`."""
        names = [kind.container for kind, _ in self.containers]
        return ", ".join(f"{names.count(name)} × {name}" for name in dict.fromkeys(names))


def does_not_fit(vehicle: Vehicle, container: "ContainerType") -> str:
    """Return why one vehicle does not fit the container alone, as a sentence's end; empty where it fits."""
    if None in (vehicle.length_mm, vehicle.width_mm, vehicle.height_mm, vehicle.mass_grams):
        return "its sizes are not known"
    assert vehicle.length_mm is not None
    assert vehicle.width_mm is not None
    assert vehicle.height_mm is not None
    assert vehicle.mass_grams is not None
    room = container.inside_length_mm - 2 * container.end_clearance_mm
    if vehicle.length_mm > room:
        return f"too long for a {container.container} ({_inches(vehicle.length_mm)}, room for {_inches(room)})"
    width = min(container.inside_width_mm, container.door_width_mm) - 2 * container.side_clearance_mm
    if vehicle.width_mm > width:
        return f"too wide for a {container.container} ({_inches(vehicle.width_mm)}, room for {_inches(width)})"
    height = container.door_height_mm - container.top_clearance_mm
    if vehicle.height_mm > height:
        return f"too high for a {container.container} ({_inches(vehicle.height_mm)}, room for {_inches(height)})"
    if vehicle.mass_grams > container.payload_kg * 1000:
        return f"too heavy for a {container.container}"
    return ""


def packings(vehicles: Sequence[Vehicle], containers: "Sequence[ContainerType]") -> tuple[Packing, ...]:
    """Return every way worth pricing: for each number of containers of each type, one packing that uses just those.

    The cheapest set is among them whatever the prices, because all packings with the same containers, and the same number of
    vehicles in each, cost the same. Empty where some vehicle fits nothing. For more than MOST_VEHICLES it is an assertion.
    """
    assert len(vehicles) <= MOST_VEHICLES, "the caller splits larger requests"
    whole = (1 << len(vehicles)) - 1
    loads = [load for kind in containers for load in _loads(vehicles, kind)]
    ways: dict[int, dict[tuple[tuple[str, int], ...], Packing]] = {0: {(): Packing(())}}
    for held in range(1, whole + 1):
        lowest = held & -held
        found: dict[tuple[tuple[str, int], ...], Packing] = {}
        for kind, members in loads:
            if not members & lowest or members & ~held:
                continue
            for packing in ways[held ^ members].values():
                grown = Packing((*packing.containers, (kind, _positions(members))))
                found.setdefault(_signature(grown), grown)
        ways[held] = found
    return tuple(ways[whole].values())


def _loads(vehicles: Sequence[Vehicle], kind: "ContainerType") -> "Iterator[tuple[ContainerType, int]]":
    """Yield (type, vehicles as a bit mask) for every load that one container of the type can hold."""
    fitting = [number for number, vehicle in enumerate(vehicles) if not does_not_fit(vehicle, kind)]
    for choice in range(1, 1 << len(fitting)):
        members = [fitting[bit] for bit in range(len(fitting)) if choice >> bit & 1]
        length = sum(vehicles[number].length_mm or 0 for number in members)
        mass = sum(vehicles[number].mass_grams or 0 for number in members)
        clearances = (len(members) + 1) * kind.end_clearance_mm
        if length + clearances <= kind.inside_length_mm and mass <= kind.payload_kg * 1000:
            yield kind, sum(1 << number for number in members)


def _signature(packing: Packing) -> tuple[tuple[str, int], ...]:
    return tuple(sorted((kind.container, len(members)) for kind, members in packing.containers))


def _positions(members: int) -> tuple[int, ...]:
    return tuple(number for number in range(members.bit_length()) if members >> number & 1)


def _inches(mm: int) -> str:
    return f"{mm_to_inches(mm):g} in"
