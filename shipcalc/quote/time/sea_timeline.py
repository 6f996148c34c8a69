"""The dates of one way over the sea: step by step, and what a missed cut-off costs."""

from collections.abc import Mapping
from datetime import date, timedelta

import numpy as np

from shipcalc.money import with_code
from shipcalc.pricing.ports import storage_minor
from shipcalc.quote.model import Dates, Window
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.network.territory import is_domestic
from shipcalc.quote.time.days_in_words import day_in_words
from shipcalc.quote.time.port_days import free_calendar_days, gate_note, storage_at_arrival
from shipcalc.quote.time.road_days import Days
from shipcalc.quote.time.sea_days import last_free_day, sailings_of, terminal_of
from shipcalc.quote.time.steps import Timeline, ended, step, window_of
from shipcalc.ratebook.rows.ocean import OceanService
from shipcalc.ratebook.rows.ports import Port
from shipcalc.records import replace
from shipcalc.schedule.road import NEVER, RoadDates
from shipcalc.schedule.voyage import Terminal, sailing_table


def over_the_sea(one: OneWay, days: Days, truck: RoadDates, begun: Mapping[str, Window], *, is_tight: bool) -> Timeline:
    """Return the dates of a way by ship; `is_tight`: the truck could come too late for the one ship that is meant."""
    assert one.export is not None, "asked only of ways by ship"
    assert one.ship is not None, "asked only of ways by ship"
    assert one.arrival is not None, "asked only of ways by ship"
    request, port, ship, arrival_port = one.request, one.export.row, one.ship.service.row, one.arrival
    there_row = _as_quoted(one, arrival_port.row)
    terminal, cutoff, sailing = (window_of(span, one.number) for span in (days.terminal, days.cutoff, days.sailing))
    arrival, release, delivery = (window_of(span, one.number) for span in (days.arrival, days.release, days.delivery))
    held = _days_held(port, terminal[0], cutoff[0])
    pickup, terminal = _held_back(truck.pickup, held), _held_back(terminal, held)
    at_sea = _at_sea_note(one, ship.knots, (arrival[1] - arrival[0]) - (sailing[1] - sailing[0]))
    there = "Delivered" if arrival_port.road else f"Ready to be collected in {arrival_port.row.name}"
    released = "Released at the port" if is_domestic(request.to.country) else "Cleared by customs"
    ferry = f"Over the {arrival_port.ferry.ferry}." if arrival_port.ferry else ""
    cleared = f"{arrival_port.row.clearance_days} working days, an estimate."
    steps = (
        step("Ready to leave", begun["ready"], "ready"),
        step("Picked up", pickup, "pickup", _held_note(held)),
        replace(
            step(f"In the terminal in {port.name}", terminal, "port", office_note=truck.note),
            free_days=free_calendar_days(port, terminal[0]),
        ),
        step("Last day for the vehicle and its papers", cutoff, "cut-off", _papers_note(port, cutoff[0])),
        step(f"Sails from {port.name}", sailing, "sailing"),
        replace(
            step(f"Arrives in {arrival_port.row.name}", arrival, "arrival", at_sea),
            free_days=free_calendar_days(there_row, arrival[1]),
        ),
        step(released, release, "release", cleared),
        step(there, delivery, "delivery", ferry),
    )
    stages = {step.stage: (step.earliest, step.latest) for step in steps}
    last_cutoff, last_sailing = cutoff, sailing
    if is_tight:
        last_cutoff, last_sailing = _and_the_next(terminal_of(port, one.cutoff_days), ship, cutoff, sailing)
    count, currency = len(request.vehicles), one.currency
    warnings = (
        *_missed(port, last_cutoff, last_sailing, count, currency),
        *storage_at_arrival(there_row, arrival, release, count, currency),
    )
    return Timeline(
        Dates(pickup=pickup, delivery=delivery, timeline=steps, held_days=held, warned=warnings),
        ended({**begun, **stages}, delivery),
        warnings,
    )


def _missed(port: Port, cutoff: Window, sailing: Window, vehicles: int, currency: str) -> list[str]:
    """Return what happens where the window of arrival at the terminal reaches past a cut-off, and the storage it costs."""
    if sailing[0] == sailing[1]:
        return []
    charged = (cutoff[1] - last_free_day(port, cutoff[0] + timedelta(days=1))).days
    storage = storage_minor(port, max(charged, 0), vehicles)
    costs = (
        f"about {with_code(storage, currency)} of storage is then due in {port.name}, which is not in the price"
        if storage
        else f"that is within the {port.free_days} free days of {port.name}, or close to it: no storage is counted"
    )
    cutoff_day, ship, next_ship = (day_in_words(day) for day in (cutoff[0], *sailing))
    return [
        f"A truck that reaches {port.name} after {cutoff_day} misses the sailing of {ship}; the next is {next_ship}, and {costs}."
    ]


def _as_quoted(one: OneWay, port: Port) -> Port:
    """Return a port of arrival with the free days that are quoted for all of the load, where they are."""
    told = [offer.freight.row.free_days for _, offer in one.offers]
    boxes = max(len(one.ship.load.boxes), 1) if one.ship else 0
    days = [free for free in told if free is not None]
    return replace(port, free_days=min(days)) if days and len(days) == boxes else port


def _and_the_next(terminal: Terminal, ship: OceanService, cutoff: Window, sailing: Window) -> tuple[Window, Window]:
    """Return the windows of cut-off and sailing from the one ship that is meant to the one after it; none after it: alone."""
    after = cutoff[1] + timedelta(days=1)
    table = sailing_table(sailings_of(ship), terminal, after)
    day, last = (int(column[0]) for column in table.next_for(np.array([after.toordinal()])))
    if day == NEVER:
        return cutoff, sailing
    return (cutoff[0], date.fromordinal(last)), (sailing[0], date.fromordinal(day))


def _days_held(port: Port, terminal: date, cutoff: date) -> int:
    """Return how many days later than it could a vehicle comes into the terminal, so that it stands there free of storage."""
    held = 0
    while last_free_day(port, terminal + timedelta(days=held)) < cutoff:
        held += 1
    return held


def _held_note(days: int) -> str:
    return f"Held in the yard for {days} days, so that no storage is due at the port." if days else ""


def _at_sea_note(one: OneWay, knots: float, late: timedelta) -> str:
    days = one.transit_days
    told = f"{one.nautical_miles:,} nautical miles at {knots:g} knots, with calls on the way"
    if days is not None:
        told = "1 day from port to port, as quoted" if days == 1 else f"{days} days from port to port, as quoted"
    return f"{told}; it may come up to {late.days} days later than planned." if late else f"{told}."


def _papers_note(port: Port, cutoff: date) -> str:
    days = "clock hours" if port.document_hours_count == "clock" else "hours of working days"
    loading = f"loading, which begins {port.loading_hours} hours before noon of the day it sails"
    return f"{port.document_hours} {days} before {loading}. {gate_note(port, cutoff)}".strip()


def _held_back(window: Window, days: int) -> Window:
    first = window[0] + timedelta(days=days)
    return first, max(window[1], first)
