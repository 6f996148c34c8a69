"""Transports that single rows of a rate book ask for: a row is only known to do nothing once something has met its conditions."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from itertools import islice
from typing import cast

from shipcalc.places.place import Place
from shipcalc.places.straight import great_circle_mi
from shipcalc.quote.basket import HOME, ROADSTER, SALOON, Asked, transport
from shipcalc.quote.basket_overseas import OVERSEAS_MAKERS, Makers
from shipcalc.quote.basket_places import (
    FAR,
    NEAR,
    city_of,
    days_valid,
    end_of_lane,
    far_from,
    next_time,
    place_in,
    places_served,
    somewhere_in,
    taken_by,
    zip_place_of,
)
from shipcalc.quote.model import Trailer, Wishes
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.columns import Row
from shipcalc.ratebook.paperwork_rows import DocumentRow, TaskRow
from shipcalc.ratebook.trucking_rows import (
    Area,
    Carrier,
    ExtraCharge,
    FuelScheme,
    MileBand,
    RoadFactor,
    Season,
    VehicleSize,
)
from shipcalc.vehicles.vehicle import TitleKind, Vehicle

_MEASURES = (
    ("length", "mm"),
    ("width", "mm"),
    ("height", "mm"),
    ("clearance", "mm"),
    ("mass", "grams"),
    ("value", "minor"),
)
_STATES = ("runs", "rolls", "steers", "brakes", "modified")
_SEASON_DAYS = 366
_ROAD_FACTOR = 1.2


def basket_of_rows(
    rows: Mapping[str, Sequence[Row]], book: RateBook, starts: Sequence[Place], as_of: date
) -> tuple[Asked, ...]:
    """Return transports that meet some rows of a book (by field of Tables), each named for its row. Equal ones are told once."""
    found = [
        asked
        for field, makers in MAKERS.items()
        for row in rows.get(field, ())
        for asked in makers(row, book, starts, as_of)
    ]
    return tuple({(asked.request, asked.only): asked for asked in reversed(found)}.values())[::-1]


def _of_carrier(row: Carrier, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield lanes where a service goes and a vehicle it takes, looked at by itself: a dear service never wins."""
    start = somewhere_in(row.from_areas, book, starts[0])
    vehicle = taken_by(row.longest_mm, row.heaviest_grams)
    for ready in days_valid(row.valid_from, row.valid_to, as_of):
        for code, wishes in ((NEAR, Wishes()), (FAR, Wishes()), (FAR, Wishes(express=True))):
            to = somewhere_in(row.to_areas, book, zip_place_of(code))
            yield _by_itself(row, transport((vehicle,), start, to, ready, wishes))


