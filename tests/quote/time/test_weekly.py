"""Fuel and currencies are the weekly cells: an old or a missing one is said on every quote that uses it."""

from datetime import date
from decimal import Decimal
from types import SimpleNamespace

import pytest

from shipcalc.quote.model import Exchange
from shipcalc.quote.time.weekly import exchange_notes
from shipcalc.ratebook.rows.currencies import Currency
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.ratebook.rows.imports import Country
from shipcalc.records import replace

DAY = date(2026, 12, 1)


def fuel(scheme: str, day: date) -> FuelScheme:
    return FuelScheme(
        scheme=scheme, as_of=day, price_e4=38_560, method="per mile", peg_e4=25_000, miles_per_gallon=6.0
    )  # fmt: skip


@pytest.fixture
def said(make_book, small_quote, carrier):
    def say(*rows: FuelScheme, scheme: str = "Per mile") -> list[str]:
        made = small_quote(make_book([(carrier("Owl", fuel_scheme=scheme), 8_200)], fuel=rows))
        return [note for note in made.assumptions if "fuel price" in note]

    return say


def test_a_fuel_price_of_this_week_needs_no_word(said):
    assert said(fuel("Per mile", date(2026, 11, 24))) == []


def test_an_old_fuel_price_is_said_with_its_day(said):
    assert said(fuel("Per mile", date(2026, 11, 1))) == ["The fuel price is of 2026-11-01, more than 14 days old."]


def test_of_several_schemes_the_old_one_is_named(said):
    rows = (fuel("Per mile", date(2026, 11, 24)), fuel("Steps", date(2026, 10, 1)))
    assert said(*rows) == ['The fuel price of "Steps" is of 2026-10-01, more than 14 days old.']


def test_a_scheme_whose_first_price_lies_ahead_is_said_since_no_surcharge_is_in_the_price(said):
    assert said(fuel("Per mile", date(2026, 12, 7))) == [
        'There is no fuel price of 2026-12-01 or before for "Per mile": its carriers are priced without one.'
    ]


def test_an_old_rate_of_exchange_is_said_where_it_is_used(make_book):
    euro = Currency(currency="EUR", as_of=date(2026, 11, 1), rate=0.92)
    germany = Country(country="DE", name="Germany", currency="EUR")
    book = replace(make_book([]), currencies=(euro,), countries=(germany,))
    old = "The rate of exchange for EUR is of 2026-11-01, more than 14 days old."
    asked = Exchange(currency="EUR", rate=Decimal("0.92"), as_of=euro.as_of, buffer=Decimal(0))
    duty, no_duty = SimpleNamespace(imports=("estimate",)), SimpleNamespace(imports=())

    assert list(exchange_notes(asked, (no_duty,), "DE", book, DAY))[1:] == [old]
    assert list(exchange_notes(None, (duty,), "DE", book, DAY)) == [old]
    assert list(exchange_notes(None, (no_duty,), "DE", book, DAY)) == []
    newer = replace(book, currencies=(euro, replace(euro, as_of=date(2026, 11, 30))))
    assert list(exchange_notes(None, (duty,), "DE", newer, DAY)) == []
