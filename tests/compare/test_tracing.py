"""From a line to its cell: the arithmetic in words, what the cell says today, and what that would change."""

from datetime import date
from decimal import Decimal

import pytest

from shipcalc.compare.tracing import trace
from shipcalc.errors import WrongInput
from shipcalc.quote.buyer import for_buyer
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.records import replace

DAY = date(2026, 12, 1)
RULES = PricingRules(markup_linehaul_ppm=140_000, cells={"Markup on linehaul": "trucking.xlsx › Pricing!B5"})


def line_of(traced):
    (line,) = traced.lines
    return line


def test_the_arithmetic_is_told_from_the_cells_cost_over_the_markup_to_the_amount(make_book, small_quote, carrier):
    """331 × 0.82 × 1.14 = 309.42, worked by hand."""
    book = make_book([(carrier("Owl"), 8_200)], rules=RULES)

    line = line_of(trace(small_quote(book), 0, book, DAY, line="1"))

    assert line.reckoning == (
        "331 mi × 0.9348 = 309.42",
        (
            "The cost is 0.82, from trucking.xlsx › Per mile!E2; with 14 % added for "
            '"Markup on linehaul" (trucking.xlsx › Pricing!B5) that is 0.9348.'
        ),
    )
    assert (line.there.told, line.there.number, line.change) == ("0.82", Decimal("0.8200"), 0)


def test_a_cell_that_says_more_today_makes_the_line_dearer(make_book, small_quote, carrier):
    then, now = (make_book([(carrier("Owl"), rate)], rules=RULES) for rate in (8_200, 9_000))

    traced = trace(small_quote(then), 0, replace(now, fingerprint="1"), DAY, line="1")

    assert line_of(traced).there.told == "0.9"
    assert line_of(traced).change == Decimal("30.19")  # 331 × 0.90 × 1.14 = 339.61
    assert traced.today.total == Decimal("339.61")
    assert traced.notes == ("The rate book was changed since (0 then, 1 today): rows may have moved.",)


def test_a_row_that_moved_is_found_where_it_stands_now(make_book, small_quote, carrier):
    then = make_book([(carrier("Owl"), 8_200)])
    now = make_book([(carrier("Newt"), 9_900), (carrier("Owl"), 8_200)])

    line = line_of(trace(small_quote(then), 0, now, DAY, line="1"))

    assert line.has_moved
    assert (line.there.row_name, line.own.cell) == ("Newt, open, over 0", "trucking.xlsx › Per mile!E3")
    assert line.change == 0


def test_a_carrier_that_is_gone_is_said(make_book, small_quote, carrier):
    then, now = make_book([(carrier("Owl"), 8_200)]), make_book([(carrier("Newt"), 8_200)])

    traced = trace(small_quote(then), 0, now, DAY)

    assert traced.today is None
    assert traced.notes[-1] == "The choice cannot be priced today: it is not among the choices of today."


def test_a_cell_where_nothing_stands_today_is_none(make_book, small_quote, carrier):
    then = make_book([(carrier("Newt"), 9_900), (carrier("Owl"), 8_200)])
    now = make_book([(carrier("Owl"), 8_200)])

    line = line_of(trace(small_quote(then), 0, now, DAY, line="1"))

    assert line.charge.source == "trucking.xlsx › Per mile!E3"
    assert line.there is None
    assert line.has_moved


def test_a_quote_whose_day_is_past_is_priced_from_today_on(make_book, small_quote, carrier):
    book = make_book([(carrier("Owl"), 8_200)])

    notes = trace(small_quote(book), 0, book, date(2026, 12, 9)).notes

    assert notes[-1] == "Priced for pickup from 2026-12-09 on, since 2026-12-01 is past."


def test_a_buyers_copy_is_refused_in_one_sentence(make_book, small_quote, carrier):
    book = make_book([(carrier("Owl"), 8_200)])
    with pytest.raises(WrongInput, match=r"q.json: is the buyer's copy .* — name the quote.json that the office kept"):
        trace(for_buyer(small_quote(book)), 0, book, DAY, where="q.json")


def test_a_line_that_there_is_not_is_said_with_those_there_are(make_book, small_quote, carrier):
    book = make_book([(carrier("Owl"), 8_200)])
    with pytest.raises(WrongInput, match="there is no line 7 in this choice — its lines are 1 to 1"):
        trace(small_quote(book), 0, book, DAY, line="7")


def test_every_line_of_a_real_quote_is_reckoned_and_stands_in_a_cell(shipped, dealer_quote):
    """All lines of all choices at home and overseas: priced by the same book on the same day, nothing differs."""
    for to in ("59715", "33040", "04330"):
        made = dealer_quote("HV-1042", to=to)
        for index in range(len(made.options)):
            traced = trace(made, index, shipped.rates, DAY)
            assert traced.today is not None
            assert traced.today.total == made.options[index].total
            for line in traced.lines:
                assert line.reckoning
                assert line.there is not None, line.charge
                assert line.change == 0, line.charge
                assert not line.has_moved
