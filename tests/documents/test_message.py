from datetime import date
from decimal import Decimal

import pytest

from shipcalc.documents import wording
from shipcalc.documents.message import buyer_message
from shipcalc.quote.model import Quote


def test_the_message_says_how_much_when_and_what_is_not_included(two_choices: Quote) -> None:
    told = buyer_message(two_choices)
    for option in two_choices.options:
        assert wording.money(option.total, "USD") in told
        assert wording.window(option.dates.delivery) in told
        assert all(line in told for line in option.not_included)
    assert "Dear Ottoline Quill," in told
    assert "Tuesday 15 December 2026" in told
    assert two_choices.reason in told
    assert told.endswith("Quote Q-2026-0041\n")


def test_the_message_tells_nothing_of_the_office(any_quote: Quote) -> None:
    told = buyer_message(any_quote)
    assert not any(option.legs[0].carrier in told for option in any_quote.options)
    assert "trucking" not in told
    assert not any(f"{option.total_cost:,}" in told for option in any_quote.options)


def test_what_may_be_paid_at_home_is_called_an_estimate(five_vehicles: Quote) -> None:
    assert "At your end you may pay about $228.00 to others; that is an estimate" in buyer_message(five_vehicles)


@pytest.mark.parametrize(
    ("days", "told"),
    [
        ((date(2026, 12, 8), date(2026, 12, 14)), "8–14 Dec 2026"),
        ((date(2026, 11, 28), date(2026, 12, 3)), "28 Nov – 3 Dec 2026"),
        ((date(2026, 12, 28), date(2027, 1, 3)), "28 Dec 2026 – 3 Jan 2027"),
        ((date(2027, 2, 1), date(2027, 2, 1)), "1 Feb 2027"),
    ],
)
def test_a_window_is_told_in_its_shortest_clear_form(days, told) -> None:
    assert wording.window(days) == told


@pytest.mark.parametrize(
    ("amount", "currency", "told"),
    [("1934.50", "USD", "$1,934.50"), ("-5.00", "USD", "−$5.00"), ("182500", "JPY", "JPY 182,500"),
     ("1430.125", "KWD", "KWD 1,430.125"), ("12.30", "EUR", "€12.30")],
)  # fmt: skip
def test_an_amount_in_a_sentence_carries_its_currency(amount, currency, told) -> None:
    assert wording.money(Decimal(amount), currency) == told
