"""The inputs of the pricing as columns: n vehicles down, m lanes across.

Every amount that comes out has the shape (n, m), or one that numpy broadcasts to it. A single quote is one row and one column.
"""

from collections.abc import Iterable, Sequence
from datetime import date
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from shipcalc.money import Int64
from shipcalc.ratebook.decisions import UNKNOWN
from shipcalc.records import dataclass
from shipcalc.vehicles.vehicle import Vehicle

if TYPE_CHECKING:
    from shipcalc.ratebook.rows.ferries import Ferry
    from shipcalc.ratebook.rows.ferries_abroad import FerryAbroad

    AnyFerry = Ferry | FerryAbroad

Bool = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class VehicleColumns:
    """Vehicles as columns of shape (n,); an unknown measure is UNKNOWN: it meets no condition and exceeds no limit."""

    length_mm: Int64
    width_mm: Int64
    height_mm: Int64
    clearance_mm: Int64
    mass_grams: Int64
    value_minor: Int64
    runs: Bool
    rolls: Bool
    steers: Bool
    brakes: Bool
    modified: Bool

    def __len__(self) -> int:
        return len(self.runs)


@dataclass(frozen=True, slots=True)
class LaneColumns:
    """Lanes as columns: whole road miles (m,), and which rows of the sheet Areas hold at either end (m, areas).

    `home` says whether both ends are on the home road network: the contiguous United States. `ferries` names the ferry on
    each lane, None where roads lead all the way; it is empty where none has one. `met` are the rows of the sheet Lanes that
    each meets (`lane_prices.rows_met`).
    """

    miles: Int64
    at_pickup: Bool
    at_delivery: Bool
    home: Bool
    ferries: "tuple[AnyFerry | None, ...]" = ()
    met: Int64 | None = None

    def __len__(self) -> int:
        return len(self.miles)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What the buyer asks for, and the day it is asked for: the same for all vehicles and lanes of a call.

    `together` (n,) says how many are loaded where each vehicle stands; empty: as many as there are.
    """

    pickup_day: date
    lift_gate: bool = False
    limited_access: bool = False
    express: bool = False
    vehicle_count: int = 1
    together: tuple[int, ...] = ()


def vehicle_columns(vehicles: Sequence[Vehicle]) -> VehicleColumns:
    """Return the vehicles as columns."""

    def whole(values: Iterable[int | None]) -> Int64:
        return np.array([UNKNOWN if value is None else value for value in values], dtype=np.int64)

    def flags(values: Iterable[bool]) -> Bool:
        return np.array(list(values), dtype=np.bool_)

    return VehicleColumns(
        length_mm=whole(vehicle.length_mm for vehicle in vehicles),
        width_mm=whole(vehicle.width_mm for vehicle in vehicles),
        height_mm=whole(vehicle.height_mm for vehicle in vehicles),
        clearance_mm=whole(vehicle.clearance_mm for vehicle in vehicles),
        mass_grams=whole(vehicle.mass_grams for vehicle in vehicles),
        value_minor=whole(vehicle.value_minor for vehicle in vehicles),
        runs=flags(vehicle.runs for vehicle in vehicles),
        rolls=flags(vehicle.rolls for vehicle in vehicles),
        steers=flags(vehicle.steers for vehicle in vehicles),
        brakes=flags(vehicle.brakes for vehicle in vehicles),
        modified=flags(vehicle.modified for vehicle in vehicles),
    )
