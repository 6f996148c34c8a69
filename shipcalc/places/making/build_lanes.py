"""Make `data/lanes/hubs.npy` and `factors.npy` from the highways of the package `scgraph_data` (extra: roads).

    python -m shipcalc.places.making.build_lanes [FOLDER]

The same packages give the same files, byte for byte. Steps: cut the graph to a region and repair it (`build_lanes_graph`);
choose hubs (`build_lanes_hubs`); compute the shortest roads between them; scale all of them by one constant, so that the
median of the Interstates has its published length; divide by the great circle; code each factor in a byte.
"""

import csv
import sys
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from scipy.sparse.csgraph import connected_components
from scipy.spatial import cKDTree

from shipcalc.measures import miles_to_km
from shipcalc.places.making.build_lanes_graph import (
    SCALE_BEFOREHAND,
    Floats,
    Graph,
    arc_km,
    local_km,
    nearest_nodes,
    networks,
    points_km,
    repaired,
    road_km,
    with_edges,
    world_highways,
)
from shipcalc.places.making.build_lanes_hubs import REGIONS, hubs_beyond, hubs_of, places_of
from shipcalc.places.making.build_lanes_water import is_over_open_water
from shipcalc.places.road.lanes_barriers import barrier_between
from shipcalc.places.road.lanes_hubs import HUBS_PER_PLACE
from shipcalc.places.road.lanes_table import CODE_FACTORS, CODES_FILE, FOLDER, HUB, HUBS_FILE

INTERSTATES_FILE = "interstates.csv"

# A road is longer than the straight line; how far a hub stands from its road can make it look otherwise.
SMALLEST_FACTOR = 1.02

# Where no barrier stands between two hubs, a longer way is a hole in the graph.
LARGEST_FACTOR = 2.5

# A hub's local factor is the median of those to its neighbours, not counting what lies across water.
NEIGHBOURS, NEIGHBOUR_AT_LEAST_KM, LONELY_FACTOR = 8, 10.0, 1.3

# A place becomes a hub where its nearest hub is BEYOND_FACTOR times farther by road than straight, and BEYOND_ROAD_KM at
# least: it stands across water.
BEYOND_FACTOR, BEYOND_ROAD_KM = 2.0, 25.0
ROUNDS = 3

# Hubs within these distances of each other with nothing between them (`data/lanes/barriers.csv`) and no road of less than
# MISSING_FACTOR times the straight line get one of MENDED_FACTOR times.
NEIGHBOURHOODS_KM, MISSING_FACTOR, MENDED_FACTOR = (35.0, 65.0, 100.0), 2.0, 1.7


def main(folder: Path = FOLDER) -> None:
    """Write both files of the table, and say what is in it."""
    world = world_highways()
    scale, hubs, codes = 0.0, [], []
    for region in REGIONS:
        graph = repaired(world, region.box)
        scale = scale or interstate_scale(graph)
        places = with_hubs_beyond_water(graph, hubs_of(region), places_of(region))
        graph = with_missing_roads(graph, places)
        lengths = road_km(graph, places) * scale
        groups = _groups(lengths, region.smallest_group)
        for group in groups:
            hubs.append(places[group])
            codes.append(_codes(places[group], lengths[np.ix_(group, group)]))
        sizes = ", ".join(str(len(group)) for group in groups)
        sys.stderr.write(f"{region.name}: {sizes} hubs, scale {scale:.4f}\n")
    columns = np.zeros(sum(map(len, hubs)), HUB)
    columns["latitude"], columns["longitude"] = np.vstack(hubs).T
    columns["network"] = np.repeat(np.arange(len(hubs)), [len(group) for group in hubs])
    np.save(folder / HUBS_FILE, columns)
    np.save(folder / CODES_FILE, np.concatenate(codes))


def interstate_scale(graph: Graph) -> float:
    """Return published length ÷ length by the graph: the median of the Interstates that set the scale."""
    with (FOLDER / INTERSTATES_FILE).open(newline="", encoding="utf-8") as lines:
        rows = [row for row in csv.DictReader(lines) if row["sets_scale"] == "yes"]
    ends = np.array(
        [[float(row[f"{end}_latitude"]), float(row[f"{end}_longitude"])] for end in ("from", "to") for row in rows]
    )
    count = len(rows)
    lengths = road_km(graph, ends)[np.arange(count), count + np.arange(count)]
    return float(np.median(np.array([miles_to_km(float(row["miles"])) for row in rows]) / lengths))


