"""The VIN's check digit against published numbers (49 CFR 565.15(c), tables III to V)."""

import pytest

from shipcalc.vehicles.serial import check_digit, check_serial, vin_sum

# (VIN, weighted sum, check digit). The sums were computed by hand from the tables.
PUBLISHED = [
    ("1G4AH59H45G118341", 411, "4"),  # the worked example of 49 CFR 565.15(c), read in a full quotation
    ("1M8GDM9AXKP042788", 351, "X"),  # widely published example with check digit X; read second-hand
    ("1HGCM82633A004352", 311, "3"),  # widely published example; read second-hand
    ("11111111111111111", 89, "1"),  # the customary test number; read second-hand
]


@pytest.mark.parametrize(("vin", "weighted", "digit"), PUBLISHED)
def test_published_numbers_have_their_published_check_digit(vin: str, weighted: int, digit: str) -> None:
    assert vin_sum(vin) == weighted
    assert check_digit(vin) == digit == vin[8]
    checked = check_serial(vin, 1990)
    assert (checked.kind, checked.ok, checked.message) == ("VIN", True, "")


def test_the_published_example_with_another_ninth_character_fails() -> None:
    # 49 CFR 565.15(c) example with 5 in place of 4 at position 9; read second-hand as a negative case.
    checked = check_serial("1G4AH59H55G118341", 2005)
    assert not checked.ok
    assert "the ninth character is 5 where the others give 4" in checked.message


def test_the_worked_example_product_by_product() -> None:
    # 49 CFR 565.15(c): 8+49+24+5+32+15+18+80+0+45+56+7+6+40+12+12+2 = 411, and 411 = 37 x 11 + 4.
    products = (8, 49, 24, 5, 32, 15, 18, 80, 0, 45, 56, 7, 6, 40, 12, 12, 2)
    vin = "1G4AH59H45G118341"
    alone = [vin_sum("0" * at + character + "0" * (16 - at)) for at, character in enumerate(vin)]
    assert tuple(alone) == products


def test_any_one_character_of_another_value_is_noticed() -> None:
    # The divisor 11 is prime and no weight but the ninth is a multiple of it: every single change of value shows.
    vin = "1G4AH59H45G118341"
    for at in range(17):
        for other in "0123456789":
            changed = vin[:at] + other + vin[at + 1 :]
            if at == 8 or vin_sum(changed) != vin_sum(vin):
                assert (check_serial(changed, 2005).message == "") is (changed == vin), changed
