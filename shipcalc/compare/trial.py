"""What rows are tried with: transports from the starts of a basket, in a rate book, to places and on days that a row leads to."""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from functools import cache
from typing import Any

from shipcalc.compare.basket import ROADSTER, Asked, Only, places_at_home, transport, zip_place_of
from shipcalc.places.gazetteer.find import find_place
from shipcalc.places.gazetteer.finding import place_of_city
from shipcalc.places.gazetteer.pages import all_postal_codes, countries, largest_cities, nearest_city, well_known_names
from shipcalc.places.place import Place
from shipcalc.pricing.facts import vehicle_facts
from shipcalc.quote.explain.barriers import rules_of
from shipcalc.quote.model import Wishes
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.decisions import DecisionTable, decision_table, holding_numbers
from shipcalc.ratebook.remembered import remembered_by_book
from shipcalc.ratebook.rows.areas import Area
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.imports import EntryRule
from shipcalc.ratebook.rows.ports import Port
from shipcalc.records import dataclass, replace
from shipcalc.vehicles.vehicle import Vehicle

FAR, NEAR = "04330", "59601"
_RELEASED_BY = "the basket"
_A_YEAR = timedelta(days=366)
# Ages, in years, of which rules of entry let in some: new ones, collector's pieces, what is older than any rule speaks of.
_AGES = (1, 35, 105, 4, 15)
_MOST_TOWNS = 40
# Towns are looked for round a city, so many degrees away, near each such point.
_STEPS_AROUND, _AROUND_MI = (0.07, 0.15, 0.4), 12.0


@dataclass(frozen=True, slots=True)
class Trial:
    """The book in which rows are tried, where transports may begin, and the day from which they are ready."""

    book: RateBook
    starts: Sequence[Place]
    day: date

    def asked(
        self,
        to: Place,
        vehicles: Vehicle | Sequence[Vehicle] = ROADSTER,
        *,
        start: Place | None = None,
        ready: date | None = None,
        how: str = "",
        only: Only | None = None,
        by: Carrier | None = None,
        released: bool = False,
        let_in: bool | None = None,
        **wishes: Any,
    ) -> Asked:
        """Return one transport, of the roadster from the first start on the day unless otherwise said.

        `by` prices it by one truck service alone. `released` gives a release where the country waits for one as a whole, and,
        unless `let_in` says no, an age at which it lets vehicles in: what stands behind a hold or a bar has a price, too.
        """
        several = (vehicles,) if isinstance(vehicles, Vehicle) else vehicles
        if released and to.country in self.held:
            wishes["released_by"] = _RELEASED_BY
        if released if let_in is None else let_in:
            several = tuple(_let_in(self.book, vehicle, to.country, self.day) for vehicle in several)
        asked = transport(several, start or self.starts[0], to, ready or self.day, Wishes(**wishes), how=how)
        if by is not None:
            name = f"{asked.name}, by {by.carrier}, {by.trailer}"
            return replace(asked, name=name, only=Only(carrier=by.carrier, trailer=by.trailer))
        return asked if only is None else replace(asked, only=only)

    @property
    def held(self) -> frozenset[str]:
        """Return the countries that wait for a release as a whole."""
        return frozenset(hold.country.upper() for hold in self.book.holds if hold.subdivision is None)

    def days_valid(self, row: Any) -> tuple[date, ...]:
        """Return the days on which a row is looked at, by its *Valid from* and *Valid to*: not before today, not after a year."""
        first, last = getattr(row, "valid_from", None), getattr(row, "valid_to", None)
        start = max(first or self.day, self.day)
        return (start,) if (last is None or last >= self.day) and start <= self.day + _A_YEAR else ()

    def somewhere_in(self, areas: Sequence[str | None], otherwise: Place) -> Place:
        """Return a place in one of the areas, or `otherwise` where none is named."""
        return next(self._places_in(areas), otherwise)

    def places_served(self, row: Carrier) -> tuple[Place, ...]:
        """Return the places that a service delivers to, as far as they are known by its areas."""
        return tuple(self._places_in(row.to_areas)) if row.to_areas else places_at_home()

    def _places_in(self, areas: Sequence[str | None]) -> Iterator[Place]:
        wanted = {name.casefold() for name in areas if name}
        for row in self.book.areas:
            if row.area.casefold() in wanted:
                yield from places_in(row, 1)


