"""The port that a vehicle leaves from: its terminal, the last day there, and the ship that it is in time for."""

from collections.abc import Iterable
from datetime import date, timedelta
from functools import partial

import numpy as np

from shipcalc.distinct import distinct
from shipcalc.money import Int64, with_code
from shipcalc.pricing.loads import Load, freight_of
from shipcalc.pricing.ocean import SeaService
from shipcalc.pricing.ports import export_port_lines
from shipcalc.quote.edges.edge import NO_WORDS, Words, takes_all
from shipcalc.quote.model import Window
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.price.freight import asked_at_ports, beside_freight
from shipcalc.quote.price.marked_up import markup_on
from shipcalc.quote.price.parts import Charged, Rated, by_load
from shipcalc.quote.price.seasonal import days_before_the_ship
from shipcalc.quote.request import Request
from shipcalc.quote.time.dated import Dated, Days, Span, step
from shipcalc.quote.time.days_in_words import day_in_words
from shipcalc.quote.time.port_days import (
    free_calendar_days,
    gate_note,
    last_free_day,
    sailings_of,
    storage_due,
    terminal_of,
)
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.ocean import OceanService
from shipcalc.ratebook.rows.ports import Port
from shipcalc.records import replace
from shipcalc.schedule.road import NEVER
from shipcalc.schedule.voyage import Terminal, sailing_table, table_of_one
from shipcalc.trade import Called

# A port that does not handle a load has no lane of it.
ineligible = takes_all


def lines(request: Request, book: RateBook, network: Network) -> Iterable[Charged]:
    """Return for each load what the ports take."""
    rows, freight, rules = [port.row for port in network.exports], freight_of(request.vehicles), book.pricing

    def part(load: Load) -> Rated:
        asked = asked_at_ports(book, network.day, rows, load.mode)
        priced = partial(export_port_lines, load, freight, rows, asked, currency=rules.currency)
        return Rated(priced, markup_on(request, book).port_ppm)

    parts = by_load(network.sea, network.sea.export, part)
    return beside_freight(network, freight, parts)


def days(request: Request, book: RateBook, network: Network, ways: Ways, when: Days) -> Days:
    """Return the days with those of the ship that a vehicle is in time for, and of its cut-off."""
    trucks, terminal = when.trucks, when.terminal
    sailing, cutoff = _sailings(request, network, ways, trucks)
    held = days_before_the_ship(request, book, network, ways, sailing.earliest, sailing.latest)
    for more in distinct(held[held > 0]).tolist():
        ready = Span(trucks.earliest + more, trucks.latest + more)
        later = _sailings(request, network, ways, ready)
        sailing, cutoff = (
            _where(held == more, one, other) for one, other in zip(later, (sailing, cutoff), strict=True)
        )
    if request.wishes.sailing is not None:
        terminal = _in_time_for(cutoff, terminal, held)
    return replace(when, terminal=terminal, cutoff=cutoff, sailing=sailing)


def _in_time_for(cutoff: Span, terminal: Span, held: Int64) -> Span:
    """Return the days at the terminal that are in time for the one ship that is meant."""
    return Span(terminal.earliest, np.maximum(terminal.earliest, np.minimum(terminal.latest, cutoff.latest - held)))


def _where(mask: np.ndarray, one: Span, other: Span) -> Span:
    return Span(np.where(mask, one.earliest, other.earliest), np.where(mask, one.latest, other.latest))


def _sailings(request: Request, network: Network, ways: Ways, trucks: Span) -> tuple[Span, Span]:
    """Return the sailing that a vehicle is in time for, and its cut-off; by road alone both are the truck's own days."""
    lanes, count = network.sea, len(trucks.earliest)
    arrives = np.concatenate([trucks.earliest, trucks.latest])
    pair, first_of, pair_of = np.unique(lanes.leaves, return_index=True, return_inverse=True)
    found: Int64 = np.zeros((len(pair) + 1, 2, 2 * count), dtype=np.int64)
    known: dict[tuple[SeaService, int, int], tuple[Int64, Int64]] = {}  # the loads of one ship sail together
    for number, lane in enumerate(first_of.tolist()):
        export, ship = int(lanes.export[lane]), network.crossings[int(lanes.crossing[lane])].service
        key = ship, export, int(lanes.cutoff_days[lane])
        if key not in known:
            terminal = terminal_of(network.exports[export].row, key[2])
            known[key] = _next_ship(request, ship.row, terminal, arrives[:, export])
        found[number] = known[key]
    if network.has_direct:
        found[-1] = arrives[:, -1] if request.wishes.sailing is None else NEVER
    at = np.append(pair_of, len(pair))[ways.sea_lane]
    sailing, cutoff = (Span(found[at, step, ways.truck], found[at, step, count + ways.truck]) for step in (0, 1))
    return sailing, cutoff


