"""Transports that rows of the sheet Extra charges ask for."""

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any, cast

from shipcalc.compare.basket import LARGE, ROADSTER, SMALL, Asked, places_at_home, several, transport
from shipcalc.compare.basket_places import by_itself, days_valid, far_from, somewhere_in
from shipcalc.places.place import Place
from shipcalc.places.straight import great_circle_mi
from shipcalc.pricing.extras import is_charged_by
from shipcalc.quote.model import Wishes
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.extra_charges import ExtraCharge
from shipcalc.ratebook.workbook.columns import conditions_of
from shipcalc.ratebook.workbook.conditions import FACTS, How
from shipcalc.records import replace
from shipcalc.trade import Trailer
from shipcalc.vehicles.vehicle import Vehicle

_NEXT_DOOR_MI = 200
_VEHICLE_FACTS = tuple(
    dict.fromkeys(asked.fact for _, asked in conditions_of(ExtraCharge) if FACTS[asked.fact].about == "vehicle")
)


def of_extra(row: ExtraCharge, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield a vehicle and wishes that meet the row's conditions, and some that miss one of them each."""
    vehicle, wishes = _meeting(row)
    count = min((row.vehicles_over or 0) + 1, 20)
    carriers = [one for one in book.carriers if is_charged_by(row, one)]
    for ready in days_valid(row.valid_from, row.valid_to, as_of):
        for start in starts[:2]:
            yield transport(
                several(vehicle, count), start, far_from(start), ready, wishes, how=f"extra charge {row.code}"
            )
        for one, told in _missing_one(vehicle, wishes):
            yield transport(several(one, count), starts[0], far_from(starts[0]), ready, told, how=f"beside {row.code}")
        for size in {1, 2, count - 1} - {0, count}:
            yield transport(
                several(vehicle, size), starts[0], far_from(starts[0]), ready, wishes, how=f"beside {row.code}"
            )
        for service in carriers if row.carrier else carriers[:3]:
            start = somewhere_in(service.from_areas, book, starts[0])
            to = somewhere_in(service.to_areas, book, far_from(start))
            yield by_itself(service, transport(several(vehicle, count), start, to, ready, wishes))
            for one in _beside_the_edges(row, vehicle):
                yield by_itself(service, transport((one,), start, to, ready, wishes, how=f"beside {row.code}"))
        yield transport(
            several(vehicle, count), starts[0], _next_door(starts[0]), ready, wishes, how=f"near, {row.code}"
        )


def _meeting(row: ExtraCharge) -> tuple[Vehicle, Wishes]:
    """Return a vehicle that meets the row's conditions, and the wishes that do."""
    changes: dict[str, Any] = {}
    for fact, how, cell in _asked_of_vehicles(row):
        changes[fact] = cell + 1 if how == "over" else cell
    if row.of in ("value", "value above cover"):
        changes.setdefault("value_minor", 200_000_000)
    wishes = Wishes(
        trailer=cast("Trailer | None", row.trailer),
        lift_gate=bool(row.lift_gate),
        limited_access=bool(row.limited_access),
        express=bool(row.express),
    )
    return replace(ROADSTER, **changes), wishes


def _beside_the_edges(row: ExtraCharge, vehicle: Vehicle) -> Iterator[Vehicle]:
    """Yield the vehicle with each measure that the row asks for just too small, or just too large."""
    for fact, how, cell in _asked_of_vehicles(row):
        if how != "is":
            changes: dict[str, Any] = {fact: cell + 1 if how == "up to" else cell}
            yield replace(vehicle, **changes)


def _missing_one(vehicle: Vehicle, wishes: Wishes) -> Iterator[tuple[Vehicle, Wishes]]:
    """Yield the same with one thing otherwise: what works, what is wished, the kind of trailer, a larger or smaller size."""
    for state in (fact for fact in _VEHICLE_FACTS if not FACTS[fact].may_be_unknown):
        changes: dict[str, Any] = {state: not getattr(vehicle, state)}
        yield replace(vehicle, **changes), wishes
    for wish in ("lift_gate", "limited_access", "express"):
        told: dict[str, Any] = {wish: not getattr(wishes, wish)}
        yield vehicle, replace(wishes, **told)
    for trailer in ("open", "enclosed"):
        yield vehicle, replace(wishes, trailer=trailer)
    yield LARGE, wishes
    yield SMALL, wishes
    unknown: dict[str, Any] = {fact: None for fact in _VEHICLE_FACTS if FACTS[fact].may_be_unknown}
    yield replace(vehicle, **unknown), wishes


def _asked_of_vehicles(row: ExtraCharge) -> Iterator[tuple[str, How, Any]]:
    """Yield the facts about the vehicle that the row asks for, how it asks, and its cell; over before up to."""
    for name, condition in conditions_of(ExtraCharge):
        cell = getattr(row, name)
        if condition.fact in _VEHICLE_FACTS and cell is not None:
            yield condition.fact, condition.how, cell


def _next_door(start: Place) -> Place:
    """Return a place a few hundred miles away at the most."""
    return min(places_at_home(), key=lambda place: abs(great_circle_mi(start, place) - _NEXT_DOOR_MI))
