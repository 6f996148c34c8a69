"""Numbers that people have typed as text, read without guessing.

    1,234.56   1.234,56   1 234,56   1'234.56     thousands and decimals told apart by being two different marks
    1,234,567                                     a mark that stands twice divides thousands
    12,5   0,823   1234,567                       a comma that cannot divide thousands is a decimal comma
    1,234   1.234                                 one mark, three digits: see below
    (120)   −120   - 120                          negative

One mark followed by just three digits could be either. Where the column keeps fewer than three decimals (money, whole
numbers, pounds) `1,234` is one thousand two hundred and thirty-four, and `1.234` is refused; where it keeps three or more
(rates, percentages, inches) `1.234` is a decimal, and `1,234` is refused.
"""

import re
from decimal import Decimal

_NUMBER = re.compile(
    r"(?P<sign>[-+]?) ?"
    r"(?P<whole>[0-9]{1,3}(?P<mark>[ ,.'])[0-9]{3}(?:(?P=mark)[0-9]{3})*|[0-9]*)"
    r"(?:(?P<point>[.,])(?P<part>[0-9]+))?"
)
_LOOKS_LIKE = str.maketrans({"O": "0", "o": "0", "l": "1", "I": "1"})
_PLAIN = str.maketrans(
    {"\N{MINUS SIGN}": "-", "\N{EN DASH}": "-", "’": "'", "\u00a0": " ", "\u202f": " ", "\u2009": " "}
)
_LONGEST = 30
_SURELY_EXACT = 16  # a point and 15 digits


class NotANumber(ValueError):
    """The text is no number."""


class TwoReadings(NotANumber):
    """The text could be two numbers; `readings` says which."""

    def __init__(self, thousands: str, decimal: str) -> None:
        super().__init__(f"can be read as {thousands} or as {decimal}")
        self.readings = (thousands, decimal)


def number_from_text(text: str, *, decimals: int) -> Decimal:
    """Return the number that `text` is, in a column that keeps so many decimals.

    Raises NotANumber, and TwoReadings where it could be two.
    """
    bare = plain_text(text)
    if bare.startswith("(") and bare.endswith(")"):
        bare = f"-{bare[1:-1].strip()}"
    found = _NUMBER.fullmatch(bare)
    if found is None or len(bare) > _LONGEST:
        raise NotANumber("is not a number")
    sign, whole, mark, point, part = found.group("sign", "whole", "mark", "point", "part")
    if (not whole and part is None) or (mark is not None and mark == point):
        raise NotANumber("is not a number")
    if mark is not None and mark in ",." and part is None and whole.count(mark) == 1:
        whole, part = _one_mark(whole, mark, decimals)
        mark = None
    digits = whole.replace(mark, "") if mark else whole
    return Decimal(f"{sign}{digits or '0'}.{part or '0'}") if part else Decimal(f"{sign}{digits}")


def _one_mark(whole: str, mark: str, decimals: int) -> tuple[str, str | None]:
    """Return the whole digits and the decimals of `1,234` or `1.234`."""
    before, after = whole.split(mark)
    if before.startswith("0") or (mark == "." and decimals >= 3):
        return before, after
    if mark == "," and decimals < 3:
        return before + after, None
    raise TwoReadings(before + after, f"{before}.{after}")


def plain_text(text: str) -> str:
    """Return `text` with its blanks, minus signs and quotes made plain, without outer blanks."""
    return re.sub(r"\s+", " ", text.translate(_PLAIN)).strip()


def corrected(text: str, *, decimals: int) -> Decimal | None:
    """Return the number that was meant where a letter was typed for a digit (`1,9O`), or None."""
    try:
        return number_from_text(text.translate(_LOOKS_LIKE), decimals=decimals)
    except NotANumber:
        return None


def exact(number: float) -> Decimal:
    """Return what a workbook shows for a stored number: its shortest decimal, of 15 significant digits at most.

    Excel computes and shows 15 digits, so the 0.8610000000000001 that a formula leaves in a file is 0.861.
    """
    text = repr(number)
    if len(text) <= _SURELY_EXACT and "e" not in text:
        return Decimal(text)
    shortest = Decimal(text)
    digits = len(shortest.as_tuple().digits)
    return shortest if digits <= 15 else Decimal(f"{number:.15g}")


def plain(number: Decimal) -> str:
    """Return a number as people write it, without exponent and without zeros that say nothing: 1E+2 → 100."""
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") or "0" if "." in text else text
