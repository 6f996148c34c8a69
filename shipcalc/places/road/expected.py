"""How near road miles are expected to come, by the method that found them and the length of the lane."""

import math
from bisect import bisect_left
from functools import cache

# (great circle up to, mi; share of the miles within which nine lanes of ten fall), measured on the mileage table of 1949 by
# `shipcalc.places.making.lanes_accuracy` and rounded up; tests/published/test_road_lanes.py holds them to it.
_WITHIN = {
    "network": ((100, 0.14), (200, 0.10), (300, 0.085), (500, 0.07), (800, 0.06), (math.inf, 0.035)),
    "factor": ((100, 0.19), (200, 0.17), (300, 0.16), (500, 0.13), (800, 0.11), (math.inf, 0.08)),
}
_BOUNDS = {method: [up_to_mi for up_to_mi, _ in bands] for method, bands in _WITHIN.items()}


def expected_error(method: str, great_circle_mi: float) -> float | None:
    """Return the share of the miles within which nine lanes of ten fall; None for miles that somebody gave."""
    if method not in _WITHIN:
        return None
    return _WITHIN[method][bisect_left(_BOUNDS[method], great_circle_mi)][1]


@cache
def expectation(expected: float) -> str:
    """Return the phrase that says it."""
    return f"within {100 * expected:g} % in 9 of 10 lanes of this length"
