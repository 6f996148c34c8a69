"""Which vehicles and which lanes are priced alike, so that each kind is priced once.

Nothing here knows the rules: vehicles are alike when everything that asks something of a vehicle answers the same for
them, lanes when all their columns are the same.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from shipcalc.money import Int64
from shipcalc.pricing.columns import LaneColumns, VehicleColumns
from shipcalc.pricing.eligibility import vehicle_obstacles
from shipcalc.pricing.extras import vehicles_meeting
from shipcalc.pricing.tariff import Service
from shipcalc.ratebook.rows.extra_charges import ExtraCharge
from shipcalc.records import dataclass, fields


@dataclass(frozen=True, slots=True, eq=False)
class Alike:
    """Kinds of things: `first` (k,) has the number of one thing of each kind, `kind_of` (n,) each thing's kind."""

    first: Int64
    kind_of: Int64

    def __len__(self) -> int:
        return len(self.first)


def rows_alike(rows: NDArray[np.generic]) -> Alike:
    """Return the kinds of rows of a table (n, width) of any one type; rows are alike when all their cells are equal."""
    if not rows.shape[1]:
        rows = np.zeros((len(rows), 1), dtype=np.bool_)
    table = np.ascontiguousarray(rows)
    keys = table.view(np.dtype((np.void, table.dtype.itemsize * table.shape[1])))[:, 0]
    _, first, kind_of = np.unique(keys, return_index=True, return_inverse=True)
    return Alike(first, kind_of.reshape(-1))


def vehicles_alike(
    services: Sequence[Service], extras: tuple[ExtraCharge, ...], vehicles: VehicleColumns, currency: str
) -> Alike:
    """Return the kinds of vehicles that every service and every extra charge treats alike, but for what hangs on their value."""
    count = len(vehicles)
    answers = [np.broadcast_to(where, count) for where in vehicles_meeting(extras, vehicles)]
    for service in services:
        answers += [obstacle.where[:, 0] for obstacle in vehicle_obstacles(service, vehicles, currency)]
    return rows_alike(np.stack(answers, axis=1) if answers else np.zeros((count, 0), dtype=np.bool_))


def lanes_alike(lanes: LaneColumns) -> Alike:
    """Return the kinds of lanes: as many whole miles, in the same areas at either end, by the same ferry, with the same rows of
    the sheet Lanes.
    """
    bits = np.packbits(np.concatenate([lanes.at_pickup, lanes.at_delivery, lanes.home[:, np.newaxis]], axis=1), axis=1)
    numbers: dict[int, int] = {}
    ferries = [numbers.setdefault(id(ferry), len(numbers)) for ferry in lanes.ferries] or [0] * len(lanes)
    met = () if lanes.met is None else lanes.met.T
    figures = np.stack([lanes.miles, np.array(ferries, dtype=np.int64), *met], axis=1)
    return rows_alike(np.concatenate([figures.view(np.uint8), bits], axis=1))


def vehicles_at(vehicles: VehicleColumns, rows: Int64) -> VehicleColumns:
    """Return some of the vehicles, by number."""
    return VehicleColumns(**{name: getattr(vehicles, name)[rows] for name in _COLUMNS})


_COLUMNS = tuple(field.name for field in fields(VehicleColumns))


def lanes_at(lanes: LaneColumns, rows: Int64) -> LaneColumns:
    """Return some of the lanes, by number."""
    return LaneColumns(
        miles=lanes.miles[rows],
        at_pickup=lanes.at_pickup[rows],
        at_delivery=lanes.at_delivery[rows],
        home=lanes.home[rows],
        ferries=tuple(lanes.ferries[row] for row in rows.tolist()) if lanes.ferries else (),
        met=None if lanes.met is None else lanes.met[rows],
    )
