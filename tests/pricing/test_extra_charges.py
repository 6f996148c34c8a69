"""The decision table of extra charges: which rows hold for which vehicle, wish, trip and day."""

from datetime import date

import pytest

from shipcalc.pricing.line import Markup
from shipcalc.ratebook.rows.extra_charges import ExtraCharge
from shipcalc.records import replace
from shipcalc.vehicles.vehicle import Vehicle

MEASURES = {
    "length": "length_mm",
    "width": "width_mm",
    "height": "height_mm",
    "clearance": "clearance_mm",
    "mass": "mass_grams",
    "value": "value_minor",
}
UNITS = {"mass": "grams", "value": "minor"}
STATES = ("runs", "rolls", "steers", "brakes")


def charge(**conditions: object) -> ExtraCharge:
    return ExtraCharge(code="tea", label="Tea for the driver", charge="flat", amount_minor=7_00, **conditions)


def is_charged(book, price, row: ExtraCharge, vehicle: Vehicle = Vehicle(stock_number="HV-7"), **more) -> bool:  # noqa: B008
    found = price(replace(book, extras=(row,)), [100], vehicles=[vehicle], **more)
    added = int(found.total[0, 0]) - 100_00
    assert added in (0, 7_00)
    return added > 0


@pytest.mark.parametrize("measure", MEASURES)
def test_over_leaves_the_limit_out_and_up_to_takes_it_in(make_book, price, measure: str) -> None:
    book, unit = make_book(), UNITS.get(measure, "mm")
    at, beyond = (Vehicle(stock_number="HV-7", **{MEASURES[measure]: size}) for size in (1_000, 1_001))
    over, up_to = charge(**{f"{measure}_over_{unit}": 1_000}), charge(**{f"{measure}_up_to_{unit}": 1_000})
    assert [is_charged(book, price, over, vehicle) for vehicle in (at, beyond)] == [False, True]
    assert [is_charged(book, price, up_to, vehicle) for vehicle in (at, beyond)] == [True, False]


@pytest.mark.parametrize("measure", MEASURES)
@pytest.mark.parametrize("side", ["over", "up_to"])
def test_an_unknown_measure_meets_no_condition(make_book, price, measure: str, side: str) -> None:
    row = charge(**{f"{measure}_{side}_{UNITS.get(measure, 'mm')}": 0 if side == "over" else 9_999_999})
    assert not is_charged(make_book(), price, row)


@pytest.mark.parametrize("state", STATES)
def test_a_state_is_asked_for_as_yes_or_as_no(make_book, price, state: str) -> None:
    broken = Vehicle(stock_number="HV-7", **{state: False})
    rows = (charge(**{state: True}), charge(**{state: False}), charge())
    assert [is_charged(make_book(), price, row, broken) for row in rows] == [False, True, True]


def test_an_altered_vehicle_is_charged_where_the_row_says_so(make_book, price) -> None:
    assert is_charged(make_book(), price, charge(modified=True), Vehicle(stock_number="HV-7", modified=True))
    assert not is_charged(make_book(), price, charge(modified=True))


@pytest.mark.parametrize("wish", ["limited_access", "express", "lift_gate"])
def test_a_wish_is_charged_when_it_is_wished(make_book, price, teapot, wish: str) -> None:
    book = make_book(carrier=replace(teapot, lift_gate=True, express_pickup_days=1))
    assert [is_charged(book, price, charge(**{wish: True}), **{wish: asked}) for asked in (False, True)] == [
        False,
        True,
    ]
    assert is_charged(book, price, charge(**{wish: False}))


def test_several_vehicles_and_a_longer_trip_are_more_than_the_number_named(make_book, price) -> None:
    book = make_book()
    assert [is_charged(book, price, charge(vehicles_over=2), vehicle_count=count) for count in (2, 3)] == [False, True]
    assert [is_charged(book, price, charge(miles_over=miles)) for miles in (99, 100)] == [True, False]


def test_a_row_holds_from_its_first_pickup_day_to_its_last(make_book, price) -> None:
    row = charge(valid_from=date(2026, 12, 24), valid_to=date(2026, 12, 26))
    days = [date(2026, 12, day) for day in (23, 24, 26, 27)]
    assert [is_charged(make_book(), price, row, day=day) for day in days] == [False, True, True, False]


def test_a_row_may_be_for_one_carrier_or_one_kind_of_trailer(make_book, price) -> None:
    book = make_book()
    assert is_charged(book, price, charge(carrier="TEAPOT AND DAUGHTERS", trailer="open"))
    assert not is_charged(book, price, charge(carrier="Sugar Bowl Freight"))
    assert not is_charged(book, price, charge(trailer="enclosed"))


def test_all_conditions_of_a_row_must_hold_together(make_book, price) -> None:
    row = charge(runs=False, length_over_mm=5_000)
    still_and_long = Vehicle(stock_number="HV-7", runs=False, length_mm=5_001)
    assert is_charged(make_book(), price, row, still_and_long)
    assert not is_charged(make_book(), price, row, replace(still_and_long, runs=True))
    assert not is_charged(make_book(), price, row, replace(still_and_long, length_mm=5_000))


def test_each_vehicle_pays_only_what_holds_for_itself(make_book, price) -> None:
    book = replace(make_book(), extras=(charge(runs=False),))
    cars = [Vehicle(stock_number="HV-7"), Vehicle(stock_number="HV-8", runs=False)]
    assert price(book, [100, 200], vehicles=cars).total.tolist() == [[100_00, 200_00], [107_00, 207_00]]


@pytest.mark.parametrize(("value", "premium"), [(None, 0), (50_000_00, 0), (50_000_01, 0), (80_000_00, 120_00)])
def test_cover_above_the_carriers_own_is_a_percentage_of_what_is_above(
    make_book, price, teapot, value, premium
) -> None:
    """0.4 % of 30,000 above the cover of 50,000 is 120; of one cent above it is nothing."""
    row = ExtraCharge(code="cover", label="More cover", charge="percent", percent_ppm=4_000, of="value above cover")
    book = make_book(carrier=replace(teapot, cover_can_rise=True), extras=(row,))
    assert price(book, [100], vehicles=[Vehicle(stock_number="HV-7", value_minor=value)]).total.tolist() == [
        [100_00 + premium]
    ]


def test_a_percentage_of_the_value_is_marked_up_as_its_base_is_not(make_book, price) -> None:
    """0.5 % of 20,000 is 100; with a tenth more on extra charges 110. Of linehaul, the base is marked up already."""
    of_value = ExtraCharge(code="cover", label="Cover", charge="percent", percent_ppm=5_000, of="value")
    of_miles = ExtraCharge(code="care", label="Care", charge="percent", percent_ppm=50_000)
    car = [Vehicle(stock_number="HV-7", value_minor=20_000_00)]
    sold = price(
        make_book(extras=(of_value, of_miles)),
        [1_000],
        vehicles=car,
        markup=Markup(linehaul_ppm=200_000, extras_ppm=100_000),
    )
    assert [int(line.amount[0, 0]) for line in sold.lines] == [1_200_00, 110_00, 60_00]


def test_a_reduction_takes_off(make_book, price) -> None:
    two = ExtraCharge(code="two", label="Two at once", vehicles_over=1, charge="percent", percent_ppm=-50_000)
    assert price(make_book(extras=(two,)), [1_000], vehicle_count=2).total.tolist() == [[950_00]]
