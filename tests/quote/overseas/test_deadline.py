"""Must be there by a day, over the sea: ships leave on some days only, so that one day more may cost a fortnight."""

from datetime import date, timedelta

import pytest

from shipcalc.errors import NoAnswer

DAY = date(2026, 12, 1)


def test_every_way_that_is_shown_is_in_time(quoted) -> None:
    by = date(2027, 2, 20)
    for option in quoted(by=by).options:
        assert option.dates.delivery[1] <= by
        assert DAY <= option.latest_ready < by


def test_with_one_truck_one_port_and_one_ship_the_latest_ready_day_is_the_last_that_works(quoted, sea_book) -> None:
    whole, by = sea_book(), date(2027, 2, 20)
    ports = tuple(port for port in whole.ports if port.port in ("USTIW", "DEBRV"))
    book = sea_book(carriers=whole.carriers[:1], ocean=whole.ocean[:1], ports=ports)
    (option,) = quoted(by=by, book=book).options
    assert quoted(ready=option.latest_ready, by=by, book=book).options
    with pytest.raises(NoAnswer, match="cannot be promised there by 2027-02-20"):
        quoted(ready=option.latest_ready + timedelta(days=1), by=by, book=book)


def test_what_no_ship_can_do_is_said(quoted) -> None:
    with pytest.raises(NoAnswer, match="ready on 2026-12-01, the soonest delivery is by"):
        quoted(by=date(2026, 12, 20))


def test_ways_that_come_too_late_are_left_out_and_counted(quoted) -> None:
    free = quoted()
    soonest = min(option.dates.delivery[1] for option in free.options)
    tight = quoted(by=soonest)
    assert all(option.dates.delivery[1] <= soonest for option in tight.options)
    assert any("there only after" in out.reason for out in tight.left_out)
