"""Nautical miles between the ports of a shipment: one search for each export port and set of closed passages, kept."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from shipcalc.places.place import Place
from shipcalc.places.sea import SeaDistances, load_network, sea_distances

# A search takes some 25 ms; a dealer's export ports, each with and without a canal, are a few dozen.
_KEPT = 4_096


@dataclass(frozen=True, slots=True, eq=False)
class SeaMiles:
    """From each of p ports to each of a ports: miles (p, a), infinite where there is no way; passages in the order sailed."""

    nmi: NDArray[np.float64]
    passages: tuple[tuple[tuple[str, ...], ...], ...]


def sea_miles(exports: Sequence[Place], arrivals: Sequence[Place], avoids: tuple[str, ...]) -> SeaMiles:
    """Return the miles between all the ports by a service that does not use the passages `avoids`."""
    there = tuple((place.latitude, place.longitude) for place in arrivals)
    found = [_from((place.latitude, place.longitude), there, avoids) for place in exports]
    return SeaMiles(np.array([one.nmi for one in found]), tuple(one.passages for one in found))


@dataclass(frozen=True, slots=True)
class _At:
    latitude: float
    longitude: float


@lru_cache(maxsize=_KEPT)
def _from(here: tuple[float, float], there: tuple[tuple[float, float], ...], avoids: tuple[str, ...]) -> SeaDistances:
    return sea_distances(load_network(), _At(*here), [_At(*point) for point in there], closed=avoids)
