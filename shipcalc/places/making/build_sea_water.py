"""Build time only: water and land as a grid of half a minute of arc, and whether a line over it stays clear of land.

The grid is GLOBE (NOAA), as the package `global-land-mask` carries it: row 0 at the North Pole, column 0 at 180° W.
"""

from collections.abc import Iterable
from importlib.util import find_spec
from pathlib import Path

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shipcalc.places.sea.geometry import MEAN_RADIUS_NMI, Floats

Mask = NDArray[np.bool_]
Ints = NDArray[np.int64]
Polygon = list[tuple[float, float]]

CELLS_PER_DEGREE = 120
ROWS, COLUMNS = 180 * CELLS_PER_DEGREE, 360 * CELLS_PER_DEGREE


def package_file(package: str, *parts: str) -> Path:
    """Return the path of a data file inside an installed package, without importing the package."""
    spec = find_spec(package)
    if spec is None or spec.origin is None:
        raise SystemExit(f"{package}: not installed — pip install 'shipcalc[sea]' to build the sea data")
    return Path(spec.origin).parent.joinpath(*parts)


def ocean() -> Mask:
    """Return True where GLOBE has the sea, shape (21600, 43200)."""
    with np.load(package_file("global_land_mask", "globe_combined_mask_compressed.npz")) as archive:
        mask: Mask = archive["mask"]
    return mask


def cells(*, latitude: ArrayLike, longitude: ArrayLike) -> tuple[NDArray[np.int32], NDArray[np.int32]]:
    """Return the row and column of the grid for columns in degrees."""
    row = ((90 - np.asarray(latitude)) * CELLS_PER_DEGREE).astype(np.int32)
    column = ((np.asarray(longitude) + 180) * CELLS_PER_DEGREE).astype(np.int32)
    return np.clip(row, 0, ROWS - 1), column % COLUMNS


def without_islets(water: Mask, *, under_square_km: float, bridging_minutes: int = 2) -> Mask:
    """Return the water with lone islands below a size taken for water: a ship rounds them within a mile or two.

    Islands count together, and with the mainland, where they come within two times `bridging_minutes` of each other: barrier
    islands and cays keep standing in the way.
    """
    from scipy import ndimage

    land: Mask = ~np.all(water.reshape(ROWS // 2, 2, COLUMNS // 2, 2), axis=(1, 3))
    square = np.ones((3, 3))
    groups, count = ndimage.label(ndimage.binary_dilation(land, square, bridging_minutes), structure=square)
    latitude = 90 - (np.arange(ROWS // 2) + 0.5) / 60
    cell_square_km = 1.852**2 * np.cos(np.radians(latitude))
    square_km = np.zeros(count + 1)
    for first in range(0, ROWS // 2, 400):
        band = slice(first, first + 400)
        weights = land[band] * cell_square_km[band, None]
        square_km += np.bincount(groups[band].ravel(), weights=weights.ravel(), minlength=count + 1)
    islet = square_km < under_square_km
    islet[0] = False
    wider: Mask = np.logical_or(water, np.repeat(np.repeat(islet[groups], 2, axis=0), 2, axis=1))
    return wider


def away_from_land(water: Mask, *, distance_cells: int) -> Mask:
    """Return the water that is farther from land than a number of cells of latitude (half a nautical mile each)."""
    land = ~water
    near = land.copy()
    for shift in range(1, distance_cells + 1):
        near[shift:] |= land[:-shift]
        near[:-shift] |= land[shift:]
    for first in range(0, ROWS, 600):
        latitude = 90 - (first + 300) / CELLS_PER_DEGREE
        wide = int(min(60, round(distance_cells / max(0.1, np.cos(np.radians(latitude))))))
        band = near[first : first + 600].copy()
        for shift in range(1, wide + 1):
            near[first : first + 600] |= np.roll(band, shift, 1) | np.roll(band, -shift, 1)
    return ~near


def close_areas(water: Mask, areas: Iterable[Polygon]) -> None:
    """Mark polygons of (latitude, longitude) corners as no water, in place."""
    for corners in areas:
        area = np.array(corners)
        (top, bottom), (left, right) = cells(
            latitude=[area[:, 0].max(), area[:, 0].min()], longitude=[area[:, 1].min(), area[:, 1].max()]
        )
        latitude = 90 - (np.arange(top, bottom + 1) + 0.5)[:, None] / CELLS_PER_DEGREE
        longitude = (np.arange(left, right + 1) + 0.5)[None, :] / CELLS_PER_DEGREE - 180
        inside = np.zeros((latitude.size, longitude.size), bool)
        for (north, east), (next_north, next_east) in zip(corners, corners[1:] + corners[:1], strict=True):
            if north != next_north:
                crossing = (next_east - east) * (latitude - north) / (next_north - north) + east
                inside ^= ((north > latitude) != (next_north > latitude)) & (longitude < crossing)
        water[top : bottom + 1, left : right + 1] &= ~inside


def clear_lines(water: Mask, start: Floats, end: Floats, *, step_nmi: float) -> Mask:
    """Return True for each great circle from `start` to `end` (unit vectors) that meets water at every step."""
    angle = np.arccos(np.clip((start * end).sum(1), -1, 1))
    samples = np.maximum(2, np.ceil(angle * MEAN_RADIUS_NMI / step_nmi).astype(int) + 1)
    clear = np.ones(len(start), bool)
    order = np.argsort(samples, kind="stable")
    done = 0
    while done < len(order):
        fewest = samples[order[done]]
        at_most = done + max(1, int(4_000_000 // (fewest * 1.1 + 3)))
        alike = int(np.searchsorted(samples[order[done:at_most]], fewest * 1.1 + 2, "right"))
        block = order[done : done + alike]
        clear[block] = _all_water(water, start[block], end[block], angle[block], int(samples[block].max()))
        done += alike
    return clear


def _all_water(water: Mask, start: Floats, end: Floats, angle: Floats, samples: int) -> Mask:
    """Return True where all of `samples` evenly spaced points between start and end are water."""
    share = np.linspace(0, 1, samples)[None, :]
    wide = np.maximum(angle, 1e-9)[:, None]
    from_start = (np.sin((1 - share) * wide) / np.sin(wide)).astype(np.float32)
    from_end = (np.sin(share * wide) / np.sin(wide)).astype(np.float32)
    a, b = start.astype(np.float32), end.astype(np.float32)
    x, y, z = (from_start * a[:, axis : axis + 1] + from_end * b[:, axis : axis + 1] for axis in range(3))
    row, column = cells(latitude=np.degrees(np.arctan2(z, np.hypot(x, y))), longitude=np.degrees(np.arctan2(y, x)))
    clear: Mask = np.all(water[row, column], axis=1)
    return clear
