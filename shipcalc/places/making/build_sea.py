"""Make `data/sea/network.npz` and `data/sea/ports.npz` (extra: sea).

    python -m shipcalc.places.making.build_sea [FOLDER]

The same packages give the same files, byte for byte. `data/sea/ORIGIN.md` says where everything comes from.

How the network is made. From GLOBE's land mask, widened by two nautical miles and closed over the shoals of
`closed_areas.tsv`, it is known which straight lines (great circles) over water are clear. Points are set off headlands; each
two that see each other are joined; lines that two shorter ones replace are dropped. Where the water is too narrow for that —
straits, canals, rivers, harbours — the lanes of `searoute` are kept, measured again on the ellipsoid. So the shortest way
through the network is the shortest navigable track: great circles between turning points, as tables of distances use.
"""

import sys
from pathlib import Path

import numpy as np

from shipcalc.places.making.build_ports import Port, world_ports, write_ports
from shipcalc.places.making.build_sea_lanes import NORTHERNMOST, all_lanes, coastal_ways
from shipcalc.places.making.build_sea_links import (
    Links,
    Network,
    open_water_links,
    passages_crossed,
    shortest_of_each_pair,
    worth_keeping,
)
from shipcalc.places.making.build_sea_nodes import far_points, with_lane_nodes
from shipcalc.places.making.build_sea_water import (
    Mask,
    Polygon,
    away_from_land,
    cells,
    close_areas,
    ocean,
    without_islets,
)
from shipcalc.places.sea.geometry import Floats, unit_vectors

FOLDER = Path(__file__).parents[1] / "data" / "sea"
ISLET_SQUARE_KM = 150.0
CLEARANCE_CELLS = 4


def closed_areas(path: Path, *, to_lanes: bool) -> list[Polygon]:
    """Return the corners of the areas that no straight line may cross, or of those closed to lanes, too."""
    rows = [line.split("\t") for line in path.read_text(encoding="utf-8").splitlines()[1:]]
    rows = [row for row in rows if row[1].endswith("closed to lanes, too") or not to_lanes]
    return [[(float(n), float(e)) for n, e in (corner.split() for corner in row[2].split(";"))] for row in rows]


def junctions(path: Path) -> tuple[Floats, Floats]:
    """Return latitudes and longitudes of the named turning points."""
    rows = [line.split("\t") for line in path.read_text(encoding="utf-8").splitlines()[1:]]
    return np.array([float(row[1]) for row in rows]), np.array([float(row[2]) for row in rows])


def say(text: str) -> None:
    """Tell how far the build is."""
    sys.stdout.write(text + "\n")
    sys.stdout.flush()


def network(sea: Mask, ports: tuple[Port, ...], folder: Path) -> Network:
    """Return all nodes and links; the points in open water come first, then those that only lanes reach."""
    clear_water = away_from_land(sea, distance_cells=CLEARANCE_CELLS)
    clear_water[cells(latitude=[NORTHERNMOST], longitude=[0])[0][0] :: -1] = False
    close_areas(clear_water, closed_areas(folder / "closed_areas.tsv", to_lanes=False))
    without_lanes = np.ones_like(sea)
    close_areas(without_lanes, closed_areas(folder / "closed_areas.tsv", to_lanes=True))
    lanes = all_lanes(clear_water, sea, ~without_lanes, folder / "more_lanes.tsv")
    at_ports = np.array([port.latitude for port in ports]), np.array([port.longitude for port in ports])
    points = far_points(clear_water, lanes, junctions(folder / "junctions.tsv"), at_ports)
    drawn = passages_crossed(lanes.latitude, lanes.longitude, Links(lanes.link, lanes.length_nmi))
    coastal = coastal_ways(lanes, drawn, points.lane[points.lane >= 0])
    points = with_lane_nodes(points, lanes, coastal.nodes, clear_water)
    say(f"{len(points.lane)} points in open water, {(~points.near_only).sum()} with far lines")
    straight = worth_keeping(open_water_links(points, sea, clear_water), len(points.lane))
    say(f"{len(straight.pair)} lines over open water")
    number = np.full(len(lanes.latitude), -1)
    number[points.lane[points.lane >= 0]] = np.flatnonzero(points.lane >= 0)
    others = coastal.nodes[number[coastal.nodes] < 0]
    number[others] = len(points.lane) + np.arange(len(others))
    links, passages = shortest_of_each_pair(
        Links(
            np.concatenate([straight.pair, number[coastal.pair]]),
            np.concatenate([straight.length_nmi, coastal.length_nmi]),
        ),
        np.concatenate([passages_crossed(points.latitude, points.longitude, straight), coastal.passages]),
    )
    return Network(
        latitude=np.concatenate([points.latitude, lanes.latitude[others]]),
        longitude=np.concatenate([points.longitude, lanes.longitude[others]]),
        links=links,
        passages=passages,
        channels=unit_vectors(latitude=lanes.latitude, longitude=lanes.longitude)[lanes.narrow_links()],
    )


def write_network(network: Network, path: Path) -> None:
    """Write the links both ways, by the node they leave, lengths in hundredths of a nautical mile, none of them nothing."""
    pair, length, bits = network.links.pair, network.links.length_nmi, network.passages
    start, end = np.concatenate([pair, pair[:, ::-1]]).T
    order = np.lexsort((end, start))
    used = np.tile(bits, 2)[order]
    np.savez(
        path,
        latitude=np.round(network.latitude * 1e5).astype(np.int32),
        longitude=np.round(network.longitude * 1e5).astype(np.int32),
        first=np.searchsorted(start[order], np.arange(len(network.latitude) + 1)).astype(np.uint32),
        end=end[order].astype(np.uint16),
        length=np.maximum(1, np.round(np.tile(length, 2)[order] * 100)).astype(np.uint32),
        passage_link=np.flatnonzero(used).astype(np.uint32),
        passage_bits=used[used > 0],
    )


def main(folder: Path) -> None:
    """Make both files in a folder."""
    raw = ocean()
    sea = without_islets(raw, under_square_km=ISLET_SQUARE_KM)
    ports = world_ports(FOLDER)
    made = network(sea, ports, FOLDER)
    write_network(made, folder / "network.npz")
    say(f"{len(made.latitude)} nodes, {len(made.links.pair)} links")
    del sea
    written, left_out = write_ports(raw, made, ports, folder / "ports.npz")
    say(f"{written} ports; {left_out} without water within reach are left out")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else FOLDER)
