"""A kept request is put into the form in words that ask for the same again."""

import random

import pytest

from shipcalc.actions.quoting import Order, made_quote, open_books
from shipcalc.desk.orders import AskedQuote
from shipcalc.desk.orders_again import order_of
from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.quote.request import Request
from tests.desk.test_desk import DAY, sources_of
from tests.quote.kept_answers import fetched_or_kept, orders

DESCRIBED = "1961 roadster, 153 in x 60 in x 49 in, 2030 lb, $38,000, does not run"
ODD = (
    Order(
        vehicles=(DESCRIBED,), to="59715", start="Savannah", lift_gate=True, insure_for="90,000", buyer="P. Lindqvist"
    ),
    Order(vehicles=("HV-1042",), to="Portland, ME", spot=("Tern Haulage, 1,250, until 2026-12-10, ref TH-88",)),
    Order(vehicles=("HV-1042", "HV-1014"), to="47.6, -122.3", express=True, collect=True),
)


@pytest.mark.parametrize("order", [*ODD, *random.Random(20261128).sample([*orders(), *fetched_or_kept()], 15)], ids=str)
def test_the_order_of_a_request_asks_for_the_same_again(order: Order) -> None:
    sources = sources_of(DAY)
    books = open_books(sources)
    try:
        made = made_quote(order, sources, as_of=DAY, books=books)
    except (NoAnswer, WrongInput):
        pytest.skip("there is no answer to it")
    again = AskedQuote.model_validate(order_of(made.request, sources.settings, today=DAY)).order(DAY)
    found = made_quote(again, sources, as_of=DAY, books=books)
    assert asked(found.request) == asked(made.request)
    assert [one.total for one in found.quote.options] == [one.total for one in made.quote.options]


def asked(request: Request) -> tuple[object, ...]:
    """Return what is asked, without how it was found."""
    spots = [(one.latitude, one.longitude) for one in (request.to, *request.starts)]
    return spots, request.vehicles, request.ready, request.by, request.wishes, request.buyer
