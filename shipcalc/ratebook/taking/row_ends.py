"""Both ends of a row: what its cells say put together, zones, postal codes abroad, ZIPs with the zeros that they lost."""

from collections.abc import Mapping, Sequence
from functools import lru_cache

from shipcalc.ratebook.taking.abroad import NO_COUNTRY, country_in, country_of, postal_end
from shipcalc.ratebook.taking.around import Around, Zone
from shipcalc.ratebook.taking.body import Body
from shipcalc.ratebook.taking.ends import End, Unclear
from shipcalc.ratebook.taking.excepted import parted
from shipcalc.ratebook.taking.lettered import NO_CANADIAN, is_canadian, lettered_ends
from shipcalc.ratebook.taking.page import Page
from shipcalc.ratebook.taking.port_names import port_in
from shipcalc.ratebook.taking.sides import Side
from shipcalc.ratebook.taking.spots import STATE_OR_CITY, ends_in
from shipcalc.ratebook.taking.traits import bare_words

_DITTO = frozenset(('"', "''", "”", "“", "ditto", "do", "do.", "same", "idem", "dto", "dto."))


@lru_cache(maxsize=256)
def _carried(page: Page, at: int, body: Body) -> Mapping[int, str]:
    """Return what a place's column says in each row: where it is blank or says "ditto", what the row above says."""
    found: dict[int, str] = {}
    last = ""
    for one in body.rows:
        own = page.text(one.row, at)
        last = last if not own or own.casefold() in _DITTO else own
        found[one.row] = last
    return found


def ends_at(side: Side, page: Page, row: int, body: Body, around: Around) -> tuple[End, ...]:
    """Return the ends that a row's cells name on one side. Raises Unclear."""
    has_own = any((row, at) in page.values and page.text(row, at).casefold() not in _DITTO for at in side.ats)
    said = {
        part: [
            (c.at, text)
            for c in columns
            if (text := page.text(row, c.at) if has_own else _carried(page, c.at, body)[row])
        ]
        for part, columns in side.columns.items()
    }
    said = {part: texts for part, texts in said.items() if texts}
    if "port" in said:
        return (_port(said["port"]),)
    if "zip" in said and (lettered := _of_letters(said["zip"][0][1], around)):
        return lettered
    if country := _abroad(side, said, around):
        return _ends_abroad(said, country)
    if "zip_low" in said:
        low = _zip(side, page, row, said["zip_low"][0], body)
        high = _zip(side, page, row, said["zip_high"][0], body) if "zip_high" in said else low
        if low == high:
            return ends_in(low, around.known.names)
        return ends_in(f"{low}-{high}")
    if "zip" in said:
        return ends_in(_zip(side, page, row, said["zip"][0], body), around.known.names)
    return _ends_of_names(said, page, body, around)


def _of_letters(text: str, around: Around) -> tuple[End, ...]:
    """Return postal codes behind the letters of their country, those of which some are excepted too; () for others."""
    two = parted(text)
    return ends_in(text, around.known.names) if two and lettered_ends(two[0]) else lettered_ends(text)


_ABROAD = frozenset(("plz", "postleitzahl", "postleitzahlen", "postcode", "postcodes", "cap", "postal", "codigo"))
AT_HOME = frozenset(("us", "usa", "united states", "u s", "u s a"))


def _abroad(side: Side, said: Mapping[str, list[tuple[int, str]]], around: Around) -> str:
    """Return the country of postal codes abroad, "" for ZIPs and for other places. Raises Unclear where no country is said."""
    parts = [part for part in ("zip", "zip_low") if part in said]
    words = {word for part in parts for one in side.columns[part] for word in bare_words(one.header).split()}
    told = said["country"][0][1] if "country" in said else ""
    if any(is_canadian(text.replace("–", "-")) for part in parts for _, text in said[part]):
        raise Unclear(NO_CANADIAN)
    if not parts or bare_words(told) in AT_HOME or (not told and not words & _ABROAD):
        return ""
    country = country_in(told) if told else country_in(around.answers.get("country")) or around.facts.country
    if not country:
        raise Unclear(f"“{told}” is no country" if told else NO_COUNTRY)
    return "" if country == "US" else country


def _ends_abroad(said: Mapping[str, list[tuple[int, str]]], country: str) -> tuple[End, ...]:
    text = said["zip"][0][1] if "zip" in said else f"{said['zip_low'][0][1]}-{said['zip_high'][0][1]}"
    return (postal_end(text, country),)


def _ends_of_names(
    said: Mapping[str, list[tuple[int, str]]], page: Page, body: Body, around: Around
) -> tuple[End, ...]:
    names = {part: texts[0][1] for part, texts in said.items()}
    town = names.get("city") or names.get("place", "")
    if town and "state" in names and bare_words(names["state"]) not in bare_words(town).split():
        return ends_in(f"{town}, {names['state']}", around.known.names, "city")
    if town and "country" in names and "," not in town:
        return ends_in(f"{town}, {names['country']}", around.known.names, "city")
    for part in ("city", "place", "state", "zone", "country"):
        if part in names:
            at = said[part][0][0]
            return ends_named(names[part], around, _hint(part, page, at, body), part)
    raise Unclear("names no place")


