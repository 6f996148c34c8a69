"""Sea miles: the shortest track through a network of straight lines over open water and lanes through narrow water.

The network is derived (`data/sea/ORIGIN.md`): great circles between headlands, canals and straits by name. A search spreads
from one port over the whole network, so that every other port is answered by the same search. Nothing here reads a clock or
keeps state but the network itself; a caller may keep what `sea_distances` returns.
"""

from collections.abc import Collection, Sequence
from functools import cache
from pathlib import Path
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.places.sea.geometry import MEAN_RADIUS_NMI, Floats, geodesic_nmi_columns, unit_vectors
from shipcalc.places.sea.passages import NORTH_WEST_ATLANTIC, PASSAGE_NAMES, PASSAGES, UNITED_STATES_ATLANTIC
from shipcalc.places.sea.ports import FILE as PORTS_FILE
from shipcalc.records import dataclass, field

FILE = Path(__file__).parents[1] / "data" / "sea" / "network.npz"

Ints = NDArray[np.int64]

# Beyond this a point has no business at sea; up to it, the straight line to the nearest points of the network is taken.
FARTHEST_FROM_NETWORK_NMI = 60.0
NEAREST_NODES = 6
SAME_PORT_NMI = 3.0
# Width of a band of the search: measured flat between 150 and 600.
BAND_NMI = 500.0


@dataclass(frozen=True, slots=True, eq=False)
class SeaNetwork:
    """Nodes in degrees; links both ways by the node they leave; the ports' ways to the network.

    Links `first[k]` to `first[k + 1]` leave node k; ways `access_first[p]` to `access_first[p + 1]` leave port p.
    """

    nodes: Floats
    first: Ints
    start: Ints
    end: Ints
    length_nmi: Floats
    passages: NDArray[np.uint32]
    access_first: Ints
    access_node: Ints
    access_nmi: Floats
    node_vectors: Floats
    port_vectors: Floats


class Point(Protocol):
    """Anything with a place on the earth in degrees: a `Place` is one."""

    @property
    def latitude(self) -> float: ...  # noqa: D102
    @property
    def longitude(self) -> float: ...  # noqa: D102


@dataclass(frozen=True, slots=True)
class _Point:
    latitude: float
    longitude: float


@dataclass(frozen=True, slots=True, eq=False)
class SeaDistances:
    """From one port to many: `nmi` (infinite where there is no way), the passages of each in the order sailed, and notes."""

    nmi: Floats
    passages: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SeaRoute:
    """One route: nautical miles, the passages in the order sailed, and what was assumed ("" for nothing)."""

    nmi: float
    passages: tuple[str, ...]
    note: str


@dataclass(frozen=True, slots=True, eq=False)
class _Access:
    """The nodes that a port or a point reaches without the network, the miles to each, and a note."""

    node: Ints
    nmi: Floats
    port: int = -1
    note: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class _Spread:
    """A search from one port: the miles to every node, the link by which each is reached, the passages found so far."""

    nmi: Floats
    parent: Ints
    passages: dict[int, tuple[str, ...]] = field(default_factory=dict)


@cache
def load_network() -> SeaNetwork:
    """Return the network of the package, read once."""
    with np.load(FILE) as file:
        degrees = np.stack([file["latitude"], file["longitude"]], axis=1) / 1e5
        first, end = file["first"].astype(np.int64), file["end"].astype(np.int64)
        length_nmi = file["length"] / 100.0
        passages = np.zeros(len(end), dtype=np.uint32)
        passages[file["passage_link"]] = file["passage_bits"]
    with np.load(PORTS_FILE) as file:
        ports = np.stack([file["latitude"], file["longitude"]], axis=1) / 1e5
        access_first = file["access_first"].astype(np.int64)
        access_node, access_nmi = file["access_node"].astype(np.int64), file["access_length"] / 100.0
    return SeaNetwork(
        nodes=degrees,
        first=first,
        start=np.repeat(np.arange(len(degrees)), np.diff(first)),
        end=end,
        length_nmi=length_nmi,
        passages=passages,
        access_first=access_first,
        access_node=access_node,
        access_nmi=access_nmi,
        node_vectors=unit_vectors(latitude=degrees[:, 0], longitude=degrees[:, 1]),
        port_vectors=unit_vectors(latitude=ports[:, 0], longitude=ports[:, 1]),
    )


