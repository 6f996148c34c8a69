"""When a name must be asked for before anything is priced: namesakes, names that are another place's second, slips of the pen.

The thresholds are ours (no source): asking costs a second, a wrong town costs a truck.
"""

from collections.abc import Sequence
from typing import NamedTuple

from shipcalc.places.gazetteer.finding import MOST_MEANT, written
from shipcalc.places.gazetteer.other_spellings import is_right, may_be_a_slip
from shipcalc.places.gazetteer.pages import City, cities_named
from shipcalc.places.gazetteer.regions import US_TERRITORIES
from shipcalc.places.gazetteer.spelling import NICKNAMES, spelling_key

# What a place counts for where nobody has counted its people.
PEOPLE_OF_A_SMALL_PLACE = 300
# A name alone stands for a place that is so many times as large as any namesake; with its state or country fewer will do.
TIMES_ALONE, TIMES_IN_ITS_STATE, TIMES_IN_ITS_COUNTRY, TIMES_ABROAD = 10, 4, 2, 2
# A name alone stands for a place abroad only from this size on, and not where a town at home of this size has it too.
LARGE_ABROAD, TOWN_AT_HOME = 5_000, 15_000
# By a second name alone (Cologne for Köln) only a city of this size is meant, and not by a few letters that may be a slip.
KNOWN_BY_ANOTHER_NAME, LONG_ENOUGH = 100_000, 5
# A hamlet's name alone may be a slip for a town's, and so may that of a small town for a much larger one's.
HAMLET, SMALL_TOWN = 1_000, 15_000
# Three letters may be an airport's (ORD).
LONGEST_CODE = 3
MUCH_LARGER = 8
MOST_NAMED = 4


class Named(NamedTuple):
    """A city that has the name, what it counts for, and whether it is its first name."""

    city: City
    weight: float
    is_first: bool


def doubt_about(name: str, apart: Sequence[Named], *, is_bare: bool, in_state: bool) -> tuple[str, tuple[str, ...]]:
    """Return why the likeliest of some namesakes must be asked for, and what may be meant, home first; "" and () where it is
    clear.

    `apart` are the namesakes, likeliest first; `is_bare`: neither state nor country was given; `in_state`: one that says enough.
    """
    first = apart[0]
    rivals = [one for one in apart[1:] if _is_rival(first, one, in_state=in_state)]
    if is_bare and not _is_at_home(first.city):
        rivals += [one for one in apart[1:] if _is_town_at_home(one) and one not in rivals]
    if rivals:
        return _asked(name, [first, *rivals])
    city = first.city
    if not first.is_first and may_be_a_slip(spelling_key(name), city.key, city.country):
        return f"“{name}” is spelt almost like {_written(city)}: is that meant", (_written(city),)
    if not is_bare:
        return "", ()
    is_known = _is_known_by(name, city)
    if not first.is_first and not is_known and _is_another_name(name, city):
        return f"“{name}” is another name of {_written(city)}: is that meant", _meant(name, [first])
    is_code = len(name) <= LONGEST_CODE and city.population < KNOWN_BY_ANOTHER_NAME
    if is_code or city.population < HAMLET or (not _is_at_home(city) and city.population < LARGE_ABROAD):
        return f"“{name}” is a small place in {_where(city)}: is that meant", _meant(name, [first])
    if city.population < SMALL_TOWN and (larger := _much_larger(city)):
        return f"“{name}” may be a slip for a larger place", (_written(city), *larger)
    return "", ()


def _is_known_by(name: str, city: City) -> bool:
    """Whether a city is known by a name that is not its first; by one that a town at home has too, only by chance."""
    key = spelling_key(name)
    if is_right(key, city.country) and not any(_is_at_home(other) for other in cities_named(key)[0]):
        return city.population >= SMALL_TOWN
    is_long = len(key) >= LONG_ENOUGH or not name.isascii() or key in NICKNAMES
    return is_long and city.population >= KNOWN_BY_ANOTHER_NAME


def _is_rival(first: Named, other: Named, *, in_state: bool) -> bool:
    """Whether a namesake is large enough to be meant as well; of a place at home, one abroad hardly ever is."""
    if _is_at_home(first.city) and not _is_at_home(other.city):
        return other.weight * TIMES_ABROAD > first.weight and first.city.population < KNOWN_BY_ANOTHER_NAME
    return other.weight * _times(first.city, in_state=in_state) > first.weight


def _is_town_at_home(one: Named) -> bool:
    return one.is_first and one.city.population >= TOWN_AT_HOME and _is_at_home(one.city)


def _times(city: City, *, in_state: bool) -> int:
    if not in_state:
        return TIMES_ALONE
    return TIMES_IN_ITS_STATE if _is_at_home(city) else TIMES_IN_ITS_COUNTRY


def _asked(name: str, candidates: Sequence[Named]) -> tuple[str, tuple[str, ...]]:
    meant = _told(candidates)
    return f"there are several places called “{name}”: which one is meant", meant


def _told(candidates: Sequence[Named]) -> tuple[str, ...]:
    """Return places as they can be typed, those at home first; two of one state by their ZIPs, or else by where they are."""
    at_home_first = sorted(candidates, key=lambda one: (not _is_at_home(one.city), -one.weight))
    names = [_written(one.city) for one in at_home_first]
    keys = [spelling_key(name) for name in names]
    told = (
        name if keys.count(spelling_key(name)) == 1 else _told_apart(name, one.city)
        for name, one in zip(names, at_home_first, strict=True)
    )
    return tuple(dict.fromkeys(told))[:MOST_NAMED]


def _told_apart(name: str, city: City) -> str:
    return f"{name} {city.postal_code}" if city.postal_code else f"{city.latitude:.3f}, {city.longitude:.3f}"


def _meant(name: str, candidates: Sequence[Named]) -> tuple[str, ...]:
    """Return what may be meant by the name of a place that hardly anybody knows: it, and larger places that are spelt alike;
    those at home before a place abroad.
    """
    from shipcalc.places.gazetteer.suggestions import suggested_cities

    city = candidates[0].city
    alike = [told for told in suggested_cities(spelling_key(name), ()) if told != _written(city)]
    at_home = [told for told in alike if told[-4:-2] == ", "]  # a state's two letters stand last
    own, others = _told(candidates), (at_home or alike)[: MOST_MEANT - 1]
    return (*own, *others) if _is_at_home(city) or not at_home else (*others, *own)


def _much_larger(city: City) -> tuple[str, ...]:
    """Return towns spelt almost as a small one, and much larger."""
    from shipcalc.places.gazetteer.suggestions import almost_alike

    return almost_alike(city, MUCH_LARGER * max(city.population, HAMLET))


def _is_another_name(name: str, city: City) -> bool:
    return spelling_key(name) != city.key


def _is_at_home(city: City) -> bool:
    return city.country == "US" or city.country in US_TERRITORIES


def _written(city: City) -> str:
    return written(city.name, city.country, city.subdivision)


def _where(city: City) -> str:
    return _written(city).rpartition(", ")[2]
