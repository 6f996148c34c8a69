"""Straight lines against published geodesics, and against the library that others check theirs with."""

import math

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from geographiclib.test.test_geodesic import GeodesicTest
from geopy import distance as geopy_distance

from shipcalc.measures import METRES_PER_MILE
from shipcalc.places.place import Place
from shipcalc.places.straight import geodesic_mi, great_circle_mi, great_circle_mi_columns

GRS80_RADIUS_M, GRS80_FLATTENING = 6378137.0, 1 / 298.257222101  # Moritz 2000


def point(latitude: float, longitude: float) -> Place:
    return Place(name="a point", kind="point", country="", latitude=latitude, longitude=longitude)


def degrees(sign: int, whole: int, minutes: int, seconds: float) -> float:
    return sign * (whole + minutes / 60 + seconds / 3600)


# (latitude, longitude) from → to, metres, source.
PUBLISHED = [
    pytest.param((40.6, -73.8), (51.6, -0.5), 5_551_759.400, id="JFK-LHR: Karney, GeographicLib, GeodSolve example"),
    pytest.param(
        (-41.32, 174.81), (40.96, -5.50), 19_959_679.267, id="Wellington-Salamanca: Karney, geographiclib documentation"
    ),
    pytest.param(
        (50.06632, -5.71475),
        (58.64402, -3.07009),
        969_954.166,
        id="Land's End-John o'Groats: several geodesy test suites",
    ),
    pytest.param(
        (36.530042355041, 0.0),
        (-48.164270779097768864, 5.762344694676510456),
        9_398_502.0434687,
        id="GeodTest.dat line 1",
    ),
]


@pytest.mark.parametrize(("a", "b", "metres"), PUBLISHED)
def test_a_geodesic_is_as_long_as_published_to_the_millimetre(
    a: tuple[float, float], b: tuple[float, float], metres: float
) -> None:
    assert geodesic_mi(point(*a), point(*b)) * METRES_PER_MILE == pytest.approx(metres, abs=0.001)


@pytest.mark.parametrize("case", GeodesicTest.testcases, ids=lambda case: f"{case[0]:.2f},{case[3]:.2f}")
def test_the_twenty_lines_of_the_geographiclib_test_suite_are_met(case: list[float]) -> None:
    latitude_a, longitude_a, latitude_b, longitude_b, metres = case[0], case[1], case[3], case[4], case[6]
    found = geodesic_mi(point(latitude_a, longitude_a), point(latitude_b, longitude_b))
    assert found * METRES_PER_MILE == pytest.approx(metres, abs=1e-6)


def test_flinders_peak_to_buninyong_lies_within_a_millimetre_though_the_survey_used_another_ellipsoid() -> None:
    """54,972.271 m on GRS80 (GDA Technical Manual). WGS84 differs from it by 0.1 mm in the polar radius."""
    flinders = point(degrees(-1, 37, 57, 3.72030), degrees(1, 144, 25, 29.52440))
    buninyong = point(degrees(-1, 37, 39, 10.15610), degrees(1, 143, 55, 35.38390))
    survey = Geodesic(GRS80_RADIUS_M, GRS80_FLATTENING).Inverse(
        flinders.latitude, flinders.longitude, buninyong.latitude, buninyong.longitude
    )
    assert survey["s12"] == pytest.approx(54_972.271, abs=0.001)
    assert geodesic_mi(flinders, buninyong) * METRES_PER_MILE == pytest.approx(54_972.271, abs=0.001)


def test_great_circles_and_geodesics_are_those_of_geopy() -> None:
    """A lattice over the whole earth, poles, date line and antipodes with it; geopy is the reference."""
    latitudes, longitudes = (-90.0, -41.3, 0.0, 48.75, 89.9), (-180.0, -122.5, 0.0, 57.7, 179.99)
    points = [point(latitude, longitude) for latitude in latitudes for longitude in longitudes]
    for a in points[::3]:
        for b in points:
            ends = (a.latitude, a.longitude), (b.latitude, b.longitude)
            assert great_circle_mi(a, b) == pytest.approx(geopy_distance.great_circle(*ends).miles, rel=1e-12, abs=1e-8)
            assert geodesic_mi(a, b) == pytest.approx(geopy_distance.geodesic(*ends).miles, rel=1e-12, abs=1e-8)


def test_a_column_of_lanes_gives_the_same_miles_as_the_lanes_one_by_one() -> None:
    origin = point(48.749, -122.488)
    latitudes, longitudes = np.linspace(-90, 90, 181), np.linspace(-180, 180, 181)
    column = great_circle_mi_columns(
        latitude_a=origin.latitude, longitude_a=origin.longitude, latitude_b=latitudes, longitude_b=longitudes
    )
    singly = [great_circle_mi(origin, point(float(a), float(b))) for a, b in zip(latitudes, longitudes, strict=True)]
    assert column.tolist() == singly


def test_half_the_way_round_is_as_long_as_the_sphere_says() -> None:
    """π × 6371.009 km, by arithmetic."""
    assert great_circle_mi(point(0, 0), point(0, 180)) == pytest.approx(math.pi * 6371.009 / 1.609344, abs=1e-9)
