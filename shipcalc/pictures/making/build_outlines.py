"""Make `data/outlines.json` from the npm packages us-atlas 3.0.1 and world-atlas 2.0.2 (`npm pack`, then unpack).

    python -m shipcalc.pictures.making.build_outlines US-ATLAS/states-10m.json WORLD-ATLAS/countries-110m.json

Both are TopoJSON: arcs that neighbours share, in steps of whole numbers. An arc is simplified before rings are made of arcs, so
that neighbours keep a common border. `data/ORIGIN.md` says where the outlines are from.
"""

import json
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from shipcalc.pictures.outlines import FILE, PER_DEGREE
from shipcalc.places.gazetteer.pages import countries
from shipcalc.places.gazetteer.regions import US_STATES

# What may be left off an outline, and the smallest ring that is kept, in degrees and square degrees.
STATES_TOLERANCE, STATES_SMALLEST = 0.02, 0.01
WORLD_TOLERANCE, WORLD_SMALLEST = 0.08, 0.3
# Names of the atlas that the gazetteer does not have in the same words (ISO 3166-1 numeric codes are in neither).
_OTHER_NAMES = {
    "W. Sahara": "EH", "United States of America": "US", "Dem. Rep. Congo": "CD", "Dominican Rep.": "DO", "Russia": "RU",
    "Falkland Is.": "FK", "Fr. S. Antarctic Lands": "TF", "Côte d'Ivoire": "CI", "Central African Rep.": "CF", "Congo": "CG",
    "Eq. Guinea": "GQ", "eSwatini": "SZ", "Palestine": "PS", "Solomon Is.": "SB", "Czechia": "CZ", "Bosnia and Herz.": "BA",
    "Macedonia": "MK", "S. Sudan": "SS", "Timor-Leste": "TL", "Netherlands": "NL", "Gambia": "GM", "Bahamas": "BS",
    "Turkey": "TR", "Kosovo": "XK", "N. Cyprus": "CY", "Somaliland": "SO", "Antarctica": "",
}  # fmt: skip

Point = tuple[float, float]


def main(states: Path, world: Path) -> None:
    """Write the outlines."""
    by_name = {name: code for code, name in US_STATES.items()}
    land = {
        "states": _outlines(states, "states", by_name, STATES_TOLERANCE, STATES_SMALLEST),
        "countries": _outlines(world, "countries", _country_codes(), WORLD_TOLERANCE, WORLD_SMALLEST),
    }
    FILE.write_text(json.dumps(land, separators=(",", ":")) + "\n")


def _country_codes() -> dict[str, str]:
    return {country.name: code for code, country in countries().items()} | _OTHER_NAMES


def _outlines(
    file: Path, name: str, codes: Mapping[str, str], tolerance: float, smallest: float
) -> dict[str, list[list[int]]]:
    """Return the rings of every area by its code, each ring as longitude, latitude, longitude … in 1/PER_DEGREE degrees."""
    topology = json.loads(file.read_text())
    arcs = [_simplified(_degrees(arc, topology["transform"]), tolerance) for arc in topology["arcs"]]
    found: dict[str, list[list[int]]] = {}
    for area in topology["objects"][name]["geometries"]:
        code = codes.get(area["properties"]["name"])
        if code is None:
            sys.stderr.write(f"left out: {area['properties']['name']}\n")
        if not code:
            continue
        rings = [_ring(ring, arcs) for polygon in _polygons(area) for ring in polygon[:1]]
        large = [ring for ring in rings if _size(ring) >= smallest] or [max(rings, key=_size)]
        found.setdefault(code, []).extend(
            [round(degree * PER_DEGREE) for point in ring for degree in point] for ring in large
        )
    return dict(sorted(found.items()))


def _polygons(area: Mapping[str, Any]) -> list[list[list[int]]]:
    polygons: list[list[list[int]]] = area["arcs"] if area["type"] == "MultiPolygon" else [area["arcs"]]
    return polygons


def _degrees(arc: list[list[int]], transform: Mapping[str, list[float]]) -> list[Point]:
    east = north = 0
    points = []
    for step_east, step_north in arc:
        east, north = east + step_east, north + step_north
        points.append(
            (
                east * transform["scale"][0] + transform["translate"][0],
                north * transform["scale"][1] + transform["translate"][1],
            )
        )
    return points


def _ring(numbers: list[int], arcs: list[list[Point]]) -> list[Point]:
    """Return the points of a ring; a number below zero is an arc walked backwards."""
    points: list[Point] = []
    for number in numbers:
        arc = arcs[number] if number >= 0 else arcs[~number][::-1]
        points += arc[1:] if points else arc
    return points


def _simplified(points: list[Point], tolerance: float) -> list[Point]:
    """Return a line without the points that lie nearer than the tolerance to what is kept (Douglas and Peucker, 1973)."""
    kept = {0, len(points) - 1}
    waiting = [(0, len(points) - 1)]
    while waiting:
        first, last = waiting.pop()
        away, at = max(
            ((_away(points[n], points[first], points[last]), n) for n in range(first + 1, last)), default=(0.0, 0)
        )
        if away > tolerance:
            kept.add(at)
            waiting += [(first, at), (at, last)]
    return [points[n] for n in sorted(kept)]


def _away(point: Point, a: Point, b: Point) -> float:
    """Return how far a point is from the stretch between two others."""
    (x, y), (ax, ay), (bx, by) = point, a, b
    length = (bx - ax) ** 2 + (by - ay) ** 2
    along = 0.0 if not length else max(0.0, min(1.0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length))
    return float(((x - ax - along * (bx - ax)) ** 2 + (y - ay - along * (by - ay)) ** 2) ** 0.5)


def _size(ring: list[Point]) -> float:
    """Return the area of a ring in square degrees."""
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in _pairs(ring))) / 2


def _pairs(ring: list[Point]) -> Iterator[tuple[Point, Point]]:
    return zip(ring, ring[1:] + ring[:1], strict=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
