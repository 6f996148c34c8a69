"""Sea distances that were searched before, kept in memory and in the user's cache folder by what they were searched from.

A search from one port takes some 25 ms; a dealer ships from a dozen.
"""

import hashlib
import json
from functools import cache, lru_cache
from pathlib import Path

import numpy as np

from shipcalc.places.sea.miles import FILE, SeaDistances, load_network, sea_distances
from shipcalc.places.sea.ports import FILE as PORTS_FILE
from shipcalc.records import dataclass
from shipcalc.sheets.keeping import keep_file, kept_in

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
    asked = json.dumps([here, there, closed, _lanes()])
    return hashlib.sha256(asked.encode()).hexdigest()[:32]


@cache
def _lanes() -> str:
    """Return what stands for the network: other lanes, other distances."""
    return hashlib.sha256(FILE.read_bytes() + PORTS_FILE.read_bytes()).hexdigest()


def _read(file: Path, count: int) -> SeaDistances | None:
    try:
        data = json.loads(file.read_bytes())
        nmi = np.array([np.inf if one is None else float(one) for one in data["nmi"]], dtype=np.float64)
        passages = tuple(tuple(str(name) for name in names) for names in data["passages"])
        notes = tuple(str(note) for note in data["notes"])
    except (OSError, ValueError, TypeError, KeyError):
        return None
    return SeaDistances(nmi, passages, notes) if len(nmi) == len(passages) == len(notes) == count else None


def _write(file: Path, found: SeaDistances) -> None:
    nmi = [one if np.isfinite(one) else None for one in found.nmi.tolist()]
    data = json.dumps({"nmi": nmi, "passages": found.passages, "notes": found.notes})
    keep_file(file, data.encode(), most=MOST_FILES)


def _folder() -> Path:
    return kept_in("sea-miles")
