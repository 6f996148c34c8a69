"""Build time only: which points see each other over open water, and which of these lines are worth keeping."""

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from shipcalc.places.making.build_sea_nodes import Points
from shipcalc.places.making.build_sea_water import Ints, Mask, clear_lines
from shipcalc.places.sea.geometry import MEAN_RADIUS_NMI, Floats, geodesic_nmi_columns, unit_vectors
from shipcalc.places.sea.passages import PASSAGES
from shipcalc.records import dataclass

LONGEST_LINE_NMI = 6500.0
LONGEST_NEAR_NMI = 150.0
# Coarse steps first, on the sea itself: they rule out most lines for little. The last two keep off land and shoals.
COARSE_STEPS_NMI = (150.0, 40.0, 12.0)
FINE_STEPS_NMI = (4.0, 0.6)
BLOCK = 2_000_000

# A line is dropped where a way through shorter ones is longer by no more than this. Classes of length for the choice.
SPARE_SHARE, SPARE_NMI = 0.003, 1.0
FIRST_CLASS_NMI, CLASS_RATIO = 30.0, 1.2


@dataclass(frozen=True, slots=True)
class Links:
    """Pairs of node numbers, shape (n, 2), and their lengths."""

    pair: Ints
    length_nmi: Floats


@dataclass(frozen=True, slots=True)
class Network:
    """All nodes and links; `channels` are the lanes through narrow water, as pairs of unit vectors, shape (n, 2, 3)."""

    latitude: Floats
    longitude: Floats
    links: Links
    passages: NDArray[np.uint32]
    channels: Floats


def open_water_links(points: Points, sea: Mask, clear_water: Mask) -> Links:
    """Return the straight lines between points that stay clear of land and shoals."""
    vectors = points.vectors
    cosine = vectors @ vectors.T
    near_only = points.near_only[:, None] | points.near_only[None, :]
    limit_nmi = np.where(near_only, LONGEST_NEAR_NMI, LONGEST_LINE_NMI)
    a, b = np.nonzero(np.triu(cosine > np.cos(limit_nmi / MEAN_RADIUS_NMI), 1))
    for water, steps in ((sea, COARSE_STEPS_NMI), (clear_water, FINE_STEPS_NMI)):
        for step_nmi in steps:
            blocks = [
                clear_lines(water, vectors[a[i : i + BLOCK]], vectors[b[i : i + BLOCK]], step_nmi=step_nmi)
                for i in range(0, len(a), BLOCK)
            ]
            clear = np.concatenate(blocks)
            a, b = a[clear], b[clear]
    length = geodesic_nmi_columns(
        latitude_a=points.latitude[a],
        longitude_a=points.longitude[a],
        latitude_b=points.latitude[b],
        longitude_b=points.longitude[b],
    )
    return Links(np.stack([a, b], axis=1), length)


def worth_keeping(links: Links, count: int) -> Links:
    """Return the links that shorter ones do not replace within `SPARE_SHARE` and `SPARE_NMI`.

    From short to long, a class at a time: a link is dropped where the way through the links kept so far is hardly longer. So
    no way through the network is lengthened by more than that for each straight line of it.
    """
    kept = np.zeros(len(links.pair), bool)
    upper = FIRST_CLASS_NMI
    lower = 0.0
    while lower < links.length_nmi.max():
        mine = np.flatnonzero((links.length_nmi >= lower) & (links.length_nmi < upper))
        if len(mine):
            allowed = links.length_nmi[mine] * (1 + SPARE_SHARE) + SPARE_NMI
            around = _ways_around(links, kept, links.pair[mine], count, float(allowed.max()))
            kept[mine[around > allowed]] = True
        lower, upper = upper, upper * CLASS_RATIO
    return Links(links.pair[kept], links.length_nmi[kept])


