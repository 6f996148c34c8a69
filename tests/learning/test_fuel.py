"""Fuel schemes from bills: miles per gallon and percentages that are known are found again."""

from datetime import date
from decimal import Decimal

import numpy as np
import pytest

from shipcalc.actions.sources import invented_folder
from shipcalc.learning.fuel import FuelBilled, fuel_learnt
from shipcalc.ratebook.book import RateBook, read_rate_book

DAY = date(2026, 12, 1)


@pytest.fixture(scope="module")
def book() -> RateBook:
    return read_rate_book(invented_folder("rates"))


def bills(book: RateBook, method: str, times: float, count: int = 80) -> list[FuelBilled]:
    """Bills of a carrier whose scheme is of a method: so many times what was reckoned, 3 % noise, one in twenty half of it."""
    schemes = {row.scheme for row in book.fuel if row.method == method}
    carrier = next(row for row in book.carriers if row.fuel_scheme in schemes)
    rng = np.random.default_rng(5)
    return [
        FuelBilled(
            number=f"Q-2026-{number:04d}",
            carrier=carrier.carrier,
            trailer=carrier.trailer,
            reckoned=reckoned,
            paid=reckoned * times * (1 + rng.normal(0, 0.03)) * (0.5 if number % 20 == 3 else 1),
        )
        for number, reckoned in enumerate(rng.uniform(40, 400, count))
    ]


def test_a_quarter_more_money_for_fuel_is_a_fifth_fewer_miles_per_gallon(book: RateBook) -> None:
    """(price − peg) ÷ miles per gallon × 1.25 is the same as ÷ (0.8 × miles per gallon)."""
    (made,) = fuel_learnt(bills(book, "per mile", 1.25), book, DAY).proposals
    assert made.low <= made.now * Decimal("0.8") <= made.high
    assert made.differs
    assert made.low < made.rate < made.high


def test_a_percentage_goes_up_with_the_bills(book: RateBook) -> None:
    (made,) = fuel_learnt(bills(book, "percent steps", 1.1), book, DAY).proposals
    assert made.low <= made.now * Decimal("1.1") <= made.high
    assert made.percent


def test_too_few_bills_say_so_and_what_agrees_stays(book: RateBook) -> None:
    few = fuel_learnt(bills(book, "per mile", 1.25, 59), book, DAY)
    assert few.proposals == ()
    assert "59 quotes with bills are too few" in few.said[0]
    (made,) = fuel_learnt(bills(book, "per mile", 1.0), book, DAY).proposals
    assert not made.differs
