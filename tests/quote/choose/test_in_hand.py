"""Prices in hand stand beside the computed choices, marked and until their day; none is recommended without a word.

What the trade does with a spot price is common practice, no source.
"""

from datetime import date, timedelta
from decimal import Decimal

import pytest

from shipcalc.errors import WrongInput
from shipcalc.quote.as_data import quote_from_json, quote_to_json
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.model import SpotPrice
from shipcalc.ratebook.rows.currencies import Currency
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.records import replace
from tests.quote.sea_book import DAY, MINNOW

UNTIL = DAY + timedelta(days=9)
RULES = PricingRules(markup_linehaul_ppm=100_000)


def _spot(carrier: str = "Nobody Known", amount: str = "200", **more: object) -> SpotPrice:
    return SpotPrice(**({"carrier": carrier, "amount": Decimal(amount), "until": UNTIL} | more))


@pytest.fixture
def book(make_book, carrier):
    rows = (carrier("Plover", private=True), carrier("Grebe", "enclosed", cover=900_000))
    return make_book([(rows[0], 10_000), (rows[1], 30_000)], rules=RULES)


def test_the_other_choices_stand_as_they_do_without_it(book, small_quote):
    without, made = small_quote(book), small_quote(book, spot=(_spot(),))
    assert [o.total for o in made.options if o.in_hand is None] == [o.total for o in without.options]
    assert [o.total for o in made.options if o.in_hand] == [Decimal("220.00")]


def test_it_is_shown_even_where_it_is_dearer_and_later_than_all_others(book, small_quote):
    made = small_quote(book, spot=(_spot(amount="9000"),))
    assert [option.in_hand is not None for option in made.options] == [False, False, True]
    assert "price in hand" not in made.reason


def test_a_lower_one_of_an_unknown_carrier_is_not_recommended_and_that_is_said(book, small_quote):
    made = small_quote(book, spot=(_spot(),))
    best = made.options[made.recommended]
    assert best.in_hand is None
    assert "papers and cover have not been seen yet" in made.reason
    held = next(option.in_hand for option in made.options if option.in_hand)
    assert any("operating authority" in told for told in held.to_check)


def test_a_lower_one_of_a_carrier_of_the_book_is_recommended_and_named_as_one(book, small_quote):
    made = small_quote(book, spot=(_spot("plover", reference="P-1"),))
    best = made.options[made.recommended]
    assert best.in_hand is not None
    assert best.in_hand.in_book
    assert (best.legs[0].carrier, best.cover) == ("Plover", Decimal("100000.00"))
    assert "It is a price in hand" in made.reason


def test_the_quote_ends_no_later_than_the_price(book, small_quote):
    rules = replace(RULES, days_valid=30)
    made = small_quote(replace(book, pricing=rules), spot=(_spot(),))
    assert made.valid_until == UNTIL


def test_one_that_has_ended_is_refused(book, small_quote):
    with pytest.raises(WrongInput, match=f"ended on {DAY - timedelta(days=1)}") as refused:
        small_quote(book, spot=(_spot(until=DAY - timedelta(days=1)),))
    assert refused.value.exit_status == 2


def test_its_cover_counts_for_what_it_is_recommended_for(book, small_quote):
    dear = replace(MINNOW, value_minor=400_000_00)
    made = small_quote(book, dear, spot=(_spot("Plover"),))
    assert made.options[made.recommended].trailer == "enclosed"
    held = next(option.in_hand for option in made.options if option.in_hand)
    assert any("Its cover ends at 100,000 USD" in told for told in held.to_check)


def test_limits_of_the_carriers_row_are_named_and_do_not_forbid_it(make_book, carrier, small_quote):
    book = make_book([(carrier("Plover", longest_mm=2_000), 10_000), (carrier("Grebe"), 20_000)], rules=RULES)
    made = small_quote(book, spot=(_spot("Plover"),))
    held = next(option.in_hand for option in made.options if option.in_hand)
    assert any("By the rate book it takes a length of up to" in told for told in held.to_check)


def test_one_price_for_two_vehicles_is_shared_out_and_one_for_each_is_not(book, small_quote):
    two = (MINNOW, replace(MINNOW, stock_number="HV-2"))
    for spot, total in ((_spot(amount="200.01"), "220.01"), (_spot(amount="200.01", each=True), "440.02")):
        made = small_quote(book, *two, spot=(spot,))
        own = next(option for option in made.options if option.in_hand)
        assert own.total == Decimal(total)


def test_it_holds_all_that_the_carrier_asks_for(book, small_quote):
    made = small_quote(book, lift_gate=True, spot=(_spot(),))
    own = next(option for option in made.options if option.in_hand)
    assert [charge.code for charge in own.charges] == ["truck.spot"]
    assert "all in" in own.included[0]
    assert any("the lift gate" in told for told in own.in_hand.to_check)


def test_where_the_truck_comes_after_its_day_that_is_to_be_confirmed(book, small_quote):
    made = small_quote(book, ready=UNTIL + timedelta(days=20), spot=(_spot(),))
    held = next(option.in_hand for option in made.options if option.in_hand)
    assert any("have it confirmed in writing for that day" in told for told in held.to_check)


def test_the_buyer_learns_until_when_it_holds_and_nothing_else_of_it(book, small_quote):
    made = small_quote(book, spot=(_spot("Secret Wagons", reference="SW-9"),))
    text = quote_to_json(for_buyer(made))
    assert "Secret Wagons" not in text
    assert "SW-9" not in text
    assert UNTIL.isoformat() in text
    assert quote_from_json(quote_to_json(made)) == made


def test_overseas_it_is_for_the_truck_to_the_port_that_it_names(sea_book, quoted):
    made = quoted(book=sea_book(), spot=(_spot(amount="77", to="Tacoma"),))
    own = next(option for option in made.options if option.in_hand)
    paid = [charge for charge in own.charges if charge.code == "truck.spot"]
    assert [charge.stage for charge in paid] == ["pre-carriage"]
    assert own.legs[0].to.name == "Tacoma"


def test_overseas_one_without_a_port_asks_for_it(sea_book, quoted):
    with pytest.raises(WrongInput, match="counts for the truck of the first leg"):
        quoted(book=sea_book(), spot=(_spot(),))


def test_a_price_in_another_currency_is_not_taken_for_dollars(book, small_quote):
    with pytest.raises(WrongInput, match="is in EUR, which the rate book has no rate for"):
        small_quote(book, spot=(_spot(currency="EUR"),))


def test_a_request_for_the_other_trailer_refuses_it(book, small_quote):
    with pytest.raises(WrongInput, match="only enclosed is asked for"):
        small_quote(book, trailer="enclosed", spot=(_spot(trailer="open"),))


def test_day_of_the_spot_is_a_date(book, small_quote):
    assert isinstance(small_quote(book, spot=(_spot(),)).wishes.spot[0].until, date)


def test_a_price_in_a_currency_with_a_rate_is_the_books_at_that_rate(book, small_quote):
    rate = Currency(currency="CAD", as_of=DAY, rate=1.25)
    made = small_quote(replace(book, currencies=(rate,)), spot=(_spot(amount="250", currency="CAD"),))
    own = next(option for option in made.options if option.in_hand)
    assert own.in_hand.amount == Decimal("200.00")
    assert own.total == Decimal("220.00")
    assert any("250 CAD at 1.25" in told for told in own.in_hand.to_check)
