"""A city by its name, with or without its state or country: which of the namesakes, and what may have been meant."""

import math
import re
from collections.abc import Iterator, Sequence

from shipcalc.places.finding import Finding, not_found, place_of_city, written
from shipcalc.places.gazetteer import City, cities_named
from shipcalc.places.place import Place
from shipcalc.places.regions import Region, region_name, regions_named
from shipcalc.places.spelling import other_spellings, spelling_key
from shipcalc.places.suggestions import suggested_cities

# Somebody who knows a city by another of its names (Köln, Cologne) is rarer than one who uses the first.
WEIGHT_OF_OTHER_NAME = 0.1
# A city that is not in the state or country of the same name is meant only if it is this large (Washington, DC).
LARGER_THAN_ITS_NAMESAKE = 500_000
# Of two entries of one name and state this near, the second is a quarter of the first, or the same again.
SAME_CITY_WITHIN_MI = 15.0
LONGEST_REGION_WORDS = 4

_WITH_DIGITS = re.compile(r"\S*\d\S*")
_MILES_PER_DEGREE = 69.093


def city_place(text: str, foreign_code: str = "") -> Finding:
    """Return the city, its namesakes and the assumption; or no place, with suggestions."""
    parts = [part for part in (part.strip() for part in text.split(",")) if spelling_key(part)]
    if not parts:
        return not_found(f"“{text}” is no place that the list knows.")
    if len(parts) == 1 and (region := _region_alone(parts[0])):
        return region
    heads, regions = _split(parts)
    for position, head in enumerate(reversed(heads)):
        for name, constraints in _readings(head, regions, may_hold_region=len(parts) == 1):
            cities = _cities(name, constraints)
            if cities:
                unused = heads[: len(heads) - 1 - position] + heads[len(heads) - position :]
                unused += [word for word in _WITH_DIGITS.findall(head) if word not in name]
                return _chosen(name, cities, constraints, unused, foreign_code)
    return _suggested(heads[-1], regions)


def city_within(text: str, *, near: Place | None, within_mi: float = 0.0) -> City | None:
    """Return the likeliest city of that name (its state or country may follow), only near a place where one is given."""
    parts = [part.strip() for part in text.split(",") if spelling_key(part)]
    heads, regions = _split(parts) if parts else ([], [])
    for head in reversed(heads):
        for name, constraints in _readings(head, regions, may_hold_region=True):
            for city in _cities(name, constraints):
                if near is None or _miles(city, near) <= within_mi:
                    return city
    return None


def regions_at_end(text: str) -> tuple[Region, ...]:
    """Return the regions that the last part, or the last words, of a text can mean."""
    last = text.strip(" ,").rpartition(",")[2]
    words = spelling_key(last).split()
    for count in range(min(LONGEST_REGION_WORDS, len(words)), 0, -1):
        if regions := regions_named(" ".join(words[-count:])):
            return regions
    return ()


def _split(parts: list[str]) -> tuple[list[str], list[Sequence[Region]]]:
    """Return the parts that name the place, and what each region behind them can mean: Vancouver | BC | Canada."""
    heads = list(parts)
    regions: list[Sequence[Region]] = []
    while len(heads) > 1 and (found := regions_named(spelling_key(heads[-1]))):
        regions.append(found)
        heads.pop()
    return heads, regions


def _readings(
    head: str, regions: Sequence[Sequence[Region]], *, may_hold_region: bool
) -> Iterator[tuple[str, Sequence[Sequence[Region]]]]:
    """Yield the ways to read a part: whole; without words that hold digits; with a region in its last words."""
    yield head, regions
    plain = " ".join(_WITH_DIGITS.sub(" ", head).split())
    if plain and plain != head:
        yield plain, regions
    words = spelling_key(plain).split()
    if not may_hold_region and regions:
        return
    for count in range(1, min(LONGEST_REGION_WORDS, len(words) - 1) + 1):
        if found := regions_named(" ".join(words[-count:])):
            yield " ".join(plain.split()[: len(plain.split()) - count]), (*regions, found)


