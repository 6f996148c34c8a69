"""How much longer the road is than the straight line, for the lane between two given places.

A table holds the road factor (road length ÷ great circle) between some thousands of hubs; a place takes its factor from the
hubs around it, the nearer ones more. The table is made by `shipcalc.places.build_lanes` from OpenStreetMap's highways and
read here with numpy alone; `data/lanes/ORIGIN.md` says where it comes from and under which licence.
"""

import math
from dataclasses import dataclass, field
from functools import cache, lru_cache
from pathlib import Path

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shipcalc.places.straight import EARTH_RADIUS_KM, great_circle_mi_columns

FOLDER = Path(__file__).parent / "data" / "lanes"
HUBS_FILE, CODES_FILE = "hubs.npy", "factors.npy"
HUB = np.dtype([("latitude", "<f4"), ("longitude", "<f4"), ("network", "<u2")])

CELL_DEGREES, AREA_DEGREES = 0.25, 2.0
CANDIDATES = 12
HUBS_PER_PLACE = 3

# A hub nearer than this counts as being the place itself.
NEAREST_KM = 2.0

# A place farther than this from every hub has no lane factor.
FARTHEST_HUB_KM = 150.0

# A second hub that lies more than this times farther by road than straight from the first stands across water or beyond a
# mountain and has no say.
SAME_SIDE_FACTOR = 2.0

BLOCK = 65_536

# (great circle up to, mi; share of the miles within which two lanes of three fall), measured on the mileage table of 1949 by
# `shipcalc.places.lanes_accuracy` and rounded up; tests/published/test_road_lanes.py holds them to it.
EXPECTED_ERRORS = ((60.0, 0.11), (100.0, 0.07), (300.0, 0.055), (500.0, 0.04), (800.0, 0.035), (math.inf, 0.02))


@dataclass(frozen=True, slots=True)
class LaneFactor:
    """The road factor of one lane; `expected_error` is the share of the miles within which two lanes of three fall."""

    factor: float
    method: str
    expected_error: float


@dataclass(frozen=True, slots=True, eq=False)
class LaneTable:
    """Hubs, sorted by network (hubs that roads connect), and the factors between the hubs of one network.

    `points` float32 [hubs, 3], unit vectors; `network`, `position` int64 [hubs], a hub's network and its place therein;
    `start` int64 [hubs], where the triangle of its network begins in `codes`, uint8, coded factors row by row. The diagonal
    holds the local factor, between a hub and its neighbours.
    """

    points: NDArray[np.float32]
    network: NDArray[np.int64]
    position: NDArray[np.int64]
    start: NDArray[np.int64]
    codes: NDArray[np.uint8]
    candidates: "Candidates"

    @property
    def source(self) -> str:
        """Where the table is from, as a phrase."""
        return "the lane's own factor from a network of highways (© OpenStreetMap contributors)"

    def factors(
        self, *, latitude_a: ArrayLike, longitude_a: ArrayLike, latitude_b: ArrayLike, longitude_b: ArrayLike
    ) -> NDArray[np.float64]:
        """Return road ÷ great circle for columns of one length; NaN where the table does not reach."""
        return lane_factors_columns(
            self, latitude_a=latitude_a, longitude_a=longitude_a, latitude_b=latitude_b, longitude_b=longitude_b
        )


@dataclass(slots=True, eq=False)
class Candidates:
    """The hubs nearest to the middles of cells of a quarter of a degree, found when a cell is first asked for.

    `rows` int16 [cells asked for, CANDIDATES]; `row_of_cell` int32, one figure for each cell of the globe, one more than
    its row, 0 where it was not yet asked for: zeros take no memory and no time until they are touched.
    """

    rows: NDArray[np.int32] = field(default_factory=lambda: np.empty((0, CANDIDATES), np.int32))
    row_of_cell: NDArray[np.int32] = field(default_factory=lambda: np.zeros(_cells_round() * _cells_up(), np.int32))