def _let_in(book: RateBook, vehicle: Vehicle, country: str, day: date) -> Vehicle:
    """Return the vehicle, or else one built in a year at which the rules of entry let it in; where none is, as it was."""
    table = _bars(book, country, day)
    ages = (vehicle, *(replace(vehicle, year=day.year - years) for years in _AGES))
    return next((one for one in ages if not holding_numbers(table, vehicle_facts(one, aged_on=day))), vehicle)


@remembered_by_book(512)
def _bars(book: RateBook, country: str, day: date) -> DecisionTable[EntryRule]:
    return decision_table(tuple(rule for rule in rules_of(book, country, day) if rule.answer == "bars"), "vehicle")


def days_of(row: Any, as_of: date) -> tuple[date, ...]:
    """Return the days from which a row is tried: today, and its first and its last day where they are yet to come in a year."""
    ends = (getattr(row, field, None) for field in ("valid_from", "valid_to"))
    return as_of, *(day for day in ends if day is not None and as_of < day <= as_of + _A_YEAR)


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


def places_in(row: Area, count: int) -> tuple[Place, ...]:
    """Return so many places of one row of the sheet Areas, apart from each other: of ZIPs those in the middle of equal parts."""
    if row.country != "US":
        if not row.state:
            return cities_of(row.country, 1)
        within = tuple(town for town in towns_of(row.country) if town.subdivision == row.state)
        return within[:count] or _largest_of(row.country, row.state)
    codes = all_postal_codes()
    held = codes.state == row.state if row.state else codes.codes != ""
    if row.zip_from:
        held = held & (codes.codes >= row.zip_from) & (codes.codes <= (row.zip_to or row.zip_from) + "~")
    found = codes.codes[held]
    middles = [found[len(found) * (2 * n + 1) // (2 * count)] for n in range(count)] if len(found) else []
    return tuple(zip_place_of(str(code)) for code in dict.fromkeys(middles))


def ends_of_lane(place: str | None, otherwise: str) -> tuple[Place, ...]:
    """Return places at one end of a road factor: of a ZIP, of a state, of the beginning of a ZIP, a city of a country."""
    if place is None or place == "US":
        return (zip_place_of(otherwise),)
    if place.startswith("US-"):
        return places_in(Area(area="", state=place[3:]), 3)
    if place[0].isdigit():
        return places_in(Area(area="", zip_from=place), 1)
    return cities_of(place[:2], 3)


def places_beside(port: Port) -> tuple[Place, ...]:
    """Return the place beside a port; none where the gazetteer knows of nobody there."""
    found = find_place(f"{port.latitude:.3f}, {port.longitude:.3f}").place
    return () if found is None else (found,)


@cache
def cities_of(country: str, count: int = 1) -> tuple[Place, ...]:
    """Return so many of the largest cities of a country by its two letters, as far as the gazetteer has them."""
    code = country.upper()
    known = countries().get(code)
    if known is None:
        return ()
    keys = [key for key, home, _ in well_known_names() if home == code][:count]
    # A country whose towns are all small has none of these: its largest counts.
    keys = keys or [city.key for city in largest_cities() if city.country == code][:count]
    return tuple(place for key in keys if (place := find_place(f"{key}, {known.name}").place) is not None)


@cache
def _largest_of(country: str, state: str) -> tuple[Place, ...]:
    """Return the largest city of a state that none of its country's larger cities lies in."""
    own = (city for city in largest_cities() if (city.country, city.subdivision) == (country.upper(), state))
    return tuple(place_of_city(city, "the largest city of its state") for city in own)


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


def far_from(start: Place) -> Place:
    """Return a place on the other side of the country."""
    return zip_place_of(FAR if start.longitude < -95 else "98501")


def taken_by(row: Carrier) -> Vehicle:
    """Return a roadster, or something smaller where that is too large for the service."""
    length, mass = row.longest_mm or 10**6, row.heaviest_grams or 10**9
    if (ROADSTER.length_mm or 0) <= length and (ROADSTER.mass_grams or 0) <= mass:
        return ROADSTER
    return replace(
        ROADSTER, model="Small one", length_mm=min(2_000, length), width_mm=700, mass_grams=min(200_000, mass)
    )
