"""Land cut into small boxes, each with what the nearest of many spots has: borders for areas of which only points are known."""

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from shipcalc.records import dataclass

Floats = NDArray[np.float64]
Box = tuple[float, float, float, float]

BOX = 2.0
AT_ONCE = 400


@dataclass(frozen=True, slots=True, eq=False)
class Spots:
    """Points on the map (n,) and the code of the area that each belongs to."""

    longitude: Floats
    latitude: Floats
    codes: tuple[str, ...]


def runs_of(land: Sequence[Floats], spots: Floats, classes: NDArray[np.int64]) -> Iterator[tuple[int, tuple[Box, ...]]]:
    """Yield each class and its boxes: boxes of a row that lie together are one. `land` has rings, `spots` (n, 2), of the page."""
    low = np.floor(np.min([ring.min(axis=0) for ring in land], axis=0))
    high = np.max([ring.max(axis=0) for ring in land], axis=0)
    across, down = (np.ceil((high - low) / BOX).astype(int)).tolist()
    x, y = low[0] + (np.arange(across) + 0.5) * BOX, low[1] + (np.arange(down) + 0.5) * BOX
    inside = _inside(land, x, y)
    rows, columns = np.nonzero(inside)
    found = np.full(inside.shape, _NO_LAND)
    distinct, own = _distinct(spots, classes)
    found[rows, columns] = own[_nearest(np.stack([x[columns], y[rows]], axis=1), distinct)]
    for number in np.unique(found[found != _NO_LAND]).tolist():
        yield number, tuple(_boxes(found == number, float(low[0]), float(low[1])))


_NO_LAND = -2


def _distinct(spots: Floats, classes: NDArray[np.int64]) -> tuple[Floats, NDArray[np.int64]]:
    """Return one spot of each class for every box: in towns ZIPs stand closer than that."""
    keys = np.concatenate([np.floor(spots / BOX).astype(np.int64), classes[:, np.newaxis]], axis=1)
    _, first = np.unique(keys, axis=0, return_index=True)
    return spots[first], classes[first]


def _inside(rings: Sequence[Floats], x: Floats, y: Floats) -> NDArray[np.bool_]:
    """Return which middles of boxes (down, across) lie within any of the rings: an odd number of edges to their left."""
    land = np.zeros((len(y), len(x)), dtype=np.bool_)
    for ring in rings:
        crossed = np.zeros((len(y), len(x) + 1), dtype=np.int64)
        for (ax, ay), (bx, by) in zip(ring, np.roll(ring, -1, axis=0), strict=True):
            if ay == by:
                continue
            rows = np.flatnonzero((y >= min(ay, by)) & (y < max(ay, by)))
            at = ax + (y[rows] - ay) * (bx - ax) / (by - ay)
            np.add.at(crossed, (rows, np.searchsorted(x, at)), 1)
        land |= (np.cumsum(crossed, axis=1)[:, :-1] % 2).astype(np.bool_)
    return land


def _nearest(points: Floats, spots: Floats) -> NDArray[np.int64]:
    """Return for each point the number of the nearest spot; compared only with the spots of its neighbourhood."""
    order = np.argsort(spots[:, 1], kind="stable")
    ranked = spots[order]
    found = np.empty(len(points), dtype=np.int64)
    for begin in range(0, len(points), AT_ONCE):
        part = points[begin : begin + AT_ONCE]
        reach = 8 * BOX
        while True:
            first, last = np.searchsorted(ranked[:, 1], [part[:, 1].min() - reach, part[:, 1].max() + reach])
            near = ranked[first:last]
            if len(near):
                squares = (part[:, :1] - near[:, 0]) ** 2 + (part[:, 1:] - near[:, 1]) ** 2
                best = squares.argmin(axis=1)
                if squares[np.arange(len(part)), best].max() <= reach**2:
                    found[begin : begin + AT_ONCE] = order[first + best]
                    break
            reach *= 2
    return found


def _boxes(mask: NDArray[np.bool_], left: float, top: float) -> Iterator[Box]:
    edges = np.diff(np.pad(mask.astype(np.int8), ((0, 0), (1, 1))), axis=1)
    starts, ends = np.argwhere(edges == 1), np.argwhere(edges == -1)
    for (row, begin), (_, end) in zip(starts.tolist(), ends.tolist(), strict=True):
        yield left + begin * BOX, top + row * BOX, (end - begin) * BOX, BOX