def lane_factor(
    table: LaneTable, *, latitude_a: float, longitude_a: float, latitude_b: float, longitude_b: float
) -> LaneFactor | None:
    """Return the factor of one lane, None where the table does not reach (no hub near, or no road between the hubs).

    The same in both directions, to the last bit.
    """
    lane = {
        "latitude_a": np.array([latitude_a]),
        "longitude_a": np.array([longitude_a]),
        "latitude_b": np.array([latitude_b]),
        "longitude_b": np.array([longitude_b]),
    }
    factor = float(lane_factors_columns(table, **lane)[0])
    if np.isnan(factor):
        return None
    return LaneFactor(factor, "network", expected_error(float(great_circle_mi_columns(**lane)[0])))


def expected_error(great_circle_mi: float) -> float:
    """Return the share of the miles within which two lanes of three of that length fall."""
    return next(error for up_to_mi, error in EXPECTED_ERRORS if great_circle_mi <= up_to_mi)


def lane_factors_columns(
    table: LaneTable,
    *,
    latitude_a: ArrayLike,
    longitude_a: ArrayLike,
    latitude_b: ArrayLike,
    longitude_b: ArrayLike,
) -> NDArray[np.float64]:
    """Return road ÷ great circle, float64, for columns in degrees of one length; NaN where the table does not reach."""
    columns = [np.asarray(column, np.float64) for column in (latitude_a, longitude_a, latitude_b, longitude_b)]
    if len(columns[0]) == 1:
        return np.array([_factor(table, *(float(column[0]) for column in columns))])
    factors = np.empty(len(columns[0]))
    for begin in range(0, len(factors), BLOCK):
        block = slice(begin, begin + BLOCK)
        factors[block] = _factors(table, *(column[block] for column in columns))
    return factors


