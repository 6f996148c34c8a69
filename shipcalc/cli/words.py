"""Vehicles, windows and amounts as the terminal writes them; what the papers say too is in their own `wording`."""

import re
from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from shipcalc.documents.wording import window
from shipcalc.measures import grams_to_pounds, mm_to_inches
from shipcalc.quote.model import Charge, Window
from shipcalc.vehicles.vehicle import Vehicle


def short_span(days: Window) -> str:
    """Return a window without its year, for a column: `8–14 Dec`, `28 Nov – 3 Dec`."""
    return re.sub(r" \d{4}", "", window(days))


def short_day(when: date) -> str:
    """Return `8 Dec`."""
    return short_span((when, when))


def days_shown(days: Window, width: int | None) -> str:
    """Return a window for people on a terminal, as an interval of ISO 8601 in a pipe, which has no width."""
    first, last = days
    return short_span(days) if width else f"{first}/{last}"


def amount(value: Decimal) -> str:
    """Return `1,234.50`, with the decimals that the amount has."""
    return f"{value:,}"


def vehicle_name(vehicle: Vehicle) -> str:
    """Return a vehicle with its stock number, where it has one: `1961 Larkspur Minnow (HV-104)`."""
    named = bool(vehicle.stock_number) and vehicle.stock_number != vehicle.name
    return f"{vehicle.name} ({vehicle.stock_number})" if named else vehicle.name


def vehicle_names(vehicles: Sequence[Vehicle]) -> str:
    """Return the names of all vehicles, divided by commas."""
    return ", ".join(vehicle_name(vehicle) for vehicle in vehicles)


def size(vehicle: Vehicle) -> str:
    """Return the outer size in inches, `153.5 × 60.2 × 49.2`; what is not known is a question mark."""
    sides = (vehicle.length_mm, vehicle.width_mm, vehicle.height_mm)
    return " × ".join("?" if side is None else f"{mm_to_inches(side):g}" for side in sides)


def weight(vehicle: Vehicle) -> str:
    """Return the weight in pounds, `2,030`; a question mark where it is not known."""
    return "?" if vehicle.mass_grams is None else f"{grams_to_pounds(vehicle.mass_grams):,}"


def reckoning(charge: Charge) -> str:
    """Return how an amount comes about: `1,237 mi × 0.82`, `18.00 % of 1,014.34`; nothing for a fixed sum."""
    if charge.unit == "%":
        return f"{charge.rate:f} % of {charge.quantity:,}"
    if charge.unit == "lump" and charge.quantity == 1:
        return ""
    unit = {"lump": "", "W/M": " t or m³"}.get(charge.unit, f" {charge.unit}")
    return f"{charge.quantity:,}{unit} × {charge.rate:f}"