def _of_band(row: MileBand, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield trips of the band's service that are about as long as the band asks for."""
    for carrier in _services(book, row.carrier, row.trailer):
        start = somewhere_in(carrier.from_areas, book, starts[0])
        wanted_mi = (row.from_mi + min(row.to_mi or row.from_mi + 400, row.from_mi + 400)) / 2 / _ROAD_FACTOR
        nearest = sorted(places_served(carrier, book), key=lambda to: abs(great_circle_mi(start, to) - wanted_mi))
        vehicle = taken_by(carrier.longest_mm, carrier.heaviest_grams)
        for ready in days_valid(carrier.valid_from, carrier.valid_to, as_of):
            for to in nearest[:2]:
                yield _by_itself(carrier, transport((vehicle,), start, to, ready, Wishes()))


def _of_fuel(row: FuelScheme, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield one trip of each service that charges by the scheme."""
    for carrier in book.carriers:
        if (carrier.fuel_scheme or "").casefold() == row.scheme.casefold():
            yield from islice(_of_carrier(carrier, book, starts, as_of), 1)


def _of_size(row: VehicleSize, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield vehicles of the body whose sizes nobody knows."""
    for word in (row.body, *row.also[:1]):
        vehicle = Vehicle(stock_number="basket", model=word.capitalize(), body=word, value_minor=3_000_000)
        for start in starts[:2]:
            yield transport((vehicle,), start, far_from(start), as_of, Wishes(), how="sizes not known")


def _by_itself(row: Carrier, asked: Asked) -> Asked:
    return replace(asked, name=f"{asked.name}, by {row.carrier}, {row.trailer}", only=(row.carrier, row.trailer))


def _services(book: RateBook, carrier: str, trailer: str) -> tuple[Carrier, ...]:
    wanted = (carrier.casefold(), trailer)
    return tuple(row for row in book.carriers if (row.carrier.casefold(), row.trailer) == wanted)


def _of_extra(row: ExtraCharge, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield a vehicle and wishes that the row's conditions ask for."""
    changes: dict[str, object] = {state: wanted for state in _STATES if (wanted := getattr(row, state)) is not None}
    for stem, unit in _MEASURES:
        over, up_to = getattr(row, f"{stem}_over_{unit}"), getattr(row, f"{stem}_up_to_{unit}")
        if up_to is not None:
            changes[f"{stem}_{unit}"] = up_to
        elif over is not None:
            changes[f"{stem}_{unit}"] = over + max(1, over // 20)
    if row.of in ("value", "value above cover"):
        changes.setdefault("value_minor", 200_000_000)
    vehicle = replace(ROADSTER, **changes)  # type: ignore[arg-type]
    count = (row.vehicles_over or 0) + 1
    vehicles = [replace(vehicle, stock_number=f"basket {n}" if n else "basket") for n in range(min(count, 20))]
    wishes = Wishes(
        trailer=cast("Trailer | None", row.trailer),
        lift_gate=bool(row.lift_gate),
        limited_access=bool(row.limited_access),
        express=bool(row.express),
    )
    for ready in days_valid(row.valid_from, row.valid_to, as_of):
        for start in starts[:2]:
            yield transport(vehicles, start, far_from(start), ready, wishes, how=f"extra charge {row.code}")


def _of_area(row: Area, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield a delivery to a place of the row, and a pickup there where it charges for one."""
    place = place_in(row)
    if place is None:
        return
    if row.applies_at in (None, "delivery", "both"):
        yield transport((SALOON,), starts[0], place, as_of, Wishes(), how=f"area {row.area}")
    if row.applies_at in ("pickup", "both"):
        yield transport((SALOON,), place, zip_place_of(NEAR), as_of, Wishes(), how=f"from the area {row.area}")


def _of_season(row: Season, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield a pickup on its first and its last day to come, from and to its areas."""
    start = somewhere_in((row.from_area,) if row.from_area else (), book, starts[0])
    to = somewhere_in((row.to_area,) if row.to_area else (), book, far_from(start))
    for day in (row.first_day, row.last_day):
        ready = next_time(day, as_of) if row.every_year else day
        if as_of <= ready <= as_of + timedelta(days=_SEASON_DAYS):
            yield transport((ROADSTER,), start, to, ready, Wishes(), how=f"season {row.season}")


def _of_factor(row: RoadFactor, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield a lane between the two ends of the row, at home."""
    start, to = end_of_lane(row.from_place, HOME[0]), end_of_lane(row.to_place, HOME[-1])
    if start is not None and to is not None and start != to:
        how = f"from {start.postal_code}"
        yield transport((SALOON,), start, to, as_of, Wishes(), how=how)


def _of_paper(row: DocumentRow | TaskRow, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield a shipment that needs the paper or the task, as far as vehicle and wishes decide it."""
    changes: dict[str, object] = {}
    if row.title:
        changes["title"] = cast("TitleKind", row.title[0])
    if row.runs is not None:
        changes["runs"] = row.runs
    if row.value_over_minor is not None:
        changes["value_minor"] = row.value_over_minor + 1
    if row.age_from is not None:
        changes["year"] = as_of.year - row.age_from - 1
    if row.age_under is not None:
        changes["year"] = as_of.year - row.age_under + 2
    if row.battery:
        changes["fuel"] = "electric"
    vehicle = replace(ROADSTER, **changes)  # type: ignore[arg-type]
    wishes = Wishes(
        trailer=cast("Trailer | None", row.trailer),
        lift_gate=bool(row.lift_gate),
        term=row.term[0] if row.term and row.overseas else None,
    )
    targets = [city_of(code) for code in row.to_country[:2]] if row.to_country else [zip_place_of(NEAR)]
    if row.overseas and not row.to_country:
        targets = [city_of("DE"), city_of("JP")]
    for to in targets:
        if to is not None:
            yield transport((vehicle,), starts[0], to, as_of, wishes, how=f"paper or task {row.code}")


MAKERS: Makers = {
    "carriers": _of_carrier,
    "bands": _of_band,
    "extras": _of_extra,
    "areas": _of_area,
    "seasons": _of_season,
    "fuel": _of_fuel,
    "road_factors": _of_factor,
    "sizes": _of_size,
    "documents": _of_paper,
    "tasks": _of_paper,
    **OVERSEAS_MAKERS,
}
