"""Transports that single rows of a rate book ask for: a row is only known to do nothing once something has met its conditions."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta
from functools import partial
from itertools import islice, zip_longest
from typing import Any

from shipcalc.compare.basket import HOME, ROADSTER, SALOON, Asked, Only, places_at_home, several, zip_place_of
from shipcalc.compare.basket_lanes import of_lane
from shipcalc.compare.basket_last_leg import places_about, towns_over_the_border
from shipcalc.compare.basket_overseas import OVERSEAS_MAKERS, Makers
from shipcalc.compare.basket_papers import of_paper
from shipcalc.compare.conditions import at_the_edges, otherwise, vehicle_for, wished_otherwise, wishes_for
from shipcalc.compare.trial import (
    FAR,
    NEAR,
    Trial,
    cities_of,
    days_of,
    ends_of_lane,
    far_from,
    next_time,
    places_in,
    taken_by,
    towns_of,
)
from shipcalc.places.place import Place
from shipcalc.places.straight import great_circle_mi
from shipcalc.pricing.extras import is_charged_by
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.areas import Area, Season
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.diesel import DieselPrice, region_key
from shipcalc.ratebook.rows.extra_charges import ExtraCharge
from shipcalc.ratebook.rows.ferries import Ferry
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.ratebook.rows.fuel_steps import FuelStep
from shipcalc.ratebook.rows.markups import MarkupRow
from shipcalc.ratebook.rows.mile_bands import MileBand
from shipcalc.ratebook.rows.occasions import Occasion
from shipcalc.ratebook.rows.pricing_setting import PricingSetting
from shipcalc.ratebook.rows.road_factors import RoadFactor
from shipcalc.ratebook.rows.service_classes import ServiceClass
from shipcalc.ratebook.rows.vehicle_sizes import VehicleSize
from shipcalc.ratebook.rows.vehicles_loaded import VehiclesLoaded
from shipcalc.ratebook.rows.yards import Storage, Terminal
from shipcalc.ratebook.workbook.columns import Row
from shipcalc.records import replace
from shipcalc.vehicles.vehicle import Vehicle

_SEASON_DAYS = 2 * 366
# Windows that end at a weekend come to the same whether they are a day longer or not.
_DAYS_OF_THE_WEEK = 7
_ROAD_FACTOR = 1.2
_NEXT_DOOR_MI = 200
_ABOVE_ANY_COVER_MINOR = 200_000_000


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
    each = [
        maker(row, Trial(book, starts, day))
        for field, maker in MAKERS.items()
        for row in rows.get(field, ())
        for day in days_of(row, as_of)
    ]
    in_turn = (asked for turn in zip_longest(*each) for asked in turn if asked is not None)
    found: dict[object, Asked] = {}
    for asked in in_turn:
        found.setdefault((asked.request, asked.only), asked)
        if len(found) == most:
            break
    return tuple(found.values())


def _of_carrier(row: Carrier, trial: Trial) -> Iterator[Asked]:
    """Yield a service by itself, since a dear one never wins: near and far, at its limits and above, to each of its areas."""
    start = trial.somewhere_in(row.from_areas, trial.starts[0])
    near, far = (trial.somewhere_in(row.to_areas, zip_place_of(code)) for code in (NEAR, FAR))
    vehicle = taken_by(row)
    for ready in trial.days_valid(row):
        one = partial(trial.asked, by=row, start=start, ready=ready)
        yield one(near, vehicle)
        yield one(far, vehicle)
        for begin in trial.starts[:2]:
            # Where its minimum counts.
            nearest = min(trial.places_served(row), key=partial(great_circle_mi, begin), default=near)
            yield one(nearest, vehicle, start=begin, how="as near as it goes")
        for later in range(1, _DAYS_OF_THE_WEEK):
            yield one(near, vehicle, ready=ready + timedelta(days=later))
        yield one(far, vehicle, how="express", express=True)
        yield one(far, vehicle, how="with a lift gate", lift_gate=True)
        for other, how in _at_the_limits(row, vehicle):
            yield one(near, other, how=how)
        for area in dict.fromkeys(area.area for area in trial.book.areas):
            place = trial.somewhere_in((area,), near)
            if place != start:
                yield one(place, vehicle)
            if place != near:
                yield one(near, vehicle, start=place)


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


def _of_band(row: MileBand, trial: Trial) -> Iterator[Asked]:
    """Yield trips of the band's service that are about as long as the band asks for."""
    wanted_mi = (row.from_mi + min(row.to_mi or row.from_mi + 400, row.from_mi + 400)) / 2 / _ROAD_FACTOR
    for carrier in trial.book.carriers:
        if (carrier.carrier.casefold(), carrier.trailer) == (row.carrier.casefold(), row.trailer):
            start = trial.somewhere_in(carrier.from_areas, trial.starts[0])
            about = sorted(trial.places_served(carrier), key=lambda to: abs(great_circle_mi(start, to) - wanted_mi))
            for ready in trial.days_valid(carrier):
                for to in about[:2]:
                    yield trial.asked(to, taken_by(carrier), start=start, ready=ready, by=carrier)


