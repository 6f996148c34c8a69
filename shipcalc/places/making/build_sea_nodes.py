"""Build time only: the points between which open water is sailed in straight lines.

Headlands, where a shortest way turns, and some nodes of the lane network off the coasts, have lines as far as the eye could
reach on a globe of glass; the other lane nodes, of straits and the approaches to harbours, have lines to what is near.
"""

from collections.abc import Iterator

import numpy as np

from shipcalc.places.making.build_sea_lanes import Lanes
from shipcalc.places.making.build_sea_water import CELLS_PER_DEGREE, COLUMNS, ROWS, Ints, Mask, cells
from shipcalc.places.sea.geometry import MEAN_RADIUS_NMI, Floats, unit_vectors
from shipcalc.records import dataclass

# Headlands are looked for on cells of a tenth of a degree.
COARSE = CELLS_PER_DEGREE // 10
HEADLAND_SPACING_NMI, ISLET_PORT_SPACING_NMI, COAST_SPACING_NMI = 42.0, 30.0, 75.0
POINT_AT_HAND_NMI = 40.0
# Reach in cells, and the share of land in a box of that reach each way that a headland has at most: capes of coasts, and of
# straits, where the other shore is near. A straight coast has 0.36 and 0.30.
HEADLAND_SCALES = ((3, 0.34), (2, 0.24))


Columns = tuple[Floats, Floats]


@dataclass(frozen=True, slots=True)
class Points:
    """Columns of latitude and longitude in degrees; `lane` is the number of the lane node, or -1.

    `near_only` are points that others at hand serve with far lines.
    """

    latitude: Floats
    longitude: Floats
    lane: Ints
    near_only: Mask

    @property
    def vectors(self) -> Floats:
        """The points on the unit sphere, shape (n, 3)."""
        return unit_vectors(latitude=self.latitude, longitude=self.longitude)


def far_points(clear_water: Mask, lanes: Lanes, junctions: Columns, ports: Columns) -> Points:
    """Return junctions, headlands, ports of islets and spaced lane nodes off the coasts.

    `clear_water` is the sea away from land and shoals; a port in it lies on an island too small for the mask.
    """
    north, east = headlands(clear_water, np.stack(junctions, axis=1))
    latitude, longitude = np.concatenate([junctions[0], north]), np.concatenate([junctions[1], east])
    lone_north, lone_east = (column[clear_water[cells(latitude=ports[0], longitude=ports[1])]] for column in ports)
    lone = thinned(
        unit_vectors(latitude=lone_north, longitude=lone_east),
        unit_vectors(latitude=latitude, longitude=longitude),
        ISLET_PORT_SPACING_NMI,
    )
    latitude, longitude = np.concatenate([latitude, lone_north[lone]]), np.concatenate([longitude, lone_east[lone]])
    vectors = unit_vectors(latitude=lanes.latitude, longitude=lanes.longitude)
    clear = clear_water[cells(latitude=lanes.latitude, longitude=lanes.longitude)]
    others = np.flatnonzero(clear & lanes.coastal)
    taken = unit_vectors(latitude=latitude, longitude=longitude)
    lane = others[thinned(vectors[others], taken, COAST_SPACING_NMI)]
    return Points(
        latitude=np.concatenate([latitude, lanes.latitude[lane]]),
        longitude=np.concatenate([longitude, lanes.longitude[lane]]),
        lane=np.concatenate([np.full(len(taken), -1), lane]).astype(np.int64),
        near_only=np.zeros(len(taken) + len(lane), bool),
    )


def with_lane_nodes(points: Points, lanes: Lanes, nodes: Ints, clear_water: Mask) -> Points:
    """Return the points and, after them, the other lane nodes in clear water, with near lines where a point is at hand."""
    clear = clear_water[cells(latitude=lanes.latitude[nodes], longitude=lanes.longitude[nodes])]
    lane = nodes[clear & ~np.isin(nodes, points.lane)]
    vectors = unit_vectors(latitude=lanes.latitude[lane], longitude=lanes.longitude[lane])
    at_hand = (vectors @ points.vectors.T).max(1) > np.cos(POINT_AT_HAND_NMI / MEAN_RADIUS_NMI)
    return Points(
        latitude=np.concatenate([points.latitude, lanes.latitude[lane]]),
        longitude=np.concatenate([points.longitude, lanes.longitude[lane]]),
        lane=np.concatenate([points.lane, lane]),
        near_only=np.concatenate([points.near_only, at_hand]),
    )


