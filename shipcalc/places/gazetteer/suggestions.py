"""Misspelled: the nearest names of places that the gazetteer knows."""

from collections.abc import Sequence

from shipcalc.places.gazetteer.finding import written
from shipcalc.places.gazetteer.pages import City, cities_named, names_beginning, well_known_names
from shipcalc.places.gazetteer.regions import Region, regions_named

MOST = 5
LEAST_LIKENESS = 74.0  # of 100; below it a name is another name
SURE = 21  # quarters of the likeness: from 84 on, a wrong first letter is not suspected
ALMOST = 90.0  # one letter of seven or more
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
    cities = [*([] if regions else _likeliest(key, found)), *(city for _, _, city in found)]
    return tuple(dict.fromkeys(written(city.name, city.country, city.subdivision) for city in cities))


def _likeliest(key: str, found: Sequence[tuple[int, int, City]]) -> list[City]:
    """Return the large cities that a name may be meant for: those at home, and those abroad unless a town at home is as near."""
    large = _large_with_slips(key)
    at_home = [city for _, city in large if city.country == "US"]
    is_near_home = any(-likeness >= SURE and city.country == "US" for likeness, _, city in found)
    abroad = [city for slips, city in large if city.country != "US" and (slips == 1 or not found)]
    return at_home if is_near_home else [*at_home, *abroad]


def _large_with_slips(key: str) -> list[tuple[int, City]]:
    """Return (slips, city) of the large cities of almost that name, fewest slips first, then the largest."""
    from rapidfuzz.distance import OSA

    most = SLIPS if len(key) >= LETTERS else len(key) // (LETTERS - 1)
    cities = [
        (OSA.distance(key, name), -city.population, city)
        for name, country, subdivision in (well_known_names() if most else ())
        if OSA.distance(key, name, score_cutoff=most) <= most
        for city in cities_named(name)[0]
        if (city.country, city.subdivision) == (country, subdivision) and city.population >= LARGE
    ]
    return [(slips, city) for slips, _, city in sorted(cities)]


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