def _of_fuel(row: FuelScheme | FuelStep, trial: Trial) -> Iterator[Asked]:
    """Yield one trip of each service that charges by the scheme."""
    for carrier in trial.book.carriers:
        if (carrier.fuel_scheme or "").casefold() == row.scheme.casefold():
            yield from islice(_of_carrier(carrier, trial), 1)


def _of_loaded(row: VehiclesLoaded, trial: Trial) -> Iterator[Asked]:
    """Yield so many vehicles on one truck of the carrier, and one fewer."""
    for carrier in trial.book.carriers:
        meant = row.carrier is None or carrier.carrier.casefold() == row.carrier.casefold()
        if meant and row.trailer in (None, carrier.trailer):
            start = trial.somewhere_in(carrier.from_areas, trial.starts[0])
            to = trial.somewhere_in(carrier.to_areas, far_from(start))
            for ready in trial.days_valid(row):
                for count in (row.vehicles, row.vehicles - 1, row.vehicles + 1):
                    vehicles = several(taken_by(carrier), max(count, 1))
                    yield trial.asked(to, vehicles, start=start, ready=ready, by=carrier, how=f"{count} loaded")


def _of_occasion(row: Occasion, trial: Trial) -> Iterator[Asked]:
    """Yield one transport of each carrier that asks it: what is told of its price."""
    for carrier in trial.book.carriers:
        meant = row.carrier is None or carrier.carrier.casefold() == row.carrier.casefold()
        if meant and row.trailer in (None, carrier.trailer):
            start = trial.somewhere_in(carrier.from_areas, trial.starts[0])
            for ready in trial.days_valid(row):
                to = trial.somewhere_in(carrier.to_areas, far_from(start))
                yield trial.asked(to, taken_by(carrier), start=start, ready=ready, by=carrier, how=row.name)


def _of_class(row: ServiceClass, trial: Trial) -> Iterator[Asked]:
    """Yield transports of the carrier by itself: its class stands beside its ordinary service then."""
    for carrier in trial.book.carriers:
        if carrier.carrier.casefold() == row.carrier.casefold() and row.trailer in (None, carrier.trailer):
            start = trial.somewhere_in(carrier.from_areas, trial.starts[0])
            for ready in trial.days_valid(row):
                for aim in (zip_place_of(NEAR), far_from(start)):
                    to = trial.somewhere_in(carrier.to_areas, aim)
                    yield trial.asked(to, taken_by(carrier), start=start, ready=ready, by=carrier, how=row.name)


def _of_markup(row: MarkupRow, trial: Trial) -> Iterator[Asked]:
    """Yield transports of the carrier, to the country and for the kind of buyer that a row names, as far as it does: near and far
    by truck, with a lift gate, and by ship where its markups at sea are for all carriers.
    """
    wishes: dict[str, Any] = {"buyer_is": row.buyer} if row.buyer else {}
    how = "for another kind of buyer" if row.buyer else "another markup"
    country = (row.country or "").upper()
    towns = towns_of(country)[:1] if country not in ("US", "") else ()
    for carrier in trial.book.carriers:
        if row.carrier is None or carrier.carrier.casefold() == row.carrier.casefold():
            start = trial.somewhere_in(carrier.from_areas, trial.starts[0])
            nearest = min(trial.places_served(carrier), key=partial(great_circle_mi, start), default=start)
            one, vehicle = partial(trial.asked, start=start, by=carrier, how=how), taken_by(carrier)
            for to in towns or (trial.somewhere_in(carrier.to_areas, zip_place_of(NEAR)), far_from(start), nearest):
                yield one(to, vehicle, **wishes)
                yield one(to, vehicle, lift_gate=True, **wishes)
            if row.carrier is None:
                break
    if row.carrier is None and country != "US":
        for to in towns or cities_of("DE"):
            for ocean in ("roro", "container"):
                yield trial.asked(to, how=f"{how}, {ocean}", released=True, ocean=ocean, **wishes)


