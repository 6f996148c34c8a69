"""The hubs around a place, from which it takes its road factors: the nearer ones count more.

Everything is written twice, for one place and for columns, because one place through columns of one takes ten times as long;
both give the same figures.
"""

import math
from functools import cache, lru_cache
from itertools import repeat
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from shipcalc.distinct import distinct
from shipcalc.places.road.lanes_table import FACTOR_OF_CODE, HubTable, unit_vectors
from shipcalc.places.straight import EARTH_RADIUS_KM
from shipcalc.records import dataclass

# Where the hubs near to a place are looked for: a cell of the globe has those nearest to its middle.
CELL_DEGREES, AREA_DEGREES = 0.25, 2.0
CELLS_ROUND, CELLS_UP = round(360 / CELL_DEGREES), round(180 / CELL_DEGREES)
CANDIDATES = 12

HUBS_PER_PLACE = 3

# A hub nearer than this counts as being the place itself.
NEAREST_KM = 2.0

# A place farther than this from every hub has no lane factor.
FARTHEST_HUB_KM = 150.0

# A second hub that lies more than this times farther by road than straight from the first stands across water or beyond a
# mountain and has no say.
SAME_SIDE_FACTOR = 2.0

# So that the weights of hubs at one distance do not all come to nothing.
LEAST_WEIGHT = 1e-9

# A square's last bits give way to the number of the candidate (below 16), so that both are sorted together.
_LAST_BITS = 15

Floats = NDArray[np.float64]
Indices = NDArray[np.int32]

# The candidates of a cell: where each stands, [x, y, z]; where its network begins, its position there, where its row begins.
Point = tuple[float, float, float]
HubsOfCell = tuple[tuple[Point, ...], tuple[tuple[int, int, int], ...]]


class Around(NamedTuple):
    """The hubs around one place: where their network begins in the table, and of each its position, where its row begins, its
    weight and where it stands [x, y, z]; none: none is near.
    """

    start: int
    hubs: tuple[tuple[int, int, float, Point], ...]


@dataclass(frozen=True, slots=True, eq=False)
class AroundColumns:
    """The hubs around places, [n] and [HUBS_PER_PLACE, n]; weights sum to 1, or to 0 where no hub is near.

    `hub` is a hub's row in the table; a hub without weight may be of another network than the first.
    """

    start: Indices
    position: Indices
    weight: Floats
    hub: Indices

    def some(self, chosen: NDArray[np.int64]) -> "AroundColumns":
        """Return those of some of the places."""
        return AroundColumns(self.start[chosen], self.position[:, chosen], self.weight[:, chosen], self.hub[:, chosen])


@dataclass(slots=True, eq=False)
class Candidates:
    """The hubs nearest to the middles of the cells that columns asked for.

    `hubs` int32 [CANDIDATES, cells asked for], `points` float64 [3, CANDIDATES, cells asked for]; `row_of_cell` int32, one
    figure for each cell of the globe, one more than its row, 0 where it was not yet asked for: zeros take no memory and no
    time until they are touched.
    """

    hubs: Indices
    points: Floats
    row_of_cell: Indices


@lru_cache(maxsize=10_000)
def hubs_around(table: HubTable, latitude: float, longitude: float) -> Around:
    """Return the hubs around a place with their weights, which sum to 1.

    A weight falls with the distance and reaches nothing at the distance of the fourth hub, so that factors do not jump
    where one hub takes the place of another.
    """
    north, east = math.radians(latitude), math.radians(longitude)
    level = math.cos(north)
    here = (level * math.cos(east), level * math.sin(east), math.sin(north))
    points, hubs_there = _hubs_of(
        table, int((latitude + 90) / CELL_DEGREES), int((longitude + 180) % 360 / CELL_DEGREES)
    )
    away = list(map(math.dist, repeat(here), points))
    nearest, second, third, next_one = sorted(range(CANDIDATES), key=away.__getitem__)[: HUBS_PER_PLACE + 1]
    start, first, first_row = hubs_there[nearest]
    apart, far = away[nearest] * EARTH_RADIUS_KM, away[next_one] * EARTH_RADIUS_KM
    if apart > FARTHEST_HUB_KM:
        return Around(start, ())
    codes, nothing = table.codes_in_turn, 1 / (far if far > NEAREST_KM else NEAREST_KM)
    total = weight = 1 / (apart if apart > NEAREST_KM else NEAREST_KM) - nothing + LEAST_WEIGHT
    hubs = [(first, first_row, weight, points[nearest])]
    for nth in (second, third):
        its_start, position, row = hubs_there[nth]
        if its_start != start:
            continue
        if FACTOR_OF_CODE[codes[row + first if position > first else first_row + position]] < SAME_SIDE_FACTOR:
            apart = away[nth] * EARTH_RADIUS_KM
            weight = 1 / (apart if apart > NEAREST_KM else NEAREST_KM) - nothing + LEAST_WEIGHT
            total += weight
            hubs.append((position, row, weight, points[nth]))
    return Around(start, tuple([(position, row, weight / total, point) for position, row, weight, point in hubs]))


