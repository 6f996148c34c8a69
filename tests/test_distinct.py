"""Distinct numbers are those of numpy's own function, which is not used for what it imports."""

import numpy as np
import pytest

from shipcalc.distinct import distinct


@pytest.mark.parametrize("numbers", [[], [3], [2, 2], [-1, 5, -1, 0, 5], [[4, 1], [1, 4]]])
def test_distinct_numbers_are_those_that_numpy_finds(numbers):
    column = np.array(numbers, dtype=np.int64)
    assert distinct(column).tolist() == np.unique(column).tolist()
