"""The straight line: great circle on a sphere, and the geodesic on the earth's ellipsoid."""

from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shipcalc.measures import METRES_PER_MILE, metres_to_miles
from shipcalc.places.place import Place

# Mean radius (2a + b) ÷ 3 of WGS 84 (Moritz 2000, Geodetic Reference System 1980), the sphere that geopy uses.
EARTH_RADIUS_KM = 6371.009
EARTH_RADIUS_MI = EARTH_RADIUS_KM * 1000 / METRES_PER_MILE

# A great circle cannot be longer than half the way round.
LONGEST_MI = EARTH_RADIUS_MI * np.pi


def great_circle_mi(a: Place, b: Place) -> float:
    """Return the great-circle distance in statute miles, the same to the last bit as `great_circle_mi_columns` gives.

    Written out for one pair: a column of one takes four times as long.
    """
    angles = np.array([a.latitude, b.latitude, b.longitude - a.longitude]) * (np.pi / 180)
    sin_a, sin_b, sin_east = np.sin(angles).tolist()
    cos_a, cos_b, cos_east = np.cos(angles).tolist()
    across = np.hypot(cos_b * sin_east, cos_a * sin_b - sin_a * cos_b * cos_east)
    along = sin_a * sin_b + cos_a * cos_b * cos_east
    return float(EARTH_RADIUS_MI * np.arctan2(across, along))


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
