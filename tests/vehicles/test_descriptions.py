from itertools import permutations

import pytest

from shipcalc.errors import WrongInput
from shipcalc.vehicles.description import is_description, vehicle_from_text
from shipcalc.vehicles.vehicle import AS_DESCRIBED, Vehicle

PIECES = ("1961 roadster", "153 in x 60 in x 49 in", "2,030 lb", "$38,000", "does not run")
TRADE_IN = Vehicle(
    stock_number=AS_DESCRIBED,
    year=1961,
    body="roadster",
    length_mm=3886,
    width_mm=1524,
    height_mm=1245,
    mass_grams=920_793,
    value_minor=3_800_000,
    runs=False,
)


@pytest.mark.parametrize("pieces", list(permutations(PIECES)))
def test_pieces_come_in_any_order(pieces: tuple[str, ...]) -> None:
    assert vehicle_from_text(", ".join(pieces)) == TRADE_IN


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("camper", {"body": "camper"}),
        # Any three letters could be a currency; a year before them says that they are none.
        ("1972 bus", {"year": 1972, "body": "van"}),
        ("van 1965, 20000 USD", {"year": 1965, "body": "van", "value_minor": 2_000_000}),
        ("1958 Kit roadster", {"year": 1958, "make": "Kit", "body": "roadster"}),
        ("a 1961 Spider", {"year": 1961, "body": "roadster"}),
        ("1952 Kittiwake Swift 500 motorcycle", {"make": "Kittiwake", "model": "Swift 500", "body": "motorcycle"}),
        ("4x4, 1961", {"body": "off-roader", "year": 1961}),
        ("roadster, 153 x 60 x 49 in", {"length_mm": 3886, "width_mm": 1524, "height_mm": 1245}),
        ("camper; 4,98 m x 1,9 m x 2,6 m", {"length_mm": 4980, "width_mm": 1900, "height_mm": 2600}),
        ("roadster, 16'4\" long, 60 in wide", {"length_mm": 4978, "width_mm": 1524}),
        ("roadster, height: 49 in, clearance 4 in", {"height_mm": 1245, "clearance_mm": 102}),
        ("roadster, 38k", {"value_minor": 3_800_000}),
        ("roadster, value 38,000", {"value_minor": 3_800_000}),
        ("roadster, engine 1.6 l, diesel", {"engine_cc": 1600, "fuel": "diesel"}),
        ("roadster, 498 cc", {"engine_cc": 498}),
        ("2019 electric saloon", {"fuel": "electric", "body": "saloon", "name": "2019 electric saloon"}),
        ("1972 4x4 Foo X5 coupe", {"fuel": "", "model": "Foo X5"}),
        ("roadster, lien", {"title": "lien"}),
        ("roadster, salvage title", {"title": "salvage"}),
        ("roadster, no title", {"title": "missing"}),
        ("roadster, no brakes, does not steer", {"brakes": False, "steers": False}),
        ("roadster, yard Savannah, VIN AB1234", {"yard": "Savannah", "serial": "AB1234"}),
        ("153 x 60 x 49 in, 2030 lb", {"body": "", "mass_grams": 920_793}),
    ],
)
def test_what_a_description_can_say(text: str, expected: dict[str, object]) -> None:
    vehicle = vehicle_from_text(text)
    assert {field: getattr(vehicle, field) for field in expected} == expected


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("roadster, blue stripes", 'the description: "blue stripes" is not understood — divide by commas, as in "1961'),
        (
            "roadster 153x60x49",
            '"roadster 153x60x49" has sizes beside other words — divide by commas and name the unit',
        ),
        ("1961 roadster 3.9 m x 1.5 m x 1.2 m 900 kg", "has sizes beside other words — divide by commas and name the"),
        ("roadster, 153 in", '"153 in" could be any size — say which, e.g. 153 in long'),
        ("roadster, 153 x 60 in", '"153 x 60 in" has 2 sizes — write length x width x height'),
        ("roadster, 153 x 60 x 49", '"153" has no unit — write in, ft, mm, cm or m'),
        ("roadster, coupe", '"coupe" repeats what was said before — say it once'),
        ("1961", '"1961" says neither a body nor all sizes and the weight — name the body'),
        ("", "says neither a body nor all sizes"),
        ("roadster, 49 m long", '"49 m" is more than the length of any vehicle'),
        ("roadster, 3 kg", '"3 kg" is less than the weight of any vehicle'),
        ("roadster, -5 lb", '"-5 lb" is negative, which no weight is — remove the minus sign'),
        ("roadster, 5 cubits long", 'has the unit "cubits"'),
        ("roadster, 38.000,00 €", "is in EUR; values here are in USD"),
        ("roadster, 38000", '"38000" is not understood'),
    ],
)
def test_what_is_not_understood_gets_a_sentence(text: str, sentence: str) -> None:
    with pytest.raises(WrongInput) as raised:
        vehicle_from_text(text)
    assert sentence in str(raised.value)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("HV-1042", False),
        ("hv 1042", False),
        ("LM16107", False),
        ("1961 roadster", True),
        ("camper", True),
        ("153 x 60 x 49 in", True),
        ("blue stripes, 3 kg", True),
    ],
)
def test_a_description_is_told_from_a_stock_number(text: str, expected: bool) -> None:
    assert is_description(text) is expected


def test_a_described_vehicle_is_called_by_what_is_known_of_it() -> None:
    assert vehicle_from_text("1961 roadster").name == "1961 roadster"
    assert vehicle_from_text("1961 Larkspur Minnow roadster").name == "1961 Larkspur Minnow roadster"
