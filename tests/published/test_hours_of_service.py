"""Hours of service of drivers of property-carrying vehicles, 49 CFR 395.3: one case a rule, answered both ways.

The figures in the cases follow from the rule by hand; the table at the end was computed apart from this program, for one
rested driver with half an hour of on-duty work before each shift and 70 hours in 8 days.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.records import replace
from shipcalc.schedule.driving import PROPERTY_CARRYING, HoursOfService, RoadTime, road_time

MPH = 50


def drive(hours, rules: HoursOfService = PROPERTY_CARRYING) -> RoadTime:
    return road_time(miles=hours * MPH, speed_mph=MPH, rules=rules)


def test_a1_ten_hours_off_come_between_shifts_and_not_before_the_first():
    assert drive(11).elapsed_h == 0.5 + 8 + 0.5 + 3
    assert drive(12).elapsed_h == (0.5 + 8 + 0.5 + 3) + 10 + 0.5 + 1


def test_a2_nobody_drives_after_the_fourteenth_hour_on_duty():
    loads_four_hours = replace(PROPERTY_CARRYING, before_driving_h=4)
    # 4 h of loading, 8 h of driving, half an hour of break: an hour and a half is left in the window, 9.5 h of driving in all.
    assert drive(9.5, loads_four_hours).shifts == 1
    assert drive(9.6, loads_four_hours).shifts == 2


def test_a3i_eleven_hours_of_driving_fit_a_shift_and_no_more():
    assert drive(11).shifts == 1
    assert drive(11.1).shifts == 2


def test_a3ii_a_break_comes_after_eight_hours_of_driving_and_not_before():
    assert (drive(8).breaks, drive(8).elapsed_h) == (0, 8.5)
    assert (drive(8.5).breaks, drive(8.5).elapsed_h) == (1, 9.5)


def test_b2_seventy_hours_on_duty_in_eight_days_are_the_end_of_a_cycle():
    # Six shifts of half an hour and eleven hours are 69 hours on duty; half an hour of driving would still fit a seventh.
    assert (drive(66).restarts, drive(66.5).restarts) == (0, 0)
    assert drive(67).restarts == 1


def test_b1_sixty_hours_in_seven_days_hold_for_a_carrier_that_does_not_drive_every_day():
    sixty = replace(PROPERTY_CARRYING, cycle_h=60)
    assert drive(57, sixty).restarts == 0  # five full shifts and 0.5 + 2 hours
    assert drive(57.5, sixty).restarts == 1


def test_c_thirty_four_hours_off_begin_a_new_cycle():
    six_shifts = 6 * 12 + 5 * 10
    assert drive(66).elapsed_h == six_shifts
    assert drive(68).elapsed_h == six_shifts + 34 + 0.5 + 2


COMPUTED_APART = [  # miles, (driving hours, shifts, elapsed hours) at 50 mph, the same at 55 mph
    (400, (8.00, 1, 8.50), (7.27, 1, 7.77)),
    (500, (10.00, 1, 11.00), (9.09, 1, 10.09)),
    (605, (12.10, 2, 23.60), (11.00, 1, 12.00)),
    (1000, (20.00, 2, 32.00), (18.18, 2, 29.68)),
    (1500, (30.00, 3, 52.50), (27.27, 3, 49.77)),
    (2000, (40.00, 4, 73.50), (36.36, 4, 69.86)),
    (2800, (56.00, 6, 111.50), (50.91, 5, 95.41)),
    (3000, (60.00, 6, 115.50), (54.55, 5, 99.55)),
]


@pytest.mark.parametrize(("miles", "at_50", "at_55"), COMPUTED_APART)
def test_the_table_computed_apart_is_met_to_the_hundredth(miles, at_50, at_55):
    for speed_mph, expected in ((50, at_50), (55, at_55)):
        time = road_time(miles=miles, speed_mph=speed_mph)
        assert (round(time.driving_h, 2), time.shifts, round(time.elapsed_h, 2)) == expected


def test_a_quotient_a_hair_above_whole_shifts_costs_no_further_shift():
    assert 5808 / 52.8 >= 110
    assert road_time(miles=5808, speed_mph=52.8).shifts == 10


@given(
    shorter=st.integers(0, 6000),
    more=st.integers(0, 2000),
    speed_mph=st.floats(20, 80),
    before_h=st.sampled_from([0.0, 0.5, 1.5, 4.0]),
)
def test_a_longer_trip_never_takes_less_time(shorter, more, speed_mph, before_h):
    rules = replace(PROPERTY_CARRYING, before_driving_h=before_h)
    first = road_time(miles=shorter, speed_mph=speed_mph, rules=rules)
    second = road_time(miles=shorter + more, speed_mph=speed_mph, rules=rules)
    assert second.elapsed_h >= first.elapsed_h
    assert second.elapsed_h >= second.driving_h + 10 * max(second.shifts - 1, 0)
