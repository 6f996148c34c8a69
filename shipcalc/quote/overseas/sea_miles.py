"""Nautical miles between the ports of a shipment: one search for each export port and set of closed passages, kept."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shipcalc.places.sea_kept import kept_sea_distances
from shipcalc.ratebook.overseas_rows import Port


@dataclass(frozen=True, slots=True, eq=False)
class SeaMiles:
    """From each of p ports to each of a ports: miles (p, a), infinite where there is no way; passages in the order sailed."""

    nmi: NDArray[np.float64]
    passages: tuple[tuple[tuple[str, ...], ...], ...]


def sea_miles(
    exports: Sequence[Port], arrivals: Sequence[Port], avoids: Sequence[str], *, every: Sequence[Port]
) -> SeaMiles:
    """Return the miles between all the ports by a service that does not use the passages `avoids`.

    A search reaches `every` port of the rate book at once, so that the next buyer's ports are known already.
    """
    there = tuple(dict.fromkeys(_at(port) for port in every))
    at = [there.index(_at(port)) for port in arrivals]
    closed = tuple(sorted(name.casefold() for name in avoids))
    found = [kept_sea_distances(_at(port), there, closed) for port in exports]
    return SeaMiles(
        np.array([one.nmi[at] for one in found]).reshape(len(exports), len(at)),
        tuple(tuple(one.passages[number] for number in at) for one in found),
    )


def _at(port: Port) -> tuple[float, float]:
    return port.latitude, port.longitude
