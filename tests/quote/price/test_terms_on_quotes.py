"""Delivery terms on whole quotes: who pays which stage, totals that rise along the rules, advice. Source of the chart: see
tests/published/test_delivery_terms.py."""

from decimal import Decimal
from itertools import pairwise

import pytest

from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.quote.price.terms import CODES, find_term

RISING = [("EXW", "FCA", "FAS", "FOB", "CFR", "CIF"), ("FCA", "CPT", "CIP"), ("CPT", "DAP", "DPU", "DDP")]


def cheapest(quote):
    """Return the same way under every term: RoRo by the same truck and ports."""
    return next(option for option in quote.options if option.ocean == "roro")


@pytest.mark.parametrize("code", CODES)
def test_every_charge_has_the_payer_that_the_rule_says(quoted, code: str) -> None:
    quote = quoted(term=code, ocean="roro")
    term = find_term(code)
    for option in quote.options:
        assert option.term == code
        for charge in option.charges:
            if charge.code != "price.rounding":
                assert charge.payer == term.payer(charge.stage), charge.label
        stages = {charge.stage: set() for charge in option.charges}
        for charge in option.charges:
            stages[charge.stage].add(charge.payer)
        assert all(len(payers) == 1 for payers in stages.values())


@pytest.mark.parametrize("chain", RISING)
def test_totals_rise_along_the_rules(quoted, chain) -> None:
    totals = [cheapest(quoted(term=code, ocean="roro")).total for code in chain]
    assert all(first <= second for first, second in pairwise(totals)), dict(zip(chain, totals, strict=True))
    assert totals[0] < totals[-1]


def test_what_the_seller_does_not_pay_the_buyer_does(quoted) -> None:
    stages = [
        {charge.stage for charge in cheapest(quoted(term=code, ocean="roro")).charges} - {"rounding"} for code in CODES
    ]
    assert all(own == stages[0] for own in stages), "the same stages arise whoever pays them"


@pytest.mark.parametrize(("code", "instead"), [("FAS", "FCA"), ("FOB", "FCA"), ("CFR", "CPT"), ("CIF", "CIP")])
def test_rules_for_the_sea_are_refused_for_containers_with_the_usual_advice(quoted, code: str, instead: str) -> None:
    quote = quoted(term=code)
    assert {option.ocean for option in quote.options} == {"roro"}
    assert any(instead in out.reason for out in quote.left_out)
    with pytest.raises(NoAnswer, match=f"{instead} is the usual rule"):
        quoted(term=code, ocean="container")


def test_a_buyer_abroad_who_asks_for_ex_works_is_told_to_take_fca(quoted) -> None:
    for term, is_told in (("EXW", True), ("FCA", False), ("DAP", False)):
        for option in quoted(term=term).options:
            assert any("FCA is the usual rule" in sentence for sentence in option.warnings) == is_told


def test_a_term_that_there_is_not_is_wrong_input(quoted) -> None:
    with pytest.raises(WrongInput, match="DAF is not a delivery term"):
        quoted(term="DAF")


def test_the_named_place_follows_the_rule(quoted) -> None:
    named = {code: cheapest(quoted(term=code, ocean="roro")).term_place for code in ("EXW", "FOB", "CIF", "DAP")}
    assert named == {"EXW": "Bellingham", "FOB": "Tacoma", "CIF": "Bremerhaven", "DAP": "Bremen"}


def test_cip_covers_under_conditions_a_whatever_was_wished(quoted) -> None:
    assert {option.cover_conditions for option in quoted(term="CIP", cover="C").options} == {"A"}
    assert {option.cover_conditions for option in quoted(term="CIF", cover="C").options} == {"C"}


