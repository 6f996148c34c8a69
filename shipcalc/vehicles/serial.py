"""Serial numbers: the VIN with its check digit, and what was stamped on frames before there was one.

A vehicle of model year 1981 or later carries a vehicle identification number of 17 characters, the ninth of which checks
the others (49 CFR 565.15(c), tables III to V). The check digit is a rule of the United States and Canada: a VIN made for
another market may fail it without being wrong. Serials of earlier years are taken as they are.
"""

import re
from typing import Literal

from shipcalc.records import dataclass

SerialKind = Literal["VIN", "serial number"]

FIRST_VIN_YEAR = 1981
VIN_LENGTH = 17

# 49 CFR 565.15(c), table III: what each letter counts. I, O and Q are never used.
_VALUES = {str(digit): digit for digit in range(10)} | dict(
    zip("ABCDEFGHJKLMNPRSTUVWXYZ", (*range(1, 9), *range(1, 6), 7, 9, *range(2, 10)), strict=True)
)
# Table IV: the weight of each position; the check digit itself, the ninth, weighs nothing.
_WEIGHTS = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)
_CHECK_DIGITS = "0123456789X"  # table V: the remainder of the sum divided by 11; ten is written X
_NEVER_USED = {"I": "a one", "O": "a zero", "Q": "a zero"}
_HOME_MARKETS = "1245"  # first character: built in the United States (1, 4, 5) or Canada (2)
_BETWEEN = re.compile(r"[\s\-./*]+")


@dataclass(frozen=True, slots=True)
class SerialCheck:
    """What a serial is, whether it can be right, and what is to be said about it.

    `ok` with a `message` is a warning. `serial` is the serial as it goes into papers, `remedy` how to correct it.
    """

    kind: SerialKind
    ok: bool
    message: str = ""
    remedy: str = ""
    serial: str = ""


def check_serial(serial: str, year: int | None) -> SerialCheck:
    """Check a serial as typed against the rules of its model year; of an unknown year, 17 characters are a VIN."""
    bare = _BETWEEN.sub("", serial).upper()
    is_vin = len(bare) == VIN_LENGTH if year is None else year >= FIRST_VIN_YEAR
    return _check_vin(bare, year) if is_vin else _check_older(serial.strip(), bare)


def vin_sum(vin: str) -> int:
    """Return the weighted sum of a VIN's 17 characters: 411 for 1G4AH59H45G118341, the example of 49 CFR 565.15."""
    return sum(_VALUES[character] * weight for character, weight in zip(vin, _WEIGHTS, strict=True))


def check_digit(vin: str) -> str:
    """Return the character that belongs at the ninth position of a VIN: 0 to 9 or X."""
    return _CHECK_DIGITS[vin_sum(vin) % 11]


def _check_vin(vin: str, year: int | None) -> SerialCheck:
    fault = _misspelt(vin) or _mislong(vin, year)
    if fault is not None:
        return fault
    if vin[8] == check_digit(vin):
        return SerialCheck("VIN", ok=True, serial=vin)
    if vin[0] in _HOME_MARKETS:
        wrong = (
            f'"{vin}" fails its check digit: the ninth character is {vin[8]} where the others give {check_digit(vin)}'
        )
        return SerialCheck(
            "VIN", ok=False, message=wrong, remedy="compare it with the title, character by character", serial=vin
        )
    doubt = f'"{vin}" fails the check digit, as a VIN made for a market outside the United States and Canada may'
    return SerialCheck(
        "VIN", ok=True, message=doubt, remedy="compare it with the title before papers are made", serial=vin
    )


def _misspelt(vin: str) -> SerialCheck | None:
    for letter, meant in _NEVER_USED.items():
        if letter in vin:
            wrong = f'"{vin}" contains the letter {letter}, which a VIN never does'
            return SerialCheck("VIN", ok=False, message=wrong, remedy=f"perhaps it is {meant}", serial=vin)
    strange = next((character for character in vin if character not in _VALUES), None)
    if strange is None:
        return None
    wrong = f'"{vin}" contains "{strange}", which is neither a digit nor one of the letters of a VIN'
    return SerialCheck("VIN", ok=False, message=wrong, remedy="copy it from the title", serial=vin)


def _mislong(vin: str, year: int | None) -> SerialCheck | None:
    if len(vin) == VIN_LENGTH:
        return None
    wrong = f'"{vin}" has {len(vin)} characters; a VIN has {VIN_LENGTH} from model year {FIRST_VIN_YEAR} on'
    remedy = "copy it from the title" + (f", or correct the year {year}" if year is not None else "")
    return SerialCheck("VIN", ok=False, message=wrong, remedy=remedy, serial=vin)


def _check_older(written: str, bare: str) -> SerialCheck:
    if not (bare.isascii() and bare.isalnum()):
        wrong = f'"{written}" contains something other than letters and digits'
        return SerialCheck("serial number", ok=False, message=wrong, remedy="copy it from the title", serial=written)
    if 4 <= len(bare) <= VIN_LENGTH:
        return SerialCheck("serial number", ok=True, serial=written)
    wrong = f'"{written}" has {len(bare)} characters; serials of those years have 4 to {VIN_LENGTH}'
    return SerialCheck("serial number", ok=False, message=wrong, remedy="copy it from the title", serial=written)
