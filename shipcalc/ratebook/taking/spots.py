"""Where a lane begins or ends, as a mail writes it → as the sheet Lanes has it: 980-994, Bozeman, MT, US-WA, USBAL; or why not.

One cell may name several ("WA, OR, ID"). A name that several towns have is never chosen.
"""

import re
from functools import lru_cache

from shipcalc.places.gazetteer.find import find_place
from shipcalc.places.gazetteer.finding import written
from shipcalc.places.gazetteer.regions import CANADIAN_PROVINCES, US_STATES, regions_named
from shipcalc.places.gazetteer.spelling import spelling_key
from shipcalc.places.sea.ports import find_port, is_port_code
from shipcalc.ratebook.lane_ends import WITH_ZIPS
from shipcalc.ratebook.taking.abroad import postal_end
from shipcalc.ratebook.taking.ends import End, Unclear
from shipcalc.ratebook.taking.excepted import LOWER_48, is_lower_48, parted, pieces_with_exceptions, without
from shipcalc.ratebook.taking.lettered import lettered_ends
from shipcalc.sheets.numbers import plain_text

_ZIP_ONE = re.compile(r"(?:zips? ?(?:codes?)? ?:? ?)?(\d{3,5})(?:-\d{4})?(?:xx?|\*{1,2}|\.{2,3})?", re.IGNORECASE)
_ZIP_SPAN = re.compile(
    r"(?:zips? ?(?:codes?)? ?:? ?)?(\d{3,5})(?:xx|\*\*)? ?(?:-|–|—|to|thru|through|\.\.|bis|"
    r"t/m) ?(\d{3,5})(?:xx|\*\*)?",
    re.IGNORECASE,
)
_ALL_OF = re.compile(
    r"^(?:all of |whole (?:of )?|entire |state of |anywhere in |statewide )|(?:,? ?\(?(?:all|"
    r"statewide|whole state|all points|all zips?|entire state)\)?)$",
    re.IGNORECASE,
)
_ALONE = re.compile(r",? \(?(?:only|nur|uniquement|seulement|solamente|solo|alleen)\)?$", re.IGNORECASE)
_LIST = re.compile(r"\s*(?:[;/&\n|]|,|\band\b)\s*")
_TRAILING_ZIP = re.compile(r"^(?P<city>.*\D)[ ,]+(?P<zip>\d{5})$")


@lru_cache(maxsize=8192)
def ends_in(text: str, names: frozenset[str] = frozenset(), part: str = "") -> tuple[End, ...]:
    """Return the ends that a cell names. Raises Unclear.

    `names` are those of areas and yards, in small letters; `part` is what the column holds where that is known (state, city).
    """
    plain = plain_text(text).strip(" .,;")
    if not plain:
        raise Unclear("names no place")
    plain = _ALONE.sub("", plain)
    if found := _each_with_its_own(plain, names):
        return found
    if two := parted(plain):
        base = _of_base(two[0], names, part)
        is_abroad = base[0].kind == "postal"
        return without(base, _codes_abroad(two[1], base[0].country) if is_abroad else _excepted(two[1], names))
    if found := _zips(plain):
        return found
    if lettered := lettered_ends(plain):
        return lettered
    bare = _ALL_OF.sub("", plain).strip(" ,()") or plain
    if part != "city" and (found := _states(bare)):
        if part != "state" and bare == plain and spelling_key(plain) in STATE_OR_CITY:
            raise Unclear(f"“{plain}” may be the city or the state")
        return found
    if plain.casefold() in names:
        return (End(plain, "name"),)
    if _SEVERAL.search(bare):
        return tuple(end for one in _SEVERAL.split(bare) for end in ends_in(one, names, part))
    return (_place(bare),)


def _each_with_its_own(text: str, names: frozenset[str]) -> tuple[End, ...]:
    """Return the places of a list in which exceptions stand in brackets, each without its own; () for another text.

    Of "CA, OR (exc. 900-908)" they are none of Oregon's, so that they are of all of the list; "Reno, NV (exc. 894)" is a town.
    """
    try:
        ends = tuple(end for piece in pieces_with_exceptions(text) for end in ends_in(piece, names))
    except Unclear:
        return ()
    return ends if all(end.kind in ("state", "ZIP") for end in ends) else ()


def _excepted(text: str, names: frozenset[str]) -> tuple[End, ...]:
    """Return what is excepted: of "Reno 894-895" the ZIPs, which the town only explains. Raises Unclear."""
    parts = [_TOWN_OF_ZIPS.sub(r"\g<zips>", part) for part in _LIST.split(text) if part]
    return _zips(", ".join(parts)) or ends_in(text, names)


# A span of ZIPs, or one behind a town's name: "Reno 894-895", "894 Reno".
_TOWN = r"(?!(?i:zip|zone|over|under|within)s?\b)[A-Z][^\W\d]+(?:[ .'-]+[A-Z][^\W\d]+)*"
_SOME_ZIPS = r"\d{3,5}(?:xx)?(?: ?[-–—] ?\d{3,5}(?:xx)?)?"
_TOWN_OF_ZIPS = re.compile(rf"^(?:{_TOWN}:? +(?=\d))?(?P<zips>{_SOME_ZIPS})(?: +{_TOWN})?$")


