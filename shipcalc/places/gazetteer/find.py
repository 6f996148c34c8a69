"""Any way of saying where → a Place, its namesakes, and what was assumed.

    98225 · 98225-1234 · Bellingham, WA · Bellingham WA 98225 · Munich, Germany · München · 48.749, -122.488

A street in front of a city or a ZIP is not looked up (`shipcalc.places.gazetteer.address` does that, when asked).
"""

import re
from functools import lru_cache

from shipcalc.errors import WrongInput
from shipcalc.places.gazetteer.areas import known_area
from shipcalc.places.gazetteer.cities import city_place, city_within, regions_at_end
from shipcalc.places.gazetteer.finding import Finding, not_found, written
from shipcalc.places.gazetteer.pages import postal_code
from shipcalc.places.gazetteer.points import point_in
from shipcalc.places.gazetteer.postal_codes import (
    BOX_NOTE,
    ZIP,
    names_a_box,
    postal_place,
    without_foreign_code,
    zip_as_written,
    zip_place,
)
from shipcalc.places.gazetteer.regions import US_STATES, US_TERRITORIES, region_name, regions_named
from shipcalc.places.gazetteer.spelling import spelling_key

__all__ = ["Finding", "find_place", "get_place"]

LONGEST_TEXT = 200
# A city named beside a ZIP is the ZIP's city, or one of its neighbours, within this distance.
BESIDE_ITS_ZIP_MI = 40.0

_AT_END = re.compile(rf"(?P<rest>.*\D){ZIP}")
_AT_START = re.compile(rf"{ZIP}(?P<rest>\D.*)")
_HOME = re.compile(r"[,\s]+(USA|U\.S\.A\.|US|U\.S\.|United States(?: of America)?)$", re.IGNORECASE)


def get_place(text: str) -> Finding:
    """Return the finding of a text that must be a place, beyond doubt; its `place` is never None.

    Raises WrongInput with the reason, and what may have been meant.
    """
    finding = find_place(text)
    if finding.place is None or finding.doubt:
        raise WrongInput((finding.doubt or finding.note).rstrip("."), where="place", remedy=finding.remedy)
    return finding


@lru_cache(maxsize=4096)
def find_place(text: str) -> Finding:
    """Return what the program understands by a text; never raises. Nothing found: `place` is None and `note` says why."""
    plain = " ".join(text.split()).strip(" ,;")
    if not plain:
        return not_found("No place was given.")
    if len(plain) > LONGEST_TEXT:
        return not_found(f"“{plain[:40]}…” is too long for the name of a place.")
    for read in READERS:
        finding = read(plain)
        if finding is not None and (finding.place or "/" not in plain):
            return finding.with_note(BOX_NOTE) if finding.place and names_a_box(plain) else finding
    if "/" in plain:  # Bellingham/WA
        return find_place(plain.replace("/", ", "))
    return not_found(f"“{plain}” is not a place that the list knows.")


def _city_with_zip(text: str) -> Finding | None:
    """Return the place of a text that has a ZIP at its end or its beginning, or None where it has none."""
    home = _HOME.search(text)
    plain = text[: home.start()] if home else text
    if home and plain.strip().isdecimal():
        return postal_place(plain.strip())
    match = _AT_END.fullmatch(plain) or _AT_START.fullmatch(plain)
    entry = postal_code(match["zip"]) if match else None
    if match is None or (entry is None and not home and not regions_at_end(match["rest"])):
        return None
    name = match["rest"].strip(" ,")
    regions = regions_at_end(name)
    if regions_named(spelling_key(name)):
        name = ""
    states = [region for region in regions if region.country == "US" or region.country in US_TERRITORIES]
    if regions and not states and not home:
        return None
    agrees = entry is not None and entry.state in {region.subdivision or region.country for region in states}
    abroad = {region.country for region in regions} - {"US", *US_TERRITORIES}
    if not agrees and not home and abroad and (city := city_within(name, near=None)) and city.country in abroad:
        return None
    if entry is None:
        return zip_place(match["zip"])
    if states and not agrees:
        return not_found(
            f"ZIP {entry.code} is in {_state_name(entry.state)}, not in {states[0].name}: check which of the two is right.",
            zip_as_written(entry),
        )
    return _zip_beside_city(name, entry.code, is_home=bool(states or home))


def _zip_beside_city(name: str, code: str, *, is_home: bool) -> Finding | None:
    """Return the ZIP's place if the city before it is the ZIP's, a neighbour or unknown; else say that they differ."""
    finding = zip_place(code)
    if finding.place is None:
        return finding if is_home else None
    near, known = city_within(name, near=finding.place, within_mi=BESIDE_ITS_ZIP_MI), city_within(name, near=None)
    if near or not known:
        return finding
    if not is_home:
        return None
    entry = postal_code(code)
    assert entry is not None
    return not_found(
        f"ZIP {code} is in {entry.city}, {entry.state}, not in {known.name}: check which of the two is right.",
        zip_as_written(entry),
        written(known.name, known.country, known.subdivision),
    )


def _city(text: str) -> Finding | None:
    """Return the city that a text names; a foreign postal code beside it is kept and not looked up."""
    plain, code = without_foreign_code(text)
    if code and regions_named(spelling_key(plain)):
        return postal_place(code)
    return city_place(plain, code) if plain else None


def _state_name(state: str) -> str:
    """Return the name of a state or territory by the two letters of the post."""
    return US_STATES.get(state) or region_name(state, "")


READERS = (point_in, postal_place, _city_with_zip, known_area, _city)
