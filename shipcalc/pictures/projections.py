"""From the globe to the page. Two projections keep areas, so that a large state looks as large as it is; one is for ways.

Albers' conic    J. P. Snyder, Map Projections: A Working Manual, USGS Professional Paper 1395 (1987), p. 98, sphere
Equirectangular  the same, p. 90: scales are true along the meridians and along one parallel to the north and to the south
Equal Earth      B. Šavrič, T. Patterson, B. Jenny, Int. J. Geographical Information Science 33 (2019), p. 454
"""

import math

import numpy as np
from numpy.typing import NDArray

from shipcalc.records import dataclass

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Albers:
    """Albers' equal-area conic projection on a sphere of radius 1; all in degrees."""

    south: float
    north: float
    latitude: float
    longitude: float

    def project(self, longitude: Floats, latitude: Floats) -> tuple[Floats, Floats]:
        """Return x to the east and y to the north."""
        first, second, origin = (math.radians(angle) for angle in (self.south, self.north, self.latitude))
        n = (math.sin(first) + math.sin(second)) / 2
        c = math.cos(first) ** 2 + 2 * n * math.sin(first)
        rho = np.sqrt(c - 2 * n * np.sin(np.radians(latitude))) / n
        rho_origin = math.sqrt(c - 2 * n * math.sin(origin)) / n
        theta = n * np.radians((longitude - self.longitude + 180) % 360 - 180)
        return rho * np.sin(theta), rho_origin - rho * np.cos(theta)


@dataclass(frozen=True, slots=True)
class EqualEarth:
    """The Equal Earth projection of a sphere of radius 1, its middle at longitude 0."""

    def project(self, longitude: Floats, latitude: Floats) -> tuple[Floats, Floats]:
        """Return x to the east and y to the north."""
        a1, a2, a3, a4 = 1.340264, -0.081106, 0.000893, 0.003796
        theta = np.arcsin(math.sqrt(3) / 2 * np.sin(np.radians(latitude)))
        squared, sixth = theta**2, theta**6
        slope = 9 * a4 * theta**8 + 7 * a3 * sixth + 3 * a2 * squared + a1
        x = 2 * math.sqrt(3) * np.radians(longitude) * np.cos(theta) / (3 * slope)
        return x, a4 * theta**9 + a3 * theta**7 + a2 * theta**3 + a1 * theta


@dataclass(frozen=True, slots=True, kw_only=True)
class Equirectangular:
    """The equirectangular projection, true along `parallel`; all in degrees. A way over the date line stays whole."""

    parallel: float
    longitude: float

    def project(self, longitude: Floats, latitude: Floats) -> tuple[Floats, Floats]:
        """Return x to the east and y to the north, in degrees of a meridian."""
        return (longitude - self.longitude) * math.cos(math.radians(self.parallel)), latitude


Projection = Albers | EqualEarth

CONTIGUOUS = Albers(south=29.5, north=45.5, latitude=37.5, longitude=-96)
ALASKA = Albers(south=55, north=65, latitude=50, longitude=-154)
HAWAII = Albers(south=8, north=18, latitude=13, longitude=-157)
WORLD = EqualEarth()