def hubs_around_columns(table: HubTable, latitude: Floats, longitude: Floats) -> AroundColumns:
    """Return what `hubs_around` does for places in columns."""
    known = _candidates(table)
    row = _rows(table, known, latitude, longitude)
    nearest = _smallest(_squares_apart(known, row, unit_vectors(latitude, longitude).T), HUBS_PER_PLACE + 1)
    apart_km = np.sqrt((nearest & ~_LAST_BITS).view(np.float64))
    apart_km *= EARTH_RADIUS_KM
    np.maximum(apart_km, NEAREST_KM, out=apart_km)
    hubs = known.hubs[nearest[:HUBS_PER_PLACE] & _LAST_BITS, row]
    start, position = table.start[hubs], table.position[hubs]
    weight = 1 / apart_km[:-1]
    weight -= 1 / apart_km[-1] - LEAST_WEIGHT
    for nth in range(1, HUBS_PER_PLACE):
        weight[nth] *= _is_on_same_side(table, start, position, nth)
    weight *= (apart_km[0] <= FARTHEST_HUB_KM) / weight.sum(axis=0)
    position[1:] = np.where(start[1:] == start[0], position[1:], position[0])
    return AroundColumns(start[0], position, weight, hubs)


def _is_on_same_side(table: HubTable, start: Indices, position: Indices, nth: int) -> NDArray[np.bool_]:
    """Return whether the nth hub of each place is as good as connected with the nearest."""
    same_network = start[nth] == start[0]
    other = np.where(same_network, position[nth], position[0])
    same_side: NDArray[np.bool_] = table.between_columns(start[0], other, position[0]) < SAME_SIDE_FACTOR
    same_side &= same_network
    return same_side


def _squares_apart(known: Candidates, row: NDArray[np.int64], here: Floats) -> NDArray[np.int64]:
    """Return the squares of the distances to the candidates [CANDIDATES, n], as whole numbers that are sorted alike."""
    squares = np.empty((CANDIDATES, len(row)))
    for nth in range(CANDIDATES):
        for axis in range(3):
            part = known.points[axis, nth].take(row)
            part -= here[axis]
            part *= part
            if axis:
                squares[nth] += part
            else:
                squares[nth] = part
    numbers = squares.view(np.int64)
    numbers &= ~_LAST_BITS
    numbers |= np.arange(CANDIDATES)[:, None]
    return numbers


def _smallest(numbers: NDArray[np.int64], count: int) -> NDArray[np.int64]:
    """Return the smallest of each column in order, [count, n]; the numbers are used up.

    Each row is sifted through the smallest so far: for short columns four times as fast as sorting them.
    """
    smallest = np.full((count, numbers.shape[1]), np.iinfo(np.int64).max)
    less = np.empty(numbers.shape[1], np.int64)
    for nth, new in enumerate(numbers):
        for kept in smallest[: nth + 1]:
            np.minimum(kept, new, out=less)
            np.maximum(kept, new, out=new)
            kept[:] = less
    return smallest


