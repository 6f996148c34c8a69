"""What a carrier asks when something happens is in no price, and told beside it: to the buyer as it is sold."""

from datetime import date
from decimal import Decimal

import pytest

from shipcalc.quote.buyer import for_buyer
from shipcalc.ratebook.checks.occasions import occasions_stand_once
from shipcalc.ratebook.rows.occasions import Occasion
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.records import replace
from shipcalc.trade import DRIVEN

WAITING = Occasion(name="Waiting", amount_minor=75_00, per="hour", free=2, when="where nobody is there")
OWN = Occasion(carrier="PLOVER", name="waiting", amount_minor=90_00, per="hour")
RULES = PricingRules(markup_extras_ppm=100_000)


@pytest.fixture
def book(make_book, carrier):
    return make_book([(carrier("Plover"), 10_000), (carrier("Grebe", "enclosed"), 30_000)], rules=RULES)


def _told(option) -> list[str]:
    return [sentence for sentence in option.not_included if sentence.casefold().startswith("waiting")]


def test_it_changes_no_price_and_is_told_with_the_markup_on_it(book, small_quote) -> None:
    without, made = small_quote(book), small_quote(replace(book, occasions=(WAITING,)))
    assert [option.total for option in made.options] == [option.total for option in without.options]
    assert _told(made.options[0]) == ["Waiting: 82.50 USD an hour after the first 2 hours, where nobody is there."]
    own = made.options[0].when_it_happens[0]
    assert (own.amount, own.cost) == (Decimal("82.50"), Decimal("75.00"))


def test_a_carriers_own_row_stands_in_place_of_the_one_for_all(book, small_quote) -> None:
    open_, enclosed = small_quote(replace(book, occasions=(WAITING, OWN))).options
    assert _told(open_) == ["waiting: 99 USD an hour, if it happens."]
    assert _told(enclosed)[0].startswith("Waiting: 82.50 USD")


def test_of_a_carriers_rows_the_one_with_the_trailer_stands_in_place_of_the_one_for_all_trailers(
    book, small_quote
) -> None:
    for_trailer = replace(OWN, trailer="open", amount_minor=60_00)
    for rows in ((WAITING, OWN, for_trailer), (for_trailer, OWN, WAITING)):
        open_, enclosed = small_quote(replace(book, occasions=rows)).options
        assert _told(open_) == ["waiting: 66 USD an hour, if it happens."]
        assert _told(enclosed)[0].startswith("Waiting: 82.50 USD")


def test_two_rows_for_one_day_are_a_fault_and_two_that_follow_are_not_in_any_order() -> None:
    eve, new_year = date(2026, 12, 31), date(2027, 1, 1)
    first, second = replace(WAITING, valid_to=eve), replace(WAITING, valid_from=new_year)
    assert list(occasions_stand_once(Tables(occasions=(first, second)))) == []
    assert list(occasions_stand_once(Tables(occasions=(second, first)))) == []
    for rows in ((first, WAITING), (WAITING, first), (second, first, replace(WAITING, valid_from=eve))):
        (told,) = occasions_stand_once(Tables(occasions=rows))
        assert "stands at" in told.message


def test_the_buyer_learns_nothing_of_what_the_carrier_asks(book, small_quote) -> None:
    made = for_buyer(small_quote(replace(book, occasions=(WAITING,))))
    assert [(one.cost, one.source) for one in made.options[0].when_it_happens] == [(None, None)]


def test_a_hired_driver_has_only_rows_that_name_him(make_book, carrier, small_quote) -> None:
    book = make_book([(carrier("Plover", DRIVEN), 10_000)], rules=RULES)
    (option,) = small_quote(replace(book, occasions=(WAITING,))).options
    assert _told(option) == []
    (option,) = small_quote(replace(book, occasions=(replace(WAITING, trailer=DRIVEN),))).options
    assert len(_told(option)) == 1
