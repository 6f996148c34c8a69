"""Freight container numbers: four letters, six digits and a check digit (ISO 6346)."""

import re

from shipcalc.errors import WrongInput

# A = 10, then upwards, passing over 11, 22 and 33 (multiples of the modulus).
_LETTERS = dict(zip("ABCDEFGHIJKLMNOPQRSTUVWXYZ", (n for n in range(10, 39) if n % 11), strict=True))
_SHAPE = re.compile(r"([A-Z]{3}[UJZ])(\d{6})(\d)")


def container_check_digit(owner_and_serial: str) -> int:
    """Return the check digit of the first ten characters: Σ value × 2^position from the left, mod 11, 10 counting as 0."""
    values = (_LETTERS[c] if c in _LETTERS else int(c) for c in owner_and_serial)
    return sum(value << position for position, value in enumerate(values)) % 11 % 10


def container_number(text: str) -> str:
    """Return a container number as it is written on the door, `CSQU 305438 3`.

    Raises WrongInput where it has not the shape of one or its check digit does not agree.
    """
    plain = re.sub(r"[\s\-./]", "", text).upper()
    shaped = _SHAPE.fullmatch(plain)
    if shaped is None:
        raise WrongInput(
            f'"{text}" is not a container number',
            remedy="write four letters (the last U, J or Z) and seven digits, e.g. CSQU 305438 3",
        )
    owner, serial, digit = shaped.groups()
    expected = container_check_digit(owner + serial)
    if int(digit) != expected:
        raise WrongInput(
            f'"{text}" ends in {digit}, but its check digit would be {expected}',
            remedy="compare it with the container's door, letter by letter",
        )
    return f"{owner} {serial} {digit}"
