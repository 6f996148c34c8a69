"""When a vehicle is picked up and delivered by road: two windows, earliest to latest.

Carriers drive every day, so driving days are calendar days; a yard hands vehicles over on its own working days only, and nobody
delivers on Thanksgiving, Christmas Day or New Year's Day.

A shared trailer stops for its other vehicles: it comes some miles a day, half of them on the day of loading, and never farther
than the hours of service let its driver.
"""

from datetime import date, timedelta
from functools import cache
from typing import TypeVar

import numpy as np

from shipcalc.money import Int64
from shipcalc.records import dataclass
from shipcalc.schedule.driving import RoadTime, road_time
from shipcalc.schedule.working_days import YARD, Calendar, federal_holidays, working_day_from

Window = tuple[date, date]
_Miles = TypeVar("_Miles", int, Int64)

# The day of what never happens, where days are columns of ordinals.
NEVER = np.iinfo(np.int64).max

# The clock of a handover, common practice, no source: loaded at noon; what would arrive in the night arrives next morning.
LOADED_AT_H = 12
LAST_DELIVERY_AT_H = 20
# The days that carriers stay at home (common practice, no source; what carriers print names these three before all others).
AT_HOME = ("Thanksgiving Day", "Christmas Day", "New Year's Day")


@dataclass(frozen=True, slots=True, kw_only=True)
class RoadDates:
    """When the vehicle is ready, picked up and delivered; `driving_days` are the days from pickup to the earliest delivery."""

    ready: date
    pickup: Window
    delivery: Window
    driving_days: int
    note: str


def road_dates(
    *,
    ready: date,
    pickup_from_days: int,
    pickup_to_days: int,
    miles: float,
    speed_mph: float,
    spare_days: int,
    miles_a_day: int | None = None,
    extra_days: int = 0,
    yard: Calendar = YARD,
    not_before: date | None = None,
) -> RoadDates:
    """Return the windows of a trip of `miles`, `miles_a_day` at the most (None: as far as the hours of service let it).

    Pickup is `pickup_from_days` to `pickup_to_days` after `ready` (calendar days), each end moved on to the yard's next working
    day. The earliest delivery is the earliest pickup and the driving days; the latest is the latest pickup, the driving days, the
    carrier's spare days and the area's extra days; either moves on past a day on which nobody delivers. No pickup is before
    `not_before`. A later `ready` never makes any of the four earlier.
    """
    pickup = pickup_window(ready, pickup_from_days, pickup_to_days, yard)
    if not_before is not None:
        first = working_day_from(not_before, yard)
        pickup = max(pickup[0], first), max(pickup[1], first)
    time = road_time(miles=miles, speed_mph=speed_mph)
    lawful = _calendar_days(time.elapsed_h)
    days = max(lawful, _paced_days(round(miles), miles_a_day) if miles_a_day else 0)
    delivery = (
        day_of_delivery(pickup[0] + timedelta(days=days)),
        day_of_delivery(pickup[1] + timedelta(days=days + max(spare_days, 0) + max(extra_days, 0))),
    )
    return RoadDates(
        ready=ready,
        pickup=pickup,
        delivery=delivery,
        driving_days=(delivery[0] - pickup[0]).days,
        note=_note(miles, speed_mph, time, days, miles_a_day if days > lawful else None),
    )


def pickup_window(ready: date, from_days: int, to_days: int, yard: Calendar = YARD) -> Window:
    """Return the days of pickup, as `road_dates` counts them."""
    first, last = sorted((from_days, to_days))
    return working_day_from(ready + timedelta(days=first), yard), working_day_from(ready + timedelta(days=last), yard)


def day_of_delivery(day: date) -> date:
    """Return the day, or the one after it where nobody delivers on it."""
    return day + timedelta(days=day in _at_home(day.year))


def days_of_delivery(days: Int64) -> Int64:
    """Return days (ordinals) as `day_of_delivery` moves them."""
    if not days.size:
        return days
    years = range(date.fromordinal(int(days.min())).year, date.fromordinal(int(days.max())).year + 1)
    off = [day.toordinal() for year in years for day in _at_home(year)]
    return days + np.isin(days, off)


@cache
def _at_home(year: int) -> frozenset[date]:
    by_name = {name: day for day, name in federal_holidays(year).items()}
    return frozenset(by_name[name] for name in AT_HOME)


def driving_days(miles: Int64, speed_mph: float, miles_a_day: Int64) -> Int64:
    """Return the days from pickup to the earliest delivery, as `road_dates` counts them: each pace (down) over each trip."""
    own, kind_of = np.unique(miles, return_inverse=True)
    hours = (road_time(miles=mi, speed_mph=speed_mph).elapsed_h for mi in own.tolist())
    lawful = np.array([_calendar_days(elapsed_h) for elapsed_h in hours], dtype=np.int64)
    days: Int64 = np.maximum(lawful, _paced_days(own, miles_a_day[:, np.newaxis]))
    return days[:, kind_of.reshape(-1)]


def _calendar_days(elapsed_h: float) -> int:
    """Return days from pickup to arrival: 2,000 mi at 55 mph, 69.86 h, from noon: the third day after, 9:52."""
    days, hour = divmod(LOADED_AT_H + elapsed_h, 24)
    return int(days) + (hour > LAST_DELIVERY_AT_H)


def _paced_days(miles: _Miles, miles_a_day: _Miles) -> _Miles:
    """Return days from pickup to arrival: 749 mi at 450 a day, loaded at noon: 225, 450 and the last 74 two days later."""
    return -((miles_a_day - 2 * miles) // (2 * miles_a_day))


def _note(miles: float, speed_mph: float, time: RoadTime, days: int, miles_a_day: int | None) -> str:
    shifts = "1 shift" if time.shifts == 1 else f"{time.shifts} shifts"
    arrival = {0: "the same day", 1: "the next day"}.get(days, f"{days} days later")
    pace = f"; with other stops {miles_a_day:,} mi a day" if miles_a_day else ""
    return (
        f"{miles:,.0f} mi at {speed_mph:g} mph: {time.driving_h:.1f} h of driving in {shifts}, "
        f"{time.elapsed_h:.1f} h with rests (49 CFR 395.3){pace}, there {arrival} at the earliest"
    )
