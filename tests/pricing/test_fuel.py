"""The fuel surcharge as lines of a price."""

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.money import PPM
from shipcalc.pricing.fuel import step_at
from shipcalc.pricing.line import LINEHAUL, Markup
from shipcalc.ratebook.rows.diesel import DieselPrice
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.ratebook.rows.fuel_steps import FuelStep
from shipcalc.ratebook.workbook.columns import RowRef
from shipcalc.records import replace

BY_MILE = FuelScheme(
    scheme="Lamp oil", as_of=date(2026, 11, 30), price_e4=38_000, method="per mile", peg_e4=25_000, miles_per_gallon=6.5
)
BY_STEP = FuelScheme(
    scheme="Lamp oil", as_of=date(2026, 11, 30), price_e4=28_901, method="percent steps", peg_e4=25_000,
    step_e4=1_300, step_percent_ppm=10_000,
)  # fmt: skip


def fuel_lines(price, make_book, teapot, *rows: FuelScheme, miles: int = 1_000, diesel=(), fuel_steps=(), **more):
    book = make_book(carrier=replace(teapot, fuel_scheme="LAMP OIL"), fuel=rows, diesel=diesel, fuel_steps=fuel_steps)
    return [line for line in price(book, [miles], **more).lines if line.code == "truck.fuel"]


def test_fuel_by_the_mile_is_what_the_price_is_above_the_peg_for_each_mile(make_book, price, teapot) -> None:
    """1.30 above ÷ 6.5 miles a gallon is 0.20 a mile."""
    (line,) = fuel_lines(price, make_book, teapot, BY_MILE)
    assert (line.unit, int(line.amount[0, 0])) == ("mi", 200_00)
    assert line.label == "Fuel surcharge (diesel at 3.80 a gallon on 2026-11-30)"


def test_fuel_by_steps_is_one_percent_for_each_started_step(make_book, price, teapot) -> None:
    """0.3901 above the peg is three whole steps of 0.13 and a fourth one started: 4 % of 1,000."""
    (line,) = fuel_lines(price, make_book, teapot, BY_STEP)
    assert (line.unit, int(line.amount[0, 0])) == ("%", 40_00)
    assert line.of == LINEHAUL


def test_exactly_three_steps_are_three(make_book, price, teapot) -> None:
    (line,) = fuel_lines(price, make_book, teapot, replace(BY_STEP, price_e4=28_900))
    assert int(line.amount[0, 0]) == 30_00


def test_fuel_by_steps_is_taken_of_base_miles_and_minimum_together(make_book, price, teapot) -> None:
    book = make_book(
        carrier=replace(teapot, fuel_scheme="Lamp oil", base_minor=50_00, minimum_minor=500_00), fuel=(BY_STEP,)
    )
    assert price(book, [100]).total.tolist() == [[500_00 + 20_00]]


@pytest.mark.parametrize("row", [BY_MILE, BY_STEP], ids=lambda row: row.method)
def test_at_the_peg_or_below_there_is_no_line(make_book, price, teapot, row: FuelScheme) -> None:
    assert fuel_lines(price, make_book, teapot, replace(row, price_e4=25_000)) == []
    assert fuel_lines(price, make_book, teapot, replace(row, price_e4=11_000)) == []


def test_a_carrier_without_a_scheme_has_no_fuel_line(make_book, totals) -> None:
    assert totals(make_book(fuel=(BY_MILE,)), [1_000]) == [1_000_00]


def test_the_newest_price_not_after_the_day_counts(make_book, price, teapot) -> None:
    newer = replace(BY_MILE, as_of=date(2026, 12, 7), price_e4=51_000)
    amounts = [
        [int(line.amount[0, 0]) for line in fuel_lines(price, make_book, teapot, newer, BY_MILE, day=day)]
        for day in (date(2026, 11, 29), date(2026, 12, 6), date(2026, 12, 7))
    ]
    assert amounts == [[], [200_00], [400_00]]


def test_a_percentage_of_fuel_is_of_the_marked_up_miles_and_a_rate_has_its_own_markup(make_book, price, teapot) -> None:
    markup = Markup(linehaul_ppm=100_000, fuel_ppm=500_000)
    by_step, by_mile = (
        int(fuel_lines(price, make_book, teapot, row, markup=markup)[0].amount[0, 0]) for row in (BY_STEP, BY_MILE)
    )
    assert (by_step, by_mile) == (44_00, 300_00)


def test_a_trip_charged_as_a_longer_one_burns_fuel_for_its_own_miles(make_book, price, teapot) -> None:
    book = make_book(
        bands=((0, 100, 20_000), (100, None, 10_000)), carrier=replace(teapot, fuel_scheme="Lamp oil"), fuel=(BY_MILE,)
    )
    assert price(book, [80]).total.tolist() == [[101_00 + 16_00]]


