"""Transports that try the last leg, from the port of arrival to the buyer: near, far, and as far as one day's driving more."""

from collections.abc import Iterator
from datetime import timedelta
from functools import partial
from itertools import islice
from math import atan2, cos, hypot, pi, radians, sin

from shipcalc.compare.basket import ROADSTER, Asked, Only
from shipcalc.compare.trial import Trial, places_beside, towns_of
from shipcalc.places.gazetteer.find import find_place
from shipcalc.places.gazetteer.finding import place_of_city
from shipcalc.places.gazetteer.pages import nearest_city
from shipcalc.places.place import Place
from shipcalc.places.straight import great_circle_mi
from shipcalc.quote.network.ports import arrival_ports
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.on_carriage import OnCarriage
from shipcalc.ratebook.rows.ports import Port
from shipcalc.ratebook.rows.ways import BorderPort
from shipcalc.records import replace
from shipcalc.vehicles.vehicle import Vehicle

_BEYOND_THE_ROADS = ("Hilo, HI", "Fairbanks, AK", "Kenai, AK")
_BEARINGS = 24
_FIRST_FACTOR = 1.3
_CORRECTIONS = 4
_MOST_DAYS = 4
_MOST_TOWNS = 8
_MILES_A_DEGREE = 69.1
_DEGREES_OVER_THE_BORDER, _TOWN_WITHIN_MI, _NO_FARTHER_NORTH = (0.5, 1.5, 3.0, 5.0), 40.0, 80.0
_JUST_OVER_MI, _MOST_OVER_THE_BORDER = 20.0, 3
_EIGHT_WINDS = tuple((north, east) for north in (-1, 0, 1) for east in (-1, 0, 1) if (north, east) != (0, 0))
# An arrival at a weekend hides a day of driving: the next ship's need not.
_DAYS_BETWEEN_SHIPS = (0, 3, 11)


def over_the_last_leg(row: OnCarriage, vehicle: Vehicle, trial: Trial) -> Iterator[Asked]:
    """Yield transports by the row's trailer to places near the country's ports and far from them."""
    one = partial(trial.asked, released=True, trailer=row.trailer)
    places = tuple(_spread_over(row.country, trial.book))
    yield from (one(place, vehicle, how=f"{row.trailer}, far in the country") for place in places)
    for place in dict.fromkeys((*places[:1], *places[-2:])):
        for cannot in (replace(vehicle, runs=False), replace(vehicle, runs=False, rolls=False)):
            for term in (None, "DAP", "CPT"):
                yield one(place, cannot, how=f"{row.trailer}, cannot be driven", term=term)
    for port, place, how in _from_one_port(row, trial.book):
        for later in _DAYS_BETWEEN_SHIPS:
            ready = trial.day + timedelta(days=later)
            yield one(place, ready=ready, how=f"{row.trailer}, {how}", only=Only(port=port.port))


def over_a_zone(row: OnCarriage, trial: Trial) -> Iterator[Asked]:
    """Yield transports by the row's trailer to its towns, to towns of its regions, or all over the country; from its port."""
    one = partial(trial.asked, released=True, trailer=row.trailer, how=f"{row.trailer}, in its zone")
    every = towns_of(row.country)
    regions = {name.casefold() for name in row.regions}
    places = [found for town in row.towns if (found := find_place(f"{town}, {row.country}").place) is not None]
    places += [town for town in every if town.subdivision.casefold() in regions][:_MOST_DAYS]
    places = places or [*every[:_MOST_DAYS], *every[-2:]]
    only = Only(port=row.port) if row.port else None
    for place in places:
        for cannot in (ROADSTER, replace(ROADSTER, runs=False), replace(ROADSTER, runs=False, rolls=False)):
            yield one(place, cannot, only=only)
        for later in _DAYS_BETWEEN_SHIPS:
            yield one(place, ready=trial.day + timedelta(days=later), only=only)


def _from_one_port(row: OnCarriage, book: RateBook) -> Iterator[tuple[Port, Place, str]]:
    """Yield ports by themselves with a place: just more than a day away; of another country, its largest city as well."""
    whole_days = [days * row.miles_a_day for days in range(1, _MOST_DAYS + 1)]
    tried = {
        "a mile more than whole days of driving from": [miles + 1 for miles in whole_days],
        "whole days of driving from": whole_days,
        "below the minimum, near": _miles_below_the_minimum(row),
    }
    for how, distances in tried.items():
        far = ((port, miles) for miles in distances for port in ports_for(row.country, book))
        found = ((port, place_so_far(port, row.country, miles, book)) for port, miles in far)
        for port, place in islice(((port, place) for port, place in found if place is not None), 1):
            yield port, place, f"{how} {port.name}"
    if not ports_of(row.country, book):
        yield from ((port, towns_of(row.country)[0], f"by {port.name}") for port in ports_for(row.country, book))


