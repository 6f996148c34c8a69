"""Build time only: from a port out to the network, cell by cell over the land mask and along the lanes' channels."""

from collections import defaultdict

import numpy as np
from scipy import ndimage
from scipy.sparse import coo_array
from scipy.sparse.csgraph import dijkstra

from shipcalc.places.making.build_sea_links import Network
from shipcalc.places.making.build_sea_water import CELLS_PER_DEGREE, COLUMNS, ROWS, Ints, Mask, cells
from shipcalc.places.sea.geometry import MEAN_RADIUS_NMI, Floats, geodesic_nmi_columns

CELL_NMI = 60 / CELLS_PER_DEGREE
# How far around a port nodes are looked for, in cells of latitude; the wider reach where the first finds none.
REACHES = (90, 260)
# A port may lie this far up a river that neither mask nor lanes show; rivers wind.
TO_WATER_NMI, RIVER_PER_STRAIGHT = 35.0, 1.3
WAYS_AT_MOST = 10
SPARE_NMI = 0.5
# Steps to eight neighbours are 5 % longer than the straight line, in the mean over all directions.
STEPS_PER_STRAIGHT = 1.05


class Waters:
    """The sea with the channels of the lanes dug into it, and the nodes of the network by cell."""

    def __init__(self, sea: Mask, network: Network) -> None:
        self.water = sea.copy()
        self.network = network
        for start, end in network.channels:
            self._dig(start, end)
        self.row, self.column = cells(latitude=network.latitude, longitude=network.longitude)
        self.water[self.row, self.column] = True
        self.near: dict[int, dict[int, float]] = defaultdict(dict)
        for (a, b), nmi in zip(network.links.pair.tolist(), network.links.length_nmi.tolist(), strict=True):
            self.near[a][b] = self.near[b][a] = nmi

    def _dig(self, start: Floats, end: Floats) -> None:
        angle = float(np.arccos(np.clip(start @ end, -1, 1)))
        share = np.linspace(0, 1, int(np.ceil(angle * MEAN_RADIUS_NMI / 0.15)) + 2)[:, None]
        x, y, z = (start * (1 - share) + end * share).T
        row, column = cells(latitude=np.degrees(np.arctan2(z, np.hypot(x, y))), longitude=np.degrees(np.arctan2(y, x)))
        self.water[row, column] = True


def port_ways(waters: Waters, *, latitude: float, longitude: float) -> list[tuple[int, float]]:
    """Return (node, nautical miles) from a port, nearest first, without nodes that lie behind others; empty if landlocked."""
    for reach in REACHES:
        ways = _ways_within(waters, latitude, longitude, reach)
        if ways:
            return ways
    return []


def _ways_within(waters: Waters, latitude: float, longitude: float, reach: int) -> list[tuple[int, float]]:
    row, column = (int(cell) for cell in cells(latitude=latitude, longitude=longitude))
    cosine = max(0.12, float(np.cos(np.radians(latitude))))
    wide = int(reach / cosine)
    rows = np.arange(max(0, row - reach), min(ROWS, row + reach + 1))
    columns = np.arange(column - wide, column + wide + 1) % COLUMNS
    inside = (waters.row >= rows[0]) & (waters.row <= rows[-1])
    offset = (waters.column - columns[0]) % COLUMNS
    nodes = np.flatnonzero(inside & (offset < len(columns)))
    if not len(nodes):
        return []
    bodies, _ = ndimage.label(waters.water[np.ix_(rows, columns)], structure=np.ones((3, 3)))
    # Ponds and lagoons without a node are no way out.
    water = np.isin(bodies, np.unique(bodies[waters.row[nodes] - rows[0], offset[nodes]]))
    here = np.array([row - rows[0], wide])
    down, right = np.nonzero(water)
    aside = np.hypot((down - here[0]) * CELL_NMI, (right - here[1]) * CELL_NMI * cosine)
    nearest = int(np.argmin(aside))
    if aside[nearest] > TO_WATER_NMI:
        return []
    number = np.full(water.shape, -1)
    number[down, right] = np.arange(len(down))
    nmi = dijkstra(_steps(number, cosine), directed=False, indices=nearest, limit=reach * CELL_NMI * 1.3)
    to_node = nmi[number[waters.row[nodes] - rows[0], offset[nodes]]]
    nodes, to_node = nodes[np.isfinite(to_node)], to_node[np.isfinite(to_node)]
    straight = geodesic_nmi_columns(
        latitude_a=latitude,
        longitude_a=longitude,
        latitude_b=waters.network.latitude[nodes],
        longitude_b=waters.network.longitude[nodes],
    )
    lengths = np.maximum(straight, to_node / STEPS_PER_STRAIGHT + aside[nearest] * RIVER_PER_STRAIGHT)
    return _not_behind_others(waters, nodes, lengths)


def _steps(number: Ints, cosine: float) -> coo_array:
    """Return the graph of steps from each water cell to its eight neighbours, in nautical miles."""
    starts, ends, lengths = [], [], []
    for down, right in ((0, 1), (1, 0), (1, 1), (1, -1)):
        here = number[: number.shape[0] - down, max(0, -right) : number.shape[1] - max(0, right)]
        there = number[down:, max(0, right) : number.shape[1] + min(0, right)]
        both = (here >= 0) & (there >= 0)
        starts.append(here[both])
        ends.append(there[both])
        lengths.append(np.full(both.sum(), CELL_NMI * np.hypot(down, right * cosine)))
    count = int(number.max()) + 1
    step = np.concatenate(lengths), (np.concatenate(starts), np.concatenate(ends))
    return coo_array(step, shape=(count, count)).tocsr()


def _not_behind_others(waters: Waters, nodes: Ints, lengths: Floats) -> list[tuple[int, float]]:
    """Return the nearest nodes, leaving out each that a link from a nearer one reaches about as soon."""
    ways: list[tuple[int, float]] = []
    for index in np.argsort(lengths, kind="stable"):
        node, nmi = int(nodes[index]), float(lengths[index])
        linked = waters.near[node]
        if any(other in linked and so_far + linked[other] <= nmi + SPARE_NMI for other, so_far in ways):
            continue
        ways.append((node, nmi))
        if len(ways) == WAYS_AT_MOST:
            break
    return ways
