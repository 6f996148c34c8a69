"""The fuel surcharge as lines of a price."""

from datetime import date

import pytest

from shipcalc.pricing.line import Markup
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.records import replace

BY_MILE = FuelScheme(
    scheme="Lamp oil", as_of=date(2026, 11, 30), price_e4=38_000, method="per mile", peg_e4=25_000, miles_per_gallon=6.5
)
BY_STEP = FuelScheme(
    scheme="Lamp oil", as_of=date(2026, 11, 30), price_e4=28_901, method="percent steps", peg_e4=25_000,
    step_e4=1_300, step_percent_ppm=10_000,
)  # fmt: skip


def fuel_lines(price, make_book, teapot, *rows: FuelScheme, miles: int = 1_000, **more):
    book = make_book(carrier=replace(teapot, fuel_scheme="LAMP OIL"), fuel=rows)
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
    assert line.of == ("truck.base", "truck.linehaul", "truck.lane", "truck.direction", "truck.minimum")


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
