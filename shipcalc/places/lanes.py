"""How much longer the road is than the straight line, for the lane between two given places.

A table holds the road factor (road length ÷ great circle) between some thousands of hubs; a place takes its factor from the
hubs around it, the nearer ones more.
"""

import math
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shipcalc.places.lanes_hubs import HUBS_PER_PLACE, hubs_around, hubs_around_columns
from shipcalc.places.lanes_table import FOLDER, HubTable, hub_table

BLOCK = 32_768

# (great circle up to, mi; share of the miles within which two lanes of three fall), measured on the mileage table of 1949 by
# `shipcalc.places.lanes_accuracy` and rounded up; tests/published/test_road_lanes.py holds them to it.
EXPECTED_ERRORS = ((60.0, 0.11), (100.0, 0.07), (300.0, 0.055), (500.0, 0.04), (800.0, 0.035), (math.inf, 0.02))


@dataclass(frozen=True, slots=True, eq=False)
class LaneTable:
    """The factors of single lanes, as `shipcalc.places.road` asks for them."""

    hubs: HubTable

    @property
    def source(self) -> str:
        """Where the table is from, as a phrase."""
        return "the lane's own factor from a network of highways (© OpenStreetMap contributors)"

    def factor(self, *, latitude_a: float, longitude_a: float, latitude_b: float, longitude_b: float) -> float:
        """Return road ÷ great circle for one lane; NaN where the table does not reach: no hub near, or no road between.

        The same in both directions, to the last bit.
        """
        a = hubs_around(self.hubs, latitude_a, longitude_a)
        b = hubs_around(self.hubs, latitude_b, longitude_b)
        if a.start != b.start or not a.hubs or not b.hubs:
            return math.nan
        if (latitude_a, longitude_a) > (latitude_b, longitude_b):
            a, b = b, a
        between, factor = self.hubs.between, 0.0
        for position, weight in a.hubs:
            for other, other_weight in b.hubs:
                factor += weight * other_weight * between(a.start, position, other)
        return factor

    def factors(
        self, *, latitude_a: ArrayLike, longitude_a: ArrayLike, latitude_b: ArrayLike, longitude_b: ArrayLike
    ) -> NDArray[np.float64]:
        """Return the same for columns in degrees of one length, float64."""
        columns = [np.asarray(column, np.float64) for column in (latitude_a, longitude_a, latitude_b, longitude_b)]
        factors = np.empty(len(columns[0]))
        for begin in range(0, len(factors), BLOCK):
            block = slice(begin, begin + BLOCK)
            factors[block] = _factors(self.hubs, *(column[block] for column in columns))
        return factors


@cache
def lane_table(folder: Path = FOLDER) -> LaneTable:
    """Return the table of a folder."""
    return LaneTable(hub_table(folder))


def expected_error(great_circle_mi: float) -> float:
    """Return the share of the miles within which two lanes of three of that length fall."""
    return next(error for up_to_mi, error in EXPECTED_ERRORS if great_circle_mi <= up_to_mi)


def _factors(table: HubTable, *columns: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the factors of one block; columns are latitude and longitude of a, then of b."""
    latitude_a, longitude_a, latitude_b, longitude_b = columns
    turned = (latitude_a > latitude_b) | ((latitude_a == latitude_b) & (longitude_a > longitude_b))
    a = hubs_around_columns(table, np.where(turned, latitude_b, latitude_a), np.where(turned, longitude_b, longitude_a))
    b = hubs_around_columns(table, np.where(turned, latitude_a, latitude_b), np.where(turned, longitude_a, longitude_b))
    connected = a.start == b.start
    factors = np.zeros(len(turned))
    for nth in range(HUBS_PER_PLACE):
        for other in range(HUBS_PER_PLACE):
            position = np.where(connected, b.position[other], a.position[nth])
            factor = table.between_columns(a.start, a.position[nth], position)
            factor *= a.weight[nth] * b.weight[other]
            factors += factor
    factors[~connected | (factors == 0)] = np.nan
    return factors
