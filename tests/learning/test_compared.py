"""Quotes beside their bills, line by line, against the quote's own lines added up by hand."""

from datetime import date
from decimal import Decimal

import pytest

from shipcalc.actions.quoting import Order, made_quote, open_books
from shipcalc.actions.sources import invented_sources
from shipcalc.learning.accuracy import accuracy, band_of, grouped, season_of
from shipcalc.learning.bill import Bill
from shipcalc.learning.compared import Comparison, asked_in_hand, compared
from shipcalc.learning.report import report_of
from shipcalc.quote.model import Quote
from shipcalc.records import replace

DAY = date(2026, 12, 1)


@pytest.fixture(scope="module")
def quotes() -> dict[str, Quote]:
    sources = invented_sources()
    books = open_books(sources)
    orders = {
        "home": Order(vehicles=("HV-1042",), to="59715"),
        "overseas": Order(vehicles=("HV-1027",), to="Bremen, Germany"),
        "in hand": Order(vehicles=("HV-1042",), to="59715", spot=("Tern Haulage, 1,250, until 2026-12-10",)),
    }
    return {
        name: replace(made_quote(order, sources, as_of=DAY, books=books).quote, number="Q-2026-0001")
        for name, order in orders.items()
    }


def billed(quote: Quote, **amounts: str) -> Comparison:
    bills = [
        Bill(
            number=quote.number or "",
            carrier="Wren and Thistle",
            kind=kind.replace("_", "-"),
            amount_minor=int(Decimal(amount) * 100),
            currency="USD",
            day=date(2026, 12, 20),
        )
        for kind, amount in amounts.items()
    ]
    return compared(quote, quote.recommended, bills)


def costs(quote: Quote, *codes: str) -> int:
    """The cost of the lines of some codes, in cents, added up from the quote."""
    lines = quote.options[quote.recommended].charges
    return sum(int(one.cost.amount * 100) for one in lines if one.code in codes and one.cost is not None)


def test_each_kind_is_held_to_its_own_lines(quotes: dict[str, Quote]) -> None:
    quote = quotes["home"]
    found = billed(quote, linehaul="950", fuel="101.20")
    assert {one.kind: one.reckoned_minor for one in found.kinds} == {
        "linehaul": costs(quote, "truck.base", "truck.linehaul"),
        "fuel": costs(quote, "truck.fuel"),
    }
    assert found.total is not None
    assert found.total.paid_minor == 105120
    assert found.total.lane == "WA to MT"
    assert found.total.miles == quote.options[quote.recommended].legs[0].distance


def test_one_sum_for_the_truck_is_held_to_all_its_lines_and_takes_in_what_was_billed_beside_it(
    quotes: dict[str, Quote],
) -> None:
    quote = quotes["home"]
    total = quote.options[quote.recommended].total_cost
    assert total is not None
    found = billed(quote, all_in="900", extras="40")
    assert [one.kind for one in found.kinds] == ["all-in"]
    assert found.kinds[0].reckoned_minor == int(total * 100)
    assert found.kinds[0].paid_minor == 94000


def test_all_that_costs_the_dealer_anything_overseas_has_a_kind(quotes: dict[str, Quote]) -> None:
    """Bills of every kind, together, are held to the whole cost of the choice."""
    quote = quotes["overseas"]
    kinds = ("all_in", "ocean", "port", "forwarding", "cover", "on_carriage")
    found = billed(quote, **dict.fromkeys(kinds, "1000"))
    total = quote.options[quote.recommended].total_cost
    assert found.total is not None
    assert total is not None
    assert found.total.reckoned_minor == int(total * 100)


def test_what_cannot_be_compared_is_said(quotes: dict[str, Quote]) -> None:
    quote = quotes["home"]
    assert billed(quote, ocean="700").said == ("Q-2026-0001: ocean was billed, and nothing was reckoned for it",)
    euro = Bill(number="Q-2026-0001", carrier="X", kind="fuel", amount_minor=5000, currency="EUR", day=DAY)
    found = compared(quote, 0, [euro])
    assert found.total is None
    assert found.said == ("Q-2026-0001: a bill in EUR is not compared with a quote in USD",)


def test_a_price_in_hand_stands_beside_what_the_rate_book_comes_to(quotes: dict[str, Quote]) -> None:
    quote = quotes["in hand"]
    (found, *_) = asked_in_hand(quote)
    held = next(option for option in quote.options if option.in_hand)
    own = [option.total_cost for option in quote.options if not option.in_hand and option.trailer == held.trailer]
    assert (found.asked, found.paid_minor, found.carrier) == (True, 125000, "Tern Haulage")
    assert found.reckoned_minor == min(int(cost * 100) for cost in own if cost is not None)
    assert not list(asked_in_hand(quotes["home"]))


def test_bias_spread_and_share_under_cost_of_five_quotes(quotes: dict[str, Quote]) -> None:
    """By hand: paid 90, 100, 104, 110 and 300 for 100 reckoned; the median is +4 %, the distances from it 14, 4, 0, 6, 196,
    their median 6; sold for 105 each, two of five were under cost."""
    one = billed(quotes["home"], fuel="1").kinds[0]
    group = [replace(one, reckoned_minor=100, sold_minor=105, paid_minor=paid) for paid in (90, 100, 104, 110, 300)]
    found = accuracy("all", "all", group)
    assert (round(found.bias, 9), found.under_cost, found.count) == (0.04, 0.4, 5)
    assert found.spread is not None
    assert round(found.spread, 6) == round(1.4826 * 0.06, 6)
    assert accuracy("all", "all", group[:1]).spread is None


def test_distances_stand_in_their_order_and_an_edge_in_the_lower_band(quotes: dict[str, Quote]) -> None:
    assert [band_of(miles) for miles in (0, 250, 251, 2000, 2001)] == [
        "up to 250 mi",
        "up to 250 mi",
        "251 to 500 mi",
        "1,501 to 2,000 mi",
        "over 2,000 mi",
    ]
    one = billed(quotes["home"], fuel="1").kinds[0]
    far = [replace(one, miles=miles) for miles in (2100, 2200, 100)]
    assert [group.name for group in grouped("distance", lambda it: band_of(it.miles), far)] == [
        "up to 250 mi",
        "over 2,000 mi",
    ]
    assert season_of(date(2026, 4, 1)) == "2026, April to June"


def test_a_report_of_several_currencies_takes_the_most_frequent(quotes: dict[str, Quote]) -> None:
    home = quotes["home"]
    bill = Bill(number="Q-2026-0001", carrier="X", kind="fuel", amount_minor=9000, currency="USD", day=DAY)
    made = report_of(
        [(home, 0, (bill,)), (home, 0, (bill,)), (replace(home, currency="CAD"), 0, (bill,))],
        (),
        as_of=DAY,
        since=None,
        share=0.9,
    )
    assert (made.currency, made.quotes) == ("USD", 2)
    assert made.said[0] == "1 quotes in other currencies are left out"


def test_seasons_stand_in_the_order_of_time() -> None:
    from shipcalc.learning.accuracy import ORDERS, season_of

    days = [date(2026, 4, 1), date(2026, 12, 31), date(2027, 1, 1), date(2027, 7, 1)]
    assert sorted(map(season_of, reversed(days)), key=ORDERS["season"]) == [season_of(day) for day in days]
