"""Postal codes behind the letters of their country: "D-20457 Hamburg", "F 75001"; and Canadian ones, which no sheet takes."""

import re
from functools import lru_cache

from shipcalc.places.gazetteer.pages import all_postal_codes
from shipcalc.places.gazetteer.regions import US_STATES
from shipcalc.ratebook.taking.abroad import postal_end
from shipcalc.ratebook.taking.ends import End, Unclear
from shipcalc.ratebook.workbook.region_codes import COUNTRIES

# The distinguishing signs of vehicles in international traffic that are no codes of countries (Convention on Road Traffic, Vienna
# 1968, article 37 and annex 3; the list is kept by the Secretary-General of the United Nations), from memory.
SIGNS = {
    "A": "AT", "B": "BE", "D": "DE", "E": "ES", "F": "FR", "H": "HU", "I": "IT", "L": "LU", "N": "NO", "P": "PT", "S": "SE",
    "UK": "GB", "IRL": "IE", "FIN": "FI", "SLO": "SI", "EST": "EE", "FL": "LI",
}  # fmt: skip
_TOWN = r"(?:[ ,]+([^\W\d][^\d]*))?"
# Before a town a code is whole; and I-5 is a road.
_LEAST_BEFORE_TOWN = 4
_ONE = re.compile(
    rf"([A-Z]{{1,3}}) ?[-–] ?(\d[\d ]{{0,6}}\d|\d)(?:x{{1,4}}|\*{{1,3}})?{_TOWN}|([A-Z]{{1,3}}) (\d{{4,5}}){_TOWN}"
)
_SPAN = re.compile(r"([A-Z]{1,3}) ?[-–]? ?(\d{1,5}) ?(?:[-–]|to|bis|à|a|tot) ?(?:\1 ?[-–]? ?)?(\d{1,5})")
_LIST = re.compile(r"\s*(?:[,;/&\n|+]|\band\b|\bund\b|\bet\b|\ben\b|\by\b|\be\b)\s*")
_FIRST = r"[ABCEGHJ-NPRSTVXY]\d[ABCEGHJ-NPRSTV-Z]"
_CANADIAN = re.compile(rf"(?:.*[ ,])?{_FIRST}(?: ?\d[ABCEGHJ-NPRSTV-Z]\d)?(?: ?(?:[-–,;/]|to) ?{_FIRST})*")
NO_CANADIAN = "is a Canadian postal code, and no sheet has lanes to those: name the town or the province"


def is_canadian(text: str) -> bool:
    """Return whether a text ends with Canadian postal codes or the first three signs of some: "V5K-V6Z"."""
    return _CANADIAN.fullmatch(text) is not None


@lru_cache(maxsize=2048)
def lettered_ends(text: str) -> tuple[End, ...]:
    """Return the postal codes abroad that follow the letters of their country, () for another text. Raises Unclear.

    One, a span of them ("D-20000 - D-22999") or a list. Letters that are a state's as well (DE, CA) are read as that state where
    the code is a ZIP of it.
    """
    if is_canadian(text):
        raise Unclear(NO_CANADIAN)
    if (end := _end(text)) is not None:
        return (end,)
    parts = [part for part in _LIST.split(text) if part]
    ends = [_end(part) for part in parts]
    found = tuple(end for end in ends if end is not None)
    if len(parts) < 2 or not found:
        return ()
    if len(found) != len(parts):
        raise Unclear(f"of “{text}” only a part is understood")
    return found


def _end(text: str) -> End | None:
    if span := _SPAN.fullmatch(text):
        letters, code = span[1], f"{span[2]}-{span[3]}"
    elif one := _ONE.fullmatch(text):
        letters, code = one[1] or one[4], (one[2] or one[5]).replace(" ", "")
        if len(code) < _LEAST_BEFORE_TOWN and (one[3] or letters == "I"):
            return None
    else:
        return None
    country = SIGNS.get(letters) or (letters if letters in COUNTRIES else "")
    if letters in US_STATES and _lies_in(code[:3], letters):
        if "-" in text[: len(letters) + 2]:
            raise Unclear(f"“{text}” may be of the state or of {country}")
        return None
    return postal_end(code, country) if country and country != "US" else None


def _lies_in(figures: str, state: str) -> bool:
    """Return whether a state has ZIPs that begin so."""
    codes = all_postal_codes()
    return any(code.startswith(figures) for code in codes.codes[codes.state == state].tolist())