@cache
def lane_table(folder: Path = FOLDER) -> LaneTable:
    """Return the table of a folder; the factors stay on disk until they are asked for."""
    hubs = np.load(folder / HUBS_FILE)
    codes: NDArray[np.uint8] = np.load(folder / CODES_FILE, mmap_mode="r").view(np.ndarray)
    network = hubs["network"].astype(np.int64)
    sizes = np.bincount(network)
    first_hub = np.concatenate([[0], np.cumsum(sizes)])
    first_code = np.concatenate([[0], np.cumsum(sizes * (sizes + 1) // 2)])
    assert first_code[-1] == len(codes), "the hubs and the factors were not made together"
    return LaneTable(
        points=unit_vectors(hubs["latitude"], hubs["longitude"]).astype(np.float32),
        network=network,
        position=np.arange(len(hubs)) - first_hub[network],
        start=first_code[network],
        codes=codes,
        candidates=Candidates(),
    )


def unit_vectors(latitude: ArrayLike, longitude: ArrayLike) -> NDArray[np.float64]:
    """Return points on the unit sphere, float64 [n, 3], for degrees."""
    north, east = np.radians(latitude, dtype=np.float64), np.radians(longitude, dtype=np.float64)
    points = np.empty((*north.shape, 3))
    points[..., 0] = points[..., 1] = np.cos(north)
    points[..., 0] *= np.cos(east)
    points[..., 1] *= np.sin(east)
    points[..., 2] = np.sin(north)
    return points


def code_factors() -> NDArray[np.float64]:
    """Return the factors of the codes 0 … 255: steps of half a per cent to 2.7, then of 3 % to 14 (round a bay or a lake)."""
    logarithms = np.concatenate([np.arange(200) * 0.005, 0.995 + np.arange(1, 57) * 0.03])
    factors: NDArray[np.float64] = np.exp(logarithms)
    return factors


CODE_FACTORS = code_factors()
FACTOR_OF_CODE = tuple(CODE_FACTORS.tolist())


def triangle_index(row: NDArray[np.int64], column: NDArray[np.int64]) -> NDArray[np.int64]:
    """Return where the factor of two positions stands in the triangle of their network, the diagonal included."""
    long, short = np.maximum(row, column), np.minimum(row, column)
    index: NDArray[np.int64] = (long * (long + 1) >> 1) + short
    return index


def _factor(table: LaneTable, latitude_a: float, longitude_a: float, latitude_b: float, longitude_b: float) -> float:
    """Return what `_factors` does for a block of one: faster where a place was asked for before, as a yard is."""
    south, north = sorted([(latitude_a, longitude_a), (latitude_b, longitude_b)])
    (start, *positions), weights = _hubs_around_one(table, *south)
    (other_start, *other_positions), other_weights = _hubs_around_one(table, *north)
    if start != other_start or not weights[0] or not other_weights[0]:
        return math.nan
    factor = 0.0
    for position, weight in zip(positions, weights, strict=True):
        for other, other_weight in zip(other_positions, other_weights, strict=True):
            long, short = (position, other) if position > other else (other, position)
            factor += weight * other_weight * FACTOR_OF_CODE[table.codes.item(start + (long * (long + 1) >> 1) + short)]
    return factor


@lru_cache(maxsize=10_000)
def _hubs_around_one(table: LaneTable, latitude: float, longitude: float) -> tuple[list[int], list[float]]:
    """Return where the network of the hubs around a place begins and their positions in it; and their weights."""
    hubs, weights = _hubs_around(table, np.array([latitude]), np.array([longitude]))
    return [int(table.start[hubs[0, 0]]), *table.position[hubs[0]].tolist()], weights[0].tolist()


def _factors(table: LaneTable, *columns: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the factors of one block; columns are latitude and longitude of a, then of b."""
    latitude_a, longitude_a, latitude_b, longitude_b = columns
    turned = (latitude_a > latitude_b) | ((latitude_a == latitude_b) & (longitude_a > longitude_b))
    count = len(turned)
    latitude = np.concatenate([np.where(turned, latitude_b, latitude_a), np.where(turned, latitude_a, latitude_b)])
    longitude = np.concatenate([np.where(turned, longitude_b, longitude_a), np.where(turned, longitude_a, longitude_b)])
    hubs, weights = _hubs_around(table, latitude, longitude)
    start, position = table.start[hubs[:, 0]], table.position[hubs]
    index = triangle_index(position[:count, :, None], position[count:, None, :]) + start[:count, None, None]
    connected = (start[:count] == start[count:]) & (weights[:count, 0] > 0) & (weights[count:, 0] > 0)
    index[~connected] = 0
    pair_weights = weights[:count, :, None] * weights[count:, None, :]
    factors: NDArray[np.float64] = np.einsum("nij,nij->n", pair_weights, CODE_FACTORS[table.codes[index]])
    factors[~connected] = np.nan
    return factors


def _hubs_around(
    table: LaneTable, latitude: NDArray[np.float64], longitude: NDArray[np.float64]
) -> tuple[NDArray[np.int64], NDArray[np.float64]]:
    """Return for each place its nearest hubs, [n, 3], and their weights, which sum to 1 (or to 0: no hub near).

    A weight falls with the distance and reaches nothing at the distance of the fourth hub, so that factors do not jump
    where one hub takes the place of another.
    """
    candidates = _candidates(table, latitude, longitude)
    apart = table.points[candidates]
    apart -= unit_vectors(latitude, longitude).astype(np.float32)[:, None, :]
    distance_km = np.sqrt(np.einsum("nck,nck->nc", apart, apart))
    distance_km *= EARTH_RADIUS_KM
    each = np.arange(len(latitude))[:, None]
    order = distance_km.argsort(axis=1)[:, : HUBS_PER_PLACE + 1]
    distance_km = np.maximum(distance_km[each, order], NEAREST_KM)
    hubs = candidates[each, order[:, :HUBS_PER_PLACE]]
    weights = 1 / distance_km[:, :HUBS_PER_PLACE] - 1 / distance_km[:, HUBS_PER_PLACE:] + 1e-9
    same_side = _on_the_same_side(table, hubs)
    hubs = np.where(same_side, hubs, hubs[:, :1])
    weights *= same_side
    weights *= (distance_km[:, :1] <= FARTHEST_HUB_KM) / weights.sum(axis=1, keepdims=True)
    return hubs, weights.astype(np.float64)


def _on_the_same_side(table: LaneTable, hubs: NDArray[np.int64]) -> NDArray[np.bool_]:
    """Return for the hubs of each place whether they are as good as connected with the nearest, which always is."""
    start, position = table.start[hubs], table.position[hubs]
    same_network = start == start[:, :1]
    index = np.where(same_network, triangle_index(position, position[:, :1]) + start, 0)
    same_side: NDArray[np.bool_] = same_network & (CODE_FACTORS[table.codes[index]] < SAME_SIDE_FACTOR)
    same_side[:, 0] = True
    return same_side


def _cells_round() -> int:
    return round(360 / CELL_DEGREES)


def _cells_up() -> int:
    return round(180 / CELL_DEGREES)


def _candidates(table: LaneTable, latitude: NDArray[np.float64], longitude: NDArray[np.float64]) -> NDArray[np.int64]:
    """Return the hubs that may be near to each place, [n, CANDIDATES]: those nearest to the middle of its cell."""
    north = np.minimum(((latitude + 90) / CELL_DEGREES).astype(np.int64), _cells_up() - 1)
    east = ((longitude + 180) % 360 / CELL_DEGREES).astype(np.int64) % _cells_round()
    cell = north * _cells_round() + east
    known = table.candidates
    row = known.row_of_cell[cell]
    if not row.all():
        _ask_for(table, _distinct(cell[row == 0]))
        row = known.row_of_cell[cell]
    return known.rows[row - 1].astype(np.int64)


def _distinct(numbers: NDArray[np.int64]) -> NDArray[np.int64]:
    """Return numbers from 0 on in order, each once. As np.unique, whose first call imports masked arrays, 15 ms."""
    ordered = np.sort(numbers)
    distinct: NDArray[np.int64] = ordered[np.diff(ordered, prepend=-1) > 0]
    return distinct


def _ask_for(table: LaneTable, cells: NDArray[np.int64]) -> None:
    """Find the candidates of cells, area by area: an area's own candidates first, so that few hubs are compared."""
    north, east = np.divmod(cells, _cells_round())
    middles = unit_vectors((north + 0.5) * CELL_DEGREES - 90, (east + 0.5) * CELL_DEGREES - 180).astype(np.float32)
    per_area = round(AREA_DEGREES / CELL_DEGREES)
    area = (north // per_area) * 1000 + east // per_area
    rows = np.empty((len(cells), CANDIDATES), np.int32)
    for here in _distinct(area):
        inside = np.flatnonzero(area == here)
        rows[inside] = _nearest(table.points, middles[inside])
    known = table.candidates
    known.row_of_cell[cells] = len(known.rows) + np.arange(1, len(cells) + 1, dtype=np.int32)
    known.rows = np.concatenate([known.rows, rows])


def _nearest(points: NDArray[np.float32], middles: NDArray[np.float32]) -> NDArray[np.int64]:
    """Return the CANDIDATES points nearest to each of some middles that lie together, [middles, CANDIDATES]."""
    closeness = points @ middles.mean(axis=0)
    spread = 2 * np.arccos(np.clip((middles @ middles[0]).min(), -1, 1))
    farthest = np.arccos(np.clip(np.partition(closeness, -CANDIDATES)[-CANDIDATES], -1, 1)) + 2 * spread
    near = np.flatnonzero(closeness >= np.cos(min(farthest, np.pi)))
    ranked = np.argsort(-(middles @ points[near].T), axis=1, kind="stable")[:, :CANDIDATES]
    return near[ranked]
