"""How much longer the road is than the straight line, for the lane between two given places.

A table holds the road factor (road length ÷ great circle) between some thousands of hubs; a place takes its factor from the
hubs around it, the nearer ones more.
"""

import math
from collections.abc import Sequence
from functools import cache
from pathlib import Path

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shipcalc.places.road.lanes_hubs import HUBS_PER_PLACE, Around, AroundColumns, hubs_around, hubs_around_columns
from shipcalc.places.road.lanes_table import FACTOR_OF_CODE, FOLDER, HubTable, hub_table
from shipcalc.places.straight import EARTH_RADIUS_MI, great_circle_mi_columns, great_circle_mi_of
from shipcalc.records import dataclass

BLOCK = 32_768

# A longer way has a reason that is listed (`data/lanes/barriers.csv`) and lies between the two places; where none does, the
# factor is that of hubs which something parts.
LONGEST_WITHOUT_BARRIER = 2.5

# Two ZIPs may have one point.
SHORTEST_MI = 0.01

# From here on a factor is that of a way round something, see `_round_water`; from the second to the third the length of the road
# comes to count as much as the factor.
ROUND_FROM, LENGTH_FROM, LENGTH_HALF = 1.6, 2.5, 3.5

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class LaneTable:
    """The factors of single lanes, as `shipcalc.places.road.miles` asks for them."""

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
        codes, factor = self.hubs.codes_in_turn, 0.0
        for position, row, weight, _ in a.hubs:
            for other, other_row, other_weight, _ in b.hubs:
                code = codes[row + other if position > other else other_row + position]
                factor += weight * other_weight * FACTOR_OF_CODE[code]
        if factor > ROUND_FROM:
            ends = latitude_a, longitude_a, latitude_b, longitude_b
            return _with_a_reason_one(_round_water_one(self.hubs, factor, a, b, great_circle_mi_of(*ends)), ends)
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


def _factors(table: HubTable, *columns: Floats) -> Floats:
    """Return the factors of one block; columns are latitude and longitude of a, then of b."""
    latitude_a, longitude_a, latitude_b, longitude_b = columns
    turned = (latitude_a > latitude_b) | ((latitude_a == latitude_b) & (longitude_a > longitude_b))
    ends = [
        np.where(turned, latitude_b, latitude_a),
        np.where(turned, longitude_b, longitude_a),
        np.where(turned, latitude_a, latitude_b),
        np.where(turned, longitude_a, longitude_b),
    ]
    a, b = hubs_around_columns(table, *ends[:2]), hubs_around_columns(table, *ends[2:])
    connected = a.start == b.start
    factors = np.zeros(len(turned))
    for nth in range(HUBS_PER_PLACE):
        for other in range(HUBS_PER_PLACE):
            position = np.where(connected, b.position[other], a.position[nth])
            factor = table.between_columns(a.start, a.position[nth], position)
            factor *= a.weight[nth] * b.weight[other]
            factors += factor
    factors[~connected | (factors == 0)] = np.nan
    far = np.flatnonzero(factors > ROUND_FROM)
    if len(far):
        ends = [end[far] for end in ends]
        factors[far] = _with_a_reason(_round_water(table, factors[far], a.some(far), b.some(far), ends), ends)
    return factors


def _round_water(
    table: HubTable, factors: Floats, a: AroundColumns, b: AroundColumns, ends: Sequence[Floats]
) -> Floats:
    """Return large factors, bounded by the length of the road between the hubs; of the largest the length counts half.

    Round a bay the road is as long from the next town, and may be far less times the straight line; right across from each
    other, where the straight line is shorter than the hubs', it may be far more.
    """
    straight_mi = great_circle_mi_columns(
        latitude_a=ends[0], longitude_a=ends[1], latitude_b=ends[2], longitude_b=ends[3]
    )
    road_mi = np.zeros(len(factors))
    for nth in range(HUBS_PER_PLACE):
        for other in range(HUBS_PER_PLACE):
            between = table.between_columns(a.start, a.position[nth], b.position[other])
            chord = np.linalg.norm(table.points[a.hub[nth]] - table.points[b.hub[other]], axis=1)
            apart_mi = np.where(a.hub[nth] == b.hub[other], straight_mi, 2 * EARTH_RADIUS_MI * np.arcsin(chord / 2))
            road_mi += between * apart_mi * a.weight[nth] * b.weight[other]
    by_length = np.maximum(road_mi / np.maximum(straight_mi, SHORTEST_MI), ROUND_FROM)
    bounded = np.minimum(factors, by_length)
    share = np.clip((factors - LENGTH_FROM) / (LENGTH_HALF - LENGTH_FROM), 0.0, 1.0) / 2
    found: Floats = bounded + share * (by_length - bounded)
    return found


def _round_water_one(table: HubTable, factor: float, a: Around, b: Around, straight_mi: float) -> float:
    """Return what `_round_water` does for one lane."""
    road_mi = 0.0
    for position, row, weight, here in a.hubs:
        for other, other_row, other_weight, there in b.hubs:
            between = FACTOR_OF_CODE[table.codes_in_turn[row + other if position > other else other_row + position]]
            arc = 2 * math.asin(math.dist(here, there) / 2)
            road_mi += between * (straight_mi if position == other else EARTH_RADIUS_MI * arc) * weight * other_weight
    by_length = max(road_mi / max(straight_mi, SHORTEST_MI), ROUND_FROM)
    bounded = min(factor, by_length)
    share = min(max((factor - LENGTH_FROM) / (LENGTH_HALF - LENGTH_FROM), 0.0), 1.0) / 2
    return bounded + share * (by_length - bounded)


def _with_a_reason(factors: Floats, ends: Sequence[Floats]) -> Floats:
    """Return large factors as they are where a barrier lies between the ends, and bounded elsewhere."""
    far = np.flatnonzero(factors > LONGEST_WITHOUT_BARRIER)
    if len(far):
        from shipcalc.places.road.lanes_barriers import barrier_between

        a, b = (np.stack([north, east], axis=1)[far] for north, east in (ends[:2], ends[2:]))
        has_reason = (barrier_between(a, b) >= 0) | (barrier_between(b, a) >= 0)
        factors[far] = np.where(has_reason, factors[far], LONGEST_WITHOUT_BARRIER)
    return factors


def _with_a_reason_one(factor: float, ends: tuple[float, float, float, float]) -> float:
    """Return what `_with_a_reason` does for one lane."""
    if factor <= LONGEST_WITHOUT_BARRIER:
        return factor
    from shipcalc.places.road.lanes_barriers import has_barrier

    return factor if has_barrier(*ends) or has_barrier(*ends[2:], *ends[:2]) else LONGEST_WITHOUT_BARRIER
