"""The highway graph that lane factors are computed from: cut to a region, its gaps repaired, road lengths between places.

Needs the extra `roads` (scgraph, scgraph_data, scipy); never used at run time.
"""

import csv
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array
from scipy.sparse.csgraph import connected_components, dijkstra
from scipy.spatial import cKDTree

from shipcalc.places.road.lanes_barriers import barrier_between
from shipcalc.places.road.lanes_table import FOLDER, unit_vectors
from shipcalc.places.straight import EARTH_RADIUS_KM
from shipcalc.records import dataclass

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

SHORTEST_KM = 0.02

# The graph's roads are drawn with fewer bends than they have. An edge that still bends (is longer than the straight line
# between its ends) has lost about as much again: doubling the bends brings the winding roads of the mileage table of 1949
# into line with the others and leaves the Interstates as even as they were. Roads that are drawn straight are met by the
# one scale.
BENDS_LOST = 1.0

# A road that ends within this of another, and cannot get there within DETOUR_TIMES of the gap, is joined to it.
# Two ends that face each other across BRIDGE_KM are taken for the approaches of a bridge, unless a barrier lies between.
GAP_KM, BRIDGE_KM = 1.0, 4.5
DETOUR_TIMES, DETOUR_AT_LEAST_KM = 6.0, 8.0

# Scraps of road that nothing joins.
SMALLEST_NETWORK = 20

# A place is reached from the nodes around it, each over a straight line × LAST_FACTOR; nobody drives through a place.
NODES_AROUND, NODES_ASKED, LAST_FACTOR = 8, 40, 1.2

# Edges longer than this get nodes between their ends, on the straight line.
LONGEST_PIECE_KM = 6.0

# As far as a place and its nearest hub are compared.
LOCAL_KM = 250.0

ROWS_PER_BLOCK = 100

# A repaired join begins at the nearest node if one is as near as this, else at a node of its own, where the next may begin.
SNAP_KM = 8.0

# Mended joins are told in road length; the scale that the whole graph gets afterwards is near to this.
SCALE_BEFOREHAND = 1.045


class Box(NamedTuple):
    """A part of the earth, degrees."""

    south: float
    west: float
    north: float
    east: float


class Join(NamedTuple):
    """A bridge, tunnel or stretch of road that the graph lacks; see the reasons in `data/lanes/mended_joins.csv`."""

    from_latitude: float
    from_longitude: float
    to_latitude: float
    to_longitude: float
    road_km: float


@dataclass(frozen=True, slots=True, eq=False)
class Graph:
    """Nodes in degrees, float64 [n, 2]; edges both ways: `tail`, `head` int64, `km` float64."""

    nodes: Floats
    tail: Ints
    head: Ints
    km: Floats

    def matrix(self) -> csr_array:
        """Return the edges as a sparse matrix, km. There are no parallel edges: their lengths would be added up."""
        return csr_array((self.km, (self.tail, self.head)), shape=(len(self.nodes), len(self.nodes)))


def points_km(nodes: Floats) -> Floats:
    """Return points on a sphere of the earth's size, km [n, 3]: the chord is the distance, for short ones."""
    return unit_vectors(nodes[:, 0], nodes[:, 1]) * EARTH_RADIUS_KM


def arc_km(a: Floats, b: Floats) -> Floats:
    """Return great-circle distances of points in degrees, [..., 2] each."""
    chord = np.linalg.norm(unit_vectors(a[..., 0], a[..., 1]) - unit_vectors(b[..., 0], b[..., 1]), axis=-1)
    return np.asarray(2 * EARTH_RADIUS_KM * np.arcsin(chord / 2))


def world_highways() -> Graph:
    """Return the whole graph as it is shipped."""
    from scgraph_data.world_highways import world_highways_geograph as shipped

    degrees = [len(edges) for edges in shipped.graph]
    return Graph(
        nodes=np.array(shipped.nodes, np.float64),
        tail=np.repeat(np.arange(len(degrees)), degrees),
        head=np.fromiter((head for edges in shipped.graph for head in edges), np.int64, sum(degrees)),
        km=np.fromiter((km for edges in shipped.graph for km in edges.values()), np.float64, sum(degrees)),
    )


def repaired(world: Graph, box: Box) -> Graph:
    """Return the part of the graph in a box, its roads lengthened by lost bends, its gaps closed, without scraps."""
    north, east = world.nodes.T
    part = _only(world, (north >= box.south) & (north <= box.north) & (east >= box.west) & (east <= box.east))
    straight = np.minimum(arc_km(part.nodes[part.tail], part.nodes[part.head]), part.km)
    part = Graph(part.nodes, part.tail, part.head, np.maximum(part.km + BENDS_LOST * (part.km - straight), SHORTEST_KM))
    part = _divided(_with_joins(part, read_joins(), box))
    part = with_edges(part, *_closed_gaps(part))
    network = connected_components(part.matrix(), directed=False)[1]
    return _only(part, np.bincount(network)[network] >= SMALLEST_NETWORK)


