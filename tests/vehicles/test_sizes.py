import pytest

from shipcalc.ratebook.rows.vehicle_sizes import VehicleSize
from shipcalc.vehicles.sizes import fill_sizes, find_body, find_size, missing_sizes
from shipcalc.vehicles.vehicle import Vehicle

ROADSTER = VehicleSize(
    body="roadster",
    also=("open two-seater",),
    length_mm=3900,
    width_mm=1530,
    height_mm=1250,
    clearance_mm=120,
    mass_grams=920_000,
)
PICK_UP = VehicleSize(
    body="Pickup", also=(), length_mm=4900, width_mm=1950, height_mm=1780, clearance_mm=200, mass_grams=1_650_000
)
TABLE = (ROADSTER, PICK_UP)


def test_missing_sizes_are_filled_and_named_and_known_ones_stay() -> None:
    filled = fill_sizes(Vehicle(stock_number="HV-1", body="roadster", length_mm=4000, mass_grams=950_000), TABLE)
    assert (filled.length_mm, filled.width_mm, filled.height_mm) == (4000, 1530, 1250)
    assert (filled.clearance_mm, filled.mass_grams) == (120, 950_000)
    assert filled.assumed == ("width_mm", "height_mm", "clearance_mm")


def test_a_vehicle_with_all_sizes_stays_as_it_is() -> None:
    whole = fill_sizes(Vehicle(stock_number="HV-1", body="roadster"), TABLE)
    assert fill_sizes(whole, TABLE) == whole


@pytest.mark.parametrize("body", ["Roadster", "ROADSTER ", "Open Two-Seater", "spyder", "Spider"])
def test_a_body_is_found_by_any_word_of_the_trade(body: str) -> None:
    assert find_size(body, TABLE) is ROADSTER


def test_rows_of_the_rate_book_do_as_a_table() -> None:
    assert find_size("pick-up", TABLE) is PICK_UP
    assert find_size("Ute", TABLE) is PICK_UP


def test_a_row_of_that_very_name_goes_before_another_word_for_it() -> None:
    spider = VehicleSize(
        body="spider", also=(), length_mm=4100, width_mm=1600, height_mm=1200, clearance_mm=110, mass_grams=1_000_000
    )
    assert find_size("Spider", (ROADSTER, spider)) is spider
    assert find_size("Spider", (ROADSTER,)) is ROADSTER


def test_an_unknown_body_is_not_filled() -> None:
    vehicle = Vehicle(stock_number="HV-1", year=1950, make="Veyrac", model="Garrigue", body="landaulet", width_mm=1700)
    assert fill_sizes(vehicle, TABLE) == vehicle
    assert missing_sizes(vehicle) == ("length_mm", "height_mm", "clearance_mm", "mass_grams")


def test_what_was_filled_is_named() -> None:
    vehicle = Vehicle(stock_number="HV-1", body="roadster", length_mm=3900, width_mm=1500, height_mm=1200)
    assert fill_sizes(vehicle, TABLE).assumed == ("clearance_mm", "mass_grams")


@pytest.mark.parametrize(
    ("word", "body"),
    [
        ("Coupé", "coupe"),
        ("Pick Up", "pick-up"),
        ("4x4", "off-roader"),
        ("Motorbike", "motorcycle"),
        ("landaulet", None),
    ],
)
def test_the_trades_words_for_bodies(word: str, body: str | None) -> None:
    assert find_body(word) == body
