"""Waters and mountains that no road crosses: why some lanes are far longer by road than straight.

Read when the lane factors are made and checked, and to tell whether a far longer way has a reason.
"""

import csv
from functools import cache

import numpy as np
from numpy.typing import NDArray

from shipcalc.places.road.lanes_table import FOLDER

BARRIERS_FILE = "barriers.csv"
PER_BLOCK = 20_000


@cache
def barriers() -> tuple[tuple[str, ...], NDArray[np.float64]]:
    """Return names and lines, degrees [n, 4]: latitude and longitude of one end, then of the other."""
    with (FOLDER / BARRIERS_FILE).open(newline="", encoding="utf-8") as lines:
        rows = [(name, [float(figure) for figure in figures]) for name, *figures in list(csv.reader(lines))[1:]]
    return tuple(name for name, _ in rows), np.array([figures for _, figures in rows])


def barrier_between(a: NDArray[np.float64], b: NDArray[np.float64]) -> NDArray[np.int64]:
    """Return for each lane, places in degrees [n, 2], the number of the first barrier on its line; −1 where none is."""
    _, lines = barriers()
    found = np.full(len(a), -1)
    for begin in range(0, len(a), PER_BLOCK):
        block = slice(begin, begin + PER_BLOCK)
        crossed = _cross(a[block, None, :], b[block, None, :], lines[None, :, :2], lines[None, :, 2:])
        found[block] = np.where(crossed.any(axis=1), crossed.argmax(axis=1), -1)
    return found


def has_barrier(latitude_a: float, longitude_a: float, latitude_b: float, longitude_b: float) -> bool:
    """Return whether a barrier stands on one lane, as `barrier_between` finds for columns."""
    south, north = sorted((latitude_a, latitude_b))
    west, east = sorted((longitude_a, longitude_b))
    b_north, b_east = latitude_b - latitude_a, longitude_b - longitude_a
    for c_north, c_east, d_north, d_east in _lines():
        if (
            (c_north > north and d_north > north)
            or (c_north < south and d_north < south)
            or (c_east > east and d_east > east)
            or (c_east < west and d_east < west)
        ):
            continue
        left_c = b_east * (c_north - latitude_a) - b_north * (c_east - longitude_a) > 0
        left_d = b_east * (d_north - latitude_a) - b_north * (d_east - longitude_a) > 0
        to_north, to_east = d_north - c_north, d_east - c_east
        left_a = to_east * (latitude_a - c_north) - to_north * (longitude_a - c_east) > 0
        left_b = to_east * (latitude_b - c_north) - to_north * (longitude_b - c_east) > 0
        if left_c != left_d and left_a != left_b:
            return True
    return False


@cache
def _lines() -> tuple[tuple[float, float, float, float], ...]:
    """Return the lines of `barriers`, for one lane."""
    return tuple([(c_north, c_east, d_north, d_east) for c_north, c_east, d_north, d_east in barriers()[1].tolist()])


def _cross(
    a: NDArray[np.float64], b: NDArray[np.float64], c: NDArray[np.float64], d: NDArray[np.float64]
) -> NDArray[np.bool_]:
    """Whether the line from a to b meets the one from c to d, on a map that is flat in degrees: good for near places."""
    crossed: NDArray[np.bool_] = (_turn(a, b, c) != _turn(a, b, d)) & (_turn(c, d, a) != _turn(c, d, b))
    return crossed


def _turn(a: NDArray[np.float64], b: NDArray[np.float64], c: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Whether c lies to the left on the way from a to b."""
    (b_north, b_east), (c_north, c_east) = (np.moveaxis(point - a, -1, 0) for point in (b, c))
    left: NDArray[np.bool_] = b_east * c_north - b_north * c_east > 0
    return left
