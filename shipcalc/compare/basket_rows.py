"""Transports that single rows of a rate book ask for: a row is only known to do nothing once something has met its conditions."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta
from functools import partial
from itertools import islice, zip_longest
from typing import Any

from shipcalc.compare.basket import HOME, ROADSTER, SALOON, Asked, Only, several, transport
from shipcalc.compare.basket_extras import of_extra
from shipcalc.compare.basket_last_leg import places_about, towns_over_the_border
from shipcalc.compare.basket_overseas import OVERSEAS_MAKERS, Makers
from shipcalc.compare.basket_papers import of_paper
from shipcalc.compare.basket_places import (
    FAR,
    NEAR,
    by_itself,
    days_valid,
    ends_of_lane,
    far_from,
    next_time,
    places_in,
    places_served,
    somewhere_in,
    taken_by,
    zip_place_of,
)
from shipcalc.places.place import Place
from shipcalc.places.straight import great_circle_mi
from shipcalc.quote.model import Wishes
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.areas import Area, Season
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.diesel import DieselPrice, region_key
from shipcalc.ratebook.rows.ferries import Ferry
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.ratebook.rows.fuel_steps import FuelStep
from shipcalc.ratebook.rows.mile_bands import MileBand
from shipcalc.ratebook.rows.road_factors import RoadFactor
from shipcalc.ratebook.rows.vehicle_sizes import VehicleSize
from shipcalc.ratebook.rows.yards import Storage, Terminal
from shipcalc.ratebook.workbook.columns import Row
from shipcalc.records import replace
from shipcalc.vehicles.vehicle import Vehicle

_SEASON_DAYS = 2 * 366
# Windows that end at a weekend come to the same whether they are a day longer or not.
_DAYS_OF_THE_WEEK = 7
_ROAD_FACTOR = 1.2


def basket_of_rows(
    rows: Mapping[str, Sequence[Row]],
    book: RateBook,
    starts: Sequence[Place],
    as_of: date,
    *,
    most: int | None = None,
) -> tuple[Asked, ...]:
    """Return transports that meet some rows of a book (by field of Tables), each named for its row. Equal ones are told once.

    Of many rows the first transport of each comes first, then the second of each, so that `most` leaves no row out early.
    """
    each = [maker(row, book, starts, as_of) for field, maker in MAKERS.items() for row in rows.get(field, ())]
    in_turn = (asked for turn in zip_longest(*each) for asked in turn if asked is not None)
    found: dict[object, Asked] = {}
    for asked in in_turn:
        found.setdefault((asked.request, asked.only), asked)
        if len(found) == most:
            break
    return tuple(found.values())


def _of_carrier(row: Carrier, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield a service by itself, since a dear one never wins: near and far, at its limits and above, to each of its areas."""
    start = somewhere_in(row.from_areas, book, starts[0])
    near, far = (somewhere_in(row.to_areas, book, zip_place_of(code)) for code in (NEAR, FAR))
    vehicle = taken_by(row.longest_mm, row.heaviest_grams)
    for ready in days_valid(row.valid_from, row.valid_to, as_of):
        yield by_itself(row, transport((vehicle,), start, near, ready, Wishes()))
        yield by_itself(row, transport((vehicle,), start, far, ready, Wishes()))
        for begin in starts[:2]:
            # Where its minimum counts.
            nearest = min(places_served(row, book), key=partial(great_circle_mi, begin), default=near)
            yield by_itself(row, transport((vehicle,), begin, nearest, ready, Wishes(), how="as near as it goes"))
        for later in range(1, _DAYS_OF_THE_WEEK):
            yield by_itself(row, transport((vehicle,), start, near, ready + timedelta(days=later), Wishes()))
        yield by_itself(row, transport((vehicle,), start, far, ready, Wishes(express=True), how="express"))
        yield by_itself(row, transport((vehicle,), start, far, ready, Wishes(lift_gate=True), how="with a lift gate"))
        for one, how in _at_the_limits(row, vehicle):
            yield by_itself(row, transport((one,), start, near, ready, Wishes(), how=how))
        for begin, end in _between_areas(row, book, start, near):
            yield by_itself(row, transport((vehicle,), begin, end, ready, Wishes()))


