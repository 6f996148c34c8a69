"""What the ports' own days ask: when a terminal works, its cut-offs, the free days before the vehicle leaves, when ships sail."""

from datetime import date, timedelta
from functools import lru_cache

from shipcalc.pricing.port_charges import storage_bands
from shipcalc.pricing.ports import storage_minor
from shipcalc.quote.network.one_way import OneWay
from shipcalc.ratebook.rows.ocean import OceanService
from shipcalc.ratebook.rows.ports import Port
from shipcalc.records import replace
from shipcalc.schedule.voyage import Sailings, Terminal
from shipcalc.schedule.working_days import Calendar, is_working_day, plus_working_days, public_holidays
from shipcalc.trade import WEEK


def calendar_of(port: Port) -> Calendar:
    """Return when a terminal works: not on its days off, nor on the public holidays of its country."""
    return _calendar(port.country.upper(), port.days_off)


@lru_cache(maxsize=1_024)
def _calendar(country: str, days_off: tuple[str, ...]) -> Calendar:
    names = {name.casefold() for name in days_off}
    off = {number for number, day in enumerate(WEEK) if day.casefold() in names}
    return Calendar(weekdays=frozenset(range(7)) - off, country=country)


def last_free_day(port: Port, came: date) -> date:
    """Return the last day on which a vehicle that came into the terminal stands there free of storage."""
    if port.free_days_count == "working":
        return plus_working_days(came, port.free_days, calendar_of(port))
    return came + timedelta(days=port.free_days)


def as_quoted(one: OneWay, port: Port) -> Port:
    """Return the port of arrival of a way with the free days that are quoted for all of its load, where they are."""
    told = [offer.freight.row.free_days for _, offer in one.offers]
    days = [free for free in told if free is not None]
    return replace(port, free_days=min(days)) if one.ship and len(days) == len(one.ship.load.sizes) else port


def terminal_of(port: Port, quoted_days: int = -1) -> Terminal:
    """Return when a port's terminal takes vehicles in; `quoted_days` before departure, where a quotation tells them."""
    return Terminal(
        calendar=calendar_of(port),
        cutoff_days=port.cutoff_days if quoted_days < 0 else quoted_days,
        document_hours=port.document_hours,
        loading_hours=port.loading_hours,
        hours_kind="business" if port.document_hours_count == "business" else "clock",
    )


def sailings_of(row: OceanService) -> Sailings:
    """Return when a service sails."""
    listed = tuple(date.fromisoformat(day) for day in row.sailings)
    return Sailings(first=row.first_sailing, every_days=row.sails_every_days, listed=listed)


def gate_note(port: Port, cutoff: date, carrier: str) -> str:
    """Return that nobody is at the gate on the day after the cut-off, where that is so; else "". `carrier` is such as a ship."""
    after = cutoff + timedelta(days=1)
    if is_working_day(after, calendar_of(port)):
        return ""
    why = public_holidays(port.country.upper(), after.year).get(after) or f"{after:%A}"
    return f"The gate is shut on the day after ({why}): what is late waits for the next {carrier}."


def free_calendar_days(port: Port, came: date) -> int:
    """Return the days by the calendar that a vehicle stands in a terminal free of storage, from the day it came."""
    return (last_free_day(port, came) - came).days


def storage_due(one: OneWay, port: Port, days: int) -> int:
    """Return what a port of a way asks, in minor units, where its vehicles stand there so many days after their free ones."""
    day, book = one.network.day, one.book
    bands = storage_bands(book, day, port.port, one.mode) if day and book.port_charges else ()
    return storage_minor(port, days, len(one.request.vehicles), bands)


def days_held(port: Port, terminal: date, cutoff: date) -> int:
    """Return how many days later than it could a vehicle comes into the terminal, so that it stands there free of storage."""
    held = 0
    while last_free_day(port, terminal + timedelta(days=held)) < cutoff:
        held += 1
    return held
