"""Whether open water lies between two near places, by a grid of the world's coasts, so that no road is put there.

The grid is GLOBE (NOAA), as the package `global-land-mask` carries it (extra: roads): cells of half a minute, the sea alone.
Lakes are land to it, so those that part places stand in `data/lanes/barriers.csv`. Never used at run time.
"""

import numpy as np
from numpy.typing import NDArray

# Steps along the line, about a cell of the grid; and how long water may be before no bridge is thought of without a row of
# `data/lanes/mended_joins.csv`: longer than the bridges that a graph may lack, shorter than a bay.
STEPS_PER_DEGREE, WIDEST_WATER_KM = 120, 6.0
KM_PER_DEGREE = 111.2
PER_BLOCK = 5_000

Floats = NDArray[np.float64]


def is_over_open_water(a: Floats, b: Floats) -> NDArray[np.bool_]:
    """Return for each lane, places in degrees [n, 2], whether its line crosses WIDEST_WATER_KM of sea without a break.

    The line is straight on a map that is flat in degrees: good for near places.
    """
    found = np.zeros(len(a), dtype=np.bool_)
    for begin in range(0, len(a), PER_BLOCK):
        block = slice(begin, begin + PER_BLOCK)
        found[block] = _longest_water_km(a[block], b[block]) >= WIDEST_WATER_KM
    return found


def _longest_water_km(a: Floats, b: Floats) -> Floats:
    """Return the longest unbroken stretch of sea on each line, km."""
    from global_land_mask import globe

    if not len(a):
        return np.zeros(0)
    apart = np.hypot(b[:, 0] - a[:, 0], (b[:, 1] - a[:, 1]) * np.cos(np.radians(a[:, 0])))
    steps = int(np.ceil(apart.max() * STEPS_PER_DEGREE)) + 1
    along = np.linspace(0, 1, steps)[:, None]
    is_sea = ~globe.is_land(a[:, 0] + along * (b[:, 0] - a[:, 0]), a[:, 1] + along * (b[:, 1] - a[:, 1]))
    longest = here = np.zeros(len(a))
    for wet in is_sea:
        here = np.where(wet, here + 1, 0)
        longest = np.maximum(longest, here)
    return np.asarray(longest * apart * KM_PER_DEGREE / steps)
