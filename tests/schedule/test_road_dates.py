import math
from datetime import date, timedelta
from fractions import Fraction

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.schedule.road import driving_days, road_dates
from shipcalc.schedule.working_days import YARD, Calendar, is_working_day

READY = st.dates(date(2025, 1, 1), date(2030, 12, 31))
TRIPS = st.fixed_dictionaries(
    {
        "pickup_from_days": st.integers(0, 14),
        "pickup_to_days": st.integers(0, 21),
        "miles": st.integers(0, 5000),
        "speed_mph": st.sampled_from([35.0, 50.0, 55.0, 62.5]),
        "spare_days": st.integers(0, 9),
        "extra_days": st.integers(0, 5),
    }
)


def trip(**changes):
    usual = {
        "ready": date(2026, 12, 1),
        "pickup_from_days": 2,
        "pickup_to_days": 6,
        "miles": 2000,
        "speed_mph": 55,
        "spare_days": 3,
    }
    return road_dates(**{**usual, **changes})


@given(ready=READY, trip=TRIPS)
def test_windows_are_ordered(ready, trip):
    dates = road_dates(ready=ready, **trip)
    assert ready <= dates.pickup[0] <= dates.pickup[1]
    assert dates.pickup[0] <= dates.delivery[0] <= dates.delivery[1]
    assert dates.pickup[1] <= dates.delivery[1]
    assert dates.delivery[0] == dates.pickup[0] + timedelta(days=dates.driving_days)


@given(ready=READY, later=st.integers(0, 40), trip=TRIPS)
def test_a_later_ready_date_never_makes_anything_earlier(ready, later, trip):
    before = road_dates(ready=ready, **trip)
    after = road_dates(ready=ready + timedelta(days=later), **trip)
    assert all(a <= b for a, b in zip(before.pickup + before.delivery, after.pickup + after.delivery, strict=True))


@given(ready=READY, more_miles=st.integers(0, 3000), trip=TRIPS)
def test_a_longer_trip_is_never_delivered_earlier(ready, more_miles, trip):
    shorter = road_dates(ready=ready, **trip)
    longer = road_dates(ready=ready, **{**trip, "miles": trip["miles"] + more_miles})
    assert longer.delivery[0] >= shorter.delivery[0]
    assert longer.delivery[1] >= shorter.delivery[1]


@given(ready=READY, trip=TRIPS)
def test_a_yard_hands_over_on_its_working_days_only(ready, trip):
    dates = road_dates(ready=ready, **trip)
    assert all(is_working_day(day, YARD) for day in dates.pickup)


def test_a_pickup_on_sunday_moves_to_monday_and_one_on_saturday_stays():
    assert trip(ready=date(2026, 12, 3), pickup_from_days=2).pickup[0] == date(2026, 12, 5)
    assert trip(ready=date(2026, 12, 4), pickup_from_days=2).pickup[0] == date(2026, 12, 7)


def test_another_yard_may_keep_other_days():
    weekdays_only = Calendar(weekdays=frozenset(range(5)), closed=frozenset({date(2026, 12, 7)}))
    assert trip(ready=date(2026, 12, 3), pickup_from_days=2, yard=weekdays_only).pickup[0] == date(2026, 12, 8)


def test_what_would_arrive_in_the_night_arrives_the_next_day():
    # From noon: 440 mi at 55 mph take 0.5 + 8 h (20:30, too late); 412 mi take 7.99 h (19:59).
    assert trip(miles=412).driving_days == 0
    assert trip(miles=440).driving_days == 1


def test_spare_and_extra_days_move_the_late_end_only():
    plain, spared = trip(spare_days=0), trip(spare_days=3, extra_days=2)
    assert spared.delivery[0] == plain.delivery[0]
    assert spared.delivery[1] == plain.delivery[1] + timedelta(days=5)


def test_the_note_says_how_the_days_were_found():
    assert trip().note == (
        "2,000 mi at 55 mph: 36.4 h of driving in 4 shifts, 69.9 h with rests (49 CFR 395.3), "
        "there 3 days later at the earliest"
    )


def test_749_miles_at_450_a_day_are_two_driving_days():
    """By hand, loaded at noon: 225 on the first day, 450 on the next, 74 on the third. 400 to 500 miles a day on a shared trailer: common practice, no source."""
    dates = trip(ready=date(2026, 12, 1), miles=749, miles_a_day=450)
    assert dates.driving_days == 2
    assert dates.pickup == (date(2026, 12, 3), date(2026, 12, 7))
    assert dates.delivery == (date(2026, 12, 5), date(2026, 12, 12))
    assert "; with other stops 450 mi a day, there 2 days later at the earliest" in dates.note
    assert trip(miles=749).driving_days == 1


@given(ready=READY, trip=TRIPS, pace=st.integers(1, 900))
def test_other_stops_never_bring_a_truck_sooner_than_its_driver_lawfully_can(ready, trip, pace):
    lawful, paced = road_dates(ready=ready, **trip), road_dates(ready=ready, **trip, miles_a_day=pace)
    assert paced.driving_days == max(lawful.driving_days, math.ceil(Fraction(trip["miles"], pace) - Fraction(1, 2)))
    assert paced.pickup == lawful.pickup


def test_columns_of_driving_days_are_those_of_each_trip():
    miles, paces = np.array([0, 90, 450, 451, 749, 2_000, 749]), np.array([450, 900])
    found = driving_days(miles, 55, paces)
    each = [[trip(miles=mi, miles_a_day=pace).driving_days for mi in miles.tolist()] for pace in paces.tolist()]
    assert found.tolist() == each
    assert found[0].tolist() == [0, 0, 1, 1, 2, 4, 2]