def _of_setting(row: PricingSetting, trial: Trial) -> Iterator[Asked]:
    """Yield transports on the first and the last day of a setting that changes, at home and by ship."""
    if row.valid_from is None and row.valid_to is None:
        return
    for ready in dict.fromkeys((*trial.days_valid(row), trial.day)):
        for to in (zip_place_of(NEAR), zip_place_of(FAR)):
            yield trial.asked(to, ready=ready, lift_gate=True, how=f"{row.setting}, ready on {ready}")
        for ocean in ("roro", "container"):
            how = f"{row.setting}, {ocean}, ready on {ready}"
            yield trial.asked(cities_of("DE")[0], ready=ready, how=how, ocean=ocean)


def _of_diesel(row: DieselPrice, trial: Trial) -> Iterator[Asked]:
    """Yield one trip of each service whose scheme goes by the region's price."""
    for scheme in trial.book.fuel:
        if scheme.price_e4 is None and region_key(scheme.diesel_region) == row.key:
            yield from _of_fuel(scheme, trial)


def _of_extra(row: ExtraCharge, trial: Trial) -> Iterator[Asked]:
    """Yield a vehicle and wishes that meet the row's conditions, and some that miss one of them each."""
    above = row.of in ("value", "value above cover")
    dear = replace(ROADSTER, value_minor=_ABOVE_ANY_COVER_MINOR) if above else ROADSTER
    vehicle, wishes = vehicle_for(row, trial.day, dear), wishes_for(row)
    count = min((row.vehicles_over or 0) + 1, 20)
    met, beside, far = f"extra charge {row.code}", f"beside {row.code}", far_from(trial.starts[0])
    carriers = [one for one in trial.book.carriers if is_charged_by(row, one)]
    for ready in trial.days_valid(row):
        for start in trial.starts[:2]:
            yield trial.asked(far_from(start), several(vehicle, count), start=start, ready=ready, how=met, **wishes)
        for other in otherwise(row, vehicle, trial.day):
            yield trial.asked(far, several(other, count), ready=ready, how=beside, **wishes)
        for told in wished_otherwise(row, wishes):
            yield trial.asked(far, several(vehicle, count), ready=ready, how=beside, **told)
        for size in {1, 2, count - 1} - {0, count}:
            yield trial.asked(far, several(vehicle, size), ready=ready, how=beside, **wishes)
        for service in carriers if row.carrier else carriers[:3]:
            start = trial.somewhere_in(service.from_areas, trial.starts[0])
            one = partial(trial.asked, start=start, ready=ready, by=service)
            to = trial.somewhere_in(service.to_areas, far_from(start))
            yield one(to, several(vehicle, count), **wishes)
            for edge in at_the_edges(row, vehicle, trial.day):
                yield one(to, edge, how=beside, **wishes)
        next_door = min(places_at_home(), key=lambda to: abs(great_circle_mi(trial.starts[0], to) - _NEXT_DOOR_MI))
        yield trial.asked(next_door, several(vehicle, count), ready=ready, how=f"near, {row.code}", **wishes)


def _of_size(row: VehicleSize, trial: Trial) -> Iterator[Asked]:
    """Yield vehicles of the body whose sizes nobody knows, by each of its words; those of a light carrier, too."""
    for word in (row.body, *row.also):
        vehicle = Vehicle(stock_number="basket", model=word.capitalize(), body=word, value_minor=3_000_000)
        for start in trial.starts[:2]:
            yield trial.asked(far_from(start), vehicle, start=start, how="sizes not known")


def _of_area(row: Area, trial: Trial) -> Iterator[Asked]:
    """Yield deliveries to places of the row and pickups there, and of each service that names the area."""
    near = zip_place_of(NEAR)
    for place in places_in(row, 3):
        yield trial.asked(place, SALOON, how=f"area {row.area}")
        yield trial.asked(near, SALOON, start=place, how=f"from the area {row.area}")
        for service in trial.book.carriers:
            if row.area.casefold() in (name.casefold() for name in (*service.to_areas, *service.from_areas)):
                start = trial.somewhere_in(service.from_areas, trial.starts[0])
                yield trial.asked(place, SALOON, start=start, by=service)
                yield trial.asked(trial.somewhere_in(service.to_areas, near), SALOON, start=place, by=service)
        for season in trial.book.seasons:
            if row.area in (season.from_area, season.to_area):
                start = (
                    place if row.area == season.from_area else trial.somewhere_in((season.from_area,), trial.starts[0])
                )
                end = near if row.area == season.from_area else place
                first = season.first_day
                ready = next_time(first, trial.day) if season.every_year else max(first, trial.day)
                yield trial.asked(end, SALOON, start=start, ready=ready, how=f"season {season.season}")


