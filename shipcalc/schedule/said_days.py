"""Days as people say them: "dec 15", "15 April", "12/15/26", "next friday", "in two weeks", "christmas".

A text may mean one day, none, or several; nothing here chooses between several. A day without a year is the next one; where it
has only just passed in this year, that may as well have been meant.
"""

import re
from collections.abc import Callable, Iterable
from datetime import date, timedelta

from shipcalc.errors import WrongInput
from shipcalc.schedule.working_days import federal_holidays

JUST_PASSED = timedelta(days=60)
FIRST_YEAR, LAST_YEAR = 2000, 2099

_MONTHS = (
    "january", "february", "march", "april", "may", "june",
    "july", "august", "september", "october", "november", "december",
)  # fmt: skip
_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_COUNTS = ("a", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_FEDERAL = {
    "mlk day": "Birthday of Martin Luther King, Jr.", "presidents day": "Washington's Birthday",
    "memorial day": "Memorial Day", "juneteenth": "Juneteenth National Independence Day", "labor day": "Labor Day",
    "columbus day": "Columbus Day", "thanksgiving": "Thanksgiving Day", "thanksgiving day": "Thanksgiving Day",
}  # fmt: skip
_FIXED = {
    "new year": (1, 1), "new years": (1, 1), "new years day": (1, 1), "valentines day": (2, 14),
    "independence day": (7, 4), "fourth of july": (7, 4), "halloween": (10, 31), "veterans day": (11, 11),
    "christmas eve": (12, 24), "christmas": (12, 25), "christmas day": (12, 25), "xmas": (12, 25),
    "boxing day": (12, 26), "new years eve": (12, 31),
}  # fmt: skip
_AFTER_EASTER = {"good friday": -2, "easter": 0, "easter sunday": 0, "easter monday": 1}

_YEAR = r"(?:,? ?(?P<year>\d{4}|'?\d\d))?"
_DAY = r"(?P<day>\d{1,2})(?:st|nd|rd|th|\.)?"
_MONTH = r"(?P<month>[a-z]{3,})\.?"
_DAY_MONTH = re.compile(rf"(?:the )?{_DAY}[ -]?(?:of )?{_MONTH}[ -]?{_YEAR}")
_MONTH_DAY = re.compile(rf"{_MONTH}[ -]?(?:the )?{_DAY}{_YEAR}")
_NUMBERS = re.compile(r"(?P<first>\d{1,2})[/.-](?P<second>\d{1,2})(?:[/.-](?P<year>\d{4}|\d\d)|\.)?")
_DAY_ALONE = re.compile(r"(?:on )?the (?P<day>\d{1,2})(?:st|nd|rd|th)?|(?P<ordinal>\d{1,2})(?:st|nd|rd|th)")
_IN = re.compile(r"(?:in )?(?P<count>\d{1,3}|[a-z]+) (?P<unit>day|week|month)s?(?: from (?:now|today)| time)?")
_WEEKDAY = re.compile(r"(?P<which>this |this coming |the coming |next |on )?(?P<name>[a-z]+)\.?")
_WITH_WEEKDAY = re.compile(r"(?P<name>[a-z]+)\.?,? (?:the )?(?P<rest>.*\d.*)")
_END = re.compile(r"(?:the )?end of (?:the |this )?(?P<month>[a-z]+)")


# What is told to somebody whose day is none.
HOW_TO_SAY_A_DAY = "write it as 2026-12-15, or say dec 15, next friday, in two weeks"


def days_meant(text: str, *, today: date) -> tuple[date, ...]:
    """Return the days that a text can mean when it is said on `today`, the earliest first; none where it names no day."""
    said = " ".join(text.casefold().replace("’", "'").split()).removesuffix(".")
    return tuple(sorted({day for read in READERS for day in read(said, today) if FIRST_YEAR <= day.year <= LAST_YEAR}))


def check_planned(day: date, where: str) -> date:
    """Return a day that can be meant. Raises WrongInput for one of a year in which nobody plans: the calendar ends in 9999."""
    if not FIRST_YEAR <= day.year <= LAST_YEAR:
        remedy = f"give a day from {FIRST_YEAR} to {LAST_YEAR}"
        raise WrongInput(f"the year {day.year} cannot be meant", where=where, remedy=remedy)
    return day


def _near(said: str, today: date) -> Iterable[date]:
    """Yield today, tomorrow, and the day after that."""
    away = {"today": 0, "now": 0, "asap": 0, "tomorrow": 1, "day after tomorrow": 2, "the day after tomorrow": 2}
    if said in away:
        yield today + timedelta(days=away[said])


def _in_so_long(said: str, today: date) -> Iterable[date]:
    found = _IN.fullmatch(said)
    count = _count(found["count"]) if found and (said.startswith("in ") or " from " in said) else 0
    if found and count:
        yield (
            _months_later(today, count)
            if found["unit"] == "month"
            else today + timedelta(days=count * (7 if found["unit"] == "week" else 1))
        )


def _count(text: str) -> int:
    if text.isdecimal():
        return int(text)
    return 1 if text == "an" else max(_COUNTS.index(text), 1) if text in _COUNTS else 0


def _months_later(day: date, count: int) -> date:
    """Return the same day so many months later; the last of that month where it is shorter."""
    year, month = divmod(day.year * 12 + day.month - 1 + count, 12)
    return min(date(year, month + 1, 1) + timedelta(days=day.day - 1), _last_of(year, month + 1))


def _last_of(year: int, month: int) -> date:
    return date(year + month // 12, month % 12 + 1, 1) - timedelta(days=1)


def _weekday(said: str, today: date) -> Iterable[date]:
    """Yield the coming day of that name; "next" may mean the one of next week, and a name said on its own day today.

    Weeks begin on Monday (ISO 8601).
    """
    found = _WEEKDAY.fullmatch(said)
    weekday = _weekday_named(found["name"]) if found else None
    if found is None or weekday is None:
        return
    coming = today + timedelta(days=(weekday - today.weekday()) % 7 or 7)
    if found["which"] in (None, "on ", "this ") and weekday == today.weekday():
        yield today
    if found["which"] == "next ":
        yield today + timedelta(days=7 - today.weekday() + weekday)
    yield coming


def _weekday_named(name: str) -> int | None:
    starts = [number for number, full in enumerate(_WEEKDAYS) if len(name) >= 3 and full.startswith(name)]
    return starts[0] if len(starts) == 1 else None


def _with_weekday(said: str, today: date) -> Iterable[date]:
    """Yield the days of a text after a weekday, "fri 12/4", that are such a weekday."""
    found = _WITH_WEEKDAY.fullmatch(said)
    weekday = _weekday_named(found["name"]) if found else None
    if found is not None and weekday is not None:
        yield from (day for day in days_meant(found["rest"], today=today) if day.weekday() == weekday)


def _named_month(said: str, today: date) -> Iterable[date]:
    for pattern in (_DAY_MONTH, _MONTH_DAY):
        found = pattern.fullmatch(said)
        month = _month_named(found["month"]) if found else 0
        if found and month:
            yield from _of_year(found["year"], month, int(found["day"]), today)


def _month_named(name: str) -> int:
    if name == "sept":
        return 9
    return next((number for number, full in enumerate(_MONTHS, 1) if len(name) >= 3 and full.startswith(name)), 0)


def _numbers(said: str, today: date) -> Iterable[date]:
    """Yield the days of 12/15/26 and 3/4: the month may stand first or second."""
    if found := _NUMBERS.fullmatch(said):
        first, second = int(found["first"]), int(found["second"])
        for month, day in ((first, second), (second, first)):
            yield from _of_year(found["year"], month, day, today)


def _of_year(year: str | None, month: int, day: int, today: date) -> Iterable[date]:
    """Yield that day of the year, two digits of it being of this century; without one the next, and one just passed."""
    if year:
        number = int(year.strip("'"))
        yield from _days(number if number > 99 else 2000 + number, month, day)
    else:
        yield from _next(lambda of: next(iter(_days(of, month, day)), None), today)


def _days(year: int, month: int, day: int) -> Iterable[date]:
    try:
        yield date(year, month, day)
    except ValueError:  # a thirty-first of June
        return


def _next(in_year: Callable[[int], date | None], today: date) -> Iterable[date]:
    """Yield the next day that comes once a year (a leap day is looked for in eight), and one that has just passed."""
    days = [day for year in range(today.year - 1, today.year + 9) if (day := in_year(year)) is not None]
    yield from (day for day in days if today - JUST_PASSED <= day < today)
    yield from [day for day in days if day >= today][:1]


def _of_this_month(said: str, today: date) -> Iterable[date]:
    if found := _DAY_ALONE.fullmatch(said):
        number = int(found["day"] or found["ordinal"])
        later = (_months_later(today.replace(day=1), count) for count in range(3))
        days = [day for month in later for day in _days(month.year, month.month, number) if day >= today]
        yield from days[:1]


def _end_of_month(said: str, today: date) -> Iterable[date]:
    found = _END.fullmatch(said)
    if found and (found["month"] == "month" or _month_named(found["month"])):
        month = _month_named(found["month"]) or today.month
        yield _last_of(today.year + (month < today.month), month)


def _holiday(said: str, today: date) -> Iterable[date]:
    name = said.replace("'", "")
    if name in _FIXED:
        yield from _of_year(None, *_FIXED[name], today)
    elif name in _FEDERAL:
        yield from _next(lambda year: _federal(year, _FEDERAL[name]), today)
    elif name in _AFTER_EASTER:
        yield from _next(lambda year: easter(year) + timedelta(days=_AFTER_EASTER[name]), today)


def _federal(year: int, name: str) -> date:
    return next(day for day, called in federal_holidays(year).items() if called == name)


def easter(year: int) -> date:
    """Return Easter Sunday of the Gregorian calendar (the anonymous algorithm, as in Meeus, Astronomical Algorithms, ch. 8)."""
    century, of_century = divmod(year, 100)
    correction = (century - (century + 8) // 25 + 1) // 3
    epact = (19 * (year % 19) + century - century // 4 - correction + 15) % 30
    to_sunday = (32 + 2 * (century % 4) + 2 * (of_century // 4) - epact - of_century % 4) % 7
    late = (year % 19 + 11 * epact + 22 * to_sunday) // 451
    month, day = divmod(epact + to_sunday - 7 * late + 114, 31)
    return date(year, month, day + 1)


READERS = (
    _near, _in_so_long, _weekday, _with_weekday, _named_month, _numbers, _of_this_month, _end_of_month, _holiday,
)  # fmt: skip
