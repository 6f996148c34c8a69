"""Which places roads join: the land a place is on, and what it needs instead of a road.

Islands and country without a road are rows of `data/no_road.tsv` (the first row that a place fits counts); every other place
belongs to the land of its country. A row's `joined` says what its places are to each other: "island" (roads within),
"apart" (each for itself), "through Canada" (roads, but over a border), or the name of a land that several rows share.
"""

from collections.abc import Mapping
from functools import cache

from shipcalc.places.gazetteer.pages import DATA
from shipcalc.places.gazetteer.regions import country_name
from shipcalc.places.outlines import Outline, is_inside, read_outline
from shipcalc.places.place import Place
from shipcalc.records import dataclass

FILE = DATA / "no_road.tsv"

NORTH_AMERICA = "North and Central America"
_BY_ROAD_JOINED = {
    NORTH_AMERICA: "US CA MX GT BZ SV HN NI CR PA",
    "South America": "CO VE GY SR GF BR EC PE BO PY CL AR UY",
    "Europe and Asia": (
        "AD AL AT BA BE BG BY CH CZ DE DK EE ES FI FR GI GR HR HU IT LI LT LU LV MC MD ME MK NL NO PL PT RO RS RU SE SI SK SM"
        " UA VA XK AE AF AM AZ BD BH BT CN GE HK IL IN IQ IR JO KG KH KP KW KZ LA LB MM MN MO MY NP OM PK PS QA SA SG SY TH TJ"
        " TM TR UZ VN YE"
    ),
    "Africa": (
        "AO BF BI BJ BW CD CF CG CI CM DJ DZ EG EH ER ET GA GH GM GN GQ GW KE LR LS LY MA ML MR MW MZ NA NE NG RW SD SL SN SO"
        " SS SZ TD TG TN TZ UG ZA ZM ZW"
    ),
    "Great Britain": "GB",
    "Ireland": "IE",
    "Hispaniola": "DO HT",
    "Saint Martin": "MF SX",
    "Borneo": "BN",
    "Australia": "AU",
    "the main islands of Japan": "JP",
    "the North Island of New Zealand": "NZ",
    "South Korea": "KR",
}
_LAND_OF_COUNTRY = {code: land for land, codes in _BY_ROAD_JOINED.items() for code in codes.split()}

# Countries of many islands without a row of their own: nobody knows whether a ferry lies between two of their places.
_MANY_ISLANDS = (
    "AG BQ BS CK CV FJ FK FM FO GL KI KM KN KY MH MP MV NC PF PG PH PW SB SC SH SJ ST TC TO TT TV VC VG VU WF WS"
)
_ARCHIPELAGOS = frozenset(_MANY_ISLANDS.split())

_SAID_WITH_ON = ("Borneo", "Hispaniola", "Saint Martin", "the main islands of Japan", "the North Island of New Zealand")
_THROUGH_CANADA = "through Canada"


@dataclass(frozen=True, slots=True)
class Reach:
    """Whether roads join two places; `need` is a sentence on what is needed instead, or besides, or ""."""

    reached: bool
    need: str


@dataclass(frozen=True, slots=True)
class Land:
    """A land whose places roads join. `where` follows the word "is": "on Nantucket"; `served` says how vehicles get there."""

    name: str
    where: str
    served: str = ""
    is_apart: bool = False
    only_through_canada: bool = False


@dataclass(frozen=True, slots=True)
class NoRoadRow:
    """One row of the table: which places it is about, and their land."""

    subdivision: str
    zips: frozenset[str]
    outline: Outline
    land: Land

    def fits(self, place: Place) -> bool:
        """Whether a place of the row's country is meant: by its ZIP where both have one, otherwise by the outline."""
        if self.subdivision and place.subdivision != self.subdivision:
            return False
        if self.zips and place.postal_code and place.kind != "point":
            return place.postal_code[:5] in self.zips
        return not self.outline or is_inside(self.outline, latitude=place.latitude, longitude=place.longitude)