def is_zone(text: str, around: Around) -> bool:
    """Return whether a text names a zone that the mail explains: "Zone A", or "A" alone."""
    return _zone_name(text, around) is not None


def _zone_name(text: str, around: Around) -> str | None:
    name = text.casefold()
    bare = name.removeprefix("zone").strip()
    return next((one for one in (name, bare, f"zone {bare}") if one in around.zones), None)


def area_of(zone: Zone, sender: str) -> str:
    """Return the name that a sender's zone has as an area of the rate book: "Plover Ridge zone A"."""
    return f"{sender} zone {zone.name.removeprefix('zone ').upper()}".strip()


def _ends_of_zone(zone: Zone, sender: str) -> tuple[End, ...]:
    """Return a zone as one end, an area of the rate book; abroad as its pieces, since areas are at home. Raises Unclear."""
    ends = tuple(end for end, _, _ in zone.pieces)
    if not ends:
        raise Unclear("is a zone whose places are not understood")
    if any(country_of(end) for end in ends):
        return ends
    if any(end.kind == "name" for end in ends):
        raise Unclear("is a zone made of another area")
    return (End(area_of(zone, sender), "zone"),)


def ends_named(text: str, around: Around, hint: str, part: str) -> tuple[End, ...]:
    """Return the ends that one cell of names says: a zone of the mail, an area of the rate book, places. Raises Unclear."""
    zone = _zone_name(text, around)
    if zone is not None:
        return _ends_of_zone(around.zones[zone], around.sender)
    if part == "zone" and not any(sign.isdigit() for sign in text[:1]) and text.casefold() not in around.known.names:
        own = f"{around.sender} {text}".strip()
        if own.casefold() in around.known.names:
            return (End(own, "name", f"{text}: {own}"),)
    return ends_in(text, around.known.names, hint)


def _is_state(text: str) -> bool:
    try:
        return bool(text) and all(end.kind == "state" for end in ends_in(text, frozenset(), "state"))
    except Unclear:
        return False


@lru_cache(maxsize=256)
def _hint(part: str, page: Page, at: int, body: Body) -> str:
    """Return whether a column holds states or cities alone, judged by those that can be one of them only, else by its header."""
    if part == "state":
        return part
    texts = {text for one in body.rows if (text := page.text(one.row, at)) and text.casefold() not in STATE_OR_CITY}
    states = [_is_state(text) for text in texts]
    if not any(states):
        return "city" if states or part == "city" else ""
    return "state" if all(states) else ""


def is_state_column(texts: Sequence[str]) -> bool:
    """Return whether all of these are states."""
    return bool(texts) and all(_is_state(text) for text in texts)


def _port(texts: Sequence[tuple[int, str]]) -> End:
    found = []
    unclear: Unclear | None = None
    for _, text in texts:
        try:
            found.append(port_in(text))
        except Unclear as why:
            unclear = why
    if not found:
        raise unclear or Unclear("names no port")
    codes = {end.text for end in found}
    by_code = [end for end in found if not end.said]
    if unclear is not None and not by_code:
        raise unclear
    if len(codes) > 1 and not by_code:
        raise Unclear(f"names two ports: {' and '.join(sorted(codes))}")
    return by_code[0] if by_code else found[0]


# The states and territories whose ZIPs begin with 0 (U.S. Postal Service, Publication 65).
_FIRST_ZERO = frozenset(("CT", "MA", "ME", "NH", "NJ", "PR", "RI", "VI", "VT"))


def _zip(side: Side, page: Page, row: int, spot: tuple[int, str], body: Body) -> str:
    """Return a ZIP's text, with the zero that a number cell has lost; one that was typed as text is left as it is."""
    at, text = spot
    return text.zfill(_longest_figures(page, at, body)) if is_without_zero(side, page, row, at, body) else text


def is_without_zero(side: Side, page: Page, row: int, at: int, body: Body) -> bool:
    """Return whether a cell is a number of fewer figures than a ZIP of its column has: a spreadsheet drops the first zeros."""
    rows = [one.row for one in body.rows if one.row <= row and (one.row, at) in page.values]
    spot = (rows[-1], at) if rows else (row, at)
    text, value = page.text(*spot), page.values.get(spot)
    longest = _longest_figures(page, at, body)
    if not isinstance(value, (int, float)) or not text.isdecimal() or not _may_begin_with_zero(side, page, row):
        return False
    return longest in (3, 5) and len(text) < longest and (longest == 3 or len(text) in (3, 4))


def _may_begin_with_zero(side: Side, page: Page, row: int) -> bool:
    said = [page.text(row, column.at) for column in side.columns.get("state", ())]
    ends = [end for text in said if text and _is_state(text) for end in ends_in(text, frozenset(), "state")]
    return all(end.text in _FIRST_ZERO for end in ends)


@lru_cache(maxsize=256)
def _longest_figures(page: Page, at: int, body: Body) -> int:
    return max((len(text) for one in body.rows if (text := page.text(one.row, at)).isdecimal()), default=0)
