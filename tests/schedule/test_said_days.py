"""Days as people say them; the calendar of 2026 and 2027 is the outside source."""

from datetime import date

import pytest
from holidays import country_holidays

from shipcalc.schedule.said_days import days_meant, easter

SATURDAY = date(2026, 11, 28)
MONDAY = date(2026, 11, 30)


@pytest.mark.parametrize(
    ("said", "day"),
    [
        ("dec 15", date(2026, 12, 15)),
        ("Dec. 15th", date(2026, 12, 15)),
        ("December 15, 2026", date(2026, 12, 15)),
        ("15 April", date(2027, 4, 15)),
        ("the 15th of april", date(2027, 4, 15)),
        ("15-Apr-27", date(2027, 4, 15)),
        ("12/15/26", date(2026, 12, 15)),
        ("15.12.2026", date(2026, 12, 15)),
        ("12/15", date(2026, 12, 15)),
        ("4/4", date(2027, 4, 4)),
        ("fri 12/4", date(2026, 12, 4)),
        ("Friday, December 4", date(2026, 12, 4)),
        ("today", SATURDAY),
        ("Tomorrow", date(2026, 11, 29)),
        ("the day after tomorrow", MONDAY),
        ("in two weeks", date(2026, 12, 12)),
        ("10 days from now", date(2026, 12, 8)),
        ("in a month", date(2026, 12, 28)),
        ("in three months", date(2027, 2, 28)),
        ("next friday", date(2026, 12, 4)),
        ("tuesday", date(2026, 12, 1)),
        ("the 5th", date(2026, 12, 5)),
        ("end of the month", MONDAY),
        ("end of february", date(2027, 2, 28)),
        ("christmas", date(2026, 12, 25)),
        ("New Year’s Eve", date(2026, 12, 31)),
        ("labor day", date(2027, 9, 6)),
        ("Easter", date(2027, 3, 28)),
        ("feb 29", date(2028, 2, 29)),
        ("sept 1", date(2027, 9, 1)),
    ],
)
def test_a_day_is_read_as_people_say_it(said: str, day: date) -> None:
    assert days_meant(said, today=SATURDAY) == (day,)


@pytest.mark.parametrize(
    ("said", "today", "days"),
    [
        ("3/4", SATURDAY, (date(2027, 3, 4), date(2027, 4, 3))),
        ("3/4/27", SATURDAY, (date(2027, 3, 4), date(2027, 4, 3))),
        ("next friday", MONDAY, (date(2026, 12, 4), date(2026, 12, 11))),
        ("monday", MONDAY, (MONDAY, date(2026, 12, 7))),
        ("nov 25", SATURDAY, (date(2026, 11, 25), date(2027, 11, 25))),
        ("thanksgiving", SATURDAY, (date(2026, 11, 26), date(2027, 11, 25))),
    ],
)
def test_what_can_be_two_days_is_both(said: str, today: date, days: tuple[date, ...]) -> None:
    assert days_meant(said, today=today) == days


@pytest.mark.parametrize(
    "said",
    [
        "",
        "soon",
        "13/13",
        "31 june",
        "monday 12/5",
        "next week",
        "mid december",
        "march",
        "marble 4",
        "99",
        "2 weeks",
        "in 0 days",
        "15 foo",
    ],
)
def test_what_names_no_day_is_none(said: str) -> None:
    assert days_meant(said, today=SATURDAY) == ()


def test_easter_is_that_of_the_holidays_package() -> None:
    """The package `holidays`, Easter Monday of Germany, 2000 to 2099: dates by dateutil, written independently."""
    theirs = {
        day
        for day, name in country_holidays("DE", years=range(2000, 2100), language="en_US").items()
        if name == "Easter Monday"
    }
    ours = {date.fromordinal(easter(year).toordinal() + 1) for year in range(2000, 2100)}
    assert len(theirs) == 100
    assert ours == theirs
