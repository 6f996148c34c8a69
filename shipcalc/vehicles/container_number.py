"""Freight container numbers: four letters, six digits and a check digit (ISO 6346)."""

import re
from collections.abc import Iterator

from shipcalc.errors import WrongInput

# A = 10, then upwards, passing over 11, 22 and 33 (multiples of the modulus).
_LETTERS = dict(zip("ABCDEFGHIJKLMNOPQRSTUVWXYZ", (n for n in range(10, 39) if n % 11), strict=True))
_SHAPE = re.compile(r"([A-Z]{3}[UJZ])(\d{6})(\d)")
_IN_TEXT = re.compile(r"\b[A-Z]{3}[UJZ][ \-./]?\d{3}[ \-./]?\d{3}[ \-./]?\d\b", re.IGNORECASE)


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


def mistyped_in(text: str) -> Iterator[str]:
    """Yield a sentence for everything in a text that looks like a container number and whose check digit does not agree."""
    for found in _IN_TEXT.finditer(text):
        try:
            container_number(found.group())
        except WrongInput as wrong:
            yield f"{wrong.what}; {wrong.remedy}"
