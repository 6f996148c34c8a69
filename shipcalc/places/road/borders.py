"""Which countries a way by road passes: the way over the fewest borders, around countries that it must not enter.

`data/land_borders.tsv` is derived from the table of countries of GeoNames (CC BY 4.0), see `build_borders.py`.
"""

from collections import deque
from collections.abc import Collection, Mapping
from functools import cache

from shipcalc.places.gazetteer.pages import DATA

FILE = DATA / "land_borders.tsv"
# A way around that crosses more borders than this beyond the shortest is none that a haulier would take (our own rule).
MORE_BORDERS_AT_MOST = 1


def countries_on_the_way(start: str, to: str, *, without: Collection[str] = ()) -> tuple[str, ...]:
    """Return the countries that a road from one country to another passes, both included; () where every way enters one of
    `without`, or is no way that a haulier would take. The two ends themselves are not asked about.

    Where the table knows no way at all the two are returned: whether roads join them is not asked here.
    """
    shortest = _way(start, to, frozenset())
    if not shortest:
        return (start, to)
    found = _way(start, to, frozenset(without) - {start, to})
    return found if len(found) <= len(shortest) + MORE_BORDERS_AT_MOST else ()


@cache
def _way(start: str, to: str, without: frozenset[str]) -> tuple[str, ...]:
    """Return the way over the fewest borders; of several the one whose codes come first."""
    ways: deque[tuple[str, ...]] = deque([(start,)])
    seen = {start, *without}
    while ways:
        way = ways.popleft()
        if way[-1] == to:
            return way
        for country in _neighbours().get(way[-1], ()):
            if country not in seen:
                seen.add(country)
                ways.append((*way, country))
    return ()


@cache
def _neighbours() -> Mapping[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {}
    for line in FILE.read_text(encoding="utf-8").splitlines()[1:]:
        one, other, shut = line.split("\t")
        if not shut:
            found.setdefault(one, []).append(other)
            found.setdefault(other, []).append(one)
    return {country: tuple(sorted(others)) for country, others in found.items()}
