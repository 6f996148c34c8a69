"""How near the road miles come to published ones; `shipcalc.places.making.accuracy` prints it.

Published sets: the lengths of 48 Interstates (`data/lanes/interstates.csv`; FHWA, Route Log and Finder List, table 1), from nine
of which the table has its one scale; and the 8,128 highway distances of 1949 between 128 cities (D. E. Knuth, The Stanford
GraphBase, 1993, miles.dat), from which it has the share of bends that the graph lost, and some roads that were found missing.
The roads of 1949 were longer than today's, so that set is also compared after one common scale, the median. Nothing was fitted
to the other Interstates, nor to the driving lengths of 2015, cities and towns found by name as a user would give them.
"""

import csv
import gzip
import re
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from shipcalc.measures import metres_to_miles
from shipcalc.places.gazetteer.find import get_place
from shipcalc.places.road.lanes import lane_table
from shipcalc.places.road.lanes_table import FOLDER
from shipcalc.places.straight import great_circle_mi_columns
from shipcalc.records import dataclass

Floats = NDArray[np.float64]

# Road ÷ great circle in the United States: Ballou, Rahardja & Sakai 2002, Transportation Research Part A 36(9), table 1.
CONSTANT_FACTOR = 1.20
CITY = re.compile(r".+\[(?P<north>\d+),(?P<west>\d+)\]\d+")
LENGTHS_MI = ((0, 60), (60, 100), (100, 300), (300, 500), (500, 800), (800, 5000))


@dataclass(frozen=True, slots=True)
class PublishedLanes:
    """Places in degrees, [n, 2] each, and published road miles, [n]."""

    name: str
    a: Floats
    b: Floats
    road_mi: Floats

    def great_circle_mi(self) -> Floats:
        """Return the straight lines in miles."""
        return great_circle_mi_columns(
            latitude_a=self.a[:, 0], longitude_a=self.a[:, 1], latitude_b=self.b[:, 0], longitude_b=self.b[:, 1]
        )

    def by_lane_mi(self) -> Floats:
        """Return straight line × lane factor."""
        factors = lane_table().factors(
            latitude_a=self.a[:, 0],
            longitude_a=self.a[:, 1],
            latitude_b=self.b[:, 0],
            longitude_b=self.b[:, 1],
        )
        return self.great_circle_mi() * factors

    def by_constant_mi(self) -> Floats:
        """Return straight line × the one factor of the country."""
        return self.great_circle_mi() * CONSTANT_FACTOR

    def some(self, chosen: NDArray[np.bool_], name: str) -> "PublishedLanes":
        """Return some of the lanes under another name."""
        return PublishedLanes(name, self.a[chosen], self.b[chosen], self.road_mi[chosen])


@dataclass(frozen=True, slots=True)
class Accuracy:
    """Relative errors of one method on one set in per cent; `bias` is the median of the signed errors."""

    method: str
    lanes: str
    count: int
    mape: float
    median: float
    p95: float
    worst: float
    bias: float


def interstates(*, set_scale: bool) -> PublishedLanes:
    """Return Interstates of the public log from end to end: those that set the scale of the table, or the others."""
    wanted = "yes" if set_scale else "no"
    with (FOLDER / "interstates.csv").open(newline="", encoding="utf-8") as lines:
        rows = [row for row in csv.DictReader(lines) if row["sets_scale"] == wanted]
    a, b = (
        np.array([[float(row[f"{end}_latitude"]), float(row[f"{end}_longitude"])] for row in rows])
        for end in ("from", "to")
    )
    name = "Interstates of the scale" if set_scale else "other Interstates"
    return PublishedLanes(name, a, b, np.array([float(row["miles"]) for row in rows]))


