"""Sea ports as a mail writes them, by code or by name in any language: "Genova", "Antwerpen (B)", "USBAL"."""

import re
from functools import lru_cache

from shipcalc.places.gazetteer.find import find_place
from shipcalc.places.gazetteer.regions import regions_named
from shipcalc.places.gazetteer.spelling import spelling_key
from shipcalc.places.sea.ports import find_port
from shipcalc.ratebook.taking.ends import End, Unclear
from shipcalc.ratebook.taking.lettered import SIGNS
from shipcalc.sheets.numbers import plain_text

_CODE = re.compile(r"\(?\b([A-Z]{2} ?[A-Z2-9]{3})\b\)?")

# Names that several ports have, of which vehicles are shipped by one.
_USUAL = {
    "charleston": "USCHS",
    "los angeles long beach": "USLGB",
    "la lb": "USLGB",
    "ny nj": "USNYC",
    "new york new jersey": "USNYC",
    "port hueneme": "USNTD",
}


@lru_cache(maxsize=4096)
def port_in(text: str) -> End:
    """Return the sea port that a cell names by its code or its name. Raises Unclear."""
    plain = plain_text(text).strip(" .,;")
    if found := _CODE.search(plain):
        port = find_port(found[1])
        if port is not None:
            code = found[1].replace(" ", "")
            return End(code, "port", "" if plain.strip("()") == found[1] else f"{plain}: {code}")
    key = spelling_key(
        re.sub(r"\b(?:port of|seaport|harbor|harbour|port)\b", " ", re.sub(r"\(.*?\)", " ", plain), flags=re.IGNORECASE)
    )
    named = ports_by_name().get(spelling_key(plain)) or ports_by_name().get(key)
    if named and len(named) == 1:
        return End(named[0], "port", f"{plain}: {named[0]}")
    if key in _USUAL:
        return End(_USUAL[key], "port", f"{plain}: {_USUAL[key]}")
    head = spelling_key(plain.partition(",")[0])
    where = plain.partition(",")[2].strip()
    within = [code for code in ports_by_name().get(head, ()) if where and _lies_in(code, where)]
    if len(within) == 1:
        return End(within[0], "port", f"{plain}: {within[0]}")
    also = _also_called(plain)
    if also:
        return End(also, "port", f"{plain}: {also}")
    raise Unclear(f"“{plain}” is not the code or name of one sea port")


@lru_cache(maxsize=1)
def ports_by_name() -> dict[str, tuple[str, ...]]:
    """Return the codes of the world's sea ports by their names."""
    from shipcalc.places.sea.ports import port_codes

    found: dict[str, list[str]] = {}
    for code in port_codes():
        port = find_port(code)
        if port is not None:
            found.setdefault(spelling_key(port.name), []).append(code)
    return {name: tuple(codes) for name, codes in found.items()}


def _also_called(plain: str) -> str:
    """Return the port of a town that has another name as well: Antwerpen, Genova, Antwerpen (B).

    Of several towns of one name it is the one that alone has a sea port; letters of a country in brackets say which is meant.
    """
    sign = _SIGN_OF_COUNTRY.fullmatch(plain)
    country = SIGNS.get(sign["letters"], sign["letters"]) if sign else ""
    finding = find_place(f"{sign['town']}, {country}" if sign else plain)
    if finding.place is None or (finding.doubt and not finding.others):
        return ""
    places = (finding.place, *(finding.others if finding.doubt else ()))
    found = {code for place in places for code in _ports_of(place.name, place.country)}
    return found.pop() if len(found) == 1 else ""


_SIGN_OF_COUNTRY = re.compile(r"(?P<town>[^\W\d][^()\d]*?) ?\((?P<letters>[A-Z]{1,3})\)")


def _ports_of(name: str, country: str) -> tuple[str, ...]:
    return tuple(code for code in ports_by_name().get(spelling_key(name), ()) if code[:2] == country)


def _lies_in(code: str, where: str) -> bool:
    port = find_port(code)
    regions = regions_named(spelling_key(where))
    return port is not None and any(
        region.country == port.country and region.subdivision in ("", port.subdivision) for region in regions
    )
