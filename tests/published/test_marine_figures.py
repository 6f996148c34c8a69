"""The revenue ton and the premium that insures itself, each with its worked numbers."""

from decimal import ROUND_HALF_UP, Decimal

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.pricing.cover import insured_sum, premium
from shipcalc.pricing.measurement import revenue_tons_thousandths, volume_thousandths


def column(*values: int) -> "np.ndarray[tuple[int], np.dtype[np.int64]]":
    return np.array(values, dtype=np.int64)


def test_a_car_of_485_by_195_by_140_cm_measures_13241_cubic_metres() -> None:
    """Arithmetic; the rule (the greater of m³ and t) as an ocean carrier's public glossary states it, read at second hand."""
    assert volume_thousandths(column(4_850), column(1_950), column(1_400)).tolist() == [13_241]
    assert revenue_tons_thousandths(column(4_850), column(1_950), column(1_400), column(1_700_000)).tolist() == [13_241]


def test_a_short_heavy_vehicle_is_charged_by_mass() -> None:
    assert revenue_tons_thousandths(column(2_000), column(1_000), column(1_000), column(3_500_000)).tolist() == [3_500]


def test_the_premium_under_110_percent_at_one_percent() -> None:
    """CIF = (C + F) / (1 − 1.10 r), standard algebra: 50,000 at 1 % gives 50,556.12, premium 556.12."""
    paid = premium(column(50_000_00), insured_ppm=1_100_000, rate_ppm=10_000)
    assert paid.tolist() == [556_12]
    assert insured_sum(column(50_000_00), insured_ppm=1_100_000, rate_ppm=10_000).tolist() == [55_611_73]


@given(st.integers(0, 10**9), st.integers(1, 50_000).map(lambda bp: bp * 10))
def test_the_premium_is_the_rate_of_the_sum_it_insures(value_minor: int, rate_ppm: int) -> None:
    """The exact solution in fractions, rounded once."""
    load = Decimal(rate_ppm) / 1_000_000 * Decimal("1.1")
    exact = (Decimal(value_minor) * load / (1 - load)).quantize(Decimal(1), ROUND_HALF_UP)
    assert premium(column(value_minor), insured_ppm=1_100_000, rate_ppm=rate_ppm).tolist() == [int(exact)]


def test_a_minimum_premium_holds() -> None:
    assert premium(column(100_00), insured_ppm=1_100_000, rate_ppm=10_000, minimum_minor=150_00).tolist() == [150_00]