def _next_ship(request: Request, ship: OceanService, terminal: Terminal, arrives: Int64) -> tuple[Int64, Int64]:
    """Return sailing and cut-off for days of arrival, the earliest of all services before the latest.

    Where a ship is known, a truck that may be in time for it must be: the earliest days count for the latest too.
    """
    day = request.wishes.sailing
    if day is None:
        return sailing_table(sailings_of(ship), terminal, request.ready).next_for(arrives)
    earliest = np.tile(arrives[: len(arrives) // 2], 2)
    return table_of_one(sailings_of(ship), terminal, day).next_for(earliest)


def words(one: OneWay, dated: Dated) -> Words:
    """Return the days in the terminal, and what a missed cut-off costs."""
    if one.export is None or one.ship is None:
        return NO_WORDS
    port, ship, called = one.export.row, one.ship.service.row, one.called
    free = free_calendar_days(port, dated.terminal[0])
    there = f"In the terminal in {port.name}"
    cutoff, sailing = dated.cutoff, dated.sailing
    if dated.is_tight:
        cutoff, sailing = _and_the_next(terminal_of(port, one.cutoff_days), ship, cutoff, sailing)
    return Words(
        steps=(
            step(there, dated.terminal, "port", office_note=dated.truck.note, free_days=free),
            step(
                "Last day for the vehicle and its papers",
                dated.cutoff,
                "cut-off",
                _papers_note(port, dated.cutoff[0], called),
            ),
        ),
        warnings=_missed(one, port, cutoff, sailing),
    )


def _missed(one: OneWay, port: Port, cutoff: Window, sailing: Window) -> tuple[str, ...]:
    """Return what happens where the window of arrival at the terminal reaches past a cut-off, and the storage it costs."""
    if sailing[0] == sailing[1]:
        return ()
    charged = (cutoff[1] - last_free_day(port, cutoff[0] + timedelta(days=1))).days
    storage = storage_due(one, port, max(charged, 0))
    costs = (
        f"about {with_code(storage, one.currency)} of storage is then due in {port.name}, which is not in the price"
        if storage
        else f"that is within the {port.free_days} free days of {port.name}, or close to it: no storage is counted"
    )
    day, ship, next_ship = (day_in_words(day) for day in (cutoff[0], *sailing))
    missed = f"{one.called.departure} of {ship}"
    return (f"A truck that reaches {port.name} after {day} misses the {missed}; the next is {next_ship}, and {costs}.",)


def _and_the_next(terminal: Terminal, ship: OceanService, cutoff: Window, sailing: Window) -> tuple[Window, Window]:
    """Return the windows of cut-off and sailing from the one ship that is meant to the one after it; none after it: alone."""
    after = cutoff[1] + timedelta(days=1)
    table = sailing_table(sailings_of(ship), terminal, after)
    day, last = (int(column[0]) for column in table.next_for(np.array([after.toordinal()])))
    if day == NEVER:
        return cutoff, sailing
    return (cutoff[0], date.fromordinal(last)), (sailing[0], date.fromordinal(day))


def _papers_note(port: Port, cutoff: date, called: Called) -> str:
    hours = "clock hours" if port.document_hours_count == "clock" else "hours of working days"
    loading = f"loading, which begins {port.loading_hours} hours before noon of the day it {called.leaves}"
    return f"{port.document_hours} {hours} before {loading}. {gate_note(port, cutoff, called.carrier)}".strip()
