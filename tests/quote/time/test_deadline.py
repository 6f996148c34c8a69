"""Must be there by a day: what is in time, by when it must be ready, or that it cannot be promised."""

from datetime import date, timedelta

import pytest

from shipcalc.errors import NoAnswer, WrongInput

DAY = date(2026, 12, 1)


def test_of_the_soonest_choice_the_latest_ready_day_is_the_last_that_works(dealer_quote):
    by = date(2026, 12, 24)
    quote = dealer_quote("HV-1042", to="59715", by=by)
    latest = max(option.latest_ready for option in quote.options)
    assert dealer_quote("HV-1042", to="59715", ready=latest, by=by).options
    with pytest.raises(NoAnswer, match="cannot be promised there by 2026-12-24: ready on"):
        dealer_quote("HV-1042", to="59715", ready=latest + timedelta(days=1), by=by)


def test_what_may_come_too_late_is_left_out_and_said(dealer_quote):
    quote = dealer_quote("HV-1042", to="59715", by=date(2026, 12, 9))
    assert any("at the latest, not by 2026-12-09" in out.reason for out in quote.left_out)
    assert any(note.startswith("To be there by 2026-12-09 the vehicle must be ready by ") for note in quote.assumptions)


def test_a_day_before_it_is_ready_is_a_slip(dealer_quote):
    with pytest.raises(WrongInput, match="by: it cannot be there by 2026-12-03, before it is ready"):
        dealer_quote("HV-1042", to="59715", ready=date(2026, 12, 4), by=date(2026, 12, 3))


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


# Ships leave on some days only, so that one day more may cost a fortnight.
def test_ways_that_come_too_late_are_left_out_and_counted(quoted) -> None:
    free = quoted()
    soonest = min(option.dates.delivery[1] for option in free.options)
    tight = quoted(by=soonest)
    assert all(option.dates.delivery[1] <= soonest for option in tight.options)
    assert any("there only after" in out.reason for out in tight.left_out)
