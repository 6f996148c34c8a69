from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.schedule.working_days import (
    OFFICE,
    YARD,
    Calendar,
    is_working_day,
    plus_working_days,
    public_holidays,
    working_day_from,
    working_day_until,
)

DAYS = st.dates(date(2022, 1, 1), date(2035, 12, 31))


def test_the_office_is_closed_on_thanksgiving_and_open_the_day_after():
    assert not is_working_day(date(2026, 11, 26), OFFICE)
    assert is_working_day(date(2026, 11, 27), OFFICE)


def test_a_yard_open_on_saturdays_keeps_the_holiday_on_its_own_day_too():
    assert not is_working_day(date(2026, 7, 4), YARD)
    assert is_working_day(date(2026, 7, 11), YARD)


def test_three_working_days_before_a_monday_skip_the_weekend_and_the_holiday():
    assert plus_working_days(date(2026, 11, 30), -3, OFFICE) == date(2026, 11, 24)
    assert plus_working_days(date(2026, 11, 24), 3, OFFICE) == date(2026, 11, 30)


def test_holidays_abroad_come_from_the_package_and_unknown_countries_have_none():
    assert public_holidays("DE", 2026)[date(2026, 10, 3)]
    assert public_holidays("XX", 2026) == {}


def test_no_country_means_no_holidays():
    assert is_working_day(date(2026, 12, 25), Calendar(weekdays=frozenset(range(7)), country=""))


@given(day=DAYS, calendar=st.sampled_from([OFFICE, YARD]))
def test_rounding_to_a_working_day_stays_within_a_week(day, calendar):
    before, after = working_day_until(day, calendar), working_day_from(day, calendar)
    assert before <= day <= after
    assert is_working_day(before, calendar)
    assert is_working_day(after, calendar)
    assert after - before <= timedelta(days=6)


@pytest.mark.parametrize("count", [-7, -1, 1, 7])
def test_counting_forth_and_back_returns_to_a_working_day(count):
    start = date(2026, 12, 22)
    assert plus_working_days(plus_working_days(start, count, OFFICE), -count, OFFICE) == start