def test_the_premium_is_the_closed_formula(quoted) -> None:
    # CIF = (C + F) / (1 − 1.10 × rate); the formula is arithmetic (a premium that insures itself), no source needed.
    option = cheapest(quoted(term="CIF", ocean="roro"))
    before = {
        "export packing",
        "loading at origin",
        "pre-carriage",
        "export clearance",
        "origin terminal",
        "loading on vessel",
        "main carriage",
    }
    carriage = sum((charge.amount for charge in option.charges if charge.stage in before), Decimal(0))
    cif = (38_000 + carriage) / (1 - Decimal("1.10") * Decimal("0.0135"))
    premium = next(charge.amount for charge in option.charges if charge.code == "cover.premium")
    assert abs(premium - (cif - 38_000 - carriage)) <= Decimal("0.01")
    assert abs(option.cover - cif * Decimal("1.10")) <= Decimal("0.01")


@pytest.mark.parametrize("code", ["EXW", "FCA", "FAS", "FOB", "CFR", "CPT"])
def test_where_nobody_insures_it_at_sea_no_cover_is_promised_and_the_buyer_is_told(quoted, code: str) -> None:
    """The buyer bears the risk at sea and nobody owes cover: cargoinsu.com, guide to the trade terms, and twmetals.fr for FCA and
    CPT (read on 28 November 2026)."""
    for option in quoted(term=code, ocean="roro").options:
        assert (option.cover, option.cover_conditions) == (0, "")
        assert any("no marine cover is in the price" in said for said in option.before_price)


@pytest.mark.parametrize("code", ["CIF", "CIP", "DAP", "DPU", "DDP"])
def test_cover_is_promised_where_the_price_holds_it(quoted, code: str) -> None:
    for option in quoted(term=code, ocean="roro").options:
        bought = next(charge for charge in option.charges if charge.code == "cover.premium")
        assert (bought.payer, option.cover) == ("seller", bought.quantity)
        assert not any("no marine cover" in said for said in option.before_price)


@pytest.mark.parametrize("code", ["CIF", "CIP"])
def test_the_sum_insured_is_110_percent_of_the_contract_price_at_the_named_place(quoted, code: str) -> None:
    """Incoterms 2020, A5: at least the contract price plus ten percent (read at second hand). The price is the vehicle and all
    that the seller is paid for carriage and cover up to the named place; each sum is rounded to a cent."""
    quote = quoted(term=code, ocean="roro")
    for option in quote.options:
        value = sum(Decimal(vehicle.value_minor) / 100 for vehicle in quote.vehicles)
        paid = sum(c.amount for c in option.charges if c.payer == "seller" and c.code != "price.rounding")
        bought = next(charge for charge in option.charges if charge.code == "cover.premium")
        assert abs(bought.quantity - (value + paid) * Decimal("1.1")) < Decimal("0.03")


def test_a_buyer_under_cpt_is_told_the_sum_that_a_seller_would_insure_under_cip(quoted) -> None:
    """110 % of the CIP value: UCP 600, article 28 (f) (read). CPT differs from CIP by who insures alone."""
    insured = [
        {
            (option.title, option.term_place): charge.quantity
            for option in quoted(term=code, ocean="roro").options
            for charge in option.charges
            if charge.code == "cover.premium"
        }
        for code in ("CPT", "CIP")
    ]
    cpt, cip = insured
    assert cpt
    for way in cpt.keys() & cip.keys():
        assert abs(cpt[way] - cip[way]) < Decimal("0.03")
    assert cpt.keys() & cip.keys()


def test_a_rule_for_the_sea_is_refused_by_road_and_the_reason_names_the_road(dealer_quote) -> None:
    """Incoterms 2020: FAS, FOB, CFR and CIF are the rules for sea and inland waterway alone."""
    for code, instead in (("FAS", "FCA"), ("FOB", "FCA"), ("CFR", "CPT"), ("CIF", "CIP")):
        with pytest.raises(NoAnswer, match=f"{code} names a ship, and this goes by road all the way: {instead}"):
            dealer_quote("HV-1042", to="Calgary, AB", term=code)
