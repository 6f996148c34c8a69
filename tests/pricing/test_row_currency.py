"""A row's amount in its own currency becomes the book's by exact division, rounded once, half up."""

from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.pricing.port_charges import asked_at
from shipcalc.pricing.row_currency import exchanged, in_book_currency, rate_of_row
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.currencies import Currency
from shipcalc.ratebook.rows.port_charges import PortCharge
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.rows.tables import Tables

RATES = Tables(
    currencies=(
        Currency(currency="CAD", as_of=date(2026, 11, 2), rate=1.36),
        Currency(currency="CAD", as_of=date(2026, 11, 23), rate=1.37, buffer_ppm=15_000),
        Currency(currency="EUR", as_of=date(2026, 11, 23), rate=0.9215),
    )
)


@given(st.integers(0, 10**11), st.decimals("0.0001", "20000", places=4))
def test_an_amount_is_divided_by_the_rate_as_on_paper(amount, rate):
    row = Currency(currency="XTS", as_of=date(2026, 11, 23), rate=float(rate))
    assert in_book_currency(amount, row) == int((Decimal(amount) / rate).quantize(Decimal(1), ROUND_HALF_UP))


def test_the_latest_rate_so_far_counts_and_before_all_rates_the_earliest():
    days = date(2026, 11, 30), date(2026, 11, 22), date(2026, 1, 1)
    assert [rate_of_row(RATES, "cad", "USD", day).rate for day in days] == [1.37, 1.36, 1.36]


def test_the_books_own_currency_needs_no_rate_and_an_unknown_one_is_no_price():
    assert rate_of_row(RATES, None, "USD", date(2026, 12, 1)) is None
    assert rate_of_row(RATES, "usd", "USD", date(2026, 12, 1)) is None
    assert in_book_currency(12_345, None) == 12_345
    with pytest.raises(KeyError):
        rate_of_row(RATES, "JPY", "USD", date(2026, 12, 1))


def test_the_office_is_told_how_an_amount_became_the_books():
    assert exchanged("1,370.00", rate_of_row(RATES, "CAD", "USD", date(2026, 12, 1))) == (
        "1,370.00 CAD at 1.37 of 2026-11-23"
    )
    assert exchanged("1,370.00", None) == ""


def test_a_ports_line_tells_the_office_too():
    rows = (
        PortCharge(port="CAHAL", label="Terminal handling", per="vehicle", amount_e4=137_00_00, currency="CAD"),
        PortCharge(port="CAHAL", label="Gate", per="vehicle", amount_e4=20_00_00),
    )
    book = RateBook(
        folder=Path("rates"), fingerprint="0", pricing=PricingRules(), port_charges=rows, currencies=RATES.currencies
    )
    told = [(one.amount_e4, one.told) for one in asked_at(book, date(2026, 12, 1), "CAHAL", "roro")]
    assert told == [(100_00_00, "137.00 CAD at 1.37 of 2026-11-23"), (20_00_00, "")]
