"""From the terminal's gate to the other side: by hand, and in any order of arrival."""

from datetime import date, timedelta

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.records import replace
from shipcalc.schedule.road import NEVER
from shipcalc.schedule.voyage import (
    Sailings,
    Terminal,
    cutoff_day,
    days_at_sea,
    days_near,
    late_days,
    plus_working_days_columns,
    sailing_table,
    sails_on,
    table_of_one,
)
from shipcalc.schedule.working_days import OFFICE, plus_working_days

CLOCK = Terminal(calendar=OFFICE, cutoff_days=2, document_hours=72, hours_kind="clock")
BUSINESS = Terminal(calendar=OFFICE, cutoff_days=2, document_hours=72, hours_kind="business")
FORTNIGHT = Sailings(first=date(2026, 12, 4), every_days=14)
LISTED = Sailings(first=date(2026, 12, 4), every_days=7, listed=(date(2026, 12, 4), date(2026, 12, 15)))
DAYS = st.dates(date(2026, 1, 1), date(2027, 12, 31))


def next_ship(sailings: Sailings, terminal: Terminal, day: date) -> tuple[date, date] | None:
    sailing, cutoff = sailing_table(sailings, terminal, day).next_for(np.array([day.toordinal()]))
    return None if sailing[0] == NEVER else (date.fromordinal(int(sailing[0])), date.fromordinal(int(cutoff[0])))


def test_the_earlier_of_the_terminals_own_cut_off_and_the_72_hours_counts():
    # Friday 18 December: two working days before is Wednesday the 16th; loading begins on Thursday at noon, 72 hours before is Monday.
    assert cutoff_day(date(2026, 12, 18), CLOCK) == date(2026, 12, 14)
    # Monday 14 December, loading from Sunday noon: two working days before is Thursday the 10th, 72 hours by the clock as well; the
    # three business days are Wednesday to Friday, so all is there before Wednesday begins.
    assert cutoff_day(date(2026, 12, 14), CLOCK) == date(2026, 12, 10)
    assert cutoff_day(date(2026, 12, 14), BUSINESS) == date(2026, 12, 8)


def test_the_hours_before_loading_count_and_not_those_before_departure():
    """19 CFR 192.2(c) counts from export; ports count it from loading, which begins a day or so before (common practice, no source)."""
    by_departure, by_loading = (replace(CLOCK, loading_hours=hours) for hours in (0, 36))
    assert cutoff_day(date(2026, 12, 18), by_departure) == date(2026, 12, 15)
    # Loading from Thursday, 0:00: before Monday begins, and at the weekend the gate is shut.
    assert cutoff_day(date(2026, 12, 18), by_loading) == date(2026, 12, 11)


def test_a_cut_off_never_falls_on_a_day_on_which_the_terminal_is_shut():
    # Tuesday 29 December: loading from Monday noon, 72 hours before is Friday, Christmas Day; Thursday the 24th counts.
    assert cutoff_day(date(2026, 12, 29), CLOCK) == date(2026, 12, 24)


def test_a_known_ship_is_found_and_no_other():
    known = table_of_one(FORTNIGHT, CLOCK, date(2026, 12, 18))
    assert known.sailing.tolist() == [date(2026, 12, 18).toordinal(), NEVER]
    assert known.cutoff.tolist() == [date(2026, 12, 14).toordinal(), NEVER]
    assert table_of_one(FORTNIGHT, CLOCK, date(2026, 12, 19)).sailing.tolist() == [NEVER]
    assert sails_on(LISTED, date(2026, 12, 15))
    assert days_near(FORTNIGHT, date(2026, 12, 10), within=timedelta(days=10)) == [
        date(2026, 12, 4),
        date(2026, 12, 18),
    ]


def test_in_time_for_the_cut_off_sails_with_it_and_a_day_later_with_the_next():
    assert next_ship(FORTNIGHT, CLOCK, date(2026, 12, 14)) == (date(2026, 12, 18), date(2026, 12, 14))
    assert next_ship(FORTNIGHT, CLOCK, date(2026, 12, 15)) == (date(2027, 1, 1), date(2026, 12, 28))


def test_a_service_sails_before_the_day_it_is_counted_from_too():
    assert next_ship(FORTNIGHT, CLOCK, date(2026, 11, 10)) == (date(2026, 11, 20), date(2026, 11, 16))


def test_listed_days_count_and_after_the_last_there_is_none():
    assert next_ship(LISTED, CLOCK, date(2026, 12, 2)) == (date(2026, 12, 15), date(2026, 12, 11))
    assert next_ship(LISTED, CLOCK, date(2026, 12, 13)) is None


def test_days_at_sea():
    # New York to Bremerhaven, 3,594 nmi (NGA Pub. 151, composed over Bishop Rock), at 14.3 kn: 10.5 days.
    nmi = np.array([3594.0, 24 * 14.3 * 10])
    none = np.zeros(2, dtype=np.int64)
    assert days_at_sea(nmi, knots=14.3, port_days=0, canals=none).tolist() == [11, 10]
    assert days_at_sea(nmi, knots=14.3, port_days=2, canals=none + 1).tolist() == [14, 13]


def test_a_ship_may_be_late_by_a_share_of_its_days_at_sea():
    # 15 percent of 14, 31 and 35 days, begun days whole. A late container ship came 5.1 days late on the average of all trades
    # (Sea-Intelligence, Global Liner Performance, May 2024, as the press reports it).
    assert late_days(np.array([14, 31, 35, 0]), 150_000).tolist() == [3, 5, 6, 0]


@given(day=DAYS, later=st.integers(0, 60), terminal=st.sampled_from([CLOCK, BUSINESS]))
def test_later_at_the_terminal_never_sails_earlier(day, later, terminal):
    soon, late = (next_ship(FORTNIGHT, terminal, day + timedelta(days=wait)) for wait in (0, later))
    assert soon is not None
    assert late is not None
    assert soon <= late
    for (sailing, cutoff), at in ((soon, day), (late, day + timedelta(days=later))):
        assert at <= cutoff < sailing


@given(days=st.lists(DAYS, min_size=1, max_size=5), count=st.integers(0, 9))
def test_working_days_of_a_column_are_those_of_each_day(days, count):
    columns = np.array([day.toordinal() for day in days])
    counted = [plus_working_days(day, count, OFFICE).toordinal() for day in days]
    assert plus_working_days_columns(columns, count, OFFICE).tolist() == counted
