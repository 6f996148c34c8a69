import math
from datetime import date, timedelta
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.schedule.road import day_of_delivery, days_of_delivery, driving_days, road_dates
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
    by_pace = paced.pickup[0] + timedelta(days=max(math.ceil(Fraction(trip["miles"], pace) - Fraction(1, 2)), 0))
    assert paced.pickup == lawful.pickup
    assert paced.delivery[0] == max(lawful.delivery[0], day_of_delivery(by_pace))


def test_columns_of_driving_days_are_those_of_each_trip():
    miles, paces = np.array([0, 90, 450, 451, 749, 2_000, 749]), np.array([450, 900])
    found = driving_days(miles, 55, paces)
    each = [[trip(miles=mi, miles_a_day=pace).driving_days for mi in miles.tolist()] for pace in paces.tolist()]
    assert found.tolist() == each
    assert found[0].tolist() == [0, 0, 1, 1, 2, 4, 2]


OPEN_TRAILER = {"miles": 749, "miles_a_day": 450, "spare_days": 3, "pickup_from_days": 2, "pickup_to_days": 4}


@pytest.mark.parametrize(
    ("ready", "pickup", "delivery"),
    [
        # 749 miles on a shared open trailer: two days after loading, and three to spare.
        (date(2026, 12, 1), (date(2026, 12, 3), date(2026, 12, 5)), (date(2026, 12, 5), date(2026, 12, 10))),
        # Loaded on Wednesday the 23rd it would come on Christmas Day: the 26th. No yard hands over on the 25th: Saturday the 26th.
        (date(2026, 12, 21), (date(2026, 12, 23), date(2026, 12, 26)), (date(2026, 12, 26), date(2026, 12, 31))),
        # Loaded on the 30th it would come on New Year's Day; loaded on Saturday the 2nd, by the 7th.
        (date(2026, 12, 28), (date(2026, 12, 30), date(2027, 1, 2)), (date(2027, 1, 2), date(2027, 1, 7))),
        # The last day would be Christmas Day.
        (date(2026, 12, 16), (date(2026, 12, 18), date(2026, 12, 21)), (date(2026, 12, 20), date(2026, 12, 26))),
    ],
)
def test_749_miles_in_december_by_hand(ready, pickup, delivery):
    dates = trip(ready=ready, **OPEN_TRAILER)
    assert (dates.pickup, dates.delivery) == (pickup, delivery)


@given(ready=READY, trip=TRIPS)
def test_nobody_delivers_on_the_three_days_and_columns_say_the_same(ready, trip):
    dates = road_dates(ready=ready, **trip)
    for day in dates.delivery:
        assert (day.month, day.day) not in {(1, 1), (12, 25)}
        # The fourth Thursday of November, 5 USC 6103(a).
        assert not (day.month == 11 and day.weekday() == 3 and 22 <= day.day <= 28)
    days = [ready + timedelta(days=number) for number in range(40)]
    moved = days_of_delivery(np.array([day.toordinal() for day in days], dtype=np.int64))
    assert moved.tolist() == [day_of_delivery(day).toordinal() for day in days]


@pytest.mark.parametrize(
    # "Estimating Nationwide Car Transport Times", visualfoodie.com, read on 28 November 2026: days on the road.
    ("miles", "in_print"),
    [(250, (1, 2)), (749, (2, 4)), (1_250, (3, 6)), (2_000, (5, 8)), (2_750, (7, 12))],
)
def test_days_on_the_road_are_those_that_others_print(miles, in_print):
    """450 miles a day with three days to spare; other texts in print have 3 to 7 days for 500 to 1,500 miles.

    The soonest is a day either way of theirs; the last is at most two days later, since the days of waiting for a full trailer are ours.
    """
    dates = trip(ready=date(2026, 6, 1), **{**OPEN_TRAILER, "miles": miles})
    soonest, latest = dates.driving_days, dates.driving_days + 3
    assert in_print[0] - 1 <= soonest <= in_print[0] + 1
    assert in_print[0] <= latest <= in_print[1] + 2


def test_a_pickup_waits_for_a_day():
    dates = trip(not_before=date(2026, 12, 24), **OPEN_TRAILER)
    assert dates.pickup == (date(2026, 12, 24), date(2026, 12, 24))
    assert dates.delivery == (date(2026, 12, 26), date(2026, 12, 29))
