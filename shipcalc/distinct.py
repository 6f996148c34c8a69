"""The distinct numbers of a column."""

import numpy as np
from numpy.typing import NDArray


def distinct(numbers: NDArray[np.int64]) -> NDArray[np.int64]:
    """Return numbers in order, each once. As np.unique alone, whose first call imports masked arrays: 12 ms of a cold quote."""
    ordered = np.sort(numbers, axis=None)
    is_first = np.ones(len(ordered), dtype=np.bool_)
    is_first[1:] = ordered[1:] > ordered[:-1]
    found: NDArray[np.int64] = ordered[is_first]
    return found