def with_hubs_beyond_water(graph: Graph, hubs: Floats, places: Floats) -> Floats:
    """Return hubs with those places added that are parted and far by road from a hub that they would take factors from.

    Not only from the nearest: the end of a long cape has hubs across the bay as near as those on its own land.
    """
    for _ in range(ROUNDS):
        apart_km, around = cKDTree(points_km(hubs)).query(points_km(places), HUBS_PER_PLACE)
        beyond = np.zeros(len(places), dtype=np.bool_)
        for apart, hub in zip(apart_km.T, around.T, strict=True):
            parted = np.flatnonzero(is_parted(places, hubs[hub]))
            by_road = local_km(graph, hubs, places[parted], hub[parted])
            beyond[parted] |= (by_road > BEYOND_FACTOR * apart[parted]) & (by_road > BEYOND_ROAD_KM)
        hubs = hubs_beyond(hubs, places[beyond])
    return hubs


def is_parted(a: Floats, b: Floats) -> NDArray[np.bool_]:
    """Return for each lane whether a listed barrier or open water lies between its ends."""
    return (barrier_between(a, b) >= 0) | is_over_open_water(a, b)


def with_missing_roads(graph: Graph, hubs: Floats) -> Graph:
    """Return the graph with a road between neighbours that the graph makes drive far round, and nothing parts.

    The graph lacks small roads, and here and there a large one; the near neighbours are seen to first.
    """
    for neighbourhood_km in NEIGHBOURHOODS_KM:
        pairs = cKDTree(points_km(hubs)).query_pairs(neighbourhood_km, output_type="ndarray")
        a, b = pairs[np.lexsort(pairs.T[::-1])].T
        straight = arc_km(hubs[a], hubs[b])
        too_far = local_km(graph, hubs, hubs[b], a) * SCALE_BEFOREHAND > MISSING_FACTOR * straight
        network = networks(graph, hubs)
        missing = too_far & (network[a] == network[b])
        missing[missing] = ~is_parted(hubs[a[missing]], hubs[b[missing]])
        # A hub without a road of its own stands at the nearest one, which may be across the water.
        node = nearest_nodes(graph, hubs)
        missing[missing] = barrier_between(graph.nodes[node[a[missing]]], graph.nodes[node[b[missing]]]) < 0
        km = MENDED_FACTOR * straight[missing] / SCALE_BEFOREHAND
        graph = with_edges(graph, node[a[missing]], node[b[missing]], km)
    return graph


def _groups(lengths: NDArray[np.float32], smallest: int) -> list[NDArray[np.int64]]:
    """Return the hubs that roads connect with each other, the largest group first, none below the smallest that counts."""
    label = connected_components(np.isfinite(lengths), directed=False)[1]
    sizes = np.bincount(label)
    order = np.argsort(-sizes, kind="stable")
    return [np.flatnonzero(label == group) for group in order if sizes[group] >= smallest]


def _codes(places: Floats, lengths: NDArray[np.floating]) -> NDArray[np.uint8]:
    """Return the coded factors of one network, the lower triangle row by row; the diagonal holds the local factors."""
    straight = arc_km(places[:, None, :], places[None, :, :])
    np.fill_diagonal(straight, np.inf)
    factors = np.maximum(lengths / straight, SMALLEST_FACTOR)
    far = np.argwhere(factors > LARGEST_FACTOR)
    holes = far[~is_parted(places[far[:, 0]], places[far[:, 1]])]
    factors[holes[:, 0], holes[:, 1]] = LARGEST_FACTOR
    is_neighbour = (straight >= NEIGHBOUR_AT_LEAST_KM) & (factors <= MISSING_FACTOR)
    ordered = np.argsort(np.where(is_neighbour, straight, np.inf), axis=1, kind="stable")[:, :NEIGHBOURS]
    local = np.where(is_neighbour, factors, np.where(is_neighbour.any(axis=1, keepdims=True), np.nan, LONELY_FACTOR))
    np.fill_diagonal(factors, np.nanmedian(np.take_along_axis(local, ordered, axis=1), axis=1))
    between = np.log(CODE_FACTORS[:-1] * CODE_FACTORS[1:]) / 2
    rows, columns = np.tril_indices(len(places))
    return np.searchsorted(between, np.log(factors[rows, columns])).astype(np.uint8)


if __name__ == "__main__":
    main(*map(Path, sys.argv[1:]))
