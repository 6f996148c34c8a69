"""Misspelled: the nearest names of places that the gazetteer knows."""

from collections.abc import Sequence

from shipcalc.places.gazetteer.finding import written
from shipcalc.places.gazetteer.pages import City, cities_named, names_beginning, well_known_names
from shipcalc.places.gazetteer.regions import Region, regions_named

MOST = 5
LEAST_LIKENESS = 74.0  # of 100; below it a name is another name
SURE = 21  # quarters of the likeness: from 84 on, a wrong first letter is not suspected
ALMOST = 90.0  # one letter of seven or more
ALMOST_QUARTERS = 22
LONGEST_REGION_WORDS = 4
# A large city may be written with two slips, in a name of so many letters: Chigaco.
LARGE, SLIPS, LETTERS = 100_000, 2, 6


def suggested_cities(key: str, regions: Sequence[Sequence[Region]]) -> tuple[str, ...]:
    """Return up to five places with a name like the key, as they can be typed; only within the regions where some are given."""
    if len(key) < 3:
        return ()
    words = key.split()
    for count in range(1, min(LONGEST_REGION_WORDS, len(words) - 1) + 1):
        if not regions and (ending := regions_named(" ".join(words[-count:]))):
            return _alike(" ".join(words[:-count]), (ending,))[:MOST]
    return _alike(key, regions)[:MOST]


def almost_alike(city: City, people: int) -> tuple[str, ...]:
    """Return the well-known places spelt almost as a city, of so many people at least, as they can be typed."""
    found = _nearest(city.key, well_known_names(), (), least=ALMOST)
    return tuple(
        written(other.name, other.country, other.subdivision)
        for _, _, other in found
        if other.key != city.key and other.population >= people
    )[:MOST]


def _alike(key: str, regions: Sequence[Sequence[Region]]) -> tuple[str, ...]:
    """Return the places alike: those with the same first letter, or else, the first letter being wrong, well-known ones."""
    found = _nearest(key, names_beginning(key[0]), regions)
    if not found or found[0][0] > -SURE:
        found = sorted(found + _nearest(key, well_known_names(), regions), key=lambda entry: entry[:2])
    likeliest = [] if regions or (found and found[0][0] <= -ALMOST_QUARTERS) else _large_with_slips(key)
    cities = [*likeliest, *(city for _, _, city in found)]
    return tuple(dict.fromkeys(written(city.name, city.country, city.subdivision) for city in cities))


def _large_with_slips(key: str) -> list[City]:
    """Return the large cities that a name may be with two letters wrong, fewest slips first, then those at home, the largest."""
    from rapidfuzz.distance import OSA

    if len(key) < LETTERS:
        return []
    near = [(OSA.distance(key, name, score_cutoff=SLIPS), name, *region) for name, *region in well_known_names()]
    cities = [
        (slips, country != "US", -city.population, city)
        for slips, name, country, subdivision in near
        if slips <= SLIPS
        for city in cities_named(name)[0]
        if (city.country, city.subdivision) == (country, subdivision) and city.population >= LARGE
    ]
    return [city for *_, city in sorted(cities)]


def _nearest(
    key: str,
    names: Sequence[tuple[str, str, str]],
    regions: Sequence[Sequence[Region]],
    least: float = LEAST_LIKENESS,
) -> list[tuple[int, int, City]]:
    """Return (−likeness, −population, city) of the nearest names: by likeness, by size among about equals."""
    from rapidfuzz import fuzz, process

    within = {(region.country, region.subdivision) for alternatives in regions for region in alternatives}
    if within:
        names = [name for name in names if name[1:] in within or (name[1], "") in within]
    close = process.extract(key, [name[0] for name in names], scorer=fuzz.ratio, score_cutoff=least, limit=40)
    ranked: list[tuple[int, int, City]] = []
    for name, likeness, position in close:
        region = names[position][1:]
        if city := next((city for city in cities_named(name)[0] if (city.country, city.subdivision) == region), None):
            ranked.append((-round(likeness / 4), -city.population, city))
    return sorted(ranked, key=lambda entry: entry[:2])
