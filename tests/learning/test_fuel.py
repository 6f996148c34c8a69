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


def steps_billed(book: RateBook, at: dict[str, int], true: dict[str, float], seed: int = 5) -> list[FuelBilled]:
    """So many bills of a table's scheme at each price of diesel, by the mile at rates that the test knows: 5 % noise, one in
    twenty slipped by a point, half, twice or a third more."""
    scheme = next(row.scheme for row in book.fuel if row.method == "step table")
    carrier = next(row for row in book.carriers if row.fuel_scheme == scheme)
    rng = np.random.default_rng(seed)
    prices = [price for price, count in at.items() for _ in range(count)]
    found = []
    for number, price in enumerate(prices):
        miles = float(rng.integers(100, 2600))
        wrong = rng.choice([10, 0.1, 2, 0.5, 1.3]) if rng.random() < 0.05 else 1
        found.append(
            FuelBilled(
                number=f"Q-2026-{number:04d}",
                carrier=carrier.carrier,
                trailer=carrier.trailer,
                reckoned=miles * true[price],
                paid=miles * true[price] * (1 + rng.normal(0, 0.05)) * float(wrong),
                quantity=miles,
                diesel_e4=int(Decimal(price) * 10_000),
            )
        )
    return found


# Prices within three steps of the invented table (from 3.15, 3.75 and 4.20), and what the bills ask there.
STEPS = {"3.20": 0.16, "3.80": 0.36, "4.60": 0.50}


def test_each_step_of_a_table_that_enough_bills_were_reckoned_by_is_proposed(book: RateBook) -> None:
    made = fuel_learnt(steps_billed(book, {"3.20": 12, "3.80": 30, "4.60": 40}, STEPS), book, DAY)
    assert [(one.now, one.bills, one.differs, one.percent) for one in made.proposals] == [
        (Decimal("0.31"), 30, True, False),
        (Decimal("0.42"), 40, True, False),
    ]
    assert all(one.cell.startswith("trucking.xlsx › Fuel steps!D") for one in made.proposals)
    for one, true in zip(made.proposals, ("0.36", "0.50"), strict=True):
        assert one.low <= Decimal(true) <= one.high
    assert any("the step from 3.15 is in 12 bills, it takes 15: held as it is" in told for told in made.said)


def test_a_table_with_too_few_bills_of_common_steps_says_so(book: RateBook) -> None:
    made = fuel_learnt(steps_billed(book, {"3.20": 12, "3.80": 30, "4.60": 29}, STEPS), book, DAY)
    assert made.proposals == ()
    assert "59 quotes with bills are too few" in made.said[0]


def test_the_intervals_of_steps_hold_them_nine_times_in_ten(book: RateBook) -> None:
    """200 draws of the fewest bills that are learnt from: within four in a hundred."""
    held = []
    for seed in range(200):
        bills_of = steps_billed(book, {"3.20": 20, "3.80": 20, "4.60": 20}, STEPS, seed)
        for one, true in zip(fuel_learnt(bills_of, book, DAY).proposals, STEPS.values(), strict=True):
            held.append(float(one.low) - 0.0005 <= true <= float(one.high) + 0.0005)  # three decimals are written
    assert len(held) == 600
    assert abs(np.mean(held) - 0.90) <= 0.04


def test_too_few_bills_say_so_and_what_agrees_stays(book: RateBook) -> None:
    few = fuel_learnt(bills(book, "per mile", 1.25, 59), book, DAY)
    assert few.proposals == ()
    assert "59 quotes with bills are too few" in few.said[0]
    (made,) = fuel_learnt(bills(book, "per mile", 1.0), book, DAY).proposals
    assert not made.differs
