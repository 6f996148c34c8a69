"""A carrier's class with a guaranteed pick-up is a choice of its own beside its ordinary service."""

from datetime import timedelta
from decimal import Decimal

import pytest

from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.rows.service_classes import ServiceClass
from shipcalc.records import replace
from tests.quote.sea_book import DAY

FIXED = ServiceClass(
    carrier="PLOVER", name="Fixed day", within_days=2, amount_minor=100_00, if_missed="the surcharge is paid back."
)
RULES = PricingRules(markup_extras_ppm=100_000)


@pytest.fixture
def book(make_book, carrier):
    rows = [(carrier("Plover", pickup_from_days=4, pickup_to_days=9), 10_000)]
    return make_book(rows, rules=RULES, classes=(FIXED,))


def test_it_costs_its_surcharge_more_and_is_picked_up_within_its_days(book, small_quote) -> None:
    ordinary, fixed = small_quote(book).options
    assert (ordinary.service_class, fixed.service_class) == ("", "Fixed day")
    assert fixed.total - ordinary.total == Decimal("110.00")  # 100 and the 10 % on extra charges
    assert fixed.dates.pickup[1] <= DAY + timedelta(days=3)  # the second day, or the working day after it
    assert fixed.dates.pickup[1] < ordinary.dates.pickup[0]
    assert any(
        "Fixed day: the carrier guarantees the pick-up within 2 days" in told and "paid back" in told
        for told in fixed.included
    )


def test_the_ordinary_service_stays_the_recommended_one(book, small_quote) -> None:
    made = small_quote(book)
    assert made.options[made.recommended].service_class == ""


def test_a_percentage_is_of_the_linehaul_and_not_marked_up_again(book, small_quote) -> None:
    share = replace(FIXED, amount_minor=None, percent_ppm=200_000)
    ordinary, fixed = small_quote(replace(book, classes=(share,))).options
    linehaul = sum(c.amount for c in ordinary.charges if c.code == "truck.linehaul")
    own = next(c for c in fixed.charges if c.code == "truck.class")
    assert own.amount == (linehaul * Decimal("0.2")).quantize(Decimal("0.01"))


def test_a_class_of_another_trailer_or_day_is_none(book, small_quote) -> None:
    for other in (
        replace(FIXED, trailer="enclosed"),
        replace(FIXED, valid_to=DAY - timedelta(days=1)),
        replace(FIXED, carrier="Grebe"),
    ):
        assert len(small_quote(replace(book, classes=(other,))).options) == 1
