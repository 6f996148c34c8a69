from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.schedule.due import due_date, home_days, moment
from shipcalc.schedule.road import road_dates
from shipcalc.schedule.working_days import OFFICE, is_working_day
from shipcalc.trade import MOMENTS

AGREED = date(2026, 12, 1)  # a Tuesday
DATES = road_dates(
    ready=date(2026, 12, 3), pickup_from_days=2, pickup_to_days=6, miles=2000, speed_mph=55, spare_days=3
)  # pickup Sat 5 to Wed 9 Dec, delivery Tue 8 to Tue 15 Dec

CASES = [
    ("agreed", 0, date(2026, 12, 1)),
    ("agreed", 2, date(2026, 12, 3)),
    ("ready", -1, date(2026, 12, 2)),
    ("pickup", -1, date(2026, 12, 4)),  # before the first day it may happen
    ("pickup", 0, date(2026, 12, 9)),  # at it: the last day it may happen
    ("pickup", -3, date(2026, 12, 2)),
    ("delivery", -2, date(2026, 12, 4)),  # Sunday 6: back to Friday
    ("delivery", 0, date(2026, 12, 15)),
    ("after delivery", 1, date(2026, 12, 16)),
    ("after delivery", 5, date(2026, 12, 18)),  # Sunday 20: back to Friday
]


@pytest.mark.parametrize(("stage", "days", "due"), CASES)
def test_due_dates_by_hand(stage, days, due):
    assert due_date(stage, days, moments=home_days(AGREED, DATES)) == due


AT_SEA = {
    "agreed": (AGREED, AGREED),
    "ready": (date(2026, 12, 3), date(2026, 12, 3)),
    "pickup": (date(2026, 12, 4), date(2026, 12, 7)),
    "port": (date(2026, 12, 8), date(2026, 12, 12)),
    "cut-off": (date(2026, 12, 14), date(2026, 12, 28)),  # 72 hours and more before either of two sailings
    "sailing": (date(2026, 12, 18), date(2027, 1, 1)),
    "arrival": (date(2026, 12, 31), date(2027, 1, 14)),
    "release": (date(2027, 1, 6), date(2027, 1, 20)),
    "delivery": (date(2027, 1, 7), date(2027, 1, 27)),
    "after delivery": (date(2027, 1, 27), date(2027, 1, 27)),
}


@pytest.mark.parametrize(
    ("stage", "days", "due"),
    [
        ("port", -1, date(2026, 12, 7)),
        ("port", 0, date(2026, 12, 12)),
        ("cut-off", 0, date(2026, 12, 14)),  # a deadline: for the first ship, not for the last
        ("cut-off", -1, date(2026, 12, 11)),  # Sunday 13: back to Friday
        ("sailing", 3, date(2027, 1, 4)),
        ("arrival", -10, date(2026, 12, 21)),
        ("release", 0, date(2027, 1, 20)),
    ],
)
def test_due_dates_of_a_shipment_by_sea(stage, days, due):
    assert due_date(stage, days, moments=AT_SEA) == due


@pytest.mark.parametrize(("stage", "takes"), [("sailing", "pickup"), ("release", "pickup"), ("delivery", "delivery")])
def test_a_stage_that_a_shipment_does_not_come_to_is_the_last_one_before_it(stage, takes):
    assert moment(stage, home_days(AGREED, DATES)) == moment(takes, home_days(AGREED, DATES))


def test_nothing_is_due_before_the_agreement():
    assert due_date("pickup", -30, moments=home_days(AGREED, DATES)) == AGREED


@given(
    ready_in=st.integers(0, 60),
    later=st.integers(0, 30),
    miles=st.integers(1, 3500),
    stage=st.sampled_from(MOMENTS),
    days=st.integers(-20, 0),
)
def test_a_due_date_is_never_after_its_stage_and_a_later_ready_date_never_makes_it_earlier(
    ready_in, later, miles, stage, days
):
    def dates(wait):
        return road_dates(
            ready=AGREED + timedelta(days=wait),
            pickup_from_days=1,
            pickup_to_days=5,
            miles=miles,
            speed_mph=55,
            spare_days=2,
        )

    soon, late = dates(ready_in), dates(ready_in + later)
    due = due_date(stage, days, moments=home_days(AGREED, soon))
    assert AGREED <= due <= moment(stage, home_days(AGREED, soon))[0 if days < 0 else 1]
    assert due <= due_date(stage, days, moments=home_days(AGREED, late))
    if days:
        assert due == AGREED or is_working_day(due, OFFICE)


@given(stage=st.sampled_from(MOMENTS), days=st.integers(-20, 20))
def test_more_days_never_make_it_earlier(stage, days):
    assert due_date(stage, days, moments=home_days(AGREED, DATES)) <= due_date(
        stage, days + 1, moments=home_days(AGREED, DATES)
    )
