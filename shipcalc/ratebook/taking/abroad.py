"""Places abroad as the sheet On-carriage has them: beginnings of postal codes, towns, regions and whole countries."""

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

from shipcalc.places.gazetteer.regions import regions_named
from shipcalc.places.gazetteer.spelling import spelling_key
from shipcalc.ratebook.taking.ends import End, Unclear
from shipcalc.ratebook.workbook.region_codes import COUNTRIES
from shipcalc.sheets.numbers import plain_text

HOME = ("US", "CA")
NO_COUNTRY = "is a postal code abroad, and no country is said"
_PARTS = re.compile(r"\s*(?:[,;/&\n|]|\band\b|\bund\b|\ben\b|\bet\b)\s*")
_SPAN = re.compile(r"(\d{1,5}) ?(?:-|–|—|to|bis|t/m|tot|thru) ?(\d{1,5})")
_ONE = re.compile(r"(?:[a-z]{1,2}[- ])?([a-z]{1,2}\d{1,2}[a-z]?|\d{1,5})(?:x+|\*+|\.{2,3})?", re.IGNORECASE)
MOST_BEGINNINGS = 60


@lru_cache(maxsize=512)
def country_in(text: str) -> str:
    """Return the two letters of the country that a text is the name or code of; "" for none."""
    plain = plain_text(text).strip(" .")
    if len(plain) == 2 and plain.upper() in COUNTRIES:
        return plain.upper()
    named = {region.country for region in regions_named(spelling_key(plain)) if not region.subdivision}
    return named.pop() if len(named) == 1 else ""


def country_among(texts: Iterable[str]) -> str:
    """Return the one country abroad that sentences name, "" for none or several."""
    found: set[str] = set()
    for text in texts:
        words = re.findall(r"[^\W\d_]+", text)
        for length in (1, 2, 3):
            for first in range(len(words) - length + 1):
                name = " ".join(words[first : first + length])
                if len(name) > 3 and name[0].isupper() and (country := country_in(name)) and country not in HOME:
                    found.add(country)
    return found.pop() if len(found) == 1 else ""


def postal_end(text: str, country: str) -> End:
    """Return the postal codes that a cell names as their beginnings: 1000-3999 begin with 1, 2 or 3. Raises Unclear."""
    beginnings: list[str] = []
    for part in (one for one in _PARTS.split(plain_text(text).strip(" .")) if one):
        span, one = _SPAN.fullmatch(part), _ONE.fullmatch(part)
        if span is not None and len(span[1]) == len(span[2]) and span[1] <= span[2]:
            beginnings += beginnings_between(span[1], span[2])
        elif one is not None:
            beginnings.append(one[1].upper())
        else:
            raise Unclear(f"“{part}” is no postal code")
    if not beginnings or len(beginnings) > MOST_BEGINNINGS:
        raise Unclear("names no postal codes" if not beginnings else "are more postal codes than a row holds")
    return End("; ".join(dict.fromkeys(beginnings)), "postal", country=country)


def beginnings_between(low: str, high: str) -> Iterator[str]:
    """Yield the fewest beginnings of all numbers from low to high, both of one length: 20 to 22 are 20, 21, 22; 00 to 99 all."""
    if low.strip("0") == "" and high.strip("9") == "" and len(low) > 1:
        yield from (str(figure) for figure in range(10))
        return
    for first in range(int(low[0]), int(high[0]) + 1):
        begin = low[1:] if str(first) == low[0] else "0" * (len(low) - 1)
        end = high[1:] if str(first) == high[0] else "9" * (len(high) - 1)
        if begin.strip("0") == "" and end.strip("9") == "":
            yield str(first)
        else:
            yield from (f"{first}{rest}" for rest in beginnings_between(begin, end))


def country_of(end: End) -> str:
    """Return the country of an end abroad, "" for one at home and for one whose country its text does not say."""
    if end.country:
        return end.country
    if end.kind == "country":
        code = end.text.removeprefix("country ")
        return "" if code in HOME else code
    if end.kind == "city":
        last = end.text.rpartition(", ")[2]
        return last if len(last) == 2 and last in COUNTRIES and "," in end.text and _is_abroad(end.text) else ""
    return ""


def _is_abroad(text: str) -> bool:
    """Return whether the two letters behind a town are a country's: towns at home have their state there ("Portland, OR")."""
    from shipcalc.places.gazetteer.find import find_place

    place = find_place(text).place
    return place is not None and place.country not in HOME


def together(ends: Sequence[End]) -> Iterator[End]:
    """Yield ends abroad, those of one country and kind as one, whose text divides them by semicolons."""
    groups: dict[tuple[str, str], list[str]] = {}
    for end in ends:
        country = country_of(end)
        text = "" if end.kind == "country" else end.text.removesuffix(f", {country}")
        groups.setdefault((country, end.kind), []).append(text)
    for (country, kind), texts in groups.items():
        yield End("; ".join(dict.fromkeys(texts)), kind, country=country)  # type: ignore[arg-type]
