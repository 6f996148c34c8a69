"""Transports that try the last leg, from the port of arrival to the buyer: near, far, and as far as one day's driving more."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta
from math import cos, pi, radians, sin
from typing import cast

from shipcalc.places.find import find_place
from shipcalc.places.finding import place_of_city
from shipcalc.places.gazetteer import nearest_city
from shipcalc.places.place import Place
from shipcalc.places.straight import great_circle_mi
from shipcalc.quote.basket import ROADSTER, Asked, Only, transport
from shipcalc.quote.basket_places import released, towns_of
from shipcalc.quote.model import Trailer, Wishes
from shipcalc.quote.overseas.ports import arrival_ports
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.overseas_rows import OnCarriage, Port
from shipcalc.vehicles.vehicle import Vehicle

_BEYOND_THE_ROADS = ("Hilo, HI", "Fairbanks, AK", "Kenai, AK")
_BEARINGS = 24
_FIRST_FACTOR = 1.3
_CORRECTIONS = 4
_MILES_A_DEGREE = 69.1
_DEGREES_OVER_THE_BORDER, _TOWN_WITHIN_MI, _NO_FARTHER_NORTH = (0.5, 1.5, 3.0, 5.0), 40.0, 80.0
_EIGHT_WINDS = tuple((north, east) for north in (-1, 0, 1) for east in (-1, 0, 1) if (north, east) != (0, 0))
# An arrival at a weekend hides a day of driving: the next ship's need not.
_DAYS_BETWEEN_SHIPS = (0, 3, 11)


def over_the_last_leg(
    row: OnCarriage, vehicle: Vehicle, book: RateBook, starts: Sequence[Place], as_of: date
) -> Iterator[Asked]:
    """Yield transports by the row's trailer to places near the country's ports and far from them."""
    trailer = cast("Trailer", row.trailer)
    for place in _spread_over(row.country, book):
        wishes = released(Wishes(trailer=trailer), place, book)
        yield transport((vehicle,), starts[0], place, as_of, wishes, how=f"{row.trailer}, far in the country")
    for port in ports_of(row.country, book):
        so_far = place_so_far(port, row.miles_a_day + 1, book)
        if so_far is not None:
            wishes = released(Wishes(trailer=trailer), so_far, book)
            for later in _DAYS_BETWEEN_SHIPS:
                ready, how = as_of + timedelta(days=later), f"{row.trailer}, more than a day from {port.name}"
                asked = transport((ROADSTER,), starts[0], so_far, ready, wishes, how=how)
                yield replace(asked, only=Only(port=port.port))
            return


def ports_of(country: str, book: RateBook) -> list[Port]:
    """Return the ports of a country that vehicles may arrive at."""
    return [port for port in book.ports if port.country.upper() == country.upper() and not port.exports]


def place_so_far(port: Port, miles: int, book: RateBook) -> Place | None:
    """Return a place in the port's country, so many road miles from it; None where none is found in any direction."""
    alone = replace(book, ports=(port,))
    for number in range(_BEARINGS):
        straight_mi = miles / _FIRST_FACTOR
        for _ in range(_CORRECTIONS):
            to = _point(port, 2 * pi * number / _BEARINGS, straight_mi)
            road = next((one.road for one in arrival_ports(alone, to).ports), None) if to is not None else None
            if to is None or road is None or road.miles == 0:
                break
            if road.miles == miles:
                return to
            straight_mi *= (miles - 0.2) / road.miles
    return None


def towns_over_the_border(country: str, book: RateBook) -> Iterator[Place]:
    """Yield towns of the countries round a country's ports, one of each, the nearest that is found in some directions."""
    found: set[str] = set()
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


def _point(port: Port, bearing: float, straight_mi: float) -> Place | None:
    north = straight_mi * cos(bearing) / _MILES_A_DEGREE
    east = straight_mi * sin(bearing) / _MILES_A_DEGREE / max(cos(radians(port.latitude)), 0.05)
    found = find_place(f"{port.latitude + north:.4f}, {port.longitude + east:.4f}").place
    return found if found is not None and found.country == port.country.upper() else None


def _spread_over(country: str, book: RateBook) -> Iterator[Place]:
    """Yield places near the country's ports and far from its largest city: where the least and the most is driven."""
    if country.upper() == "US":
        yield from (place for name in _BEYOND_THE_ROADS if (place := find_place(name).place) is not None)
    towns = towns_of(country)
    far_first = sorted(towns[1:], key=lambda town: -great_circle_mi(towns[0], town))
    # The farthest may lie on other islands.
    yield from dict.fromkeys((*far_first[:2], *far_first[:: max(1, len(far_first) // 4)]))
    for port in ports_of(country, book)[:2]:
        beside = find_place(f"{port.latitude:.3f}, {port.longitude:.3f}").place
        if beside is not None:
            yield beside
