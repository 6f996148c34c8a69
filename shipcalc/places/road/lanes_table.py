"""The table of road factors between hubs, as it is kept in files.

The table is made by `shipcalc.places.making.build_lanes` from OpenStreetMap's highways and read here with numpy alone;
`data/lanes/ORIGIN.md` says where it comes from and under which licence.
"""

from functools import cache
from pathlib import Path

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shipcalc.records import dataclass

FOLDER = Path(__file__).parents[1] / "data" / "lanes"
HUBS_FILE, CODES_FILE = "hubs.npy", "factors.npy"
HUB = np.dtype([("latitude", "<f4"), ("longitude", "<f4"), ("network", "<u2")])


@dataclass(frozen=True, slots=True, eq=False)
class HubTable:
    """Hubs, sorted by network (hubs that roads connect), and the factors between the hubs of one network.

    `points` float64 [hubs, 3], unit vectors; `position` int32 [hubs], a hub's place in its network; `start` int32 [hubs],
    where the triangle of its network begins in `codes`, uint8, coded factors row by row. The diagonal holds the local
    factor, between a hub and its neighbours. `codes_in_turn` are the same codes, for who reads one after the other.
    """

    points: NDArray[np.float64]
    position: NDArray[np.int32]
    start: NDArray[np.int32]
    codes: NDArray[np.uint8]
    codes_in_turn: memoryview

    def between_columns(
        self, start: NDArray[np.int32], position: NDArray[np.int32], other: NDArray[np.int32]
    ) -> NDArray[np.float64]:
        """Return the same for columns."""
        factors: NDArray[np.float64] = CODE_FACTORS.take(self.codes.take(triangle_index(position, other) + start))
        return factors


@cache
def hub_table(folder: Path = FOLDER) -> HubTable:
    """Return the table of a folder; the factors stay on disk until they are asked for."""
    hubs = np.load(folder / HUBS_FILE)
    codes: NDArray[np.uint8] = np.load(folder / CODES_FILE, mmap_mode="r").view(np.ndarray)
    network = hubs["network"].astype(np.int64)
    sizes = np.bincount(network)
    first_hub = np.concatenate([[0], np.cumsum(sizes)])
    first_code = np.concatenate([[0], np.cumsum(sizes * (sizes + 1) // 2)])
    assert first_code[-1] == len(codes), "the hubs and the factors were not made together"
    return HubTable(
        points=unit_vectors(hubs["latitude"], hubs["longitude"]),
        position=(np.arange(len(hubs)) - first_hub[network]).astype(np.int32),
        start=first_code[network].astype(np.int32),
        codes=codes,
        codes_in_turn=codes.data,
    )


def unit_vectors(latitude: ArrayLike, longitude: ArrayLike) -> NDArray[np.float64]:
    """Return points on the unit sphere, float64 [n, 3], for degrees."""
    north, east = np.radians(latitude, dtype=np.float64), np.radians(longitude, dtype=np.float64)
    points = np.empty((*north.shape, 3))
    points[..., 0] = points[..., 1] = np.cos(north)
    points[..., 0] *= np.cos(east)
    points[..., 1] *= np.sin(east)
    points[..., 2] = np.sin(north)
    return points


def triangle_index(row: NDArray[np.integer], column: NDArray[np.integer]) -> NDArray[np.integer]:
    """Return where the factor of two positions stands in the triangle of their network, the diagonal included."""
    long, short = np.maximum(row, column), np.minimum(row, column)
    index: NDArray[np.integer] = (long * (long + 1) >> 1) + short
    return index


def code_factors() -> NDArray[np.float64]:
    """Return the factors of the codes 0 … 255: steps of half a per cent to 2.7, then of 3 % to 14 (round a bay or a lake)."""
    logarithms = np.concatenate([np.arange(200) * 0.005, 0.995 + np.arange(1, 57) * 0.03])
    factors: NDArray[np.float64] = np.exp(logarithms)
    return factors


CODE_FACTORS = code_factors()
FACTOR_OF_CODE: tuple[float, ...] = tuple(CODE_FACTORS.tolist())
