"""The 72 hours before a land border, under both readings: 19 CFR 192.2(c), 15 CFR 30.4(b)(5)."""

from datetime import date, datetime, time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.schedule.border import first_departure, papers_with_customs
from shipcalc.schedule.cutoff import latest_time_before
from shipcalc.schedule.due import due_date
from shipcalc.schedule.working_days import OFFICE, is_working_day


@pytest.mark.parametrize(
    ("agreed", "with_customs", "departure"),
    [
        # Monday: papers Thursday; Friday, Monday, Tuesday.
        (date(2026, 12, 7), date(2026, 12, 10), date(2026, 12, 15)),
        # Friday before Columbus Day (Monday 12 October 2026, 5 USC 6103): Tuesday to Thursday; Friday, Monday, Tuesday.
        (date(2026, 10, 9), date(2026, 10, 15), date(2026, 10, 20)),
    ],
)
def test_days_counted_by_hand(agreed: date, with_customs: date, departure: date) -> None:
    assert (papers_with_customs(agreed), first_departure(agreed)) == (with_customs, departure)


@given(st.dates(date(2026, 1, 1), date(2030, 12, 31)))
def test_the_72_hours_hold_by_the_clock_and_by_business_days(agreed: date) -> None:
    papers, departure = papers_with_customs(agreed), first_departure(agreed)
    assert is_working_day(departure, OFFICE)
    noon = datetime.combine(departure, time(12))
    assert latest_time_before(noon, kind="clock").date() >= papers
    assert latest_time_before(noon, kind="business").date() >= papers


def test_a_limit_of_the_law_counts_from_the_first_possible_day() -> None:
    """Fourteen days to tell the tax office of an arrival (gov.uk, Notification of Vehicle Arrivals)."""
    moments = {"agreed": (date(2026, 12, 1),) * 2, "arrival": (date(2027, 1, 4), date(2027, 1, 18))}
    assert due_date("arrival", 10, "first", moments=moments) <= date(2027, 1, 18)
    assert due_date("arrival", 10, "first", moments=moments) == date(2027, 1, 14)
    assert due_date("arrival", 10, moments=moments) == date(2027, 1, 28), "the last day, which would be too late"
