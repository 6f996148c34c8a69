"""Nautical miles between the ports of a shipment: one search for each export port and set of closed passages, kept."""

from collections.abc import Sequence

from shipcalc.places.sea.kept import LatLon, kept_sea_distances
from shipcalc.places.sea.miles import SeaDistances
from shipcalc.ratebook.rows.ports import Port


class SeaMiles:
    """The miles from ports to ports. A search reaches every port of the rate book at once: the next buyer's are known already."""

    def __init__(self, every: Sequence[Port]) -> None:
        self._points = tuple(dict.fromkeys(_at(port) for port in every))
        self._position = {point: number for number, point in enumerate(self._points)}
        self._found: dict[tuple[LatLon, tuple[str, ...]], SeaDistances] = {}

    def between(self, export: Port, arrival: Port, avoids: Sequence[str]) -> tuple[float, tuple[str, ...]]:
        """Return nautical miles (infinite where there is no way) and the passages in the order sailed."""
        asked = (_at(export), tuple(sorted(name.casefold() for name in avoids)))
        if asked not in self._found:
            self._found[asked] = kept_sea_distances(asked[0], self._points, asked[1])
        at, found = self._position[_at(arrival)], self._found[asked]
        return float(found.nmi[at]), found.passages[at]


def _at(port: Port) -> LatLon:
    return port.latitude, port.longitude