WEEKS = (
    DieselPrice(as_of=date(2026, 11, 16), price_e4=37_000),
    DieselPrice(as_of=date(2026, 11, 23), price_e4=38_000),
    DieselPrice(as_of=date(2026, 12, 14), price_e4=60_000),
    DieselPrice(region="West Coast", as_of=date(2026, 11, 23), price_e4=45_500),
)
NO_PRICE = replace(BY_MILE, as_of=None, price_e4=None)
TABLE = FuelScheme(scheme="Lamp oil", method="step table")
STEPS = (
    FuelStep(scheme="lamp oil", from_price_e4=37_500, rate_e4=2_100),
    FuelStep(scheme="Lamp oil", from_price_e4=30_000, rate_e4=1_000),
    FuelStep(scheme="Lamp oil", from_price_e4=42_000, rate_e4=4_000),
    FuelStep(scheme="Another", from_price_e4=37_900, rate_e4=9_000),
)


def test_one_price_of_diesel_serves_every_scheme_without_its_own(make_book, price, teapot) -> None:
    (own,) = fuel_lines(price, make_book, teapot, BY_MILE)
    (shared,) = fuel_lines(price, make_book, teapot, NO_PRICE, diesel=WEEKS)
    assert shared.amount.tolist() == own.amount.tolist()
    assert "diesel at 3.80 a gallon on 2026-11-23" in shared.label


def test_a_scheme_goes_by_its_regions_price_and_the_line_names_that_cell(make_book, price, teapot) -> None:
    at = RowRef("trucking.xlsx", "Diesel", 9, {"price_e4": "C"})
    west = (*WEEKS[:3], replace(WEEKS[3], at=at))
    (line,) = fuel_lines(price, make_book, teapot, replace(NO_PRICE, diesel_region="west coast"), diesel=west)
    assert line.rate == 3154 * PPM  # (4.55 − 2.50) ÷ 6.5 = 0.31538…
    assert line.cell == "trucking.xlsx › Diesel!C9"


def test_a_price_typed_in_the_scheme_counts_for_it_alone(make_book, price, teapot) -> None:
    (own,) = fuel_lines(price, make_book, teapot, BY_MILE, diesel=(replace(WEEKS[1], price_e4=99_000),))
    assert "3.80" in own.label


def test_without_a_price_for_its_region_a_scheme_asks_nothing(make_book, price, teapot) -> None:
    assert fuel_lines(price, make_book, teapot, replace(NO_PRICE, diesel_region="Gulf"), diesel=WEEKS) == []


@pytest.mark.parametrize(
    ("price_e4", "rate_e4"),
    [(29_999, None), (30_000, 1_000), (37_499, 1_000), (37_500, 2_100), (41_999, 2_100), (90_000, 4_000)],
)
def test_a_step_counts_from_its_price_to_the_next(make_book, price, teapot, price_e4, rate_e4) -> None:
    diesel = (DieselPrice(as_of=date(2026, 11, 23), price_e4=price_e4),)
    lines = fuel_lines(price, make_book, teapot, TABLE, diesel=diesel, fuel_steps=STEPS)
    assert [line.rate for line in lines] == ([] if rate_e4 is None else [rate_e4 * PPM])


def test_a_step_in_percent_is_of_the_linehaul(make_book, price, teapot) -> None:
    steps = tuple(replace(step, rate_e4=None, percent_ppm=step.rate_e4 * 100) for step in STEPS)
    (line,) = fuel_lines(price, make_book, teapot, TABLE, diesel=WEEKS, fuel_steps=steps)
    assert (line.unit, line.rate) == ("%", 210_000)


@given(
    st.lists(
        st.tuples(st.integers(15_000, 80_000), st.integers(0, 20_000)),
        min_size=1,
        max_size=9,
        unique_by=lambda one: one[0],
    ),
    st.integers(10_000, 90_000),
)
def test_the_step_found_is_the_last_one_begun_in_a_plain_reading(steps, price_e4) -> None:
    """Walked from the lowest price up, in Decimal, as somebody reads such a table on paper."""
    asked = Decimal(0)
    for begins, rate in sorted(steps):
        if Decimal(price_e4) / 10_000 >= Decimal(begins) / 10_000:
            asked = Decimal(rate) / 10_000
    rows = tuple(FuelStep(scheme="Lamp oil", from_price_e4=begins, rate_e4=rate) for begins, rate in steps)
    found = step_at("Lamp oil", price_e4, rows)
    assert Decimal(found.rate_e4 if found else 0) / 10_000 == asked
