"""From the terminal to the release on the other side, as columns of days (proleptic ordinals, `date.toordinal`).

cut-off     the earlier of the terminal's own (working days before departure) and the hours before loading by which papers
            and vehicle must be presented (19 CFR 192.2(c), 15 CFR 30.4(b)(5)); loading begins some hours before noon of the day
            of departure; a day on which the terminal is shut counts as the working day before
sailing     the first one whose cut-off is not before the arrival at the terminal; a missed cut-off waits for the next
arrival     sailing + whole days at sea + days in ports + a day for each canal; the last day of its window is later by a share
            of them, so that it widens with the days at sea
release     so many working days after the arrival
"""

from collections.abc import Sequence
from datetime import date, datetime, time, timedelta
from functools import cache, lru_cache

import numpy as np

from shipcalc.money import PPM, Int64
from shipcalc.records import dataclass
from shipcalc.schedule.cutoff import HoursKind, latest_time_before
from shipcalc.schedule.road import NEVER
from shipcalc.schedule.working_days import Calendar, plus_working_days, public_holidays, working_day_until

# So far ahead a vehicle may reach a terminal; longer waits are not planned by anybody.
HORIZON_DAYS = 120
# A list may reach further, but no ship is planned for later than this; a list that begins later is as one that has ended.
LONGEST_LISTED = timedelta(days=400)
_WORKING_DAYS_KEPT_FOR = 1_200
# What must be there before midnight must be there on the day before; and where the clocks go forward in between, hours counted
# back end an hour earlier: no terminal says its zone, so that hour is always allowed for.
_A_MOMENT = timedelta(hours=1, microseconds=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Terminal:
    """When a terminal takes vehicles in: its days of work and its two cut-offs."""

    calendar: Calendar
    cutoff_days: int = 2
    document_hours: int = 72
    loading_hours: int = 24
    hours_kind: HoursKind = "clock"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sailings:
    """The sailings of a service: on `listed` days, or else every `every_days` days counted from `first` in both directions."""

    first: date
    every_days: int
    listed: tuple[date, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class SailingTable:
    """Coming sailings of a service from one terminal, with the last day on which each takes vehicles in; NEVER ends the list."""

    sailing: Int64
    cutoff: Int64

    def next_for(self, at_terminal: Int64) -> tuple[Int64, Int64]:
        """Return (sailing, its cut-off) for days of arrival at the terminal; NEVER where the list has ended."""
        at = np.searchsorted(self.cutoff, at_terminal, side="left")
        return self.sailing[at], self.cutoff[at]


@lru_cache(maxsize=4_096)
def sailing_table(sailings: Sailings, terminal: Terminal, soonest: date) -> SailingTable:
    """Return the sailings that a vehicle may be in time for that reaches the terminal from `soonest` on."""
    return _table(_sailing_days(sailings, soonest), terminal)


@lru_cache(maxsize=1_024)
def table_of_one(sailings: Sailings, terminal: Terminal, day: date) -> SailingTable:
    """Return the sailing of a day alone, where the service sails on it."""
    return _table([day] if sails_on(sailings, day) else [], terminal)


def _table(days: Sequence[date], terminal: Terminal) -> SailingTable:
    return SailingTable(
        np.array([*(day.toordinal() for day in days), NEVER], dtype=np.int64),
        np.array([*(cutoff_day(day, terminal).toordinal() for day in days), NEVER], dtype=np.int64),
    )


def sails_on(sailings: Sailings, day: date) -> bool:
    """Return whether a service sails on a day."""
    return day in days_near(sailings, day, within=timedelta(0))


def days_near(sailings: Sailings, day: date, *, within: timedelta) -> list[date]:
    """Return the sailings from so long before a day until so long after it."""
    return [each for each in _sailing_days(sailings, day - within, day + within) if each <= day + within]


def _sailing_days(sailings: Sailings, soonest: date, last: date | None = None) -> list[date]:
    if sailings.listed:
        return sorted(day for day in sailings.listed if timedelta(0) <= day - soonest <= LONGEST_LISTED)
    last = last or soonest + timedelta(days=HORIZON_DAYS + 2 * sailings.every_days)
    ahead = -((sailings.first - soonest).days // sailings.every_days)
    day = sailings.first + timedelta(days=ahead * sailings.every_days)
    days = []
    while day <= last:
        days.append(day)
        day += timedelta(days=sailings.every_days)
    return days


@cache
def cutoff_day(sailing: date, terminal: Terminal) -> date:
    """Return the last day on which the terminal takes a vehicle and its papers for a sailing."""
    own = plus_working_days(sailing, -terminal.cutoff_days, terminal.calendar)
    loading = datetime.combine(sailing, time(12)) - timedelta(hours=terminal.loading_hours)
    papers = latest_time_before(
        loading, hours=terminal.document_hours, kind=terminal.hours_kind, calendar=terminal.calendar
    )
    # Over a weekend or a holiday the gate is shut: what counts until then must be there on the day of work before.
    return min(own, working_day_until((papers - _A_MOMENT).date(), terminal.calendar))


def days_at_sea(nmi: np.ndarray, *, knots: float, port_days: int, canals: Int64) -> Int64:
    """Return days from sailing to arrival: nautical miles ÷ knots ÷ 24, started days counted whole; a day for each canal."""
    assert knots > 0, "a ship that lies still never arrives"
    steaming = np.ceil(np.round(nmi / knots / 24, 9))
    return np.asarray(steaming, dtype=np.int64) + port_days + canals


def late_days(at_sea: Int64, share_ppm: int) -> Int64:
    """Return how many days later than planned a ship may come: a share of its days at sea, started days counted whole."""
    return -(-at_sea * share_ppm // PPM)


def plus_working_days_columns(days: Int64, count: int, calendar: Calendar) -> Int64:
    """Return the `count`-th working day after each day: the same as `plus_working_days`, for columns."""
    if count == 0 or not len(days):
        return days
    first = date.fromordinal(int(days.min()))
    working = _working_ordinals(calendar, first.replace(day=1))
    at = np.searchsorted(working, days, side="right") + count - 1
    assert at.max() < len(working), "whoever asks is never more than LONGEST_LISTED, a voyage and a release away"
    return working[at]


@lru_cache(maxsize=512)
def _working_ordinals(calendar: Calendar, first: date) -> Int64:
    last = first + timedelta(days=_WORKING_DAYS_KEPT_FOR)
    years = range(first.year, last.year + 1) if calendar.country else ()
    off = {*calendar.closed, *(day for year in years for day in public_holidays(calendar.country, year))}
    days = np.arange(first.toordinal(), last.toordinal(), dtype=np.int64)
    of_week = np.array([weekday in calendar.weekdays for weekday in range(7)], dtype=np.bool_)
    is_worked = of_week[(days - 1) % 7]  # day 1 is a Monday
    is_worked[[(day - first).days for day in off if first <= day < last]] = False
    worked: Int64 = days[is_worked]
    return worked
