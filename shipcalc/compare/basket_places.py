"""Places and vehicles that single rows of a rate book lead to: a ZIP of an area, a city of a country, a day of a season."""

from collections.abc import Sequence
from datetime import date, timedelta
from functools import cache

from shipcalc.compare.basket import ROADSTER, Asked, Only, places_at_home
from shipcalc.places.gazetteer.find import find_place
from shipcalc.places.gazetteer.finding import place_of_city
from shipcalc.places.gazetteer.pages import (
    City,
    all_postal_codes,
    countries,
    largest_cities,
    nearest_city,
    well_known_names,
)
from shipcalc.places.place import Place
from shipcalc.quote.model import Wishes
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.areas import Area
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.records import replace
from shipcalc.vehicles.vehicle import Vehicle

FAR, NEAR = "04330", "59601"
_RELEASED_BY = "the basket"
_A_YEAR = timedelta(days=366)
_MOST_TOWNS = 40
# Towns are looked for round a city, so many degrees away, near each such point.
_STEPS_AROUND, _AROUND_MI = (0.07, 0.15, 0.4), 12.0


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
    """Return a place of one row of the sheet Areas: the ZIP in the middle of those that it holds."""
    return next(iter(places_in(row, 1)), None)


def places_in(row: Area, count: int) -> tuple[Place, ...]:
    """Return so many places of one row of the sheet Areas, apart from each other."""
    if row.country != "US":
        within = tuple(town for town in towns_of(row.country) if town.subdivision == row.state) if row.state else ()
        return within[:count] or cities_of(row.country, 1)
    codes = all_postal_codes()
    held = codes.state == row.state if row.state else codes.codes != ""
    if row.zip_from:
        last = (row.zip_to or row.zip_from) + "~"
        held = held & (codes.codes >= row.zip_from) & (codes.codes <= last)
    found = codes.codes[held]
    taken = (
        dict.fromkeys(str(found[len(found) * (2 * n + 1) // (2 * count)]) for n in range(count)) if len(found) else {}
    )
    return tuple(zip_place_of(code) for code in taken)


def ends_of_lane(place: str | None, otherwise: str) -> tuple[Place, ...]:
    """Return places at one end of a road factor: of a ZIP, of a state, of the beginning of a ZIP, a city of a country."""
    if place is None or place == "US":
        return (zip_place_of(otherwise),)
    if place.startswith("US-"):
        return places_in(Area(area="", state=place[3:]), 3)
    if place[0].isdigit():
        return places_in(Area(area="", zip_from=place), 1)
    return cities_of(place[:2], 3)


def city_of(country: str) -> Place | None:
    """Return the largest city of a country by its two letters, or None where the gazetteer has none."""
    return next(iter(cities_of(country, 1)), None)


@cache
def cities_of(country: str, count: int) -> tuple[Place, ...]:
    """Return so many of the largest cities of a country by its two letters, as far as the gazetteer has them."""
    code = country.upper()
    known = countries().get(code)
    keys = [key for key, home, _ in well_known_names() if home == code][:count] if known is not None else []
    # A country whose towns are all small has none of these: its largest counts.
    keys = keys or [city.key for city in _largest() if city.country == code][:count]
    found = (find_place(f"{key}, {known.name}").place for key in keys if known is not None)
    return tuple(place for place in found if place is not None)


@cache
def towns_of(country: str) -> tuple[Place, ...]:
    """Return a country's larger cities, the largest first, and the towns that lie round it."""
    cities = cities_of(country, _MOST_TOWNS)
    if not cities:
        return ()
    around = (
        nearest_city(latitude=cities[0].latitude + north, longitude=cities[0].longitude + east, within_mi=_AROUND_MI)
        for step in _STEPS_AROUND
        for north in (-step, 0, step)
        for east in (-step, 0, step)
    )
    towns = (place_of_city(found[0], "the largest city") for found in around if found is not None)
    return tuple(dict.fromkeys((*cities, *(town for town in towns if town.country == country.upper()))))


@cache
def _largest() -> tuple[City, ...]:
    return largest_cities()


def by_itself(row: Carrier, asked: Asked) -> Asked:
    """Return a transport priced by one truck service alone."""
    only = Only(carrier=row.carrier, trailer=row.trailer)
    return replace(asked, name=f"{asked.name}, by {row.carrier}, {row.trailer}", only=only)


def held_countries(book: RateBook) -> set[str]:
    """Return the countries that wait for a release as a whole."""
    return {hold.country.upper() for hold in book.holds if hold.subdivision is None}


def released(wishes: Wishes, to: Place, book: RateBook) -> Wishes:
    """Return the wishes with a release, where a country waits for one: what stands behind its hold has a price, too."""
    return replace(wishes, released_by=_RELEASED_BY) if to.country in held_countries(book) else wishes


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
