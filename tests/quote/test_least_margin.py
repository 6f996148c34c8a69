"""The least margin of a whole shipment abroad, held to a slow reading in Decimal: what stays of the seller's lines, line by line."""

from datetime import date
from decimal import ROUND_CEILING, Decimal
from typing import Any

import pytest

from shipcalc.actions.quoting import Books
from shipcalc.compare.basket import ROADSTER, SALOON
from shipcalc.places.gazetteer.find import get_place
from shipcalc.quote.assemble import make_quote
from shipcalc.quote.model import Dealer, Option, Quote, Wishes
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.records import replace

DAY = date(2026, 12, 1)
CELL = "trucking.xlsx › Pricing!B17"
TWO = (ROADSTER, replace(SALOON, stock_number="basket 2"))
LEAST = Decimal(600)


def quoted(book: RateBook, to: str, vehicles: tuple[Any, ...], term: str | None) -> Quote:
    place, start = get_place(to).place, get_place("98225").place
    request = Request(
        vehicles=vehicles, starts=(start,) * len(vehicles), to=place, ready=DAY, wishes=Wishes(term=term), notes=()
    )
    return make_quote(request, book, as_of=DAY, dealer=Dealer(name="Heron & Vale Motors (invented)"))


def with_least(book: RateBook, minor: int) -> RateBook:
    rules = replace(book.pricing, least_abroad_minor=minor, cells={**book.pricing.cells, "Least margin abroad": CELL})
    return replace(book, pricing=rules)


def margin_of(option: Option) -> Decimal:
    own = [charge for charge in option.charges if charge.payer == "seller" and charge.code != "price.rounding"]
    return sum((charge.amount - (charge.cost.amount if charge.cost else 0) for charge in own), start=Decimal(0))


def same_way(option: Option) -> tuple[object, ...]:
    return option.title, option.trailer, option.service_class, option.dates, tuple(leg.carrier for leg in option.legs)


def in_steps(amount: Decimal, step: Decimal = Decimal(5)) -> Decimal:
    return (amount / step).to_integral_value(ROUND_CEILING) * step


@pytest.mark.parametrize("term", [None, "EXW", "FCA", "CIP", "DDP"])
@pytest.mark.parametrize("vehicles", [(ROADSTER,), TWO], ids=["one", "two"])
@pytest.mark.parametrize("to", ["Hamburg, DE", "Toronto, CA", "Yokohama, JP"])
def test_what_is_missing_to_the_least_margin_is_one_line_with_its_cell(
    shipped: Books, to: str, vehicles: tuple[Any, ...], term: str | None
) -> None:
    without = {same_way(o): o for o in quoted(with_least(shipped.rates, 0), to, vehicles, term).options}
    least, told = LEAST * len(vehicles), 0
    for option in quoted(with_least(shipped.rates, 60_000), to, vehicles, term).options:
        (*lines,) = (charge for charge in option.charges if charge.code == "price.margin")
        before = without.get(same_way(option))
        assert margin_of(option) >= least
        for line in lines:
            assert (line.source, line.payer) == (CELL, "seller")
            assert margin_of(option) == least
            told += 1
        if before is not None:
            own = sum(
                charge.amount
                for charge in before.charges
                if charge.payer == "seller" and charge.code != "price.rounding"
            )
            missing = max(least - margin_of(before), Decimal(0))
            assert option.total == in_steps(own + missing)
            assert bool(lines) == (missing > 0)
    assert told or term in (None, "CIP", "DDP")


def test_at_home_each_road_has_a_least_margin_of_its_own_and_this_one_changes_nothing(shipped: Books) -> None:
    plain, raised = (quoted(with_least(shipped.rates, minor), "04330", (ROADSTER,), None) for minor in (0, 1_000_000))
    assert [option.total for option in raised.options] == [option.total for option in plain.options]
    assert not [charge for option in raised.options for charge in option.charges if charge.code == "price.margin"]


def test_the_price_to_the_port_brings_the_least_margin_too(shipped: Books) -> None:
    without = quoted(with_least(shipped.rates, 0), "Berlin, DE", (ROADSTER,), None)
    with_it = quoted(with_least(shipped.rates, 150_000), "Berlin, DE", (ROADSTER,), None)
    (before,) = (line for line in without.also if line.what == "port")
    (after,) = (line for line in with_it.also if line.what == "port")
    assert after.total >= before.total + 400
