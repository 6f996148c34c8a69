"""Fuel surcharges against published step tables.

Sources:
    GSA    US General Services Administration, Freight Management Program, fuel surcharge table (gsa.gov): none up to 2.50
           dollars a gallon, then 1 % for each started 0.13.
    SDDC   US Surface Deployment and Distribution Command, fuel rate adjustment policy TR-12, personal property, 1.30 baseline:
           1 % for each started 0.10 (archived table).
    mile   (price − peg) ÷ miles per gallon, as carriers' public rate pages state it; read at second hand.
"""

from datetime import date
from decimal import Decimal

import pytest

from shipcalc.money import times_rate
from shipcalc.pricing.fuel import fuel_charge, fuel_charges
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.records import replace

MONDAY = date(2026, 11, 23)


def e4(dollars: str) -> int:
    return int(Decimal(dollars) * 10_000)


def steps(price: str, peg: str, step: str) -> FuelScheme:
    return FuelScheme(
        scheme="Step",
        as_of=MONDAY,
        price_e4=e4(price),
        method="percent steps",
        peg_e4=e4(peg),
        step_e4=e4(step),
        step_percent_ppm=10_000,
    )


@pytest.mark.parametrize(
    ("price", "percent"),
    [
        ("2.500", 0), ("2.501", 1), ("2.630", 1), ("2.631", 2), ("3.800", 10), ("3.801", 11), ("4.060", 12), ("5.100", 20), ("5.490", 23),
        # Prices at which binary fractions give the wrong step.
        ("2.89", 3), ("3.41", 7), ("4.19", 13), ("4.32", 14), ("5.23", 21),
    ],
)  # fmt: skip
def test_the_freight_management_table_is_reproduced(price: str, percent: int) -> None:
    assert fuel_charge(steps(price, "2.50", "0.13")).percent_ppm == percent * 10_000


@pytest.mark.parametrize(("price", "percent"), [("1.47", 2), ("1.514", 3), ("1.407", 2), ("1.345", 1), ("2.291", 10)])
def test_the_personal_property_table_is_reproduced(price: str, percent: int) -> None:
    assert fuel_charge(steps(price, "1.30", "0.10")).percent_ppm == percent * 10_000


def test_below_the_peg_there_is_no_surcharge() -> None:
    assert fuel_charge(steps("2.291", "2.50", "0.13")).percent_ppm == 0


def test_the_formula_per_mile_gives_forty_cents() -> None:
    scheme = FuelScheme(
        scheme="Mile", as_of=MONDAY, price_e4=e4("3.85"), method="per mile", peg_e4=e4("1.25"), miles_per_gallon=6.5
    )
    charge = fuel_charge(scheme)
    assert charge.rate_e4 == e4("0.40")
    assert times_rate(500, charge.rate_e4, "USD") == 200_00


def test_the_latest_price_not_after_the_day_counts() -> None:
    older, newer = steps("3.800", "2.50", "0.13"), steps("5.490", "2.50", "0.13")
    older = replace(older, as_of=date(2026, 11, 16))
    charges = fuel_charges([newer, older], date(2026, 11, 22))
    assert charges["step"].percent_ppm == 100_000
    assert fuel_charges([newer, older], MONDAY)["step"].percent_ppm == 230_000
