"""Outlines of the states and of the countries, coarse enough for a page; `data/ORIGIN.md` says where they are from."""

import json
from functools import cache
from pathlib import Path
from typing import Literal

import numpy as np
from numpy.typing import NDArray

FILE = Path(__file__).parent / "data" / "outlines.json"
PER_DEGREE = 100

Land = Literal["states", "countries"]
Degrees = NDArray[np.float64]


@cache
def outlines(land: Land) -> dict[str, tuple[Degrees, ...]]:
    """Return the rings of every area by its two letters, each (points, 2): longitude, latitude."""
    stored = json.loads(FILE.read_text())[land]
    return {
        code: tuple(np.array(ring, dtype=np.float64).reshape(-1, 2) / PER_DEGREE for ring in rings)
        for code, rings in stored.items()
    }
