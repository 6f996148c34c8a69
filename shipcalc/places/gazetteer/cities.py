"""A city by its name, with or without its state or country: which of the namesakes, and what may have been meant."""

import math
import re
from collections.abc import Iterator, Sequence

from shipcalc.places.gazetteer.doubt import PEOPLE_OF_A_SMALL_PLACE, Named, doubt_about
from shipcalc.places.gazetteer.finding import Finding, not_found, place_of_city, written
from shipcalc.places.gazetteer.pages import City, cities_named
from shipcalc.places.gazetteer.regions import Region, region_name, regions_named
from shipcalc.places.gazetteer.spelling import NICKNAMES, spelling_key, spellings
from shipcalc.places.gazetteer.suggestions import suggested_cities
from shipcalc.places.place import Place

# Somebody who knows a city by another of its names (Köln, Cologne) is rarer than one who uses the first.
WEIGHT_OF_OTHER_NAME = 0.1
# It is not thought of at all beside a place of that first name unless it is so many times as large.
NOT_BESIDE_A_NAMESAKE = 20
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
        return not_found(f"“{text}” is not a place that the list knows.")
    heads, regions = _split(parts)
    if len(heads) == 1 and (region := _region_alone(heads[0], regions)):
        return region
    for position, head in enumerate(reversed(heads)):
        for name, constraints in _readings(head, regions, may_hold_region=len(parts) == 1):
            cities = _cities(name, constraints)
            if cities:
                unused = heads[: len(heads) - 1 - position] + heads[len(heads) - position :]
                read = (head, *parts[len(heads) :])
                unused += [word for part in read for word in _WITH_DIGITS.findall(part) if word not in name]
                return _chosen(name, cities, constraints, unused, foreign_code)
    return _suggested(heads[-1], regions)


def city_within(text: str, *, near: Place | None, within_mi: float = 0.0) -> City | None:
    """Return the likeliest city of that name (its state or country may follow), only near a place where one is given."""
    parts = [part.strip() for part in text.split(",") if spelling_key(part)]
    heads, regions = _split(parts) if parts else ([], [])
    for head in reversed(heads):
        for name, constraints in _readings(head, regions, may_hold_region=True):
            for city, *_ in _cities(name, constraints):
                if near is None or _miles(city, near) <= within_mi:
                    return city
    return None


def city_near(name: str, near: Place, *, within_mi: float) -> Place | None:
    """Return the city of that name nearest to a place of its own country, within a distance."""
    same = [one.city for one in _cities(name, ()) if one.city.country == near.country]
    nearest = min(same, key=lambda city: _miles(city, near), default=None)
    return place_of_city(nearest, "name and area") if nearest and _miles(nearest, near) <= within_mi else None


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
    while len(heads) > 1 and (found := regions_named(spelling_key(_without_digits(heads[-1])))):
        regions.append(found)
        heads.pop()
    return heads, regions


def _readings(
    head: str, regions: Sequence[Sequence[Region]], *, may_hold_region: bool
) -> Iterator[tuple[str, Sequence[Sequence[Region]]]]:
    """Yield the ways to read a part: whole; without words that hold digits; with a region in its last words."""
    yield head, regions
    plain = _without_digits(head)
    if plain and plain != head:
        yield plain, regions
    if may_hold_region or not regions:
        yield from _without_regions(plain, regions)


def _without_regions(
    text: str, regions: Sequence[Sequence[Region]]
) -> Iterator[tuple[str, Sequence[Sequence[Region]]]]:
    """Yield a text without the region in its last words, and without the one before that: "Victoria BC Canada"."""
    words = spelling_key(text).split()
    for count in range(1, min(LONGEST_REGION_WORDS, len(words) - 1) + 1):
        if found := regions_named(" ".join(words[-count:])):
            rest = " ".join(text.split()[: len(text.split()) - count])
            yield rest, (*regions, found)
            yield from _without_regions(rest, (*regions, found))


def _cities(name: str, constraints: Sequence[Sequence[Region]]) -> list[Named]:
    """Return the cities of that name within all constraints, likeliest first."""
    key = spelling_key(name)
    for spelling in spellings(key):
        named, also = cities_named(spelling)
        found = [Named(city, max(city.population, PEOPLE_OF_A_SMALL_PLACE), is_first=True) for city in named]
        found += [_also_named(city, spelling) for city in also if city not in named]
        found.sort(key=lambda one: -one.weight)
        for alternatives in constraints:
            found = next((inside for region in alternatives if (inside := _inside(found, region))), [])
        if found:
            return _without_lesser_names(found)
    return []


def _also_named(city: City, key: str) -> Named:
    """Return a city that has the name beside its own; the beginning of its own is as good as the whole (Neustadt am Main)."""
    is_short = city.key.startswith(f"{key} ")
    return Named(city, city.population * (1.0 if is_short else WEIGHT_OF_OTHER_NAME), is_first=is_short)


def _without_lesser_names(found: Sequence[Named]) -> list[Named]:
    """Return cities without those that have the name only beside another, where one of about their size has it first."""
    largest = max((one.city.population for one in found if one.is_first), default=0)
    return [one for one in found if one.is_first or one.city.population > largest * NOT_BESIDE_A_NAMESAKE]


