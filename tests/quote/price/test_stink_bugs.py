"""Stink-bug season: what is shipped from the United States to Australia or New Zealand from 1 September to 30 April is treated first.

The season counts by the day of shipping on board, for used vehicles as for new ones, open decks and containers: seasonal measures
of the Australian department of agriculture and New Zealand's import health standard Vehicles, Machinery and Parts, both read in
copies of 2019 to 2025. The treatment's price and days are invented rows of the shipped book.
"""

from datetime import date
from decimal import Decimal

import pytest

from shipcalc.quote.model import Option, Quote

FIRST, LAST = (9, 1), (4, 30)


def sailing(option: Option) -> tuple[date, date]:
    (step,) = (step for step in option.dates.timeline if step.stage == "sailing")
    return step.earliest, step.latest


def may_leave_in_season(option: Option) -> bool:
    """No window here is longer than the months between two seasons, so that its ends tell."""
    return any((day.month, day.day) >= FIRST or (day.month, day.day) <= LAST for day in sailing(option))


def treatment(option: Option) -> list[Decimal]:
    return [charge.amount for charge in option.charges if charge.code == "stage.stink-bug-treatment"]


@pytest.mark.parametrize("to", ["Sydney, AU", "Auckland"])
@pytest.mark.parametrize("ready", [date(2026, 12, 2), date(2027, 4, 20), date(2027, 6, 1), date(2027, 8, 20)])
def test_treatment_its_certificate_and_its_price_go_by_the_day_of_sailing(dealer_quote, to: str, ready: date):
    """420 dollars at cost and 10 % on them, by hand: 462.00 for a vehicle."""
    quote: Quote = dealer_quote("HV-1042", to=to, ready=ready)
    for option in quote.options:
        within = may_leave_in_season(option)
        assert treatment(option) == ([Decimal("462.00")] if within else []), (option.title, sailing(option))
        assert ("stink-bug" in {paper.code for paper in option.documents}) == within
        assert ("stink-bug" in {task.code for task in option.tasks}) == within
        assert any("stink bugs" in said for said in option.before_price) == within


def test_all_of_june_is_outside_and_all_of_december_inside(dealer_quote):
    for ready, within in ((date(2026, 12, 2), True), (date(2027, 6, 1), False)):
        quote = dealer_quote("HV-1042", to="Sydney, AU", ready=ready)
        assert {may_leave_in_season(option) for option in quote.options} == {within}


def test_elsewhere_nothing_is_treated(dealer_quote):
    quote = dealer_quote("HV-1042", to="Hamburg", ready=date(2026, 12, 2))
    assert not any(treatment(option) for option in quote.options)


def test_treatment_takes_its_days_before_the_ship(dealer_quote, shipped):
    """Without its days each vehicle is ready for its ship earlier, and none sails later."""
    from shipcalc.records import replace

    rates = shipped.rates
    quick = replace(
        rates, stage_charges=tuple(replace(row, takes_days=None) for row in rates.stage_charges), fingerprint="quick"
    )
    slow = replace(
        rates,
        stage_charges=tuple(replace(row, takes_days=row.takes_days and 30) for row in rates.stage_charges),
        fingerprint="slow",
    )
    soonest = [
        min(
            sailing(option)[0]
            for option in dealer_quote("HV-1042", to="Sydney, AU", ready=date(2026, 12, 2), rates=book).options
        )
        for book in (quick, rates, slow)
    ]
    assert soonest == sorted(soonest)
    assert (soonest[2] - soonest[0]).days >= 23, "thirty days of treatment are made up by no weekly ship"


def test_ddp_says_what_the_importer_must_be_and_other_terms_do_not(dealer_quote):
    """A seller from outside the Union needs an EORI number (tra.org, EORI number) and a representative there who answers with it
    for duty and tax (avalara.com, EU customs and import VAT representative; both read on 28 November 2026)."""
    options = dealer_quote("HV-1042", to="Hamburg", term="DDP").options
    (said,) = {text for option in options for text in option.before_price if "importer of record" in text}
    assert all(word in said for word in ("importer of record", "EORI", "VAT", "indirect representative"))
    for option in dealer_quote("HV-1042", to="Hamburg", term="DAP").options:
        assert not any("importer of record" in text for text in option.before_price)
