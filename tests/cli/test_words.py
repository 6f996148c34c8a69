"""Dates, places, vehicles and reckonings as the terminal writes them."""

from datetime import date
from decimal import Decimal

import pytest

from shipcalc.cli.words import reckoning, short_span, size, vehicle_name, weight
from shipcalc.quote.model import Charge
from shipcalc.vehicles.vehicle import Vehicle

DEC_8, DEC_14, JAN_3 = date(2026, 12, 8), date(2026, 12, 14), date(2027, 1, 3)


@pytest.mark.parametrize(
    ("days", "short"),
    [
        ((DEC_8, DEC_14), "8–14 Dec"),
        ((DEC_8, DEC_8), "8 Dec"),
        ((date(2026, 11, 28), DEC_8), "28 Nov – 8 Dec"),
        ((DEC_14, JAN_3), "14 Dec – 3 Jan"),
    ],
)
def test_a_window_in_a_column_has_no_year(days: tuple[date, date], short: str) -> None:
    assert short_span(days) == short


def charge(quantity: str, unit: str, rate: str) -> Charge:
    return Charge(
        line="1",
        code="truck.linehaul",
        label="Truck",
        stage="road carriage",
        quantity=Decimal(quantity),
        unit=unit,
        rate=Decimal(rate),
        amount=Decimal("1.00"),
    )


def test_a_reckoning_reads_as_one_would_do_it_by_hand() -> None:
    assert reckoning(charge("1237", "mi", "0.82")) == "1,237 mi × 0.82"
    assert reckoning(charge("1014.34", "%", "18.00")) == "18.00 % of 1,014.34"
    assert reckoning(charge("1", "lump", "85.00")) == ""


def test_what_is_not_known_of_a_vehicle_is_a_question_mark() -> None:
    bare = Vehicle(stock_number="HV-900", body="camper")
    assert (size(bare), weight(bare)) == ("? × ? × ?", "?")
    known = Vehicle(stock_number="HV-104", length_mm=3899, width_mm=1529, height_mm=1250, mass_grams=920_792)
    assert (size(known), weight(known)) == ("153.5 × 60.2 × 49.2", "2,030")


def test_a_vehicle_is_named_with_its_stock_number() -> None:
    minnow = Vehicle(stock_number="HV-104", year=1961, make="Larkspur", model="Minnow")
    assert vehicle_name(minnow) == "1961 Larkspur Minnow (HV-104)"