def _codes_abroad(text: str, country: str) -> tuple[End, ...]:
    """Return the postal codes of a country that are excepted, with or without its letters. Raises Unclear."""
    return lettered_ends(text) or (postal_end(text, country),)


def _of_base(text: str, names: frozenset[str], part: str) -> tuple[End, ...]:
    """Return the ends of which some are excepted; "all FL ZIPs" is FL, and of many states in one list each is a state."""
    if is_lower_48(text):
        return LOWER_48
    bare = _OF_ZIPS.sub("", text).strip(" ,()")
    return _states(bare) or ends_in(bare, names, part)


_OF_ZIPS = re.compile(
    r"^(?:all|alle|any|every|tous|todos|tutti)\s+|\s*\b(?:zips?|zip codes?|postal codes?|codes?)$", re.IGNORECASE
)


# "LA" is Louisiana and Los Angeles.
STATE_OR_CITY = frozenset(("new york", "washington", "la"))
_SEVERAL = re.compile(r"\s*(?:/|;|\bor\b|&|\n)\s*")


def _zips(text: str) -> tuple[End, ...]:
    """Return ZIPs, first figures of ZIPs and spans of them; () where the text is none of these."""
    parts = [part for part in _LIST.split(text) if part]
    found = []
    if plus_four := re.fullmatch(r"(\d{5})-\d{4}", text):
        return (End(plus_four[1], "ZIP"),)
    for part in parts:
        span, one = _ZIP_SPAN.fullmatch(part), _ZIP_ONE.fullmatch(part)
        if span is not None:
            first, last = span[1], span[2]
            if len(last) < len(first):
                last = first[: len(first) - len(last)] + last
            if len(first) != len(last) or first > last:
                raise Unclear(f"“{part}” is no range of ZIPs from low to high")
            _of_whole_figures(first)
            found.append(End(first if first == last else f"{first}-{last}", "ZIP"))
        elif one is not None:
            _of_whole_figures(one[1])
            found.append(End(one[1], "ZIP"))
        else:
            return ()
    return tuple(found)


def _of_whole_figures(zip_code: str) -> None:
    """Raise Unclear for a ZIP of four figures: one is missing, and nothing tells which."""
    if len(zip_code) == 4:
        raise Unclear(f"“{zip_code}” has four figures, and a ZIP has five (or its first three)")


def _states(text: str) -> tuple[End, ...]:
    """Return the states and provinces of a list of them; () where one part is none."""
    parts = [part.strip(" .()") for part in _LIST.split(text) if part.strip(" .()")]
    if len(parts) == 2 and _state(parts[1]) and (not _state(parts[0]) or (len(parts[0]) > 2 and len(parts[1]) == 2)):
        return ()
    found = [_state(part) for part in parts]
    return tuple(end for end in found if end is not None) if found and all(found) else ()


def _state(text: str) -> End | None:
    upper = text.upper().removeprefix("US-").removeprefix("CA-") if len(text) <= 5 else ""
    if upper in US_STATES or upper in CANADIAN_PROVINCES:
        return End(upper, "state")
    text = re.sub(r"(?<=\w) state$", "", text, flags=re.IGNORECASE)
    regions = [r for r in regions_named(spelling_key(text)) if r.country in ("US", "CA") and r.subdivision]
    return End(regions[0].subdivision, "state", f"{text}: {regions[0].subdivision}") if len(regions) == 1 else None


def _place(text: str) -> End:
    """Return a city or a country."""
    countries = [r for r in regions_named(spelling_key(text)) if not r.subdivision]
    if len(countries) == 1 and len(text) > 2:
        return End(f"country {countries[0].country}", "country", f"{text}: {countries[0].country}")
    parts = [
        region
        for region in regions_named(spelling_key(text))
        if region.subdivision and region.country not in ("US", "CA")
    ]
    if len(parts) == 1:
        return End(parts[0].subdivision, "region", f"{text}: {parts[0].subdivision}", parts[0].country)
    if found := _TRAILING_ZIP.match(text):
        finding = find_place(text)
        if finding.place is None or finding.doubt:
            raise Unclear((finding.doubt or finding.note).rstrip(".?"))
        if finding.place.country not in WITH_ZIPS or finding.place.postal_code != found["zip"]:
            raise Unclear(f"of “{text}” only {finding.place.name} is understood")
        return End(found["zip"], "ZIP", f"{text}: ZIP {found['zip']}")
    if is_port_code(text) and text.isupper() and find_port(text):
        return End(text.replace(" ", ""), "port")
    finding = find_place(text)
    if finding.place is None or finding.doubt:
        raise Unclear((finding.doubt or finding.note).rstrip(".?"))
    place = finding.place
    if any(sign.isdigit() for sign in text):
        if place.kind != "postal code":
            raise Unclear(f"of “{text}” only {place.name} is understood")
        return End(place.postal_code, "ZIP", f"{text}: ZIP {place.postal_code}")
    name = written(place.name, place.country, place.subdivision)
    if place.country not in ("US", "CA"):
        name = f"{place.name}, {place.country}"
    return End(name, "city", "" if spelling_key(name) == spelling_key(text) else f"{text}: {name}")
