"""What a row's conditions ask, as vehicles and wishes: some that meet them, and some that just miss one.

All is read from the declarations of the row's columns (`column(…, condition=Condition(…))`); a new condition needs nothing here
unless its fact is none of a vehicle's own fields.
"""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from datetime import date
from typing import Any

from shipcalc.compare.basket import LARGE, ROADSTER, SMALL
from shipcalc.ratebook.workbook.columns import Row, conditions_of
from shipcalc.ratebook.workbook.conditions import FACTS, Condition, How
from shipcalc.records import fields, replace
from shipcalc.trade import CROSSING_BY_MODE, OCEAN_MODES, TITLES, Ocean
from shipcalc.vehicles.vehicle import Vehicle

Changes = dict[str, Any]

# Old enough to be a collector's piece wherever customs have such.
_AN_OLD_YEAR = 1930
_WISHED = ("lift_gate", "limited_access", "express", "trailer", "cover")
_OWN = frozenset(field.name for field in fields(Vehicle))
# What a vehicle must be for a fact that is worked out. An age counts by model year: it may be a year more on arrival.
_WORKED_OUT: Mapping[str, Callable[[Any, date], Changes]] = {
    "age_years": lambda age, day: {"year": day.year - age},
    "battery": lambda is_so, _: {"fuel": "electric" if is_so else ""},
    "motorcycle": lambda is_so, _: {"body": "motorcycle" if is_so else ""},
    "treatment": lambda _, __: {"year": _AN_OLD_YEAR, "original_state": True},
}
_FAR_APART: Mapping[str, tuple[Any, ...]] = {
    "title": TITLES,
    "value_minor": (100_000_000, 100_000),
    "age_years": (2, 90),
}
_OF_VEHICLES = _OWN | _WORKED_OUT.keys()
# By how a cell asks: what meets it, whether a shipment arrives this year or the next; and what lies at its edge.
_MEETS: Mapping[How, Callable[[Any], Any]] = {
    "is": lambda cell: cell,
    "one of": lambda cells: cells[0],
    "has a word of": lambda words: words[0],
    "over": lambda edge: edge + 1,
    "up to": lambda edge: edge,
    "from": lambda edge: edge + 1,
    "under": lambda edge: edge - 2,
}
_AT_THE_EDGE: Mapping[How, Callable[[Any], tuple[Any, ...]]] = {
    "none of": lambda cells: cells[:1],
    "has no word of": lambda words: words[:1],
    "over": lambda edge: (edge, edge + 1),
    "up to": lambda edge: (edge + 1, edge),
    "from": lambda edge: (edge + 1, edge, edge - 1, edge - 2),
    "under": lambda edge: (edge + 1, edge, edge - 1, edge - 2),
}


def vehicle_for(row: Row, day: date, beside: Vehicle = ROADSTER) -> Vehicle:
    """Return the vehicle, changed so that it meets the row's conditions."""
    changes: Changes = {}
    for condition, cell in _asked(row, _OF_VEHICLES):
        if condition.how in _MEETS:
            changes |= _as_vehicle(condition.fact, _MEETS[condition.how](cell), day)
    return replace(beside, **changes)


def at_the_edges(row: Row, vehicle: Vehicle, day: date) -> Iterator[Vehicle]:
    """Yield the vehicle at each edge of what the row's cells ask, and just beside it."""
    for condition, cell in _asked(row, _OF_VEHICLES):
        for told in _AT_THE_EDGE.get(condition.how, lambda _: ())(cell):
            yield replace(vehicle, **_as_vehicle(condition.fact, told, day))


def otherwise(row: Row, vehicle: Vehicle, day: date) -> Iterator[Vehicle]:
    """Yield the vehicle with one thing otherwise that the row's sheet may ask for: the other answer, unknown, large and small."""
    asked = [fact for fact in _facts_of(row) if fact in _OF_VEHICLES]
    for fact in asked:
        now = getattr(vehicle, fact, bool(vehicle.fuel) if fact == "battery" else None)
        if isinstance(now, bool):
            yield replace(vehicle, **_as_vehicle(fact, not now, day))
    if "length_mm" in asked:
        yield from (LARGE, SMALL)
    unknown: Changes = {fact: None for fact in asked if fact in _OWN and FACTS[fact].may_be_unknown}
    yield replace(vehicle, **unknown)
    for fact, answers in _FAR_APART.items():
        yield from (replace(vehicle, **_as_vehicle(fact, told, day)) for told in answers if fact in asked)


def wishes_for(row: Row) -> Changes:
    """Return the wishes that meet the row's conditions, by the fields of Wishes."""
    asked = {condition.fact: cell for condition, cell in _asked(row, (*_WISHED, "mode"))}
    wishes: Changes = {fact: asked[fact] for fact in _WISHED if fact in asked}
    return wishes | ({"ocean": ocean_of(asked["mode"])} if asked.get("mode") in OCEAN_MODES else {})


def wished_otherwise(row: Row, wishes: Changes) -> Iterator[Changes]:
    """Yield the wishes with one otherwise that the row's sheet may ask for."""
    for fact in _facts_of(row):
        if fact == "trailer":
            yield from (wishes | {"trailer": trailer} for trailer in ("open", "enclosed"))
        elif fact in _WISHED and not FACTS[fact].may_be_unknown and fact != "cover":
            yield wishes | {fact: not wishes.get(fact, False)}


def ocean_of(mode: str) -> Ocean | None:
    """Return the wish for the ships of a mode."""
    return CROSSING_BY_MODE[mode].ocean


def _facts_of(row: Row) -> Iterable[str]:
    return dict.fromkeys(condition.fact for _, condition in conditions_of(type(row)))


def _asked(row: Row, facts: Collection[str]) -> Iterator[tuple[Condition, Any]]:
    """Yield what the row's cells ask of some facts, each with its cell; those that are blank ask nothing."""
    for name, condition in conditions_of(type(row)):
        cell = getattr(row, name)
        if condition.fact in facts and cell not in (None, (), ""):
            yield condition, cell


def _as_vehicle(fact: str, told: Any, day: date) -> Changes:
    return _WORKED_OUT[fact](told, day) if fact in _WORKED_OUT else {fact: told}