def _cities(name: str, constraints: Sequence[Sequence[Region]]) -> list[City]:
    """Return the cities of that name within all constraints, likeliest first."""
    key = spelling_key(name)
    for spelling in (key, *other_spellings(key)):
        named, also = cities_named(spelling)
        weighted = [(city, float(city.population)) for city in named]
        weighted += [(city, city.population * WEIGHT_OF_OTHER_NAME) for city in also if city not in named]
        weighted.sort(key=lambda pair: -pair[1])
        cities = [city for city, _ in weighted]
        for alternatives in constraints:
            cities = next((found for region in alternatives if (found := _inside(cities, region))), [])
        if cities:
            return cities
    return []


def _inside(cities: Sequence[City], region: Region) -> list[City]:
    """Return the cities that lie in a region."""
    return [
        city
        for city in cities
        if city.country == region.country and (not region.subdivision or city.subdivision == region.subdivision)
    ]


def _region_alone(text: str) -> Finding | None:
    """Return the answer to a state or country alone: its city of the same name, or that a city is needed."""
    regions = regions_named(spelling_key(text))
    if not regions:
        return None
    cities = _cities(text, ())
    if cities:
        own = {(region.country, region.subdivision) for region in regions}
        is_first_name = cities[0].key == spelling_key(text)
        in_own_state = bool(cities[0].subdivision) and cities[0][2:4] in own
        in_own_country = is_first_name and (cities[0].country, "") in own
        is_large = is_first_name and cities[0].population >= LARGER_THAN_ITS_NAMESAKE
        if in_own_state or in_own_country or is_large:
            return None
    names = " or ".join(dict.fromkeys(f"{region.name} ({_kind(region)})" for region in regions))
    suggestions = [written(city.name, city.country, city.subdivision) for city in cities[:1]]
    return not_found(f"“{text}” is {names}: name a city in it.", *suggestions)


def _kind(region: Region) -> str:
    """Return what a region is, in a word."""
    if not region.subdivision:
        return "a country or territory"
    return {"US": "a state", "CA": "a province", "AU": "a state"}.get(region.country, "a part of the United Kingdom")


def _chosen(
    name: str,
    cities: list[City],
    constraints: Sequence[Sequence[Region]],
    unused: Sequence[str],
    foreign_code: str,
) -> Finding:
    """Return the likeliest city, with the sentences about what was assumed."""
    city, others = cities[0], _apart(cities)
    notes: list[str] = []
    found_by = "name and region" if constraints else "name"
    if others:
        found_by = f"largest of {len(others) + 1} places of that name"
        notes.append(
            f"{name}: taken as {city.name}, {region_name(city.country, city.subdivision)}, "
            f"the largest of {len(others) + 1} places of that name."
        )
    elif spelling_key(name) != city.key and city.name.casefold() != name.casefold():
        notes.append(f"{name}: taken as {city.name}, {region_name(city.country, city.subdivision)}.")
    if unused:
        notes.append(f"Not used: {', '.join(unused)}.")
    foreign_code = foreign_code if city.country in ("CA", "GB") else ""
    if foreign_code:
        notes.append(f"{foreign_code} was not looked up; the middle of {city.name} is meant.")
    elif city.postal_code:
        notes.append(f"ZIP {city.postal_code} stands for {city.name}; give the ZIP of the door if it is another.")
    place = place_of_city(city, found_by, postal_code=foreign_code or None)
    return Finding(place, tuple(place_of_city(other, "namesake") for other in others), note=" ".join(notes))


def _apart(cities: list[City]) -> list[City]:
    """Return the namesakes of the first: a quarter of a city, or a second entry of it, is not counted."""
    kept = cities[:1]
    for city in cities[1:]:
        if all(city[2:4] != other[2:4] or _miles(city, other) > SAME_CITY_WITHIN_MI for other in kept):
            kept.append(city)
    return kept[1:]


def _suggested(name: str, regions: Sequence[Sequence[Region]]) -> Finding:
    """Return that no such city is known, with the nearest spellings."""
    plain = " ".join(_WITH_DIGITS.sub(" ", name).split())
    where = f" in {regions[-1][0].name}" if regions else ""
    suggestions = suggested_cities(spelling_key(plain), regions) if plain else ()
    return not_found(f"“{name}” is no place that the list knows{where}.", *suggestions)


def _miles(city: City, place: City | Place) -> float:
    """Return about how many miles apart the two are (flat earth: to tell neighbours from strangers)."""
    east = ((city.longitude - place.longitude + 180) % 360 - 180) * math.cos(math.radians(city.latitude))
    return _MILES_PER_DEGREE * math.hypot(city.latitude - place.latitude, east)
