"""Build time only: the lane network of the package `searoute`, measured again, where open water does not do.

Straits, rivers, canals and harbours are narrower than the land mask can tell; there the lanes are kept, and chains of lane
points between two forks become one link of the same length.
"""

import json
from itertools import pairwise
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from shipcalc.places.making.build_sea_water import (
    CELLS_PER_DEGREE,
    COLUMNS,
    ROWS,
    Ints,
    Mask,
    cells,
    clear_lines,
    package_file,
)
from shipcalc.places.sea.geometry import Floats, geodesic_nmi_columns, unit_vectors
from shipcalc.records import dataclass

# The Caspian Sea and the Volga–Don waterway: no way for a sea-going ship.
CASPIAN = (36.0, 50.0, 40.3, 55.5)
# A long lane that leaves the water for a while, unlike canals and lakes, which are all land to the mask: a drawing fault.
LONG_LANE_NMI, LONGEST_CROSSING_NMI, ALL_LAND = 40.0, 10.0, 0.9
LONGEST_CHAIN_NMI = 30.0
COAST_WITHIN_MINUTES = 90
NORTHERNMOST = 80.5


Pair = tuple[tuple[float, float], tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Lanes:
    """Nodes in degrees; links as pairs of node numbers with lengths.

    `clear`: the link keeps off land and shoals; `coastal`: the node lies within `COAST_WITHIN_MINUTES` of land.
    """

    latitude: Floats
    longitude: Floats
    link: Ints
    length_nmi: Floats
    clear: Mask
    coastal: Mask

    def narrow_links(self) -> Ints:
        """Return the links through water that the mask is too coarse for, shape (n, 2)."""
        narrow: Ints = self.link[~self.clear]
        return narrow


def all_lanes(clear_water: Mask, sea: Mask, closed: Mask, more: Path) -> Lanes:
    """Return the lanes of the table `more` and those of searoute, but for the Caspian, the Pole, `closed` and drawing faults."""
    ours = lanes_of_table(more)
    pairs = sorted(lanes_of_searoute() | ours)
    nodes = sorted({point for pair in pairs for point in pair})
    number = {point: index for index, point in enumerate(nodes)}
    longitude, latitude = np.array(nodes).T
    link = np.array([(number[a], number[b]) for a, b in pairs], dtype=np.int64)
    vectors = unit_vectors(latitude=latitude, longitude=longitude)
    start, end = vectors[link[:, 0]], vectors[link[:, 1]]
    length = geodesic_nmi_columns(
        latitude_a=latitude[link[:, 0]],
        longitude_a=longitude[link[:, 0]],
        latitude_b=latitude[link[:, 1]],
        longitude_b=longitude[link[:, 1]],
    )
    clear = clear_lines(clear_water, start, end, step_nmi=0.45)
    land = land_share(sea, start, end)
    faulty = (length > LONG_LANE_NMI) & (land * length > LONGEST_CROSSING_NMI) & (land < ALL_LAND)
    south, north, west, east = CASPIAN
    caspian = ((latitude > south) & (latitude < north) & (longitude > west) & (longitude < east))[link].any(1)
    polar = (latitude > NORTHERNMOST)[link].any(1)
    shut = land_share(~closed, start, end) > 0
    kept = (~faulty & ~caspian & ~polar & ~shut) | np.array([pair in ours for pair in pairs])
    coastal = near_land(sea, latitude, longitude)
    return Lanes(latitude, longitude, link[kept], length[kept], clear[kept], coastal)


def lanes_of_table(path: Path) -> set[Pair]:
    """Return the lanes of our own table as pairs of (longitude, latitude)."""
    pairs: set[Pair] = set()
    for line in path.read_text(encoding="utf-8").splitlines()[1:]:
        corners = (corner.split() for corner in line.split("\t")[2].split(";"))
        points = [(float(longitude), float(latitude)) for latitude, longitude in corners]
        pairs.update((min(a, b), max(a, b)) for a, b in pairwise(points))
    return pairs


def lanes_of_searoute() -> set[Pair]:
    """Return the lanes as pairs of (longitude, latitude), longitudes in [-180, 180)."""
    with package_file("searoute", "data", "marnet_searoute.geojson").open(encoding="utf-8") as file:
        features = json.load(file)["features"]
    pairs: set[Pair] = set()
    for feature in features:
        geometry = feature["geometry"]
        lines = [geometry["coordinates"]] if geometry["type"] == "LineString" else geometry["coordinates"]
        for line in lines:
            points = [(round((x + 180) % 360 - 180, 5), round(y, 5)) for x, y, *_ in line]
            pairs.update((min(a, b), max(a, b)) for a, b in pairwise(points) if a != b)
    return pairs


def land_share(sea: Mask, start: Floats, end: Floats, samples: int = 81) -> Floats:
    """Return which share of each line is over land."""
    share = np.zeros(len(start))
    for along in np.linspace(0, 1, samples):
        x, y, z = (start * (1 - along) + end * along).T
        row, column = cells(latitude=np.degrees(np.arctan2(z, np.hypot(x, y))), longitude=np.degrees(np.arctan2(y, x)))
        share += ~sea[row, column]
    return share / samples


def near_land(sea: Mask, latitude: Floats, longitude: Floats) -> Mask:
    """Return True for points within some `COAST_WITHIN_MINUTES` of land."""
    per_degree = 6
    side = CELLS_PER_DEGREE // per_degree
    land: Mask = ~np.all(sea.reshape(ROWS // side, side, COLUMNS // side, side), axis=(1, 3))
    reach = COAST_WITHIN_MINUTES * per_degree // 60
    tall = land.copy()
    for shift in range(1, reach + 1):
        tall[shift:] |= land[:-shift]
        tall[:-shift] |= land[shift:]
    near = tall.copy()
    for shift in range(1, reach + 1):
        near |= np.roll(tall, shift, 1) | np.roll(tall, -shift, 1)
    row, column = cells(latitude=latitude, longitude=longitude)
    found: Mask = near[row // side, column // side]
    return found


@dataclass(frozen=True, slots=True)
class CoastalWays:
    """The lane nodes that are left, and links between them, with lengths and passages as bits."""

    nodes: Ints
    pair: Ints
    length_nmi: Floats
    passages: NDArray[np.uint32]


def coastal_ways(lanes: Lanes, passages: NDArray[np.uint32], fixed: Ints) -> CoastalWays:
    """Return the lanes of coasts, straits, rivers and harbours; `passages` are the bits of each link of `lanes`.

    Nodes with two neighbours are joined into one link, except those in `fixed` and where the link would grow longer than
    `LONGEST_CHAIN_NMI`, so that ports along a river find a node nearby.
    """
    near: dict[int, dict[int, tuple[float, int]]] = {}
    for number in np.flatnonzero(~lanes.clear | lanes.coastal[lanes.link].any(axis=1)):
        (a, b), way = lanes.link[number].tolist(), (float(lanes.length_nmi[number]), int(passages[number]))
        near.setdefault(a, {})[b] = way
        near.setdefault(b, {})[a] = way
    kept = set(fixed.tolist())
    for node in sorted(near):
        if node in kept or len(near[node]) != 2:
            continue
        (a, (to_a, bits_a)), (b, (to_b, bits_b)) = near[node].items()
        if to_a + to_b > LONGEST_CHAIN_NMI:
            continue
        near[a][b] = near[b][a] = min((to_a + to_b, bits_a | bits_b), near[a].get(b, (np.inf, 0)))
        del near[a][node], near[b][node], near[node]
    links = sorted((a, b, *way) for a in near for b, way in near[a].items() if a < b)
    return CoastalWays(
        np.array(sorted(set(near)), dtype=np.int64),
        np.array([(a, b) for a, b, _, _ in links], dtype=np.int64),
        np.array([length for _, _, length, _ in links]),
        np.array([bits for _, _, _, bits in links], dtype=np.uint32),
    )
