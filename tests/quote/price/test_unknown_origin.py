"""Origin counts, and where nobody knows it the dearer sum is counted and both are said: never silently the cheaper.

The rows are the shipped ones; what they ask is held to published examples in `tests/published/test_duty_and_tax.py`.
"""

from datetime import date
from functools import cache

import pytest

from shipcalc.actions.quoting import Books, Order, made_quote, open_books
from shipcalc.actions.sources import invented_sources
from shipcalc.errors import WrongInput
from shipcalc.quote.model import Quote
from shipcalc.records import replace
from shipcalc.vehicles.description import vehicle_from_text
from shipcalc.vehicles.stock_cells import country_name

DAY = date(2026, 12, 1)


@cache
def books() -> Books:
    return open_books(invented_sources())


def asked(to: str, *, built_in: str, year: int = 2008) -> Quote:
    own = books()
    car = next(one for one in own.stock.vehicles if one.stock_number == "HV-1042")
    car = replace(car, built_in=built_in, year=year, body="coupe")
    stock = replace(own.stock, vehicles=(car,))
    order = Order(vehicles=("HV-1042",), to=to, ready=DAY)
    return made_quote(order, invented_sources(), as_of=DAY, books=replace(own, stock=stock)).quote


def sums(quote: Quote) -> dict[str, object]:
    return {one.treatment: one.amount for one in quote.options[quote.recommended].imports}


def said(quote: Quote) -> list[str]:
    told = quote.options[quote.recommended]
    return [
        one
        for one in (*told.before_price, *told.warnings, *quote.assumptions)
        if "where it was built is not known" in one
    ]


@pytest.mark.parametrize("to", ["Toronto, Canada", "Hamburg, Germany", "Sydney, Australia", "Monterrey, Mexico"])
def test_what_nobody_knows_is_counted_at_the_dearest_of_all_origins(to):
    known = [sums(asked(to, built_in=origin))["ordinary"] for origin in ("US", "CA", "MX", "IT", "JP")]
    assert sums(asked(to, built_in=""))["ordinary"] == max(known)


@pytest.mark.parametrize("to", ["Toronto, Canada", "Hamburg, Germany"])
def test_the_sum_with_proof_stands_beside_it(to):
    unknown, american = sums(asked(to, built_in="")), sums(asked(to, built_in="US"))
    assert unknown["preference"] == american["preference"]
    assert unknown["preference"] < unknown["ordinary"]
    assert "preference" not in sums(asked(to, built_in="IT"))


@pytest.mark.parametrize(
    ("said_so", "code"),
    [
        ("built in US", "US"),
        ("made in Italy", "IT"),
        ("built in: the United Kingdom", "GB"),
        ("Made in West Germany", "DE"),
    ],
)
def test_a_description_may_say_where_it_was_built(said_so, code):
    """By ISO 3166-1."""
    assert vehicle_from_text(f"2008 Larkspur Finch coupe, {said_so}").built_in == code


def test_a_country_that_nobody_knows_is_no_origin():
    with pytest.raises(WrongInput, match="no country that is known"):
        vehicle_from_text("2008 Larkspur Finch coupe, built in Ruritania")
    assert sums(asked("Toronto, Canada", built_in="Ruritania")) == sums(asked("Toronto, Canada", built_in=""))


@pytest.mark.parametrize(
    ("cell", "code"),
    [("United States", "US"), ("usa", "US"), ("Japan", "JP"), ("it", "IT"), ("Ruritania", "Ruritania")],
)
def test_a_stock_list_may_write_the_countrys_name(cell, code):
    assert country_name(cell) == code


@pytest.mark.parametrize("to", ["Toronto, Canada", "Hamburg, Germany", "Sydney, Australia", "Monterrey, Mexico"])
def test_both_sums_are_said_where_origin_is_not_known_and_nothing_where_it_is(to):
    assert len(said(asked(to, built_in=""))) == 1
    assert said(asked(to, built_in="US")) == []
    assert said(asked(to, built_in="IT")) == []


def test_nothing_is_said_where_no_sum_hangs_on_it():
    assert said(asked("Toronto, Canada", built_in="", year=1961)) == []
    assert said(asked("Oslo, Norway", built_in="")) == []