def _at_the_limits(row: Carrier, vehicle: Vehicle) -> Iterator[tuple[Vehicle, str]]:
    """Yield the vehicle at each limit of a service and a little above it, and with what does not work on it."""
    for field, limit in (
        ("length_mm", row.longest_mm),
        ("width_mm", row.widest_mm),
        ("height_mm", row.highest_mm),
        ("clearance_mm", row.lowest_clearance_mm),
        ("mass_grams", row.heaviest_grams),
        ("value_minor", row.cover_minor),
    ):
        for measure in (limit, limit + 1, limit - 1) if limit else ():
            changes: dict[str, Any] = {field: measure}
            yield replace(vehicle, **changes), f"{field.partition('_')[0]} at its limit"
    yield replace(vehicle, runs=False), "does not run"
    yield replace(vehicle, runs=False, rolls=False), "does not roll"


def _between_areas(row: Carrier, book: RateBook, start: Place, near: Place) -> Iterator[tuple[Place, Place]]:
    """Yield lanes from and to a place in each area of the book that the service may name."""
    for area in dict.fromkeys(area.area for area in book.areas):
        place = somewhere_in((area,), book, near)
        if place != start:
            yield start, place
        if place != near:
            yield place, near


def _of_band(row: MileBand, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield trips of the band's service that are about as long as the band asks for."""
    for carrier in _services(book, row.carrier, row.trailer):
        start = somewhere_in(carrier.from_areas, book, starts[0])
        wanted_mi = (row.from_mi + min(row.to_mi or row.from_mi + 400, row.from_mi + 400)) / 2 / _ROAD_FACTOR
        nearest = sorted(places_served(carrier, book), key=lambda to: abs(great_circle_mi(start, to) - wanted_mi))
        vehicle = taken_by(carrier.longest_mm, carrier.heaviest_grams)
        for ready in days_valid(carrier.valid_from, carrier.valid_to, as_of):
            for to in nearest[:2]:
                yield by_itself(carrier, transport((vehicle,), start, to, ready, Wishes()))


def _of_fuel(row: FuelScheme | FuelStep, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield one trip of each service that charges by the scheme."""
    for carrier in book.carriers:
        if (carrier.fuel_scheme or "").casefold() == row.scheme.casefold():
            yield from islice(_of_carrier(carrier, book, starts, as_of), 1)


def _of_diesel(row: DieselPrice, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield one trip of each service whose scheme goes by the region's price."""
    for scheme in book.fuel:
        if scheme.price_e4 is None and region_key(scheme.diesel_region) == row.key:
            yield from _of_fuel(scheme, book, starts, as_of)


def _of_size(row: VehicleSize, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield vehicles of the body whose sizes nobody knows, by each of its words; those of a light carrier, too."""
    for word in (row.body, *row.also):
        vehicle = Vehicle(stock_number="basket", model=word.capitalize(), body=word, value_minor=3_000_000)
        for start in starts[:2]:
            yield transport((vehicle,), start, far_from(start), as_of, Wishes(), how="sizes not known")


def _services(book: RateBook, carrier: str, trailer: str) -> tuple[Carrier, ...]:
    wanted = (carrier.casefold(), trailer)
    return tuple(row for row in book.carriers if (row.carrier.casefold(), row.trailer) == wanted)


def _of_area(row: Area, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield deliveries to places of the row and pickups there, and of each service that names the area."""
    for place in places_in(row, 3):
        yield transport((SALOON,), starts[0], place, as_of, Wishes(), how=f"area {row.area}")
        yield transport((SALOON,), place, zip_place_of(NEAR), as_of, Wishes(), how=f"from the area {row.area}")
        for service in book.carriers:
            if row.area.casefold() in (name.casefold() for name in (*service.to_areas, *service.from_areas)):
                begin = somewhere_in(service.from_areas, book, starts[0])
                yield by_itself(service, transport((SALOON,), begin, place, as_of, Wishes()))
                end = somewhere_in(service.to_areas, book, zip_place_of(NEAR))
                yield by_itself(service, transport((SALOON,), place, end, as_of, Wishes()))
        for season in book.seasons:
            if row.area in (season.from_area, season.to_area):
                begin, end = (place, zip_place_of(NEAR)) if row.area == season.from_area else (starts[0], place)
                begin = somewhere_in((season.from_area,), book, begin) if season.from_area and begin != place else begin
                ready = next_time(season.first_day, as_of) if season.every_year else max(season.first_day, as_of)
                yield transport((SALOON,), begin, end, ready, Wishes(), how=f"season {season.season}")


def _of_season(row: Season, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield a pickup on its first and its last day to come, from and to its areas, and a year after."""
    start = somewhere_in((row.from_area,) if row.from_area else (), book, starts[0])
    to = somewhere_in((row.to_area,) if row.to_area else (), book, far_from(start))
    for day in (row.first_day, row.last_day):
        first = next_time(day, as_of) if row.every_year else day
        # Whether it comes again is seen a year later.
        for ready in (first, next_time(day, first + timedelta(days=1))):
            if as_of <= ready <= as_of + timedelta(days=_SEASON_DAYS):
                yield transport((ROADSTER,), start, to, ready, Wishes(), how=f"season {row.season}")


def _of_ferry(row: Ferry, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield transports over the ferry, to the island and from it, of one vehicle and of two."""
    mainland, island = zip_place_of(row.from_zip), zip_place_of(row.to_zip)
    for start in starts[:2]:
        yield transport((ROADSTER,), start, island, as_of, Wishes(), how=f"by the {row.ferry}")
    yield transport(several(ROADSTER, 2), starts[0], island, as_of, Wishes(), how=f"two by the {row.ferry}")
    yield transport((ROADSTER,), mainland, island, as_of, Wishes(), how=f"from the terminal of the {row.ferry}")
    yield transport((ROADSTER,), island, starts[0], as_of, Wishes(), how=f"back by the {row.ferry}")


def _of_factor(row: RoadFactor, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield lanes between the two ends of the row: at home from one to the other, abroad from a yard to either."""
    begins, ends = ends_of_lane(row.from_place, HOME[0]), ends_of_lane(row.to_place, HOME[-1])
    for begin in begins:
        for end in ends:
            if begin.country == end.country == "US" and begin != end:
                yield transport((SALOON,), begin, end, as_of, Wishes(), how=f"from {begin.postal_code}")
    for place in dict.fromkeys((*begins, *ends)):
        if place.country != "US":
            yield transport((SALOON,), starts[0], place, as_of, Wishes(), how="abroad")
    # A row without a country on one side, or with two, may open a road over a border.
    if row.from_place != row.to_place:
        for country in dict.fromkeys(place.country for place in (*begins, *ends) if place.country != "US"):
            for place in towns_over_the_border(country, book):
                yield transport((SALOON,), starts[0], place, as_of, Wishes(), how=f"beside {country}")
    for edge in (row.over_mi, row.up_to_mi):
        for country in dict.fromkeys(place.country for place in ends if place.country != "US") if edge else ():
            for port, place in places_about(country, edge or 0.0, book):
                asked = transport(
                    (SALOON,), starts[0], place, as_of, Wishes(), how=f"about {edge:g} mi off {port.name}"
                )
                yield replace(asked, only=Only(port=port.port))


def _of_storage(row: Storage, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield a vehicle of the yard that is kept for one day beyond the free ones, and for some months."""
    vehicle = replace(ROADSTER, yard=row.yard or "")
    for ready in days_valid(row.valid_from, row.valid_to, as_of):
        for days in (row.free_days + 1, row.free_days + 100):
            wishes = Wishes(keep_until=ready + timedelta(days=days))
            yield transport((vehicle,), starts[0], zip_place_of(NEAR), ready, wishes, how=f"kept {days} days")


def _of_terminal(row: Terminal, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield a transport to a place near the terminal, whose choice it is."""
    place = zip_place_of(row.zip_code)
    near = replace(place, latitude=place.latitude + 0.3)
    for ready in days_valid(None, row.valid_to, as_of):
        yield transport((ROADSTER,), starts[0], near, ready, Wishes(terminal=True), how=f"to the {row.terminal}")


MAKERS: Makers = {
    "carriers": _of_carrier,
    "bands": _of_band,
    "extras": of_extra,
    "areas": _of_area,
    "seasons": _of_season,
    "diesel": _of_diesel,
    "fuel": _of_fuel,
    "fuel_steps": _of_fuel,
    "ferries": _of_ferry,
    "storage": _of_storage,
    "terminals": _of_terminal,
    "road_factors": _of_factor,
    "sizes": _of_size,
    "documents": of_paper,
    "tasks": of_paper,
    "from_buyer": of_paper,
    **OVERSEAS_MAKERS,
}
