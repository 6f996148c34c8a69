"""Places and vehicles that single rows of a rate book lead to: a ZIP of an area, a city of a country, a day of a season."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from shipcalc.places.find import find_place
from shipcalc.places.gazetteer import all_postal_codes, countries
from shipcalc.places.place import Place
from shipcalc.quote.basket import ROADSTER, places_at_home
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.trucking_rows import Area, Carrier
from shipcalc.vehicles.vehicle import Vehicle

FAR, NEAR = "04330", "59601"
_A_YEAR = timedelta(days=366)


def days_valid(first: date | None, last: date | None, as_of: date) -> tuple[date, ...]:
    """Return the days on which a row that is valid between two days is looked at: not before today, not after a year."""
    if last is not None and last < as_of:
        return ()
    start = max(first or as_of, as_of)
    return (start,) if start <= as_of + _A_YEAR else ()


def next_time(day: date, as_of: date) -> date:
    """Return the next time that the day of a year comes, as_of or later; a 29th of February is the day after the 28th."""
    for year in (as_of.year, as_of.year + 1):
        try:
            found = day.replace(year=year)
        except ValueError:
            found = date(year, 3, 1)
        if found >= as_of:
            return found
    return as_of


def somewhere_in(areas: Sequence[str], book: RateBook, otherwise: Place) -> Place:
    """Return a place in one of the areas, or `otherwise` where none is named."""
    wanted = {name.casefold() for name in areas}
    rows = (row for row in book.areas if row.area.casefold() in wanted)
    return next((place for row in rows if (place := place_in(row)) is not None), otherwise)


def place_in(row: Area) -> Place | None:
    """Return a place of one row of the sheet Areas: the first ZIP that it holds."""
    if row.country != "US":
        return city_of(row.country)
    codes = all_postal_codes()
    held = codes.state == row.state if row.state else codes.codes != ""
    if row.zip_from:
        last = (row.zip_to or row.zip_from) + "~"
        held = held & (codes.codes >= row.zip_from) & (codes.codes <= last)
    found = codes.codes[held]
    return zip_place_of(str(found[len(found) // 2])) if len(found) else None


def end_of_lane(place: str | None, otherwise: str) -> Place | None:
    """Return a place at one end of a road factor: a ZIP, a state, a beginning of a ZIP; None where it lies abroad."""
    if place is None or place == "US":
        return zip_place_of(otherwise)
    if place.startswith("US-"):
        return place_in(Area(area="", state=place[3:]))
    if place[0].isdigit():
        return place_in(Area(area="", zip_from=place))
    return None


def city_of(country: str) -> Place | None:
    """Return a large city of a country by its two letters, or None where the list has none."""
    known = countries().get(country.upper())
    return find_place(f"{_CITIES[country.upper()]}, {known.name}").place if known and country in _CITIES else None


def far_from(start: Place) -> Place:
    """Return a place on the other side of the country."""
    return zip_place_of(FAR if start.longitude < -95 else "98501")


def zip_place_of(code: str) -> Place:
    """Return the place of a ZIP that is known to be one."""
    place = find_place(code).place
    assert place is not None, f"{code} is a ZIP"
    return place


def taken_by(longest_mm: int | None, heaviest_grams: int | None) -> Vehicle:
    """Return a roadster, or something smaller where that is too large."""
    length, mass = longest_mm or 10**6, heaviest_grams or 10**9
    if (ROADSTER.length_mm or 0) <= length and (ROADSTER.mass_grams or 0) <= mass:
        return ROADSTER
    return replace(
        ROADSTER, model="Small one", length_mm=min(2_000, length), width_mm=700, mass_grams=min(200_000, mass)
    )


def places_served(row: Carrier, book: RateBook) -> tuple[Place, ...]:
    """Return the places that a service delivers to, as far as they are known by its areas."""
    if not row.to_areas:
        return places_at_home()
    wanted = {name.casefold() for name in row.to_areas}
    found = (place_in(area) for area in book.areas if area.area.casefold() in wanted)
    return tuple(place for place in found if place is not None)


# A large city of the countries that collectors live in.
_CITIES = {
    "AE": "Dubai", "AT": "Vienna", "AU": "Sydney", "BE": "Antwerp", "CA": "Toronto", "CH": "Zurich", "CN": "Shanghai",
    "CR": "San José", "CZ": "Prague", "DE": "Hamburg", "DK": "Copenhagen", "ES": "Barcelona", "FI": "Helsinki", "FR": "Paris",
    "GB": "London", "GR": "Athens", "HU": "Budapest", "IE": "Dublin", "IL": "Tel Aviv", "IS": "Reykjavik", "IT": "Milan",
    "JP": "Tokyo", "KR": "Seoul", "KW": "Kuwait City", "LU": "Luxembourg", "MC": "Monaco", "MX": "Mexico City",
    "NL": "Amsterdam", "NO": "Oslo", "NZ": "Auckland", "PL": "Warsaw", "PR": "San Juan", "PT": "Lisbon", "QA": "Doha",
    "SA": "Jeddah", "SE": "Stockholm", "SG": "Singapore", "TH": "Bangkok", "TR": "Istanbul", "TW": "Taipei", "ZA": "Cape Town",
}  # fmt: skip
