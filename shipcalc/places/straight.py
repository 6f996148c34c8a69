"""The straight line: great circle on a sphere, and the geodesic on the earth's ellipsoid."""

import math
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shipcalc.measures import METRES_PER_MILE, metres_to_miles
from shipcalc.places.place import Place

# Mean radius (2a + b) ÷ 3 of WGS 84 (Moritz 2000, Geodetic Reference System 1980), the sphere that geopy uses.
EARTH_RADIUS_KM = 6371.009
EARTH_RADIUS_MI = EARTH_RADIUS_KM * 1000 / METRES_PER_MILE


def great_circle_mi(a: Place, b: Place) -> float:
    """Return the great-circle distance of two places in statute miles."""
    return great_circle_mi_of(a.latitude, a.longitude, b.latitude, b.longitude)


def great_circle_mi_of(latitude_a: float, longitude_a: float, latitude_b: float, longitude_b: float) -> float:
    """Return one great-circle distance in statute miles, the same to the last bit as `great_circle_mi_columns` gives.

    Written out for one pair: a column of one takes ten times as long.
    """
    if not _numpy_has_the_bits_of_math():
        column = great_circle_mi_columns(
            latitude_a=latitude_a, longitude_a=longitude_a, latitude_b=latitude_b, longitude_b=longitude_b
        )
        return float(column)
    north_a, north_b, east = math.radians(latitude_a), math.radians(latitude_b), math.radians(longitude_b - longitude_a)
    sin_a, cos_a, sin_b, cos_b = math.sin(north_a), math.cos(north_a), math.sin(north_b), math.cos(north_b)
    sin_east, cos_east = math.sin(east), math.cos(east)
    # Not math.hypot, which rounds otherwise than the C library's that numpy and complex numbers use.
    across = abs(complex(cos_b * sin_east, cos_a * sin_b - sin_a * cos_b * cos_east))
    along = sin_a * sin_b + cos_a * cos_b * cos_east
    return EARTH_RADIUS_MI * math.atan2(across, along)


@cache
def _numpy_has_the_bits_of_math() -> bool:
    """Whether numpy rounds sines, cosines and arcs as Python does: not where it has the processor's wide registers for them.

    Where the two differ, one value in ten or so does.
    """
    angles = np.linspace(-math.pi, math.pi, 97)
    along, listed = angles[::-1] / 3, angles.tolist()
    pairs = list(zip(listed, along.tolist(), strict=True))
    by_numpy = [np.sin(angles), np.cos(angles), np.arctan2(angles, along), np.hypot(angles, along)]
    by_python = [
        list(map(math.sin, listed)),
        list(map(math.cos, listed)),
        [math.atan2(*pair) for pair in pairs],
        [abs(complex(*pair)) for pair in pairs],
    ]
    return [column.tolist() for column in by_numpy] == by_python


def great_circle_mi_columns(
    *, latitude_a: ArrayLike, longitude_a: ArrayLike, latitude_b: ArrayLike, longitude_b: ArrayLike
) -> NDArray[np.float64]:
    """Return great-circle distances in statute miles; columns in degrees that broadcast against each other.

    Vincenty's formula on a sphere: exact to rounding for near, far and antipodal points (T. Vincenty, Survey Review
    XXIII, 1975, with flattening 0).
    """
    north_a, north_b = np.radians(latitude_a), np.radians(latitude_b)
    east = np.radians(np.subtract(longitude_b, longitude_a))
    sin_a, cos_a, sin_b, cos_b = np.sin(north_a), np.cos(north_a), np.sin(north_b), np.cos(north_b)
    sin_east, cos_east = np.sin(east), np.cos(east)
    across = np.hypot(cos_b * sin_east, cos_a * sin_b - sin_a * cos_b * cos_east)
    along = sin_a * sin_b + cos_a * cos_b * cos_east
    miles: NDArray[np.float64] = EARTH_RADIUS_MI * np.arctan2(across, along)
    return miles


def geodesic_mi(a: Place, b: Place) -> float:
    """Return the geodesic distance on WGS 84 in statute miles (C. F. F. Karney, Journal of Geodesy 87, 2013)."""
    from geographiclib.geodesic import Geodesic

    line: dict[str, Any] = Geodesic.WGS84.Inverse(
        a.latitude, a.longitude, b.latitude, b.longitude, outmask=Geodesic.DISTANCE
    )
    return metres_to_miles(line["s12"])
