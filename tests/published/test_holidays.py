"""Federal holidays (5 USC 6103; Executive Order 11582 for Sundays) and the 72 hours of export notices."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

import holidays
import pytest

from shipcalc.schedule.cutoff import latest_time_before
from shipcalc.schedule.working_days import federal_holidays


@pytest.mark.parametrize(
    ("holiday", "observed"),
    [  # computed with the `holidays` package from 5 USC 6103(b)
        (date(2026, 7, 4), date(2026, 7, 3)),
        (date(2027, 6, 19), date(2027, 6, 18)),
        (date(2027, 7, 4), date(2027, 7, 5)),
        (date(2027, 12, 25), date(2027, 12, 24)),
        (date(2028, 1, 1), date(2027, 12, 31)),  # observed in the year before
    ],
)
def test_a_holiday_at_the_weekend_is_observed_beside_it(holiday, observed):
    assert holiday in federal_holidays(holiday.year)
    assert federal_holidays(observed.year)[observed].endswith("(observed)")


def test_a_holiday_in_the_week_is_observed_on_its_day_alone():
    assert date(2026, 12, 25) in federal_holidays(2026)  # a Friday
    assert {date(2026, 12, 24), date(2026, 12, 26)}.isdisjoint(federal_holidays(2026))


def test_the_eleven_days_of_5_usc_6103_a_in_2026():
    proper = [day for day, name in federal_holidays(2026).items() if "observed" not in name]
    assert proper == [
        date(2026, 1, 1),
        date(2026, 1, 19),  # third Monday of January
        date(2026, 2, 16),  # third Monday of February
        date(2026, 5, 25),  # last Monday of May
        date(2026, 6, 19),
        date(2026, 7, 4),
        date(2026, 9, 7),  # first Monday of September
        date(2026, 10, 12),  # second Monday of October
        date(2026, 11, 11),
        date(2026, 11, 26),  # fourth Thursday of November
        date(2026, 12, 25),
    ]


@pytest.mark.parametrize("year", range(2021, 2101))
def test_every_year_agrees_with_the_holidays_package(year):
    assert set(federal_holidays(year)) == set(holidays.country_holidays("US", years=year))


at = datetime.fromisoformat
MONDAY_SAILING = at("2026-12-14 08:00")


def test_72_clock_hours_before_a_monday_morning_are_friday_morning():
    # 19 CFR 192.2(c), 15 CFR 30.4(b)(5): at least 72 hours before export.
    assert latest_time_before(MONDAY_SAILING) == at("2026-12-11 08:00")


def test_72_business_hours_before_a_monday_morning_are_wednesday_morning():
    assert latest_time_before(MONDAY_SAILING, kind="business") == at("2026-12-09 08:00")


def test_a_holiday_between_counts_for_the_clock_and_not_for_business_hours():
    after_christmas = at("2026-12-28 08:00")  # Monday; Christmas Day is the Friday before
    assert latest_time_before(after_christmas) == at("2026-12-25 08:00")
    assert latest_time_before(after_christmas, kind="business") == at("2026-12-22 08:00")


def test_a_sunday_sailing_has_its_business_hours_in_the_week_before():
    assert latest_time_before(at("2026-12-13 10:00"), kind="business") == at("2026-12-09 00:00")


def test_72_hours_across_the_change_to_summer_time_are_72_true_hours():
    new_york = ZoneInfo("America/New_York")  # clocks go forward on Sunday 14 March 2027
    sailing = datetime(2027, 3, 15, 8, tzinfo=new_york)
    assert latest_time_before(sailing) == datetime(2027, 3, 12, 7, tzinfo=new_york)
