"""How the office's pages say days and people: short, since many stand below each other."""

import re
from datetime import date

from shipcalc.documents import wording
from shipcalc.quote.model import Window

_WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_YEAR = re.compile(r" \d{4}")


def short_day(when: date, today: date) -> str:
    """Return `Tue 8 Dec`; with its year where that is another one."""
    told = wording.day(when)
    return f"{_WEEKDAYS[when.weekday()]} {told if when.year != today.year else _YEAR.sub('', told)}"


def short_span(days: Window, today: date) -> str:
    """Return a window, `8–14 Dec`; with its year where that is another one."""
    told = wording.window(days)
    return told if days[1].year != today.year or days[0].year != days[1].year else _YEAR.sub("", told)


def how_far(when: date, today: date) -> str:
    """Return how far a day is off: `3 days late`, `today`, `in 5 days`."""
    days = (when - today).days
    if days == 0:
        return "today"
    if days < 0:
        return f"{-days} day{'s' if days < -1 else ''} late"
    return "tomorrow" if days == 1 else f"in {days} days"