def sea_distance(
    network: SeaNetwork,
    *,
    latitude_a: float,
    longitude_a: float,
    latitude_b: float,
    longitude_b: float,
    closed: Collection[str] = (),
) -> SeaRoute:
    """Return the route between two points in degrees; raises NoAnswer where none is open."""
    found = sea_distances(network, _Point(latitude_a, longitude_a), [_Point(latitude_b, longitude_b)], closed=closed)
    if not np.isfinite(found.nmi[0]):
        shut = f" with {', '.join(sorted(closed))} closed" if closed else ""
        raise NoAnswer(f"there is no way by sea{shut}", remedy="choose another port, or open a passage")
    return SeaRoute(float(found.nmi[0]), found.passages[0], found.notes[0])


def sea_distances(
    network: SeaNetwork, from_point: Point, to_points: Sequence[Point], *, closed: Collection[str] = ()
) -> SeaDistances:
    """Return the distances from one point to many, in nautical miles, by one search over the whole network, or two.

    `closed` names passages not to be used (`PASSAGE_NAMES`); those that are always closed are never used. A point within
    `SAME_PORT_NMI` of a port of the table is that port; any other is joined to the nearest nodes by straight lines, and a
    note says so. Distances are infinite, and passages empty, where no way is open.
    """
    shut = passage_bits(closed)
    here, *there = _accesses(network, [from_point, *to_points])
    keeps_south = [_keeps_south_of_the_banks(from_point, point) for point in to_points]
    spreads = {
        south: _spread(network, here, shut | (passage_bits(["grand banks"]) if south else 0))
        for south in set(keeps_south)
    }
    found = [_arrival(network, here, access, spreads[south]) for access, south in zip(there, keeps_south, strict=True)]
    return SeaDistances(
        np.array([route.nmi for route in found]),
        tuple(route.passages for route in found),
        tuple(route.note for route in found),
    )


def _arrival(network: SeaNetwork, here: _Access, there: _Access, spread: _Spread) -> SeaRoute:
    """Return the way to one point from a search that has spread from `here`; infinite where it is not reached."""
    note = " ".join(note for note in (here.note, there.note) if note)
    if here.port == there.port >= 0:
        return SeaRoute(0.0, (), note)
    through = spread.nmi[there.node] + there.nmi
    if not np.isfinite(through).any():
        return SeaRoute(float("inf"), (), note)
    best = int(np.argmin(through))
    return SeaRoute(float(through[best]), _passages_to(network, spread, int(there.node[best])), note)


def sea_track(network: SeaNetwork, from_point: Point, to_point: Point, *, closed: Collection[str] = ()) -> Floats:
    """Return the points of the way that `sea_distance` measures, (n, 2) of latitude and longitude; (0, 2) where there is none.

    From the first point of the lanes to the last: how a port is joined to them is not drawn.
    """
    here, there = _accesses(network, [from_point, to_point])
    south = ["grand banks"] if _keeps_south_of_the_banks(from_point, to_point) else []
    spread = _spread(network, here, passage_bits([*closed, *south]))
    through = spread.nmi[there.node] + there.nmi
    if not np.isfinite(through).any():
        return np.empty((0, 2))
    back = [int(there.node[np.argmin(through)])]
    while (link := int(spread.parent[back[-1]])) >= 0:
        back.append(int(network.start[link]))
    return network.nodes[back[::-1]]


def _keeps_south_of_the_banks(a: Point, b: Point) -> bool:
    return any(
        _within(UNITED_STATES_ATLANTIC, one) and not _within(NORTH_WEST_ATLANTIC, other)
        for one, other in ((a, b), (b, a))
    )


def _within(box: tuple[float, float, float, float], point: Point) -> bool:
    south, north, west, east = box
    return south <= point.latitude <= north and west <= point.longitude <= east