def road_km(graph: Graph, places: Floats) -> NDArray[np.float32]:
    """Return lengths by the graph between places in degrees [n, 2], float32 [n, n]; infinite where no road leads."""
    lengths = np.vstack(list(_rows_km(graph, places, places)))
    lengths = np.minimum(lengths, lengths.T)
    np.fill_diagonal(lengths, 0)
    return lengths


def local_km(graph: Graph, hubs: Floats, places: Floats, nearest: Ints) -> Floats:
    """Return the length by the graph from each place to one hub of its choice; infinite from LOCAL_KM on."""
    lengths = np.full(len(places), np.inf)
    first = 0
    for rows in _rows_km(graph, hubs, places, limit_km=LOCAL_KM):
        mine = np.flatnonzero((nearest >= first) & (nearest < first + len(rows)))
        lengths[mine] = rows[nearest[mine] - first, mine]
        first += len(rows)
    return lengths


def networks(graph: Graph, places: Floats) -> Ints:
    """Return a number for each place, the same for places that roads connect."""
    label = connected_components(graph.matrix(), directed=False)[1]
    return np.asarray(label[nearest_nodes(graph, places)], np.int64)


def nearest_nodes(graph: Graph, places: Floats) -> Ints:
    """Return the node from which each place is reached first."""
    return _nodes_around(graph, places)[0][:, 0]


def _nodes_around(graph: Graph, places: Floats) -> tuple[Ints, Floats]:
    """Return the nodes that each place is reached from, [n, NODES_AROUND], and the last stretches, km.

    Nodes behind a barrier come last, and their stretch is infinite unless no other node is near; so is that of nodes which
    no road connects with the first.
    """
    apart_km, nodes = cKDTree(points_km(graph.nodes)).query(points_km(places), NODES_ASKED)
    lanes = np.repeat(places, NODES_ASKED, axis=0), graph.nodes[nodes.ravel()]
    parted = (barrier_between(*lanes) >= 0).reshape(nodes.shape)
    parted &= ~parted.all(axis=1, keepdims=True)
    order = np.argsort(parted, axis=1, kind="stable")[:, :NODES_AROUND]
    nodes, apart_km, parted = (np.take_along_axis(column, order, axis=1) for column in (nodes, apart_km, parted))
    label = connected_components(graph.matrix(), directed=False)[1][nodes]
    usable = ~parted & (label == label[:, :1])
    return nodes, np.where(usable, np.maximum(apart_km * LAST_FACTOR, SHORTEST_KM), np.inf)


def _rows_km(
    graph: Graph, places: Floats, others: Floats, *, limit_km: float = np.inf
) -> Iterator[NDArray[np.float32]]:
    """Yield blocks of rows: lengths from some of the places to all of the others."""
    nodes, count = len(graph.nodes), len(places)
    around, first_km = _nodes_around(graph, places)
    begins = np.repeat(nodes + np.arange(count), NODES_AROUND)
    matrix = csr_array(
        (
            np.concatenate([graph.km, first_km.ravel()]),
            (np.concatenate([graph.tail, begins]), np.concatenate([graph.head, around.ravel()])),
        ),
        shape=(nodes + count, nodes + count),
    )
    around, last_km = _nodes_around(graph, others)
    for first in range(0, count, ROWS_PER_BLOCK):
        block = nodes + np.arange(first, min(first + ROWS_PER_BLOCK, count))
        to_nodes = dijkstra(matrix, indices=block, limit=limit_km).astype(np.float32)
        rows = np.full((len(block), len(others)), np.inf, np.float32)
        for nth in range(NODES_AROUND):
            np.minimum(rows, to_nodes[:, around[:, nth]] + last_km[:, nth].astype(np.float32), out=rows)
        yield rows


def read_joins(path: Path = FOLDER / "mended_joins.csv") -> list[Join]:
    """Return the rows of the table of repaired joins."""
    with path.open(newline="", encoding="utf-8") as lines:
        return [Join(*(float(row[name]) for name in Join._fields)) for row in csv.DictReader(lines)]


def _only(graph: Graph, kept: NDArray[np.bool_]) -> Graph:
    """Return the graph of some of the nodes."""
    number = np.cumsum(kept) - 1
    edges = kept[graph.tail] & kept[graph.head]
    return Graph(graph.nodes[kept], number[graph.tail[edges]], number[graph.head[edges]], graph.km[edges])


