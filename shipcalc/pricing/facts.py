"""What a vehicle tells the conditions of decision tables (`ratebook/workbook/conditions.py: FACTS`)."""

from datetime import date

from shipcalc.vehicles.vehicle import Vehicle


def vehicle_facts(vehicle: Vehicle, *, aged_on: date | None = None) -> dict[str, object]:
    """Return what is known of a vehicle, None where unknown; its age only where a day to count from is given."""
    return {
        "runs": vehicle.runs,
        "rolls": vehicle.rolls,
        "steers": vehicle.steers,
        "brakes": vehicle.brakes,
        "title": vehicle.title,
        "year": vehicle.year,
        "age_years": None if aged_on is None else age_in_years(vehicle, aged_on),
        "built_in": vehicle.built_in or None,
        "engine_cc": vehicle.engine_cc,
        "body": vehicle.body or None,
        "motorcycle": is_motorcycle(vehicle),
    }


def age_in_years(vehicle: Vehicle, day: date) -> int | None:
    """Return the age by model year, the cautious way: a vehicle of 1996 counts as 29 until the end of 2026."""
    return None if vehicle.year is None else max(0, day.year - vehicle.year - 1)


def is_motorcycle(vehicle: Vehicle) -> bool:
    """Return whether the body says motorcycle."""
    return "motorcycle" in vehicle.body.casefold() or "sidecar" in vehicle.body.casefold()
