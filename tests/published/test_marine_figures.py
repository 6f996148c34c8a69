"""The revenue ton, the premium that insures itself, free days and storage: each held to numbers from outside."""

from datetime import date
from decimal import ROUND_HALF_UP, Decimal

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.pricing.cover import insured_sum, premium
from shipcalc.pricing.measurement import revenue_tons_thousandths, volume_thousandths
from shipcalc.pricing.ports import storage_minor
from shipcalc.quote.time.port_days import last_free_day
from shipcalc.ratebook.rows.ports import Port
from shipcalc.ratebook.workbook.columns import RowRef
from shipcalc.records import replace


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


def test_a_published_question_and_its_answer():
    """An examination question of international trade in print (in Chinese, with its answer; read on 28 November 2026): 2,000.00 CIF
    insured for 110 % at 0.6 % is 1,986.80 without the insurance, 2,000 × (1 − 1.1 × 0.6 %).

    The same asks for 130 %, and prints 2,002.40 for 1,986.80 ÷ 0.9922, which is 2,002.42.
    """
    without = column(1_986_80)
    assert (without + premium(without, insured_ppm=1_100_000, rate_ppm=6_000)).tolist() == [2_000_00]
    assert (without + premium(without, insured_ppm=1_300_000, rate_ppm=6_000)).tolist() == [2_002_42]


NEVIS = Port(
    port="KNNEV", name="Nevis", region="Caribbean", country="KN", latitude=17.14, longitude=-62.62, free_days=5,
    free_days_count="working", storage_first_minor=150_00, storage_first_days=0, storage_then_minor=150_00,
    days_off=("Saturday", "Sunday"), at=RowRef("overseas.xlsx", "Ports", 2, {}),
)  # fmt: skip


@pytest.mark.parametrize(
    ("came", "last_free"),
    [
        (date(2026, 11, 27), date(2026, 12, 4)),  # a Friday: Monday to Friday of the week after are the five
        (date(2026, 12, 1), date(2026, 12, 8)),
        (date(2026, 12, 18), date(2026, 12, 28)),  # 21 to 24 December are four; Christmas and the weekend are none
    ],
)
def test_free_time_by_a_published_port_tariff(came, last_free):
    """Nevis Air and Sea Ports, Fees & Tariff (nevisportsauthority.com, read on 28 November 2026): five days free, without
    Saturdays, Sundays and legal holidays, beginning on the day after the cargo is placed.
    """
    assert last_free_day(NEVIS, came) == last_free


def test_storage_by_a_published_port_tariff():
    """The same tariff: vehicles that stay beyond five business days are charged 150.00 a day."""
    assert storage_minor(NEVIS, 3, vehicles=1) == 450_00
    assert storage_minor(NEVIS, 0, vehicles=1) == 0


def test_storage_rises_by_the_day_as_a_published_example_has_it():
    """A glossary of the trade in print (quartzlax.com, demurrage, read on 28 November 2026): seven days free, then 100 a day for
    three days, then 250 a day. Its third step is beyond what a row holds. Five days late is 3 × 100 + 2 × 250.
    """
    port = replace(NEVIS, free_days=7, storage_first_minor=100_00, storage_first_days=3, storage_then_minor=250_00)
    assert storage_minor(port, 3, vehicles=1) == 300_00
    assert storage_minor(port, 5, vehicles=1) == 800_00