def _miles_below_the_minimum(row: OnCarriage) -> tuple[int, ...]:
    """Return some distances for which base and miles come to less than the row's minimum, the farthest first."""
    miles = (row.minimum_minor - row.base_minor) * 100 // row.rate_e4 - 1 if row.rate_e4 else 0
    return tuple(dict.fromkeys(part for part in (miles, miles * 3 // 4, miles // 2) if part > 0))


def ports_of(country: str, book: RateBook) -> list[Port]:
    """Return the ports of a country that vehicles may arrive at."""
    return [port for port in book.ports if port.country.upper() == country.upper() and not port.exports]


def ports_for(country: str, book: RateBook) -> list[Port]:
    """Return the ports of a country, and those of others that its largest city is reached from."""
    own = ports_of(country, book)
    reached = (port.row for to in towns_of(country)[:1] for port in arrival_ports(book, to).ports if port.road)
    return [*own, *(port for port in reached if port not in own)]


def place_so_far(port: Port, country: str, miles: int, book: RateBook) -> Place | None:
    """Return a place in the country, so many road miles from the port; None where none is found in any direction."""
    alone = replace(book, ports=(port,))
    for bearing, guess_mi in _directions(port, country, miles, alone):
        straight_mi = guess_mi
        for _ in range(_CORRECTIONS):
            to = _point(port, country, bearing, straight_mi)
            driven = _road_miles(alone, to) if to is not None else None
            if not driven:
                break
            if driven == miles:
                return to
            straight_mi *= (miles - 0.2) / driven
    return None


def _directions(port: Port, country: str, miles: int, alone: RateBook) -> Iterator[tuple[float, float]]:
    """Yield a bearing in radians and a first guess of the straight line: all round, or to some towns of another country."""
    if port.country.upper() == country.upper():
        yield from ((2 * pi * number / _BEARINGS, miles / _FIRST_FACTOR) for number in range(_BEARINGS))
        return
    towns = towns_of(country)
    shrink = max(cos(radians(port.latitude)), 0.05)
    for town in towns[:: max(1, len(towns) // _MOST_TOWNS)]:
        north, east = town.latitude - port.latitude, (town.longitude - port.longitude) * shrink
        driven = _road_miles(alone, town)
        if driven:
            yield atan2(east, north), hypot(north, east) * _MILES_A_DEGREE * miles / driven


def _road_miles(alone: RateBook, to: Place) -> int | None:
    """Return the road miles from the one port of a book."""
    return next((port.road.miles for port in arrival_ports(alone, to).ports if port.road), None)


def places_about(country: str, straight_mi: float, book: RateBook) -> Iterator[tuple[Port, Place]]:
    """Yield a port of the country with a place a little nearer than so many miles in a straight line, and with one beyond."""
    for port in ports_of(country, book)[:1]:
        for about_mi in (straight_mi * 0.98 - 0.05, straight_mi * 1.02 + 0.05):
            winds = (_point(port, country, 2 * pi * number / _BEARINGS, about_mi) for number in range(_BEARINGS))
            place = next((point for point in winds if point is not None), None)
            if place is not None:
                yield port, place


def places_over(row: BorderPort) -> Iterator[Place]:
    """Yield places of the country just beyond a crossing of its border."""
    winds = (_point(row, row.country, 2 * pi * number / _BEARINGS, _JUST_OVER_MI) for number in range(_BEARINGS))
    yield from islice((place for place in winds if place is not None), _MOST_OVER_THE_BORDER)


def towns_over_the_border(country: str, book: RateBook) -> Iterator[Place]:
    """Yield the largest towns of the countries that have their gateways in a country, then towns of those round its ports, one
    of each, the nearest that is found in some directions.
    """
    found: set[str] = set()
    own = {port.port.upper() for port in ports_of(country, book)}
    for behind in dict.fromkeys(row.country.upper() for row in book.gateways if row.port.upper() in own):
        found.add(behind)
        yield from towns_of(behind)[:1]
    for degrees in _DEGREES_OVER_THE_BORDER:
        for port in ports_of(country, book):
            for north, east in _EIGHT_WINDS:
                at = {"latitude": port.latitude + north * degrees, "longitude": port.longitude + east * degrees}
                near = (
                    nearest_city(**at, within_mi=_TOWN_WITHIN_MI) if abs(at["latitude"]) < _NO_FARTHER_NORTH else None
                )
                if near is not None and near[0].country not in (*found, country.upper()):
                    found.add(near[0].country)
                    yield place_of_city(near[0], "beside a border")


def _point(port: Port | BorderPort, country: str, bearing: float, straight_mi: float) -> Place | None:
    north = straight_mi * cos(bearing) / _MILES_A_DEGREE
    east = straight_mi * sin(bearing) / _MILES_A_DEGREE / max(cos(radians(port.latitude)), 0.05)
    found = find_place(f"{port.latitude + north:.4f}, {port.longitude + east:.4f}").place
    return found if found is not None and found.country == country.upper() else None


def _spread_over(country: str, book: RateBook) -> Iterator[Place]:
    """Yield places near the country's ports and far from its largest city: where the least and the most is driven."""
    if country.upper() == "US":
        yield from (place for name in _BEYOND_THE_ROADS if (place := find_place(name).place) is not None)
    towns = towns_of(country)
    far_first = sorted(towns[1:], key=lambda town: -great_circle_mi(towns[0], town))
    # The farthest may lie on other islands.
    yield from dict.fromkeys((*far_first[:2], *far_first[:: max(1, len(far_first) // 4)]))
    for port in ports_of(country, book)[:2]:
        yield from places_beside(port)
