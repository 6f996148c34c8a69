"""The one rounding: whole numbers and columns agree, against Decimal, up to the largest amounts the program admits."""

from decimal import ROUND_HALF_UP, Decimal

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from shipcalc.money import (
    LARGEST_MINOR,
    PPM,
    from_e4,
    half_up,
    round_up,
    share,
    text,
    times_rate,
    to_decimal,
    to_minor,
)

# |numerator| + denominator ÷ 2 stays below 2^62, as the products of an amount and a rate do.
numerators = st.integers(-(10**18), 10**18)
denominators = st.integers(1, 10**10)
amounts = st.integers(-LARGEST_MINOR + 1, LARGEST_MINOR - 1)
percentages = st.integers(-PPM + 1, PPM - 1)


def slow(numerator: int, denominator: int) -> int:
    return int((Decimal(numerator) / Decimal(denominator)).quantize(Decimal(1), ROUND_HALF_UP))


@given(numerators, denominators)
@example(10**18, 1)
@example(-(10**18), 1)
@example(5, 10)
@example(-5, 10)
def test_a_number_and_a_column_are_rounded_alike(numerator: int, denominator: int) -> None:
    alone = half_up(numerator, denominator)
    column = half_up(np.array([numerator, -numerator], dtype=np.int64), denominator)
    assert column.dtype == np.int64
    assert column.tolist() == [alone, -alone]


@given(st.integers(-(10**14), 10**14), denominators)
def test_the_rounding_is_the_one_of_decimal_arithmetic(numerator: int, denominator: int) -> None:
    assert half_up(numerator, denominator) == slow(numerator, denominator)


@given(amounts, percentages)
@example(LARGEST_MINOR - 1, PPM - 1)
def test_a_share_of_the_largest_amount_does_not_overflow(amount: int, ppm: int) -> None:
    alone = share(amount, ppm)
    assert alone == slow(amount * ppm, PPM) == half_up(amount * ppm, PPM)
    assert share(np.array([amount], dtype=np.int64), ppm).tolist() == [alone]


def test_halves_go_away_from_nought_on_both_sides() -> None:
    assert [half_up(n, 2) for n in (-3, -1, 0, 1, 3)] == [-2, -1, 0, 1, 2]


@pytest.mark.parametrize(
    ("miles", "rate_e4", "currency", "minor"),
    [(1_237, 8_200, "USD", 101_434), (1_237, 8_200, "JPY", 1_014), (1_237, 8_200, "KWD", 1_014_340)],
)
def test_a_rate_times_miles_has_the_decimals_of_its_currency(miles, rate_e4, currency, minor) -> None:
    assert times_rate(miles, rate_e4, currency) == minor
    assert times_rate(np.array([miles]), rate_e4, currency).tolist() == [minor]


def test_rounding_up_stops_on_the_step() -> None:
    assert [round_up(minor, 500) for minor in (0, 1, 499, 500, 501)] == [0, 500, 500, 500, 1_000]
    assert round_up(np.array([1, 500]), 500).tolist() == [500, 500]


@given(amounts, st.sampled_from(["USD", "JPY", "KWD", "CLF"]))
def test_minor_units_survive_as_decimals(minor: int, currency: str) -> None:
    assert to_minor(to_decimal(minor, currency), currency) == minor


def test_amounts_and_rates_are_written_as_people_write_them() -> None:
    assert text(123_450, "USD") == "1,234.50"
    assert text(123_450, "JPY") == "123,450"
    assert [str(from_e4(rate)) for rate in (8_200, 8_215, 10_000)] == ["0.82", "0.8215", "1.00"]