def lanes_of_1949(path: Path) -> PublishedLanes:
    """Return the lanes of Knuth's table as it is distributed: a city, then its miles to the earlier ones, latest first."""
    cities: list[tuple[float, float]] = []
    pairs: list[tuple[int, int, int]] = []
    for line in gzip.decompress(path.read_bytes()).decode("ascii").splitlines():
        if match := CITY.fullmatch(line):
            cities.append((int(match["north"]) / 100, -int(match["west"]) / 100))
            earlier = len(cities) - 1
        elif line and not line.startswith("*"):
            for miles in line.split():
                earlier -= 1
                pairs.append((len(cities) - 1, earlier, int(miles)))
    city, other, miles = np.array(pairs).T
    places = np.array(cities)
    return PublishedLanes("1949", places[city], places[other], miles.astype(np.float64))


def lanes_of_2015(path: Path) -> PublishedLanes:
    """Return driving lengths between places that are told by name."""
    ends, road_mi, _ = _read_2015(path)
    return PublishedLanes("2015", ends[:, 0], ends[:, 1], road_mi)


def parts_of_2015(path: Path) -> tuple[PublishedLanes, ...]:
    """Return them in two parts: pairs of large cities, and pairs with small and far towns among them."""
    lanes, (_, _, part) = lanes_of_2015(path), _read_2015(path)
    return tuple(lanes.some(part == name, f"2015, {name}") for name in ("cities", "towns"))


def _read_2015(path: Path) -> tuple[Floats, Floats, NDArray[np.str_]]:
    """Return both ends of each lane in degrees [n, 2, 2], its miles and its part."""
    with path.open(newline="", encoding="utf-8") as lines:
        rows = list(csv.DictReader(lines, delimiter="\t"))
    ends = np.array([[_where(row[end]) for end in ("from", "to")] for row in rows])
    road_mi = np.array([metres_to_miles(float(row["metres"])) for row in rows])
    return ends, road_mi, np.array([row["set"] for row in rows])


def _where(name: str) -> tuple[float, float]:
    place = get_place(name).place
    assert place is not None, name
    return place.latitude, place.longitude


def accuracy(method: str, lanes: PublishedLanes, computed_mi: Floats, *, scaled: bool = False) -> Accuracy:
    """Return the errors of computed miles; `scaled`: after the one scale that takes the median error away."""
    ratio = computed_mi / lanes.road_mi
    if scaled:
        ratio /= np.median(ratio)
    error = 100 * (ratio - 1)
    size = np.abs(error)
    figures = (size.mean(), np.median(size), np.percentile(size, 95), size.max(), np.median(error))
    return Accuracy(method, lanes.name, len(error), *(float(figure) for figure in figures))


def accuracy_table(of_1949: Path, of_2015: Path) -> tuple[Accuracy, ...]:
    """Return the errors of the constant and of the lane factors on all sets, and on the lanes of 1949 by their length."""
    fitted, roads = interstates(set_scale=True), interstates(set_scale=False)
    old, new = lanes_of_1949(of_1949), lanes_of_2015(of_2015)
    rows = [
        accuracy("constant", fitted, fitted.by_constant_mi()),
        accuracy("lane", fitted, fitted.by_lane_mi()),
        accuracy("constant", roads, roads.by_constant_mi()),
        accuracy("lane", roads, roads.by_lane_mi()),
        accuracy("constant", new, new.by_constant_mi()),
        accuracy("lane", new, new.by_lane_mi()),
        *(accuracy("lane", part, part.by_lane_mi()) for part in parts_of_2015(of_2015)),
        accuracy("constant", old, old.by_constant_mi()),
        accuracy("lane", old, old.by_lane_mi()),
        accuracy("constant, scaled", old, old.by_constant_mi(), scaled=True),
        accuracy("lane, scaled", old, old.by_lane_mi(), scaled=True),
    ]
    scale = float(np.median(old.road_mi / old.by_lane_mi()))
    straight_mi = old.great_circle_mi()
    for over_mi, up_to_mi in LENGTHS_MI:
        some = old.some((straight_mi > over_mi) & (straight_mi <= up_to_mi), f"1949, {over_mi} – {up_to_mi} mi")
        rows.append(accuracy("lane, scaled", some, some.by_lane_mi() * scale))
    return tuple(rows)
