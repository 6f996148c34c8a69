"""Check digits of account numbers, held to the standards' own examples."""

import pytest

from shipcalc.bank_numbers import in_fours, is_bic, is_iban, is_routing_number, without_blanks

# Examples of the registry of ISO 13616 (SWIFT, "IBAN Registry"), from memory; none is an account that is in use.
EXAMPLES = ("GB82 WEST 1234 5698 7654 32", "DE89 3704 0044 0532 0130 00", "FR14 2004 1010 0505 0001 3M02 606",
            "CH93 0076 2011 6238 5295 7", "NO93 8601 1117 947")  # fmt: skip


@pytest.mark.parametrize("example", EXAMPLES)
def test_the_registrys_examples_are_right_and_printed_in_fours_as_there(example: str) -> None:
    number = without_blanks(example.lower())
    assert is_iban(number)
    assert in_fours(number) == example


@pytest.mark.parametrize("example", EXAMPLES)
def test_one_wrong_digit_or_two_that_changed_places_are_always_found(example: str) -> None:
    """ISO/IEC 7064 MOD 97-10 finds every single error and every transposition of neighbours."""
    number = without_blanks(example)
    for at in range(2, len(number)):
        if number[at].isdigit():
            assert not any(
                is_iban(number[:at] + digit + number[at + 1 :]) for digit in "0123456789" if digit != number[at]
            )
        if at + 1 < len(number) and number[at].isdigit() and number[at + 1].isdigit() and number[at] != number[at + 1]:
            assert not is_iban(number[:at] + number[at + 1] + number[at] + number[at + 2 :])


def test_a_routing_number_is_weighed_by_three_seven_and_one() -> None:
    """111000025 is the example of the American Bankers Association's check digit (from memory): 3+7+1+0+0+0+0+14+5 = 30."""
    assert is_routing_number("111000025")
    assert not any(is_routing_number(f"11100002{digit}") for digit in "012346789")
    assert not any(is_routing_number(text) for text in ("", "000000000", "11100002", "1110000250", "11100002٥"))


@pytest.mark.parametrize(
    ("code", "right"),
    [("DEUTDEFF", True), ("DEUTDEFF500", True), ("DEUTDEF", False), ("DEUTDEFF5", False), ("D3UTDEFF", False)],
)
def test_a_bic_has_8_or_11_letters_and_digits(code: str, right: bool) -> None:
    """ISO 9362: four letters, a country, two of the place, perhaps three of the branch (DEUTDEFF500 is its usual example)."""
    assert is_bic(code) is right
