import pytest

from shipcalc.vehicles.serial import check_serial

# Invented numbers; their check digits were computed by the tables of 49 CFR 565.15(c).
RIGHT = "1J9JR49R0HAH7V768"


@pytest.mark.parametrize(
    ("serial", "year", "kind"),
    [
        ("LM16107", 1961, "serial number"),
        ("AB-12/77", 1948, "serial number"),
        ("1234", 1928, "serial number"),
        ("O1QI55", 1955, "serial number"),
        (RIGHT, 1987, "VIN"),
        (" 1j9jr49r0 hah7v768 ", 1987, "VIN"),
        (RIGHT, None, "VIN"),
        ("LM16107", None, "serial number"),
        ("ABCDEFGH123456789", 1975, "serial number"),
    ],
)
def test_what_is_right_by_the_rules_of_its_year_gives_no_message(serial: str, year: int | None, kind: str) -> None:
    checked = check_serial(serial, year)
    assert (checked.kind, checked.ok, checked.message) == (kind, True, "")


@pytest.mark.parametrize(
    ("serial", "year", "said", "remedy"),
    [
        ("1J9JR49R3HAH7VO68", 1987, "contains the letter O, which a VIN never does", "perhaps it is a zero"),
        ("IJ9JR49R2HAH7V768", 1987, "contains the letter I, which a VIN never does", "perhaps it is a one"),
        ("1J9JR49R3HAH7VQ68", 1987, "contains the letter Q, which a VIN never does", "perhaps it is a zero"),
        ("1J9JR49R0HAH7V76", 1987, "has 16 characters; a VIN has 17 from model year 1981 on", "correct the year 1987"),
        ("1J9JR49R0HAH7V7688", 1987, "has 18 characters", "copy it from the title"),
        ("LM16107", 1981, "has 7 characters", "or correct the year 1981"),
        ("1J9JR49R0HAH7V7É8", 1987, 'contains "É", which is neither a digit', "copy it from the title"),
        ("1J9JR49R0HAH7V786", 1987, "the ninth character is 0 where the others give", "character by character"),
        ("LM1", 1961, "has 3 characters; serials of those years have 4 to 17", "copy it from the title"),
        ("LM16107(?)", 1961, "something other than letters and digits", "copy it from the title"),
    ],
)
def test_what_is_wrong_says_why_and_how_to_mend_it(serial: str, year: int, said: str, remedy: str) -> None:
    checked = check_serial(serial, year)
    assert not checked.ok
    assert said in checked.message
    assert remedy in checked.remedy


def test_a_vin_from_another_market_that_fails_the_check_digit_is_only_doubted() -> None:
    checked = check_serial("ZA9AL19RZKAH7V344", 1989)
    assert checked.ok
    assert "made for a market outside the United States and Canada" in checked.message


def test_the_serial_for_the_papers_has_no_blanks_and_capitals_only() -> None:
    assert check_serial(" 1j9jr49r0 hah7v768 ", 1987).serial == RIGHT
    assert check_serial(" lm 16107 ", 1961).serial == "lm 16107"