@cache
def _candidates(table: HubTable) -> Candidates:
    """Return what was found for a table's cells so far."""
    return Candidates(
        hubs=np.empty((CANDIDATES, 0), np.int32),
        points=np.empty((3, CANDIDATES, 0)),
        row_of_cell=np.zeros(CELLS_ROUND * CELLS_UP, np.int32),
    )


def _rows(table: HubTable, known: Candidates, latitude: Floats, longitude: Floats) -> NDArray[np.int64]:
    """Return for each place the row of its cell, which is asked for if it was not before."""
    north = np.minimum(((latitude + 90) / CELL_DEGREES).astype(np.int64), CELLS_UP - 1)
    east = ((longitude + 180) % 360 / CELL_DEGREES).astype(np.int64) % CELLS_ROUND
    cell = north * CELLS_ROUND + east
    row = known.row_of_cell[cell]
    if not row.all():
        _ask_for(table, known, distinct(cell[row == 0]))
        row = known.row_of_cell[cell]
    return row.astype(np.int64) - 1


@lru_cache(maxsize=10_000)
def _hubs_of(table: HubTable, north: int, east: int) -> HubsOfCell:
    """Return the candidates of one cell of the globe, counted from the south and from the west; the pole is in the last."""
    north, east = min(north, CELLS_UP - 1), east % CELLS_ROUND
    middle = unit_vectors([(north + 0.5) * CELL_DEGREES - 90], [(east + 0.5) * CELL_DEGREES - 180])
    hubs = _nearest(table.points, middle)[0]
    starts, positions = table.start[hubs].tolist(), table.position[hubs].tolist()
    rows = [start + (position * (position + 1) >> 1) for start, position in zip(starts, positions, strict=True)]
    points = [(x, y, z) for x, y, z in table.points[hubs].tolist()]
    return tuple(points), tuple(zip(starts, positions, rows, strict=True))


def _ask_for(table: HubTable, known: Candidates, cells: NDArray[np.int64]) -> None:
    """Find the candidates of cells, area by area: an area's own candidates first, so that few hubs are compared."""
    north, east = np.divmod(cells, CELLS_ROUND)
    middles = unit_vectors((north + 0.5) * CELL_DEGREES - 90, (east + 0.5) * CELL_DEGREES - 180)
    per_area = round(AREA_DEGREES / CELL_DEGREES)
    area = (north // per_area) * 1000 + east // per_area
    hubs = np.empty((len(cells), CANDIDATES), np.int32)
    for here in distinct(area):
        inside = np.flatnonzero(area == here)
        hubs[inside] = _nearest(table.points, middles[inside])
    known.row_of_cell[cells] = known.hubs.shape[1] + np.arange(1, len(cells) + 1, dtype=np.int32)
    known.hubs = np.concatenate([known.hubs, hubs.T], axis=1)
    known.points = np.concatenate([known.points, table.points[hubs].transpose(2, 1, 0)], axis=2)


def _nearest(points: Floats, middles: Floats) -> NDArray[np.int64]:
    """Return the CANDIDATES points nearest to each of some middles that lie together, [middles, CANDIDATES]."""
    closeness = points @ middles.mean(axis=0)
    spread = 2 * np.arccos(np.clip((middles @ middles[0]).min(), -1, 1))
    last = np.partition(closeness, -CANDIDATES)[-CANDIDATES]
    farthest = np.arccos(np.clip(last, -1, 1)) + 2 * spread
    # The cosine of an arc cosine may come out a hair larger, and the last candidate would be lost.
    near = np.flatnonzero(closeness >= min(np.cos(min(farthest, np.pi)), last))
    apart = -(middles @ points[near].T)
    if len(near) > 4 * CANDIDATES:  # to sort only what may be among the nearest takes a tenth of the time
        few = np.sort(np.argpartition(apart, 4 * CANDIDATES, axis=1)[:, : 4 * CANDIDATES], axis=1)
        ranked = np.argsort(np.take_along_axis(apart, few, axis=1), axis=1, kind="stable")[:, :CANDIDATES]
        return near[np.take_along_axis(few, ranked, axis=1)]
    return near[np.argsort(apart, axis=1, kind="stable")[:, :CANDIDATES]]
