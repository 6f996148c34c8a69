from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.schedule.road import road_dates
from shipcalc.schedule.sailing import Service, days_waiting, find_sailing, latest_start, sailing_window, sea_days

FRIDAYS = Service(first=date(2026, 12, 4), every_days=7, cutoff_days=2)
LISTED = Service(listed=(date(2026, 12, 4), date(2026, 12, 15)), cutoff_days=3)
DAYS = st.dates(date(2026, 1, 1), date(2027, 12, 31))


def test_in_time_for_the_cut_off_sails_this_week_and_a_day_later_next_week():
    assert find_sailing(date(2026, 12, 2), FRIDAYS) == date(2026, 12, 4)
    assert find_sailing(date(2026, 12, 3), FRIDAYS) == date(2026, 12, 11)


def test_a_service_sails_before_the_day_it_is_counted_from_too():
    assert find_sailing(date(2026, 11, 17), FRIDAYS) == date(2026, 11, 20)


def test_listed_days_count_and_after_the_last_there_is_none():
    assert find_sailing(date(2026, 12, 2), LISTED) == date(2026, 12, 15)
    assert find_sailing(date(2026, 12, 13), LISTED) is None
    assert sailing_window((date(2026, 12, 1), date(2026, 12, 13)), LISTED) is None


def test_a_missed_cut_off_is_paid_in_days_of_standing():
    at_port = date(2026, 12, 3)
    assert days_waiting(at_port, date(2026, 12, 11), FRIDAYS) == 6


def test_days_at_sea():
    # New York to Bremerhaven, 3,594 nmi (NGA Pub. 151, composed over Bishop Rock), at 14.3 kn: 10.5 days.
    assert sea_days(distance_nmi=3594, speed_kn=14.3) == 11
    assert sea_days(distance_nmi=24 * 14.3 * 10, speed_kn=14.3) == 10
    assert sea_days(distance_nmi=3594, speed_kn=14.3, canal_days=1) == 12


@given(day=DAYS, later=st.integers(0, 60), service=st.sampled_from([FRIDAYS, LISTED]))
def test_later_at_the_port_never_sails_earlier(day, later, service):
    first, second = find_sailing(day, service), find_sailing(day + timedelta(days=later), service)
    assert first is None or first >= day + timedelta(days=service.cutoff_days)
    assert second is None or (first is not None and first <= second)


def arrives(ready):
    return road_dates(
        ready=ready, pickup_from_days=1, pickup_to_days=5, miles=2000, speed_mph=55, spare_days=2
    ).delivery[1]


@given(soonest=DAYS, wish=st.integers(0, 60))
def test_planning_back_finds_the_last_day_that_is_in_time(soonest, wish):
    wanted = soonest + timedelta(days=wish)
    start = latest_start(wanted, arrives, soonest=soonest)
    if start is None:
        assert arrives(soonest) > wanted
    else:
        assert arrives(start) <= wanted < arrives(start + timedelta(days=1))


@pytest.mark.parametrize(("wanted", "start"), [(date(2026, 12, 24), date(2026, 12, 14)), (date(2026, 12, 2), None)])
def test_must_be_there_by(wanted, start):
    # Pickup within 5 days, three days on the road, two to spare: ten days from ready to the latest delivery.
    assert latest_start(wanted, arrives, soonest=date(2026, 12, 1)) == start