def road_reach(a: Place, b: Place) -> Reach:
    """Return whether a vehicle can go from one place to the other on roads alone, and what it needs if not."""
    from_land, to_land = land_of(a), land_of(b)
    if are_joined(a, from_land, b, to_land):
        return Reach(True, _said_of_the_road(a, from_land, b, to_land))
    far, land = (b, to_land) if to_land.served or not from_land.served else (a, from_land)
    if land.served and far.name.casefold() in land.where.casefold():
        return Reach(False, f"{far.name} is not reached by road: {land.served}.")
    if land.served:
        return Reach(False, f"{far.name} is {land.where}: {land.served}.")
    return Reach(
        False, f"{a.name} is {from_land.where} and {b.name} {to_land.where}: no road joins them; vehicles go by sea."
    )


def are_joined(a: Place, from_land: Land, b: Place, to_land: Land) -> bool:
    """Return whether roads join two places, whose lands are known."""
    return from_land.name == to_land.name and not (from_land.is_apart and not _is_same(a, b))


def land_of(place: Place) -> Land:
    """Return the land that a place is on."""
    for row in _rows_for(place.country, place.subdivision):
        if row.fits(place):
            return row.land
    return _land_of_country(place.country)


@cache
def _land_of_country(country: str) -> Land:
    name = _LAND_OF_COUNTRY.get(country, country_name(country))
    return Land(name, f"on {name}" if name in _SAID_WITH_ON else f"in {name}")


def _said_of_the_road(a: Place, from_land: Land, b: Place, to_land: Land) -> str:
    """Return what the carrier must know of a lane that roads do join: a way through Canada, a country of many islands."""
    if a.country in _ARCHIPELAGOS and not _is_same(a, b):
        return f"{country_name(a.country)} consists of many islands: ask whether a ferry lies on the way."
    if from_land.only_through_canada == to_land.only_through_canada and from_land.where == to_land.where:
        return ""
    if "CA" in (a.country, b.country) or not (from_land.only_through_canada or to_land.only_through_canada):
        return ""
    far = b if to_land.only_through_canada else a
    return f"{far.name} is reached by road only through Canada, so the carrier needs the papers for transit."


def _is_same(a: Place, b: Place) -> bool:
    """Whether two places without a road around them are one town."""
    return (a.latitude, a.longitude) == (b.latitude, b.longitude) or (a.name, a.subdivision) == (b.name, b.subdivision)


@cache
def _rows_for(country: str, subdivision: str) -> tuple[NoRoadRow, ...]:
    """Return the rows that a place of a subdivision may fit."""
    return tuple(row for row in _rows().get(country, ()) if row.subdivision in ("", subdivision))


@cache
def _rows() -> Mapping[str, tuple[NoRoadRow, ...]]:
    """Return the table by country, in the order of the file."""
    rows: dict[str, list[NoRoadRow]] = {}
    for line in FILE.read_text(encoding="utf-8").splitlines()[1:]:
        where, country, subdivision, zips, outline, joined, served = line.split("\t")
        land = Land(
            name=_land_name(where, joined),
            where=where,
            served=served,
            is_apart=joined == "apart",
            only_through_canada=joined == _THROUGH_CANADA,
        )
        rows.setdefault(country, []).append(NoRoadRow(subdivision, _zips(zips), read_outline(outline), land))
    return {country: tuple(found) for country, found in rows.items()}


def _land_name(where: str, joined: str) -> str:
    """Return the name under which places of one land find each other."""
    if joined == _THROUGH_CANADA:
        return NORTH_AMERICA
    return where if joined in ("island", "apart") else joined


def _zips(text: str) -> frozenset[str]:
    """Return the ZIPs of a list with ranges: "99501-99503 99540"."""
    found: set[str] = set()
    for entry in text.split():
        first, _, last = entry.partition("-")
        found.update(f"{number:05d}" for number in range(int(first), int(last or first) + 1))
    return frozenset(found)
