"""Amounts of a small rate book that a test changes: step, deposit, cost, minimum. What holds for every way: `test_every_way.py`."""

from decimal import ROUND_HALF_UP, Decimal

import pytest

from shipcalc.ratebook.rows.extra_charges import ExtraCharge
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.records import replace

CENT = Decimal("0.01")


def cents(amount: Decimal) -> Decimal:
    return amount.quantize(CENT, ROUND_HALF_UP)


@pytest.mark.parametrize("step", [1, 100, 2_500])
def test_the_step_is_the_rate_books(make_book, carrier, small_quote, step: int) -> None:
    quote = small_quote(make_book([(carrier("Lark"), 10_007)], rules=PricingRules(rounding_step_minor=step)))
    (option,) = quote.options
    assert option.total * 100 % step == 0
    codes = [charge.code for charge in option.charges]
    assert codes.count("price.rounding") == (step > 1)


def test_the_deposit_is_its_share_of_the_total_to_the_cent(make_book, carrier, small_quote) -> None:
    book = make_book([(carrier("Lark"), 10_007)], rules=PricingRules(deposit_ppm=333_333))
    (option,) = small_quote(book).options
    assert option.deposit == cents(option.total * Decimal("0.333333"))


def test_the_cost_is_the_carriers_own_rates(make_book, carrier, small_quote) -> None:
    rules = PricingRules(markup_linehaul_ppm=250_000)
    lark = carrier("Lark")
    dear, plain = (small_quote(make_book([(lark, 10_007)], rules=r)).options[0] for r in (rules, PricingRules()))
    assert dear.total_cost == plain.total
    assert dear.charges[0].rate == plain.charges[0].rate * Decimal("1.25")


def test_the_cent_that_only_the_carrier_asks_for_is_in_the_cost(make_book, carrier, small_quote, minnow) -> None:
    """The selling lines reach the minimum by rounding up, the carrier's own do not: its minimum still holds."""
    rules = PricingRules(markup_linehaul_ppm=5_000)
    book = make_book([(carrier("Lark", bands="graduated"), 10_040)], rules=rules)
    (one,) = book.bands
    miles = small_quote(book).options[0].legs[0].distance
    halves = (replace(one, to_mi=1), replace(one, from_mi=1))
    cost = cents(Decimal("1.004")) + cents(Decimal("1.004") * (miles - 1))
    short = replace(book.carriers[0], minimum_minor=int(cost * 100) + 1)
    (option,) = small_quote(replace(book, bands=halves, carriers=(short,))).options
    assert option.total_cost == cost + CENT


def test_a_line_that_comes_to_nothing_is_left_out(make_book, carrier, small_quote) -> None:
    still = ExtraCharge(code="still", label="Does not run", runs=False, charge="flat", amount_minor=90_00)
    (option,) = small_quote(make_book([(carrier("Lark"), 10_000)], extras=(still,))).options
    assert [charge.code for charge in option.charges] == ["truck.linehaul"]


def test_several_vehicles_have_lines_of_their_own_and_start_at_their_own_yards(dealer_quote) -> None:
    quote = dealer_quote("HV-1042", "HV-1003", to="79843")
    for option in quote.options:
        assert [leg.from_.name.split(",")[0] for leg in option.legs] == ["Bellingham", "Savannah"]
        assert [leg.vehicles for leg in option.legs] == [("HV-1042",), ("HV-1003",)]
        for leg in option.legs:
            miles = [c for c in option.charges if c.code == "truck.linehaul" and c.vehicle == leg.vehicles[0]]
            assert sum(charge.quantity for charge in miles) >= leg.distance
        assert {charge.vehicle for charge in option.charges if charge.code != "price.rounding"} == {
            "HV-1042",
            "HV-1003",
        }


def test_two_alike_cost_twice_one_before_rounding(make_book, carrier, small_quote, minnow) -> None:
    book = make_book([(carrier("Lark"), 10_007)])
    one, two = small_quote(book), small_quote(book, minnow, replace(minnow, stock_number="HV-8"))
    assert two.options[0].total == 2 * one.options[0].total
