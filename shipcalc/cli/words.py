"""Dates, places, vehicles and amounts as the terminal writes them."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from shipcalc.measures import grams_to_pounds, mm_to_inches
from shipcalc.places.place import Place
from shipcalc.quote.model import Charge
from shipcalc.vehicles.vehicle import Vehicle

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def day(when: date) -> str:
    """Return `8 Dec 2026`: the month in letters, since 8/12 is not the same day everywhere."""
    return f"{short_day(when)} {when.year}"


def short_day(when: date) -> str:
    """Return `8 Dec`."""
    return f"{when.day} {MONTHS[when.month - 1]}"


def span(window: tuple[date, date]) -> str:
    """Return a window with its year: `8 – 14 Dec 2026`."""
    first, last = window
    if first == last:
        return day(first)
    if first.year != last.year:
        return f"{day(first)} – {day(last)}"
    return f"{short_span(window)} {last.year}"


def short_span(window: tuple[date, date]) -> str:
    """Return a window without its year: `8–14 Dec`, `28 Nov – 3 Dec`."""
    first, last = window
    if first == last:
        return short_day(first)
    if (first.year, first.month) == (last.year, last.month):
        return f"{first.day}–{short_day(last)}"
    return f"{short_day(first)} – {short_day(last)}"


def amount(value: Decimal) -> str:
    """Return `1,234.50`, with the decimals that the amount has."""
    return f"{value:,}"


def place_name(place: Place) -> str:
    """Return a place as people write it: `Madison, WI 53703`, `Munich, DE`."""
    where = place.subdivision if place.country in ("US", "CA") and place.subdivision else place.country
    name = place.name if place.name.endswith(f", {where}") else f"{place.name}, {where}"
    return name if not place.postal_code or place.postal_code in name else f"{name} {place.postal_code}"


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
    unit = "" if charge.unit == "lump" else f" {charge.unit}"
    return f"{charge.quantity:,}{unit} × {charge.rate:f}"
