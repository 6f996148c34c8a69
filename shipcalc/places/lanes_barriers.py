"""Waters and mountains that no road crosses: why some lanes are far longer by road than straight.

Read when the lane factors are made and when they are checked; never to price a lane.
"""

import csv
from functools import cache

import numpy as np
from numpy.typing import NDArray

from shipcalc.places.lanes_table import FOLDER

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
