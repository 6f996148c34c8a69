"""What an end of a lane is, and how specific: figures, a city, a state, an area, a yard, a terminal, a port, a country.

An end is worth points, and of two rows that meet a shipment the one with more points at both ends together counts:

    9  a yard, a terminal or a port       4  a wider range of ZIPs, or an area of ZIPs and cities alone
    8  one ZIP                            3  a state
    7  a city                             2  an area with states in it
    6  four figures, or up to 10 ZIPs     1  a country, or an area with a country in it
    5  three figures, or up to 100        0  blank: anywhere on the home road network

Of as many points: more at the delivery; then fewer ZIPs, states or countries at both ends; then a row that names the trailer.

An end is told by `pieces`, each a level and a text that a place has too, so that a lane is looked up and no row is tried.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from shipcalc.ratebook.rows.areas import Area
from shipcalc.ratebook.rows.lanes import LaneRow
from shipcalc.ratebook.workbook.region_codes import CANADIAN_PROVINCES, COUNTRIES, US_STATES
from shipcalc.records import dataclass

# ZIPs are those of the United States and its territories; no two of these share one.
WITH_ZIPS = ("US", "PR", "GU", "VI", "AS", "MP")
YARD, COUNTRY = "yard ", "country "
_TERMINAL = "terminal"
_NEIGHBOURS = {"canada": "CA", "mexico": "MX"}
_WITH_ITS_NAME = 2
# How many ZIPs a state or a country counts as, where ends of as many points are compared.
_STATE_ZIPS, _COUNTRY_ZIPS = 100_000, 10_000_000

ANYWHERE, ZIP, CITY, STATE, OF_COUNTRY = "home", "zip", "city", "state", "country"
AT_YARD, AT_TERMINAL, AT_PORT = "yard", "terminal", "port"
Piece = tuple[str, str]


@dataclass(frozen=True, slots=True)
class End:
    """An end of a lane: what it is, its points, about how many ZIPs it holds, and its pieces.

    A piece is `zip` with the first figures of a ZIP, within a state as `zip US-WA`; `city` as "bozeman, US-MT"; `state` as
    "US-MT"; `country`; `yard`, `terminal` and `port` by name and code; `home` for anywhere.
    """

    kind: str
    points: int
    zips: int
    pieces: tuple[Piece, ...]


BLANK = End("anywhere", 0, _COUNTRY_ZIPS, ((ANYWHERE, ""),))


def find_end(text: str | None, areas: Mapping[str, Sequence[Area]]) -> End | None:
    """Return what a cell names, None where it is nothing the rate book knows. `areas` are as `areas_by_name` has them."""
    if not text:
        return BLANK
    name = text.casefold()
    if name in areas:
        return _area(areas[name])
    if text[:1].isdigit():
        first, _, last = text.partition("-")
        return _zips(first, last or first)
    if name.startswith(YARD):
        return End("yard", 9, 1, ((AT_YARD, name.removeprefix(YARD).strip()),))
    if terminal := terminal_key(text):
        return End("terminal", 9, 1, ((AT_TERMINAL, terminal),))
    country = _NEIGHBOURS.get(name, name.removeprefix(COUNTRY).strip().upper() if name.startswith(COUNTRY) else text)
    if state := _state(text):
        return End("state", 3, _STATE_ZIPS, ((STATE, state),))
    if country in COUNTRIES:
        return End("country", 1, _COUNTRY_ZIPS, ((OF_COUNTRY, country),))
    town, comma, where = text.rpartition(", ")
    if comma:
        lies_in = _state(where) or (where if where in COUNTRIES else "")
        return End("city", 7, 10, ((CITY, f"{town.casefold()}, {lies_in}"),)) if lies_in else None
    code = text.replace(" ", "").upper()
    return End("port", 9, 1, ((AT_PORT, code),)) if _is_port_code(code) else None


Rank = tuple[int, int, int, bool]


def rank_of(row: LaneRow, begin: End, end: End) -> Rank:
    """Return how specific a row is: of those that meet a shipment the one with the highest counts."""
    return begin.points + end.points, end.points, -(begin.zips + end.zips), row.trailer is not None


def terminal_key(name: str) -> str:
    """Return what "Denver terminal" and "terminal Denver" have in common, "" for what is not called a terminal."""
    words = name.casefold().split()
    if "," in name or len(words) < _WITH_ITS_NAME or _TERMINAL not in (words[0], words[-1]):
        return ""
    return " ".join(words[1:] if words[0] == _TERMINAL else words[:-1])


def named_terminal(name: str) -> str:
    """Return what a terminal is found by in the sheet Lanes, whether or not its own name says that it is one; "" for none."""
    return terminal_key(name) or name.casefold().strip()


def areas_by_name(areas: Iterable[Area]) -> dict[str, list[Area]]:
    """Return the rows of each area by its name in lower case."""
    found: dict[str, list[Area]] = {}
    for area in areas:
        found.setdefault(area.area.casefold(), []).append(area)
    return found


def prefixes(first: str, last: str) -> Iterator[str]:
    """Yield the fewest first figures that hold all ZIPs from one to another, beginnings included: 590, 599 → 59."""
    low, high = int(first.ljust(5, "0")), int(last.ljust(5, "9"))
    while low <= high:
        size = 1
        while low % (size * 10) == 0 and low + size * 10 - 1 <= high and size < 10_000:
            size *= 10
        yield f"{low:05}"[: 5 - (len(str(size)) - 1)]
        low += size


def _state(text: str) -> str:
    """Return a state or a province with its country, "" for neither: two letters are the state's, whatever country has them."""
    if text in US_STATES or text in CANADIAN_PROVINCES:
        return f"{'US' if text in US_STATES else 'CA'}-{text}"
    country, dash, part = text.partition("-")
    known = {"US": US_STATES, "CA": CANADIAN_PROVINCES}.get(country, ())
    return text if dash and part in known else ""


def _zips(first: str, last: str) -> End:
    pieces = tuple((ZIP, figures) for figures in prefixes(first, last))
    many = _count(pieces)
    points = 8 if many == 1 else 6 if many <= 10 else 5 if many <= 100 else 4
    return End("ZIP" if many == 1 else "ZIPs", points, many, pieces)


def _count(pieces: Iterable[Piece]) -> int:
    """Return about how many ZIPs pieces hold."""
    sizes = {CITY: 10, STATE: _STATE_ZIPS, OF_COUNTRY: _COUNTRY_ZIPS}
    return sum(sizes[level] if level in sizes else 10 ** (5 - len(text)) for level, text in pieces)


def _area(rows: Sequence[Area]) -> End:
    pieces = tuple(dict.fromkeys(piece for row in rows for piece in _pieces(row)))
    levels = {level for level, _ in pieces}
    points = 1 if OF_COUNTRY in levels else 2 if STATE in levels else 4
    return End("area", points, _count(pieces), pieces)


def _pieces(row: Area) -> Iterator[Piece]:
    """Yield the pieces of one row of the sheet Areas: what its filled cells have in common."""
    state = f"{row.country}-{row.state}" if row.state else ""
    if row.city:
        yield CITY, f"{row.city.casefold()}, {state or row.country}"
    elif row.zip_from:
        for figures in prefixes(row.zip_from, row.zip_to or row.zip_from):
            yield f"{ZIP} {state}" if state else ZIP, figures
    elif state:
        yield STATE, state
    else:
        yield OF_COUNTRY, row.country


def _is_port_code(code: str) -> bool:
    return len(code) == 5 and code[:2] in COUNTRIES and code[2:].isalnum() and code.isascii()
