"""When every way beyond the home roads gets there, as columns of days: sailing, arrival, release, the last leg."""

from datetime import date, timedelta
from functools import lru_cache

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.ocean import SeaService
from shipcalc.quote.network.columns import Crossing, Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.port_ends import ArrivalPort, on_carriage_by
from shipcalc.quote.network.trucks import trailer_of
from shipcalc.quote.price.seasonal import days_before_the_ship
from shipcalc.quote.request import Request
from shipcalc.quote.time.road_days import Days, Span
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.ocean import OceanService
from shipcalc.ratebook.rows.on_carriage import OnCarriage
from shipcalc.ratebook.rows.ports import Port
from shipcalc.schedule.road import NEVER
from shipcalc.schedule.voyage import (
    Sailings,
    Terminal,
    days_at_sea,
    late_days,
    plus_working_days_columns,
    sailing_table,
    table_of_one,
)
from shipcalc.schedule.working_days import Calendar, plus_working_days
from shipcalc.trade import WEEK

# Clearing a border by road (common practice, no source).
BORDER_WORKING_DAYS = 1


def days_beyond(request: Request, book: RateBook, network: Network, ways: Ways, trucks: Span) -> Days:
    """Return when every way beyond the home roads gets there; `trucks` are the days of `truck_days`."""
    at = (ways.truck, ways.export)
    terminal = Span(trucks.earliest[at], trucks.latest[at])
    sailing, cutoff = _sailings(request, network, ways, trucks)
    held = days_before_the_ship(request, book, network, ways, sailing.earliest, sailing.latest)
    for more in np.unique(held[held > 0]).tolist():
        ready = Span(trucks.earliest + more, trucks.latest + more)
        later = _sailings(request, network, ways, ready)
        sailing, cutoff = (
            _where(held == more, one, other) for one, other in zip(later, (sailing, cutoff), strict=True)
        )
    if request.wishes.sailing is not None:
        terminal = _in_time_for(cutoff, terminal, held)
    at_sea, late = _days_at_sea(network, ways)
    arrival = _plus(sailing, at_sea, late)
    release = Span(*(_released(network, ways, day, request.to.country) for day in (arrival.earliest, arrival.latest)))
    drive, spare = last_leg(network, ways)
    delivery = Span(release.earliest + drive, release.latest + drive + spare)
    return Days(terminal, cutoff, sailing, arrival, release, delivery)


def _in_time_for(cutoff: Span, terminal: Span, held: Int64) -> Span:
    """Return the days at the terminal that are in time for the one ship that is meant."""
    return Span(terminal.earliest, np.maximum(terminal.earliest, np.minimum(terminal.latest, cutoff.latest - held)))


def _where(mask: np.ndarray, one: Span, other: Span) -> Span:
    return Span(np.where(mask, one.earliest, other.earliest), np.where(mask, one.latest, other.latest))


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
    return Sailings(first=row.first_sailing, every_days=row.sails_every_days, listed=_listed(row))


def _listed(row: OceanService) -> tuple[date, ...]:
    return tuple(date.fromisoformat(day) for day in row.sailings)


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


def _days_at_sea(network: Network, ways: Ways) -> tuple[Int64, Int64]:
    """Return the days from sailing to arrival on every way, and how many more they may be."""
    none: Int64 = np.zeros(1, dtype=np.int64)
    reckoned = [_reckoned(crossing) for crossing in network.crossings]
    late = [
        late_days(own, crossing.service.row.late_ppm) for own, crossing in zip(reckoned, network.crossings, strict=True)
    ]
    return np.concatenate([*reckoned, none])[ways.sea_lane], np.concatenate([*late, none])[ways.sea_lane]


def _reckoned(crossing: Crossing) -> Int64:
    row = crossing.service.row
    days = days_at_sea(crossing.nmi, knots=row.knots, port_days=row.port_days, canals=crossing.canals)
    for lane, offers in enumerate(crossing.offers):
        if offers is not None and offers.transit_days is not None:
            days[lane] = offers.transit_days
    return days


def _plus(span: Span, more: Int64, late: Int64) -> Span:
    earliest, latest = (np.where(day == NEVER, NEVER // 2, day) + more for day in (span.earliest, span.latest))
    return Span(earliest, latest + late)


def _released(network: Network, ways: Ways, arrived: Int64, country: str) -> Int64:
    released = arrived.copy()
    for number, port in enumerate(network.arrivals.ports):
        where = np.flatnonzero((ways.arrival == number) & (arrived < NEVER // 2))
        released[where] = plus_working_days_columns(arrived[where], port.row.clearance_days, calendar_of(port.row))
    by_road = np.flatnonzero((ways.arrival < 0) & (arrived < NEVER // 2))
    abroad = Calendar(weekdays=frozenset(range(5)), country=country)
    released[by_road] = plus_working_days_columns(arrived[by_road], BORDER_WORKING_DAYS, abroad)
    return released


def last_leg(network: Network, ways: Ways) -> tuple[Int64, Int64]:
    """Return the days of driving and crossing and the days of waiting of the last leg; none where the price ends at the port."""
    trailers = np.array([trailer_of(service) for service in network.services])[ways.truck]
    drive: Int64 = np.zeros(len(ways), dtype=np.int64)
    spare: Int64 = np.zeros(len(ways), dtype=np.int64)
    rates = network.arrivals.on_carriage
    for trailer in dict.fromkeys(trailers.tolist()):
        row = on_carriage_by(rates, trailer)
        if row is None:
            continue
        ports = [(driving_days(row, port), port.ferry) for port in network.arrivals.ports]
        each = np.array([driven + (ferry.crossing_days if ferry else 0) for driven, ferry in ports], dtype=np.int64)
        waiting = np.array([row.spare_days + (ferry.extra_days if ferry else 0) for _, ferry in ports], dtype=np.int64)
        where = np.flatnonzero((ways.arrival >= 0) & (trailers == trailer))
        drive[where], spare[where] = each[ways.arrival[where]], waiting[ways.arrival[where]]
    return drive, spare


def driving_days(row: OnCarriage, port: ArrivalPort) -> int:
    """Return the days from the port to the buyer, started days counted whole."""
    return -(-port.road.miles // max(row.miles_a_day, 1)) if port.road else 0
