"""Lines over the sea as columns: unit vectors, and geodesic lengths in nautical miles."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shipcalc.measures import METRES_PER_NAUTICAL_MILE

Floats = NDArray[np.float64]

# WGS 84 (National Imagery and Mapping Agency, TR 8350.2, 3rd ed., 2000).
EQUATOR_RADIUS_M = 6378137.0
FLATTENING = 1 / 298.257223563
MEAN_RADIUS_NMI = 6371008.8 / METRES_PER_NAUTICAL_MILE


def unit_vectors(*, latitude: ArrayLike, longitude: ArrayLike) -> Floats:
    """Return points on the unit sphere, shape (n, 3), for columns in degrees."""
    north, east = np.radians(latitude), np.radians(longitude)
    return np.stack([np.cos(north) * np.cos(east), np.cos(north) * np.sin(east), np.sin(north)], axis=-1)


def geodesic_nmi_columns(
    *, latitude_a: ArrayLike, longitude_a: ArrayLike, latitude_b: ArrayLike, longitude_b: ArrayLike
) -> Floats:
    """Return lengths on WGS 84 in nautical miles; columns in degrees that broadcast against each other.

    Lambert's formula of first order in the flattening (W. D. Lambert, Journal of the Washington Academy of Sciences 32,
    1942): within some 10 m on lines of thousands of miles, wherever they are not nearly antipodal, and these never are.
    """
    reduced_a = np.arctan((1 - FLATTENING) * np.tan(np.radians(latitude_a)))
    reduced_b = np.arctan((1 - FLATTENING) * np.tan(np.radians(latitude_b)))
    half_east = np.radians(np.subtract(longitude_b, longitude_a)) / 2
    half_north = (reduced_b - reduced_a) / 2
    middle = (reduced_a + reduced_b) / 2
    haversine = np.sin(half_north) ** 2 + np.cos(reduced_a) * np.cos(reduced_b) * np.sin(half_east) ** 2
    angle = 2 * np.arcsin(np.sqrt(np.clip(haversine, 0.0, 1.0)))
    sin_half = np.where(haversine > 0, np.sin(angle / 2), 1.0)
    cos_half = np.maximum(np.cos(angle / 2), 1e-12)
    across = (angle - np.sin(angle)) * (np.sin(middle) * np.cos(half_north) / cos_half) ** 2
    along = (angle + np.sin(angle)) * (np.cos(middle) * np.sin(half_north) / sin_half) ** 2
    lengths: Floats = EQUATOR_RADIUS_M * (angle - FLATTENING / 2 * (across + along)) / METRES_PER_NAUTICAL_MILE
    return lengths
