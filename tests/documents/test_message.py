from datetime import date
from decimal import Decimal

import pytest

from shipcalc.documents import wording
from shipcalc.documents.buyer.message import buyer_message
from shipcalc.documents.offer.first_answer import gist
from shipcalc.quote.model import Exchange, Quote
from shipcalc.records import replace


def test_the_message_says_how_much_when_and_what_is_not_included(two_choices: Quote) -> None:
    told = buyer_message(two_choices)
    for option in two_choices.options:
        assert wording.money(option.total, "USD") in told
        assert f"there by {wording.day(option.dates.delivery[1])}" in told
    best = two_choices.options[two_choices.recommended]
    assert all(gist(line) in told for line in best.not_included)
    said = ("The price is", "with you by", "You pay nothing further", "The price does not include", "covered on the way up to",
            "Your choices:", "reply to this message")  # fmt: skip
    assert [told.index(part) for part in said] == sorted(told.index(part) for part in said), "in the order buyers ask"
    assert told.startswith("Dear Ottoline Quill,\n\nThank you for asking us to bring ")
    assert f"by {wording.day(two_choices.valid_until)}, and we book it." in told
    assert two_choices.reason[1:] in told
    assert "attached as quote.pdf" in told
    assert "write any damage on the delivery receipt before you sign it" in told
    assert told.endswith("Quote Q-2026-0041\n")


IN_EUROS = Exchange(
    currency="EUR",
    rate=Decimal("0.8665"),
    as_of=date(2026, 11, 23),
    buffer=Decimal("1.5"),
    source="overseas.xlsx › Currencies!B2",
)


@pytest.mark.parametrize(
    ("due", "said"),
    [
        ("before pickup", "before the vehicle leaves us."),
        ("before the papers are released", "before title and papers go out to you."),
        ("on delivery", "on delivery."),
    ],
)
def test_a_message_says_when_the_balance_is_due_as_the_rate_book_sets_it(
    two_choices: Quote, due: str, said: str
) -> None:
    options = tuple(replace(option, balance_due=due) for option in two_choices.options)
    assert said in buyer_message(replace(two_choices, options=options))


def test_a_message_at_home_says_the_sums_in_the_buyers_currency_too(two_choices: Quote) -> None:
    """1,000.00 USD × 0.8665 × 1.015 = 879.4975 EUR, by hand."""
    option = replace(two_choices.options[0], total=Decimal("1000.00"), deposit=Decimal("200.00"))
    told = buyer_message(replace(two_choices, exchange=IN_EUROS, options=(option,), recommended=0))
    assert "The price is $1,000.00 (€879.50), for the whole way to " in told
    assert "$200.00 (€175.90) when you accept, $800.00 (€703.60) before the vehicle leaves us." in told
    assert "Sums in EUR are counted at €0.8665 for $1, the rate of 23 Nov 2026, with 1.5 % on it" in told


def test_what_may_change_the_buyers_mind_stands_before_the_price_and_names_its_choices(two_choices: Quote) -> None:
    low, high = two_choices.options
    options = (
        replace(low, before_price=("Barred.", "A low bridge.")),
        replace(high, before_price=("Barred.", "High wind.")),
    )
    told = buyer_message(replace(two_choices, options=options))
    points = [line for line in told.splitlines() if line.startswith("  - ")]
    assert points == ["  - Barred.", "  - A low bridge. (choice 1)", "  - High wind. (choice 2)"]
    assert told.index("High wind.") < told.index("The price is ")


def test_the_message_tells_nothing_of_the_office(any_quote: Quote) -> None:
    told = buyer_message(any_quote)
    assert not any(option.legs[0].carrier in told for option in any_quote.options)
    assert "trucking" not in told
    assert not any(f"{option.total_cost:,}" in told for option in any_quote.options)


def test_what_may_be_paid_at_home_is_called_an_estimate(five_vehicles: Quote) -> None:
    number = next(n for n, option in enumerate(five_vehicles.options) if option.buyer_pays_locally == Decimal("228.00"))
    assert "You also pay about $230 to others; this is an estimate." in buyer_message(
        replace(five_vehicles, recommended=number)
    )


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
