"""Names as people say them: each is priced where a person would say it is, or asked for.

`said_names.tsv` and `said_names_2.tsv` are common geography, from memory. Of the 826 names of the second, which were written down
before any was tried, 13 slips of the pen were priced without a question and 4 names were taken for another place.
"""

import math
from pathlib import Path

from shipcalc.errors import WrongInput
from shipcalc.places.gazetteer.find import get_place
from shipcalc.places.place import Place

WITHIN_MI = 40.0
ASKED = "?"


def _names() -> list[tuple[str, tuple[str, ...]]]:
    files = (Path(__file__).with_name(name) for name in ("said_names.tsv", "said_names_2.tsv"))
    lines = (line for file in files for line in file.read_text(encoding="utf-8").splitlines())
    rows = (line.split("\t") for line in lines if not line.startswith("#"))
    return [
        (name, tuple(place.strip() for place in where.split("|")))
        for where, names in rows
        for name in names.split("; ")
    ]


NAMES = _names()


def test_the_list_is_long_and_no_name_stands_twice() -> None:
    names = [name for name, _ in NAMES]
    assert len(names) >= 1_500
    assert len(set(names)) == len(names)


def test_no_name_is_priced_where_nobody_would_look_for_it() -> None:
    wrong = [(name, allowed, found) for name, allowed in NAMES if not _will_do(found := _understood(name), allowed)]
    assert wrong == []


def _understood(name: str) -> Place | str:
    try:
        place = get_place(name).place
    except WrongInput:
        return ASKED
    assert place is not None
    return place


def _will_do(found: Place | str, allowed: tuple[str, ...]) -> bool:
    """Asked for, or there: either will do where both are allowed."""
    if isinstance(found, str):
        return ASKED in allowed
    return any(_is_there(found, where) for where in allowed)


def _is_there(place: Place, where: str) -> bool:
    """Whether a place lies in `US-HI`, or in `ES` near `@39.6,2.9`."""
    region, _, point = where.partition("@")
    country, _, state = region.partition("-")
    if place.country != country or (state and place.subdivision != state):
        return False
    if not point:
        return True
    latitude, longitude = map(float, point.split(","))
    east = (place.longitude - longitude) * math.cos(math.radians(latitude))
    return 69.1 * math.hypot(place.latitude - latitude, east) <= (WITHIN_MI if "-" in region else 3 * WITHIN_MI)
