"""Sea distances that were searched before, kept in memory and in the user's cache folder by what they were searched from.

A search from one port takes some 25 ms; a dealer ships from a dozen.
"""

import hashlib
from functools import cache, lru_cache
from pathlib import Path

import numpy as np
from msgspec import json

from shipcalc.files import read_file
from shipcalc.places.sea.miles import FILE, SeaDistances, load_network, sea_distances
from shipcalc.places.sea.ports import FILE as PORTS_FILE
from shipcalc.records import dataclass
from shipcalc.sheets.keeping import find_kept_file, keep_file, kept_in

LatLon = tuple[float, float]
MOST_FILES = 400


@dataclass(frozen=True, slots=True)
class _Point:
    latitude: float
    longitude: float


@lru_cache(maxsize=1_024)
def kept_sea_distances(here: LatLon, there: tuple[LatLon, ...], closed: tuple[str, ...]) -> SeaDistances:
    """Return what `sea_distances` says from one point to many (latitude, longitude in degrees); raises what it raises."""
    file = _folder() / f"{_key(here, there, closed)}.json"
    found = _read(file, len(there))
    if found is None:
        found = sea_distances(load_network(), _Point(*here), [_Point(*point) for point in there], closed=closed)
        _write(file, found)
    return found


def _key(here: LatLon, there: tuple[LatLon, ...], closed: tuple[str, ...]) -> str:
    return hashlib.sha256(json.encode([here, there, closed, _lanes()])).hexdigest()[:32]


@cache
def _lanes() -> str:
    """Return what stands for the network: other lanes, other distances."""
    return hashlib.sha256(read_file(FILE) + read_file(PORTS_FILE)).hexdigest()


@dataclass(frozen=True, slots=True)
class _File:
    """What is kept of a search: miles to each port, none where there is no way, and what `SeaDistances` says besides."""

    nmi: tuple[float | None, ...]
    passages: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...]


def _read(file: Path, count: int) -> SeaDistances | None:
    content = find_kept_file(file)
    if content is None:
        return None
    try:
        kept = json.decode(content, type=_File)
    except ValueError:
        return None
    nmi = np.array([np.inf if one is None else one for one in kept.nmi], dtype=np.float64)
    is_whole = len(nmi) == len(kept.passages) == len(kept.notes) == count
    return SeaDistances(nmi, kept.passages, kept.notes) if is_whole else None


def _write(file: Path, found: SeaDistances) -> None:
    nmi = tuple(one if np.isfinite(one) else None for one in found.nmi.tolist())
    keep_file(file, json.encode(_File(nmi, found.passages, found.notes)), most=MOST_FILES)


def _folder() -> Path:
    return kept_in("sea-miles")