def _inside(found: Sequence[Named], region: Region) -> list[Named]:
    """Return the cities that lie in a region."""
    return [
        one
        for one in found
        if one.city.country == region.country and (not region.subdivision or one.city.subdivision == region.subdivision)
    ]


def _region_alone(head: str, behind: Sequence[Sequence[Region]]) -> Finding | None:
    """Return the answer to a state or country alone (its country and a postal code may stand by it): a city is needed.

    None where it is none, or where its city of the same name is meant.
    """
    if behind and not _without_digits(head):
        return _code_alone(behind[-1][0])
    for name, constraints in _readings(head, behind, may_hold_region=not behind):
        regions = [region for region in regions_named(spelling_key(name)) if _lies_within(region, constraints)]
        code_beside = name != head and not constraints
        if code_beside:
            regions = [region for region in regions if not region.subdivision]
        if not regions:
            continue
        cities = [one.city for one in _cities(name, constraints)]
        if cities and _is_meant(cities[0], spelling_key(name), regions):
            return None
        if code_beside:
            return _code_alone(regions[0])
        names = _what_they_are(name, regions)
        large = [city for city in cities[:1] if city.population >= LARGER_THAN_ITS_NAMESAKE]
        suggestions = [written(city.name, city.country, city.subdivision) for city in large]
        return not_found(f"“{name}” is {names}.", *suggestions, instead="name a city in it")
    return None


def _lies_within(region: Region, constraints: Sequence[Sequence[Region]]) -> bool:
    """Whether a region is a state of the country that stands behind it: "Georgia, USA"; anything is where none does."""
    countries = [alternatives[0] for alternatives in constraints]
    return not countries or all(
        bool(region.subdivision) and not country.subdivision and country.country == region.country
        for country in countries
    )


def _is_meant(city: City, key: str, regions: Sequence[Region]) -> bool:
    """Whether a city is meant by the name of a region: it lies in that state, is that country's, or is very large."""
    own = {(region.country, region.subdivision) for region in regions}
    is_first_name = city.key == NICKNAMES.get(key, key)
    in_own_state = bool(city.subdivision) and city[2:4] in own
    in_own_country = is_first_name and (city.country, "") in own
    return in_own_state or in_own_country or (is_first_name and city.population >= LARGER_THAN_ITS_NAMESAKE)


def _code_alone(region: Region) -> Finding:
    """Return that a foreign postal code was given without its city."""
    return not_found(
        f"The postal codes of {region.name} are not in the list.", instead=f"give the city, as in “City, {region.name}”"
    )


def _what_they_are(text: str, regions: Sequence[Region]) -> str:
    """Return what a text names that is no city: "a state or a country or territory", "Texas (a state)"."""
    if all(spelling_key(region.name) == spelling_key(text) for region in regions):
        return " or ".join(dict.fromkeys(_kind(region) for region in regions))
    return " or ".join(dict.fromkeys(f"{region.name} ({_kind(region)})" for region in regions))


def _kind(region: Region) -> str:
    """Return what a region is, in a word."""
    if not region.subdivision:
        return "a country or territory"
    return {"US": "a state", "CA": "a province", "AU": "a state"}.get(region.country, "a part of the United Kingdom")


def _chosen(
    name: str,
    found: list[Named],
    constraints: Sequence[Sequence[Region]],
    unused: Sequence[str],
    foreign_code: str,
) -> Finding:
    """Return the likeliest city, with the sentences about what was assumed, and what must be asked first."""
    apart = _apart(found)
    city, others = found[0].city, [one.city for one in apart[1:]]
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
    doubt, meant = doubt_about(name, apart, is_bare=not constraints, in_state=_in_a_state(constraints))
    return Finding(
        place,
        tuple(place_of_city(other, "namesake") for other in others),
        suggestions=meant,
        note=" ".join(notes),
        doubt=doubt,
    )


def _in_a_state(constraints: Sequence[Sequence[Region]]) -> bool:
    """Whether a state, or a country that has no states here, stands behind the name."""
    return any(region.subdivision or region.country != "US" for alternatives in constraints for region in alternatives)


def _apart(found: list[Named]) -> list[Named]:
    """Return the first and its namesakes: a quarter of a city, or a second entry of it, is not counted."""
    kept = found[:1]
    for one in found[1:]:
        if all(
            one.city[2:4] != other.city[2:4] or _miles(one.city, other.city) > SAME_CITY_WITHIN_MI for other in kept
        ):
            kept.append(one)
    return kept


def _suggested(name: str, regions: Sequence[Sequence[Region]]) -> Finding:
    """Return that no such city is known, with the nearest spellings."""
    plain = _without_digits(name)
    where = f" in {regions[-1][0].name}" if regions else ""
    suggestions = suggested_cities(spelling_key(plain), regions) if plain else ()
    return not_found(f"“{name}” is not a place that the list knows{where}.", *suggestions)


def _without_digits(text: str) -> str:
    """Return a text without the words that hold digits: house numbers, postal codes."""
    return " ".join(_WITH_DIGITS.sub(" ", text).split())


def _miles(city: City, place: City | Place) -> float:
    """Return about how many miles apart the two are (flat earth: to tell neighbours from strangers)."""
    east = ((city.longitude - place.longitude + 180) % 360 - 180) * math.cos(math.radians(city.latitude))
    return _MILES_PER_DEGREE * math.hypot(city.latitude - place.latitude, east)
