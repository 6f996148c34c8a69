from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.schedule.back_planning import latest_start
from shipcalc.schedule.road import road_dates

DAYS = st.dates(date(2026, 1, 1), date(2027, 12, 31))


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


def test_what_never_arrives_has_no_start():
    assert latest_start(date(2026, 12, 24), lambda _ready: None, soonest=date(2026, 12, 1)) is None
