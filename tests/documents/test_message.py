from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from shipcalc.documents import wording
from shipcalc.documents.message import buyer_message
from shipcalc.quote.model import Exchange, Quote


def test_the_message_says_how_much_when_and_what_is_not_included(two_choices: Quote) -> None:
    told = buyer_message(two_choices)
    for option in two_choices.options:
        assert wording.money(option.total, "USD") in told
        assert wording.window(option.dates.delivery) in told
        assert all(line in told for line in option.not_included)
    assert "Dear Ottoline Quill," in told
    assert "Tuesday 15 December 2026" in told
    assert two_choices.reason in told
    assert "write any damage on the delivery receipt before you sign it" in told
    assert told.endswith("Quote Q-2026-0041\n")


IN_EUROS = Exchange(
    currency="EUR",
    rate=Decimal("0.8665"),
    as_of=date(2026, 11, 23),
    buffer=Decimal("1.5"),
    source="overseas.xlsx › Currencies!B2",
)


def test_a_message_at_home_says_the_sums_in_the_buyers_currency_too(two_choices: Quote) -> None:
    """1,000.00 USD × 0.8665 × 1.015 = 879.4975 EUR, by hand."""
    option = replace(two_choices.options[0], total=Decimal("1000.00"), deposit=Decimal("200.00"))
    told = buyer_message(replace(two_choices, exchange=IN_EUROS, options=(option,), recommended=0))
    assert "$1,000.00 (€879.50) in all" in told
    assert "$200.00 (€175.90) when you say yes, $800.00 (€703.60) on delivery." in told
    assert "In euros (EUR) we counted 1 USD = 0.8665 EUR on 23 Nov 2026, and 1.5 % on it" in told


def test_what_is_not_included_in_some_choices_only_names_them(two_choices: Quote) -> None:
    low, high = two_choices.options
    options = (
        replace(low, not_included=("Tolls.", "Cover above 5.00 USD.")),
        replace(high, not_included=("Tolls.", "Cover above 9.00 USD.")),
    )
    told = buyer_message(replace(two_choices, options=options))
    assert [line for line in told.splitlines() if line.startswith("  - ")][:3] == [
        "  - Tolls.",
        "  - Cover above 5.00 USD. (choice 1)",
        "  - Cover above 9.00 USD. (choice 2)",
    ]


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