def _of_season(row: Season, trial: Trial) -> Iterator[Asked]:
    """Yield a pickup on its first and its last day to come, from and to its areas, and a year after."""
    start = trial.somewhere_in((row.from_area,), trial.starts[0])
    to = trial.somewhere_in((row.to_area,), far_from(start))
    for day in (row.first_day, row.last_day):
        first = next_time(day, trial.day) if row.every_year else day
        # Whether it comes again is seen a year later.
        for ready in (first, next_time(day, first + timedelta(days=1))):
            if trial.day <= ready <= trial.day + timedelta(days=_SEASON_DAYS):
                yield trial.asked(to, start=start, ready=ready, how=f"season {row.season}")


def _of_ferry(row: Ferry, trial: Trial) -> Iterator[Asked]:
    """Yield transports over the ferry, to the island and from it, of one vehicle and of two; a carrier's own fare by it alone."""
    mainland, island = zip_place_of(row.from_zip), zip_place_of(row.to_zip)
    if row.carrier:
        for service in trial.book.carriers:
            if service.carrier.casefold() == row.carrier.casefold():
                for start in (*trial.starts[:2], mainland):
                    yield trial.asked(island, taken_by(service), start=start, by=service, how=f"by the {row.ferry}")
        return
    for start in trial.starts[:2]:
        yield trial.asked(island, start=start, how=f"by the {row.ferry}")
    yield trial.asked(island, several(ROADSTER, 2), how=f"two by the {row.ferry}")
    yield trial.asked(island, start=mainland, how=f"from the terminal of the {row.ferry}")
    yield trial.asked(trial.starts[0], start=island, how=f"back by the {row.ferry}")


def _of_factor(row: RoadFactor, trial: Trial) -> Iterator[Asked]:
    """Yield lanes between the two ends of the row: at home from one to the other, abroad from a yard to either."""
    begins, ends = ends_of_lane(row.from_place, HOME[0]), ends_of_lane(row.to_place, HOME[-1])
    for begin in begins:
        for end in ends:
            if begin.country == end.country == "US" and begin != end:
                yield trial.asked(end, SALOON, start=begin, how=f"from {begin.postal_code}")
    for place in dict.fromkeys((*begins, *ends)):
        if place.country != "US":
            yield trial.asked(place, SALOON, how="abroad")
    # A row without a country on one side, or with two, may open a road over a border.
    if row.from_place != row.to_place:
        for country in dict.fromkeys(place.country for place in (*begins, *ends) if place.country != "US"):
            for place in towns_over_the_border(country, trial.book):
                yield trial.asked(place, SALOON, how=f"beside {country}")
    for edge in (row.over_mi, row.up_to_mi):
        for country in dict.fromkeys(place.country for place in ends if place.country != "US") if edge else ():
            for port, place in places_about(country, edge or 0.0, trial.book):
                how = f"about {edge:g} mi off {port.name}"
                yield trial.asked(place, SALOON, how=how, only=Only(port=port.port))


def _of_storage(row: Storage, trial: Trial) -> Iterator[Asked]:
    """Yield a vehicle of the yard that is kept for one day beyond the free ones, and for some months."""
    for ready in trial.days_valid(row):
        for days in (row.free_days + 1, row.free_days + 100):
            kept = ready + timedelta(days=days)
            vehicle = vehicle_for(row, trial.day)
            yield trial.asked(zip_place_of(NEAR), vehicle, ready=ready, how=f"kept {days} days", keep_until=kept)


def _of_terminal(row: Terminal, trial: Trial) -> Iterator[Asked]:
    """Yield a transport to a place near the terminal, whose choice it is."""
    place = zip_place_of(row.zip_code)
    near = replace(place, latitude=place.latitude + 0.3)
    for ready in trial.days_valid(row):
        yield trial.asked(near, ready=ready, how=f"to the {row.terminal}", terminal=True)


MAKERS: Makers = {
    "carriers": _of_carrier,
    "bands": _of_band,
    "lanes": of_lane,
    "extras": _of_extra,
    "areas": _of_area,
    "seasons": _of_season,
    "loaded": _of_loaded,
    "occasions": _of_occasion,
    "classes": _of_class,
    "markups": _of_markup,
    "settings": _of_setting,
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