def headlands(clear_water: Mask, taken: Floats) -> tuple[Floats, Floats]:
    """Return latitudes and longitudes just off land that stands out: little land around, but some right beside."""
    blocks = ~clear_water.reshape(ROWS // COARSE, COARSE, COLUMNS // COARSE, COARSE)
    some_land = blocks.any((1, 3))
    share = blocks.mean((1, 3))
    beside = np.zeros_like(some_land)
    for down in (-1, 0, 1):
        for right in (-1, 0, 1):
            beside |= np.roll(some_land, (down, right), (0, 1))
    latitude = 90 - (np.arange(len(share)) + 0.5) * COARSE / CELLS_PER_DEGREE
    stands_out = np.zeros_like(beside)
    for reach, at_most in HEADLAND_SCALES:
        around = _mean_around(share, latitude, reach)
        stands_out |= (around < at_most) & (around > 0.005)
    row, column = np.nonzero(beside & ~some_land & stands_out)
    north, east = latitude[row], (column + 0.5) * COARSE / CELLS_PER_DEGREE - 180
    sailed = ~_polar(north, east)
    north, east, land = north[sailed], east[sailed], around[row, column][sailed]
    first = np.argsort(land, kind="stable")
    north, east = north[first], east[first]
    kept = thinned(
        unit_vectors(latitude=north, longitude=east),
        unit_vectors(latitude=taken[:, 0], longitude=taken[:, 1]),
        HEADLAND_SPACING_NMI,
    )
    return north[kept], east[kept]


def _polar(latitude: Floats, longitude: Floats) -> Mask:
    """Return True in polar waters, which are left to the lanes."""
    canada = (latitude > 64) & (longitude > -130) & (longitude < -60)
    siberia = (latitude > 70) & ((longitude > 55) | (longitude < -150))
    greenland = (latitude > 66) & (longitude < -30)
    return canada | siberia | greenland | (latitude > 74) | (latitude < -58)


def _mean_around(share: Floats, latitude: Floats, reach: int) -> Floats:
    """Return the mean over a box of `reach` cells each way, as wide in miles at every latitude."""
    summed = np.cumsum(np.pad(share, ((reach + 1, reach), (0, 0))), axis=0)
    columns = summed[2 * reach + 1 :] - summed[: -(2 * reach + 1)]
    stretch = np.clip(np.round(1 / np.maximum(0.15, np.cos(np.radians(latitude)))), 1, 6).astype(int)
    around = np.zeros_like(share)
    for factor in np.unique(stretch):
        rows, wide = stretch == factor, reach * int(factor)
        along = np.cumsum(np.pad(columns[rows], ((0, 0), (wide + 1, wide)), mode="wrap"), axis=1)
        around[rows] = (along[:, 2 * wide + 1 :] - along[:, : -(2 * wide + 1)]) / ((2 * reach + 1) * (2 * wide + 1))
    return around


def thinned(points: Floats, taken: Floats, spacing_nmi: float) -> Ints:
    """Return the indices of points kept, in order, so that none is nearer than `spacing_nmi` to one before or taken."""
    angle = spacing_nmi / MEAN_RADIUS_NMI
    side, nearer = angle * 1.01, np.cos(angle)
    boxes: dict[tuple[int, int, int], list[Floats]] = {}
    for vector in taken:
        boxes.setdefault(_box(vector, side), []).append(vector)
    kept = []
    for index, vector in enumerate(points):
        here = _box(vector, side)
        if all(other @ vector <= nearer for box in _neighbours(here) for other in boxes.get(box, ())):
            kept.append(index)
            boxes.setdefault(here, []).append(vector)
    return np.array(kept, dtype=np.int64)


def _box(vector: Floats, side: float) -> tuple[int, int, int]:
    x, y, z = np.floor(vector / side).astype(int)
    return int(x), int(y), int(z)


def _neighbours(box: tuple[int, int, int]) -> Iterator[tuple[int, int, int]]:
    for x in (-1, 0, 1):
        for y in (-1, 0, 1):
            for z in (-1, 0, 1):
                yield box[0] + x, box[1] + y, box[2] + z