def _divided(graph: Graph) -> Graph:
    """Return the graph with nodes on its long edges, for places that lie on a road and far from its ends."""
    once = graph.tail < graph.head
    tail, head, km = graph.tail[once], graph.head[once], graph.km[once]
    pieces = np.ceil(km / LONGEST_PIECE_KM).astype(np.int64)
    first_new = len(graph.nodes) + np.concatenate([[0], np.cumsum(pieces - 1)])[:-1]
    edge = np.repeat(np.arange(len(km)), pieces)
    nth = np.arange(len(edge)) - np.repeat(np.cumsum(pieces) - pieces, pieces)
    begins = np.where(nth == 0, tail[edge], first_new[edge] + nth - 1)
    ends = np.where(nth == pieces[edge] - 1, head[edge], first_new[edge] + nth)
    inner = nth > 0
    along = (nth[inner] / pieces[edge[inner]])[:, None]
    new = graph.nodes[tail[edge[inner]]] * (1 - along) + graph.nodes[head[edge[inner]]] * along
    bare = Graph(np.vstack([graph.nodes, new]), begins[:0], ends[:0], km[:0])
    return with_edges(bare, begins, ends, (km / pieces)[edge])


def with_edges(graph: Graph, tail: Ints, head: Ints, km: Floats) -> Graph:
    """Return the graph with edges added, both ways, each once."""
    tail, head, km = (column[tail != head] for column in (tail, head, km))
    _, first = np.unique(np.sort(np.stack([tail, head]), axis=0), axis=1, return_index=True)
    tail, head, km = tail[first], head[first], km[first]
    return Graph(
        graph.nodes,
        np.concatenate([graph.tail, tail, head]),
        np.concatenate([graph.head, head, tail]),
        np.concatenate([graph.km, km, km]),
    )


def _with_joins(graph: Graph, joins: list[Join], box: Box) -> Graph:
    """Return the graph with the repaired joins that lie in the box."""
    tree = cKDTree(points_km(graph.nodes))
    added: dict[tuple[float, float], int] = {}

    def node(latitude: float, longitude: float) -> tuple[int, float]:
        apart_km, nearest = tree.query(points_km(np.array([[latitude, longitude]]))[0])
        if apart_km <= SNAP_KM:
            return int(nearest), float(apart_km)
        return added.setdefault((latitude, longitude), len(graph.nodes) + len(added)), 0.0

    ends = []
    for join in joins:
        if box.south <= join.from_latitude <= box.north and box.west <= join.from_longitude <= box.east:
            tail, before_km = node(join.from_latitude, join.from_longitude)
            head, after_km = node(join.to_latitude, join.to_longitude)
            ends.append((tail, head, join.road_km / SCALE_BEFOREHAND + LAST_FACTOR * (before_km + after_km)))
    if not ends:
        return graph
    tails, heads, km = (np.array(column) for column in zip(*ends, strict=True))
    nodes = np.vstack([graph.nodes, *([place] for place in added)])
    return with_edges(Graph(nodes, graph.tail, graph.head, graph.km), tails, heads, km.astype(np.float64))


def _closed_gaps(graph: Graph) -> tuple[Ints, Ints, Floats]:
    """Return joins (tail, head, km) from ends of roads and from scraps to what lies near and cannot be reached."""
    joins = list(_gaps(graph))
    tails, heads, km = (np.array(column) for column in zip(*joins, strict=True))
    return tails, heads, km.astype(np.float64)


def _gaps(graph: Graph) -> Iterator[tuple[int, int, float]]:
    """Yield a join for each end that needs one: to any node near, or to another end as far away as bridges are long."""
    matrix = graph.matrix()
    sizes = np.bincount(label := connected_components(matrix, directed=False)[1])
    ends = np.bincount(graph.tail, minlength=len(graph.nodes)) <= 1
    points = points_km(graph.nodes)
    tree = cKDTree(points)
    for end in np.flatnonzero(ends | (sizes[label] < sizes.max() // 100)):
        near = np.array(tree.query_ball_point(points[end], BRIDGE_KM), np.int64)
        gap_km = np.linalg.norm(points[near] - points[end], axis=1)
        offered = (near != end) & ((gap_km <= GAP_KM) | (ends[near] & ends[end]))
        near, gap_km = near[offered], gap_km[offered]
        if not len(near):
            continue
        detour_km = dijkstra(matrix, indices=end, limit=DETOUR_TIMES * BRIDGE_KM + DETOUR_AT_LEAST_KM)[near]
        needed = detour_km > np.maximum(DETOUR_AT_LEAST_KM, DETOUR_TIMES * gap_km)
        needed[needed] = barrier_between(np.tile(graph.nodes[end], (needed.sum(), 1)), graph.nodes[near[needed]]) < 0
        if needed.any():
            nearest = np.argmin(np.where(needed, gap_km, np.inf))
            yield int(end), int(near[nearest]), max(float(gap_km[nearest]) * LAST_FACTOR, SHORTEST_KM)
