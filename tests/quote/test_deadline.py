"""Must be there by a day: what is in time, by when it must be ready, or that it cannot be promised."""

from datetime import date, timedelta

import pytest

from shipcalc.errors import NoAnswer, WrongInput

DAY = date(2026, 12, 1)


@pytest.mark.parametrize("wait", [8, 12, 25, 60])
def test_every_choice_is_in_time_and_ready_a_day_later_it_would_not_be(dealer_quote, wait):
    by = DAY + timedelta(days=wait)
    quote = dealer_quote("HV-1042", to="59715", by=by)
    for option in quote.options:
        assert option.dates.delivery[1] <= by
        assert DAY <= option.latest_ready <= by
        in_time = dealer_quote("HV-1042", to="59715", ready=option.latest_ready, by=by)
        names = {(leg.carrier, other.trailer) for other in in_time.options for leg in other.legs}
        assert in_time.options
        assert names
    latest = max(option.latest_ready for option in quote.options)
    with_latest = dealer_quote("HV-1042", to="59715", ready=latest, by=by)
    assert min(option.dates.delivery[1] for option in with_latest.options) <= by


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


def test_without_a_day_nothing_is_said_of_one(dealer_quote):
    quote = dealer_quote("HV-1042", to="59715")
    assert quote.by is None
    assert {option.latest_ready for option in quote.options} == {None}
    assert not any("must be ready" in note for note in quote.assumptions)


def test_a_day_before_it_is_ready_is_a_slip(dealer_quote):
    with pytest.raises(WrongInput, match="by: it cannot be there by 2026-12-03, before it is ready"):
        dealer_quote("HV-1042", to="59715", ready=date(2026, 12, 4), by=date(2026, 12, 3))
