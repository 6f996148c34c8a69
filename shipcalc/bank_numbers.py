"""The check digits of account numbers: a slip in one is found before money goes astray. That an account exists nobody can tell.

IBAN: ISO 13616-1, with the check digits of ISO/IEC 7064 (MOD 97-10). BIC: the form that ISO 9362 gives it. Routing number of
the United States' banks: the weights 3, 7, 1 of the American Bankers Association.
"""

import re

_IBAN = re.compile("[A-Z]{2}[0-9]{2}[A-Z0-9]{11,30}")
_BIC = re.compile("[A-Z]{4}[A-Z]{2}[A-Z0-9]{2}([A-Z0-9]{3})?")
_ROUTING = re.compile("[0-9]{9}")


def without_blanks(text: str) -> str:
    """Return a number as machines write it: capitals, no blanks, no dashes."""
    return re.sub(r"[\s\-]", "", text).upper()


def is_iban(number: str) -> bool:
    """Return whether the form and the check digits of an IBAN (without blanks) are right; not how long its country has them."""
    if not _IBAN.fullmatch(number):
        return False
    moved = number[4:] + number[:4]
    return int("".join(str(int(letter, 36)) for letter in moved)) % 97 == 1


def is_bic(code: str) -> bool:
    """Return whether a code has the form of a BIC: 8 or 11 letters and digits."""
    return _BIC.fullmatch(code) is not None


def is_routing_number(number: str) -> bool:
    """Return whether nine digits are a routing number: their sum, weighed by 3, 7, 1, is a multiple of ten."""
    if not _ROUTING.fullmatch(number) or number == "0" * 9:
        return False
    return sum(int(digit) * weight for digit, weight in zip(number, (3, 7, 1) * 3, strict=True)) % 10 == 0


def in_fours(number: str) -> str:
    """Return an IBAN as ISO 13616-1 prints it: in groups of four."""
    return " ".join(number[at : at + 4] for at in range(0, len(number), 4))
