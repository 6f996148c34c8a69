"""Working days and public holidays.

The federal holidays of the United States are eleven rules of one line each and are written out here: a quote at home then
does without the `holidays` package, whose import takes more than half the time that numpy's does. The holidays of all other
countries come from that package (`foreign_holidays`) when they are asked for; the rules here are tested against it.
"""

from collections.abc import Mapping
from datetime import date, timedelta
from functools import cache

from shipcalc.records import dataclass

MONDAY, THURSDAY, SATURDAY, SUNDAY = 0, 3, 5, 6
_ONE_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Calendar:
    """Which days somebody works: days of the week (Monday is 0), except the public holidays of `country`.

    `country` is ISO 3166-1 alpha-2, or empty where no holiday is kept. `closed` are further days off.
    """

    weekdays: frozenset[int]
    country: str = "US"
    closed: frozenset[date] = frozenset()

    def __post_init__(self) -> None:
        assert self.weekdays, "somebody who never works has no next working day"


OFFICE = Calendar(weekdays=frozenset(range(5)))
YARD = Calendar(weekdays=frozenset(range(6)))  # yards hand vehicles over on Saturdays too (common practice, no source)


def is_working_day(day: date, calendar: Calendar) -> bool:
    """Return whether the calendar's owner works on that day."""
    if day.weekday() not in calendar.weekdays or day in calendar.closed:
        return False
    return not calendar.country or day not in public_holidays(calendar.country, day.year)


def working_day_from(day: date, calendar: Calendar) -> date:
    """Return the first working day on or after `day`."""
    while not is_working_day(day, calendar):
        day += _ONE_DAY
    return day


def working_day_until(day: date, calendar: Calendar) -> date:
    """Return the last working day on or before `day`."""
    while not is_working_day(day, calendar):
        day -= _ONE_DAY
    return day


def plus_working_days(day: date, count: int, calendar: Calendar) -> date:
    """Return the `count`-th working day after `day` (before it, where `count` is negative); 0 is `day` itself."""
    step = _ONE_DAY if count >= 0 else -_ONE_DAY
    for _ in range(abs(count)):
        day += step
        while not is_working_day(day, calendar):
            day += step
    return day


@cache
def public_holidays(country: str, year: int) -> Mapping[date, str]:
    """Return the days off of a country in a year with their names; empty where the country's holidays are not known."""
    if country == "US":
        return federal_holidays(year)
    from shipcalc.schedule.foreign_holidays import foreign_holidays

    return foreign_holidays(country, year)


@cache
def federal_holidays(year: int) -> Mapping[date, str]:
    """Return the federal holidays of a year (5 USC 6103(a)) with the days they are observed on.

    A holiday on a Saturday is observed on the Friday before (5 USC 6103(b)), one on a Sunday on the Monday after (Executive Order
    11582). The day itself stays in as well: a yard that works on Saturdays is closed on it too. New Year's Day of the next
    year may be observed in this one. Holds from 2021, the first year of Juneteenth.
    """
    by_name = {**_holidays_proper(year), date(year + 1, 1, 1): "New Year's Day"}
    observed = {_observed(day): f"{name} (observed)" for day, name in by_name.items() if _observed(day) != day}
    return {day: name for day, name in sorted({**observed, **by_name}.items()) if day.year == year}


def _holidays_proper(year: int) -> dict[date, str]:
    return {
        date(year, 1, 1): "New Year's Day",
        _nth_weekday(year, 1, MONDAY, 3): "Birthday of Martin Luther King, Jr.",
        _nth_weekday(year, 2, MONDAY, 3): "Washington's Birthday",
        _last_monday_of_may(year): "Memorial Day",
        date(year, 6, 19): "Juneteenth National Independence Day",
        date(year, 7, 4): "Independence Day",
        _nth_weekday(year, 9, MONDAY, 1): "Labor Day",
        _nth_weekday(year, 10, MONDAY, 2): "Columbus Day",
        date(year, 11, 11): "Veterans Day",
        _nth_weekday(year, 11, THURSDAY, 4): "Thanksgiving Day",
        date(year, 12, 25): "Christmas Day",
    }


def _observed(day: date) -> date:
    return {SATURDAY: day - _ONE_DAY, SUNDAY: day + _ONE_DAY}.get(day.weekday(), day)


def _nth_weekday(year: int, month: int, weekday: int, nth: int) -> date:
    first = date(year, month, 1)
    return first + timedelta(days=(weekday - first.weekday()) % 7 + 7 * (nth - 1))


def _last_monday_of_may(year: int) -> date:
    last = date(year, 5, 31)
    return last - timedelta(days=last.weekday())
