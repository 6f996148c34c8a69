"""What the ports' own days ask: gates that are shut after a cut-off, free days that end before the vehicle leaves."""

from collections.abc import Iterator
from datetime import date, timedelta

from shipcalc.money import with_code
from shipcalc.pricing.ports import storage_minor
from shipcalc.quote.model import Window
from shipcalc.quote.time.days_in_words import day_in_words
from shipcalc.quote.time.sea_days import calendar_of, last_free_day
from shipcalc.ratebook.rows.ports import Port
from shipcalc.schedule.working_days import is_working_day, public_holidays


def gate_note(port: Port, cutoff: date) -> str:
    """Return that nobody is at the gate on the day after the cut-off, where that is so; else ""."""
    after = cutoff + timedelta(days=1)
    if is_working_day(after, calendar_of(port)):
        return ""
    why = public_holidays(port.country.upper(), after.year).get(after) or f"{after:%A}"
    return f"The gate is shut on the day after ({why}): what is late waits for the next ship."


def free_calendar_days(port: Port, came: date) -> int:
    """Return the days by the calendar that a vehicle stands in a terminal free of storage, from the day it came."""
    return (last_free_day(port, came) - came).days


def storage_at_arrival(port: Port, arrival: Window, release: Window, vehicles: int, currency: str) -> Iterator[str]:
    """Yield the storage that is due where the customs take longer than the port's free days."""
    days, ends = max(
        ((out - last_free_day(port, came)).days, last_free_day(port, came))
        for came, out in zip(arrival, release, strict=True)
    )
    if days <= 0:
        return
    storage = storage_minor(port, days, vehicles)
    costs = f"about {with_code(storage, currency)} of storage" if storage else "storage"
    yield (
        f"{port.name} asks no storage until {day_in_words(ends)}, and customs may take until "
        f"{day_in_words(ends + timedelta(days=days))}: {costs} may then be due there, which is not in the price."
    )
