"""The order that asks for a kept quote again: its request in the words that somebody would type."""

from datetime import date
from typing import Any

from shipcalc.actions.place import name_of
from shipcalc.measures import grams_to_pounds, mm_to_inches
from shipcalc.money import to_decimal
from shipcalc.places.place import Place
from shipcalc.quote.model import SpotPrice
from shipcalc.quote.request import Request
from shipcalc.settings import Settings
from shipcalc.vehicles.vehicle import AS_DESCRIBED, Vehicle, what_fails

_SIDES = ("length_mm", "width_mm", "height_mm")


def order_of(request: Request, settings: Settings, *, today: date) -> dict[str, Any]:
    """Return the order by the names of its fields, without those that ask for nothing; days that are past are left out."""
    wishes = request.wishes
    days = {"ready": request.ready, "by": request.by, "keep_until": wishes.keep_until, "sailing": wishes.sailing}
    asked: dict[str, Any] = {
        "vehicles": [_typed(vehicle) for vehicle in request.vehicles],
        "to": name_of(request.to),
        "from": _start(request, settings),
        **{name: day.isoformat() for name, day in days.items() if day is not None and day > today},
        "trailer": wishes.trailer or "",
        "ocean": wishes.ocean or "",
        "term": wishes.term or "",
        "cover": wishes.cover or "",
        "currency": wishes.currency or "",
        "insure_for": "" if wishes.insure_for is None else f"{wishes.insure_for:f}".removesuffix(".00"),
        "lift_gate": wishes.lift_gate,
        "limited_access": wishes.limited_access,
        "express": wishes.express,
        "collect": wishes.collect,
        "terminal": wishes.terminal,
        "released_by": wishes.released_by,
        "buyer_is": wishes.buyer_is,
        "spot": [_spot(one) for one in wishes.spot if one.until >= today],
        "buyer": request.buyer,
    }
    return {name: value for name, value in asked.items() if value}


def _start(request: Request, settings: Settings) -> str:
    """Return where all start from; nothing where each starts from its own yard."""
    own = all(
        start.yard and start.yard == vehicle.yard
        for start, vehicle in zip(request.starts, request.vehicles, strict=True)
    )
    if own or len(set(request.starts)) > 1:
        return ""
    start: Place = request.starts[0]
    return start.terminal or (start.yard if settings.find_yard(start.yard) else "") or name_of(start)


def _typed(vehicle: Vehicle) -> str:
    """Return the stock number, or the description of a vehicle that is in no list."""
    if not vehicle.stock_number.startswith(AS_DESCRIBED):
        return vehicle.stock_number
    sides = [getattr(vehicle, side) for side in _SIDES if side not in vehicle.assumed]
    known = [f"{mm_to_inches(side):g} in" for side in sides if side is not None]
    told = (
        vehicle.name,
        " x ".join(known) if len(known) == len(_SIDES) else "",
        f"{grams_to_pounds(vehicle.mass_grams)} lb"
        if vehicle.mass_grams and "mass_grams" not in vehicle.assumed
        else "",
        f"${to_decimal(vehicle.value_minor, vehicle.currency):f}" if vehicle.value_minor else "",
        what_fails(vehicle),
    )
    return ", ".join(filter(None, told))


def _spot(one: SpotPrice) -> str:
    """Return a price in hand as it is typed."""
    parts = (
        one.carrier,
        f"{one.amount:f} {one.currency or ''}{' each' if one.each else ''}".replace("  ", " ").strip(),
        f"until {one.until.isoformat()}",
        f"ref {one.reference}" if one.reference else "",
        one.trailer or "",
        f"to {one.to}" if one.to else "",
    )
    return ", ".join(filter(None, parts))
