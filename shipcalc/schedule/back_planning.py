"""From the day something must be there back to the last day on which it may set out."""

from collections.abc import Callable
from datetime import date, timedelta

WITHIN_DAYS = 366


def latest_start(wanted: date, arrival: Callable[[date], date | None], *, soonest: date) -> date | None:
    """Return the last day to start, from `soonest` on and within a year, that still arrives by `wanted`; None where no day does.

    `arrival` gives the latest arrival for a start, never earlier for a later start, None for never: so halving finds the day.
    """

    def is_in_time(days: int) -> bool:
        day = arrival(soonest + timedelta(days=days))
        return day is not None and day <= wanted

    if not is_in_time(0):
        return None
    good, bad = 0, WITHIN_DAYS + 1
    while bad - good > 1:
        middle = (good + bad) // 2
        good, bad = (middle, bad) if is_in_time(middle) else (good, middle)
    return soonest + timedelta(days=good)
