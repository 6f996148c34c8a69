"""Lengths over the ellipsoid, the lines across passages, and what the network is thinned by."""

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic

from shipcalc.places.making.build_sea_links import Links, passages_crossed, shortest_of_each_pair
from shipcalc.places.making.build_sea_nodes import thinned
from shipcalc.places.sea.geometry import geodesic_nmi_columns, unit_vectors
from shipcalc.places.sea.passages import PASSAGE_NAMES

LINES = [
    (40.6, -73.8, 51.6, -0.5),
    (37.8, -122.4, 35.4, 139.6),
    (-33.9, 18.4, -34.6, -58.4),
    (48.4, -124.7, 48.5, -124.9),
    (21.3, -157.9, -36.8, 174.8),
    (0.0, 10.0, 0.0, 60.0),
]


@pytest.mark.parametrize(("north_a", "east_a", "north_b", "east_b"), LINES)
def test_lengths_are_those_of_the_geodesic(north_a, east_a, north_b, east_b):
    """Against GeographicLib (C. F. F. Karney, Journal of Geodesy 87, 2013); within 0.005 % or some metres."""
    exact = Geodesic.WGS84.Inverse(north_a, east_a, north_b, east_b)["s12"] / 1852
    length = geodesic_nmi_columns(latitude_a=north_a, longitude_a=east_a, latitude_b=north_b, longitude_b=east_b)
    assert float(length) == pytest.approx(exact, rel=5e-5, abs=0.005)


def test_a_point_is_no_distance_from_itself():
    assert geodesic_nmi_columns(latitude_a=[12.5], longitude_a=[-70], latitude_b=[12.5], longitude_b=[-70])[0] == 0


@pytest.mark.parametrize(
    ("from_point", "to_point", "passages"),
    [
        ((35.95, -7.0), (36.0, -4.5), {"gibraltar"}),
        ((36.5, -9.0), (43.0, -9.6), set()),
        ((-45.0, 10.0), (-45.0, 30.0), {"good hope"}),
        ((66.4, 179.0), (60.0, -179.0), set()),
        ((50.5, 0.5), (51.6, 2.2), {"dover"}),
        ((45.0, -60.0), (47.0, -45.0), {"grand banks"}),
        ((42.5, -50.0), (49.8, -6.5), set()),
    ],
)
def test_a_line_uses_the_passages_that_it_crosses(from_point, to_point, passages):
    (north_a, east_a), (north_b, east_b) = from_point, to_point
    length = geodesic_nmi_columns(
        latitude_a=[north_a], longitude_a=[east_a], latitude_b=[north_b], longitude_b=[east_b]
    )
    link = Links(np.array([[0, 1]]), length)
    bits = int(passages_crossed(np.array([north_a, north_b]), np.array([east_a, east_b]), link)[0])
    assert {name for bit, name in enumerate(PASSAGE_NAMES) if bits >> bit & 1} == passages


def test_of_two_links_between_the_same_points_the_shorter_stays():
    links = Links(np.array([[0, 1], [1, 0], [1, 2]]), np.array([10.0, 9.0, 5.0]))
    kept, bits = shortest_of_each_pair(links, np.array([1, 2, 0], dtype=np.uint32))
    assert kept.length_nmi.tolist() == [9.0, 5.0]
    assert bits.tolist() == [2, 0]


def test_points_are_thinned_in_order_and_around_those_taken():
    longitude = np.array([0.0, 0.2, 1.0, 5.0])
    points = unit_vectors(latitude=np.zeros(4), longitude=longitude)
    taken = unit_vectors(latitude=[0.0], longitude=[5.1])
    assert thinned(points, taken, 30.0).tolist() == [0, 2]