def passage_bits(names: Collection[str]) -> int:
    """Return the passages as bits, with those that are always closed; raises WrongInput for an unknown name."""
    bits = sum(1 << bit for bit, passage in enumerate(PASSAGES) if passage.always_closed)
    for name in names:
        if name not in PASSAGE_NAMES:
            raise WrongInput(f"no passage is called {name!r}", remedy=f"one of: {', '.join(PASSAGE_NAMES)}")
        bits |= 1 << PASSAGE_NAMES.index(name)
    return bits


def _spread(network: SeaNetwork, access: _Access, shut: int) -> _Spread:
    """Return the miles to every node, and the link by which each is reached (-1: from the port itself).

    Dijkstra's search by bands of distance instead of node by node (Meyer and Sanders, Journal of Algorithms 49, 2003): all
    nodes of a band pass on what they know, as columns, until the band is settled.
    """
    length = np.where(network.passages & np.uint32(shut), np.inf, network.length_nmi)
    nmi = np.full(len(network.nodes), np.inf)
    nmi[access.node] = access.nmi
    waiting = np.zeros(len(nmi), bool)
    waiting[access.node] = True
    band = BAND_NMI
    while waiting.any():
        nearer = np.flatnonzero(waiting & (nmi < band))
        if not len(nearer):
            band = float(nmi[waiting].min()) + BAND_NMI
            continue
        waiting[nearer] = False
        count = network.first[nearer + 1] - network.first[nearer]
        links = np.repeat(network.first[nearer] - np.cumsum(count) + count, count) + np.arange(count.sum())
        offered = np.repeat(nmi[nearer], count) + length[links]
        better = offered < nmi[network.end[links]]
        reached = network.end[links[better]]
        np.minimum.at(nmi, reached, offered[better])
        waiting[reached] = True
    parent = np.full(len(nmi), -1)
    tight = np.flatnonzero(np.isfinite(nmi[network.start]) & (nmi[network.start] + length == nmi[network.end]))
    parent[network.end[tight]] = tight
    parent[access.node[nmi[access.node] == access.nmi]] = -1
    return _Spread(nmi, parent)


def _passages_to(network: SeaNetwork, spread: _Spread, node: int) -> tuple[str, ...]:
    """Return the passages from the source to a node, in the order sailed, each once; kept for every node on the way."""
    back = [node]
    while back[-1] not in spread.passages and (link := int(spread.parent[back[-1]])) >= 0:
        back.append(int(network.start[link]))
    used = spread.passages.setdefault(back[-1], ())
    for passed in reversed(back[:-1]):
        bits = int(network.passages[spread.parent[passed]])
        if bits:
            used += tuple(name for bit, name in enumerate(PASSAGE_NAMES) if bits >> bit & 1 and name not in used)
        spread.passages[passed] = used
    return used


def _accesses(network: SeaNetwork, points: Sequence[Point]) -> list[_Access]:
    """Return how each point reaches the network: as the port it is, or by straight lines to the nearest nodes."""
    vectors = unit_vectors(
        latitude=[point.latitude for point in points], longitude=[point.longitude for point in points]
    )
    cosine = network.port_vectors @ vectors.T
    nearest = cosine.argmax(axis=0)
    is_port = cosine.max(axis=0) > np.cos(SAME_PORT_NMI / MEAN_RADIUS_NMI)
    return [
        _port_access(network, int(port)) if found else _point_access(network, point)
        for point, port, found in zip(points, nearest, is_port, strict=True)
    ]


def _port_access(network: SeaNetwork, port: int) -> _Access:
    ways = slice(network.access_first[port], network.access_first[port + 1])
    return _Access(network.access_node[ways], network.access_nmi[ways], port=port)


def _point_access(network: SeaNetwork, point: Point) -> _Access:
    vector = unit_vectors(latitude=point.latitude, longitude=point.longitude)
    nearest = np.argsort(-(network.node_vectors @ vector), kind="stable")[:NEAREST_NODES]
    nmi = geodesic_nmi_columns(
        latitude_a=point.latitude,
        longitude_a=point.longitude,
        latitude_b=network.nodes[nearest, 0],
        longitude_b=network.nodes[nearest, 1],
    )
    near = nmi <= FARTHEST_FROM_NETWORK_NMI
    note = f"No port of the table is there: joined to the sea lanes over {nmi[0]:.0f} nmi in a straight line."
    return _Access(nearest[near], nmi[near], note=note)
