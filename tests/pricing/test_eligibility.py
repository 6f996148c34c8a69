"""What stands in the way of a carrier, each thing alone and said once."""

import pytest

from shipcalc.measures import inches_to_mm, pounds_to_grams
from shipcalc.ratebook.rows.areas import Area
from shipcalc.records import replace
from shipcalc.vehicles.vehicle import Vehicle

ORDINARY = Vehicle(
    stock_number="HV-7",
    length_mm=3_900,
    width_mm=1_530,
    height_mm=1_245,
    clearance_mm=140,
    mass_grams=920_000,
    value_minor=38_000_00,
)
NARROW = {
    "longest_mm": inches_to_mm(200),
    "widest_mm": inches_to_mm(80),
    "highest_mm": inches_to_mm(70),
    "heaviest_grams": pounds_to_grams(5_000),
    "lowest_clearance_mm": inches_to_mm(5),
    "takes_inoperable": False,
    "winch": False,
}
OBSTACLES = {
    "too long": ({"length_mm": inches_to_mm(201)}, "it takes a length of up to 200 in"),
    "too wide": ({"width_mm": inches_to_mm(81)}, "it takes a width of up to 80 in"),
    "too high": ({"height_mm": inches_to_mm(71)}, "it takes a height of up to 70 in"),
    "too heavy": ({"mass_grams": pounds_to_grams(5_001)}, "it takes a weight of up to 5,000 lb"),
    "too low": ({"clearance_mm": inches_to_mm(4.9)}, "its ramp needs 5 in of ground clearance"),
    "too dear": ({"value_minor": 50_000_01}, "its cargo cover ends at a value of 50,000 USD"),
    "does not run": ({"runs": False}, "it takes only vehicles that run"),
    "does not roll": ({"rolls": False}, "it has no winch for a vehicle that does not roll, steer and brake"),
    "does not steer": ({"steers": False}, "it has no winch for a vehicle that does not roll, steer and brake"),
    "has no brakes": ({"brakes": False}, "it has no winch for a vehicle that does not roll, steer and brake"),
}


def reasons(price, book, vehicle: Vehicle = ORDINARY, **more) -> list[str]:
    found = price(book, [100], vehicles=[vehicle], **more)
    told = [obstacle.reason for obstacle in found.obstacles if obstacle.where.any()]
    assert bool(told) is not bool(found.eligible[0, 0])
    return told


@pytest.mark.parametrize("name", OBSTACLES)
def test_one_thing_in_the_way_is_told_alone_and_once(make_book, price, teapot, name: str) -> None:
    changed, reason = OBSTACLES[name]
    book = make_book(carrier=replace(teapot, **NARROW))
    assert reasons(price, book) == []
    assert reasons(price, book, replace(ORDINARY, **changed)) == [reason]


def test_at_the_limit_a_vehicle_is_taken(make_book, price, teapot) -> None:
    at_all_limits = replace(
        ORDINARY,
        length_mm=NARROW["longest_mm"],
        width_mm=NARROW["widest_mm"],
        height_mm=NARROW["highest_mm"],
        mass_grams=NARROW["heaviest_grams"],
        clearance_mm=NARROW["lowest_clearance_mm"],
        value_minor=50_000_00,
    )
    assert reasons(price, make_book(carrier=replace(teapot, **NARROW)), at_all_limits) == []


def test_what_is_not_known_stands_in_nobodys_way(make_book, price, teapot) -> None:
    assert reasons(price, make_book(carrier=replace(teapot, **NARROW)), Vehicle(stock_number="HV-8")) == []


def test_everything_in_the_way_is_told_each_once(make_book, price, teapot) -> None:
    hopeless = ORDINARY
    for changed, _ in OBSTACLES.values():
        hopeless = replace(hopeless, **changed)
    told = reasons(price, make_book(carrier=replace(teapot, **NARROW)), hopeless)
    assert sorted(told) == sorted({reason for _, reason in OBSTACLES.values()})


def test_a_lift_gate_lifts_a_low_car_over_the_ramp(make_book, price, teapot) -> None:
    low = replace(ORDINARY, clearance_mm=60)
    assert reasons(price, make_book(carrier=replace(teapot, lowest_clearance_mm=127, lift_gate=True)), low) == []


def test_cover_that_can_rise_stands_in_no_ones_way(make_book, price, teapot) -> None:
    dear = replace(ORDINARY, value_minor=2_000_000_00)
    assert reasons(price, make_book(carrier=replace(teapot, cover_can_rise=True)), dear) == []


def test_wishes_that_a_carrier_does_not_grant_are_told(make_book, price) -> None:
    told = reasons(price, make_book(), express=True, lift_gate=True)
    assert told == ["it offers no express pickup", "it has no lift gate"]


def test_a_carrier_stays_in_the_areas_it_names(make_book, price, teapot) -> None:
    areas = (Area(area="Rain", state="WA"), Area(area="Fog", state="OR"), Area(area="Peaches", state="GA"))
    coast = make_book(carrier=replace(teapot, from_areas=("Rain", "Fog"), to_areas=("rain", "fog")), areas=areas)
    assert reasons(price, coast, to="Astoria, OR") == []
    assert reasons(price, coast) == ["it delivers only to rain and fog"]
    assert reasons(price, coast, start="Tybee, GA", to="Astoria, OR") == ["it picks up only in Rain and Fog"]


@pytest.mark.parametrize(("to", "country"), [("Nome, AK", "US"), ("Hilo, HI", "US"), ("Tofino, BC", "CA")])
def test_who_names_no_areas_serves_the_contiguous_states_only(make_book, price, to: str, country: str) -> None:
    assert reasons(price, make_book(), to=to, country=country) == ["it serves only the contiguous United States"]


def test_an_obstacle_is_where_it_is_and_nowhere_else(make_book, price, teapot) -> None:
    cars = [ORDINARY, replace(ORDINARY, stock_number="HV-8", height_mm=1_800)]
    book = make_book(carrier=replace(teapot, highest_mm=1_778), bands=((0, 500, 10_000),))
    assert price(book, [400, 600], vehicles=cars).eligible.tolist() == [[True, False], [False, False]]