def _ways_around(links: Links, kept: Mask, pairs: Ints, count: int, limit_nmi: float) -> Floats:
    """Return the shortest way through the kept links for each pair, infinite beyond the limit."""
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import dijkstra

    graph = coo_array((links.length_nmi[kept], tuple(links.pair[kept].T)), shape=(count, count)).tocsr()
    around = np.full(len(pairs), np.inf)
    order = np.argsort(pairs[:, 0], kind="stable")
    sources = np.unique(pairs[:, 0])
    for first in range(0, len(sources), 400):
        block = sources[first : first + 400]
        nmi = dijkstra(graph, directed=False, indices=block, limit=limit_nmi)
        mine = order[np.searchsorted(pairs[order, 0], block[0]) : np.searchsorted(pairs[order, 0], block[-1], "right")]
        around[mine] = nmi[np.searchsorted(block, pairs[mine, 0]), pairs[mine, 1]]
    return around


def shortest_of_each_pair(links: Links, passages: NDArray[np.uint32]) -> tuple[Links, NDArray[np.uint32]]:
    """Return the links with each pair once, at its shortest, and their passages."""
    low, high = np.sort(links.pair, axis=1).T
    order = np.lexsort((passages, links.length_nmi, high, low))
    first = np.ones(len(order), bool)
    first[1:] = (np.diff(low[order]) != 0) | (np.diff(high[order]) != 0)
    kept = order[first]
    return Links(links.pair[kept], links.length_nmi[kept]), passages[kept]


def passages_crossed(latitude: Floats, longitude: Floats, links: Links, step_nmi: float = 20.0) -> NDArray[np.uint32]:
    """Return for each link the passages whose line it crosses, as bits in the order of `PASSAGES`."""
    vectors = unit_vectors(latitude=latitude, longitude=longitude)
    bits = np.zeros(len(links.pair), dtype=np.uint32)
    pieces = np.maximum(1, np.ceil(links.length_nmi / step_nmi).astype(int))
    for number in np.unique(pieces):
        mine = np.flatnonzero(pieces == number)
        start, end = vectors[links.pair[mine, 0]], vectors[links.pair[mine, 1]]
        share = np.linspace(0, 1, number + 1)[None, :, None]
        angle = np.maximum(np.arccos(np.clip((start * end).sum(1), -1, 1)), 1e-9)[:, None, None]
        track = (np.sin((1 - share) * angle) * start[:, None] + np.sin(share * angle) * end[:, None]) / np.sin(angle)
        north = np.degrees(np.arctan2(track[..., 2], np.hypot(track[..., 0], track[..., 1])))
        east = np.degrees(np.arctan2(track[..., 1], track[..., 0]))
        for bit, passage in enumerate(PASSAGES):
            for from_point, to_point in pairwise(passage.line):
                bits[mine] |= np.where(_crosses(north, east, from_point, to_point), np.uint32(1 << bit), np.uint32(0))
    return bits


def _crosses(north: Floats, east: Floats, a: tuple[float, float], b: tuple[float, float]) -> Mask:
    """Return True for each track (rows of points) that crosses the line from a to b, in plane longitude and latitude."""
    (north_a, east_a), (north_b, east_b) = a, b
    along_north, along_east = north_b - north_a, east_b - east_a
    # Longitudes are taken around the line, so that a track over the antimeridian does not wrap the world.
    east = (east - east_a + 180) % 360 - 180
    north = north - north_a
    side = along_east * north - along_north * east
    run_north, run_east = np.diff(north, axis=1), np.diff(east, axis=1)
    reaches = np.sign(side[:, :-1]) != np.sign(side[:, 1:])
    from_a = run_east * -north[:, :-1] - run_north * -east[:, :-1]
    from_b = run_east * (along_north - north[:, :-1]) - run_north * (along_east - east[:, :-1])
    between = np.sign(from_a) != np.sign(from_b)
    crossed: Mask = (reaches & between & (np.abs(run_east) < 180)).any(axis=1)
    return crossed
