"""Amounts of money as whole minor units, exact products, and the one rounding.

Scales used all over the program, for a plain `int` and for an `int64` column alike:

    *_minor   minor units of a currency (cents of a dollar, whole yen)
    *_e4      a rate in ten-thousandths of the major unit (0.82 dollars a mile = 8200)
    *_ppm     a percentage in millionths (18 % = 180_000)

No float ever becomes money: what comes from a workbook cell goes through `Decimal(repr(cell))`.
"""

from decimal import ROUND_HALF_UP, Decimal
from typing import Any, TypeVar, overload

import numpy as np
from numpy.typing import NDArray

Int64 = NDArray[np.int64]
Whole = TypeVar("Whole", int, Int64)

E4 = 10_000
PPM = 1_000_000

# Products are built from an amount (< 10^12 minor units) and a rate (< 10^6 in its scale): 10^18 < 2^63.
LARGEST_MINOR = 10**12

# ISO 4217:2015, list one; every code not named here has two decimals.
_WITHOUT = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"
_WITH_THREE = "BHD IQD JOD KWD LYD OMR TND"
_WITH_FOUR = "CLF UYW"
_DECIMALS = {code: n for n, codes in ((0, _WITHOUT), (3, _WITH_THREE), (4, _WITH_FOUR)) for code in codes.split()}


def decimals(currency: str) -> int:
    """Return how many decimals the currency has (ISO 4217): USD 2, JPY 0, KWD 3."""
    return _DECIMALS.get(currency, 2)


@overload
def half_up(numerator: int, denominator: int) -> int: ...
@overload
def half_up(numerator: Int64, denominator: int) -> Int64: ...
def half_up(numerator: Any, denominator: int) -> Any:
    """Return numerator ÷ denominator rounded to a whole number, halves away from zero.

    The only rounding of money in the program, once for each printed line. `denominator` is positive.
    """
    if isinstance(numerator, int):
        size = (2 * abs(numerator) + denominator) // (2 * denominator)
        return size if numerator >= 0 else -size
    # Floor division rounds halves up; what is below zero is taken a hair lower, so that its halves go down.
    return (2 * numerator + denominator - (numerator < 0)) // (2 * denominator)


def times_rate(quantity: Whole, rate_e4: Whole, currency: str) -> Whole:
    """Return quantity × rate in minor units: 1,237 mi × 0.82 = 101_434 cents."""
    per_major: int = 10 ** decimals(currency)
    return half_up(quantity * rate_e4 * per_major, E4)


@overload
def share(base_minor: int, ppm: int) -> int: ...
@overload
def share(base_minor: Int64, ppm: int | Int64) -> Int64: ...
def share(base_minor: Any, ppm: Any) -> Any:
    """Return a percentage of an amount, in minor units: 18 % of 101_434 = 18_258."""
    return half_up(base_minor * ppm, PPM)


def round_up(minor: Whole, step_minor: int) -> Whole:
    """Return the next multiple of `step_minor` at or above `minor`."""
    return -(-minor // step_minor) * step_minor


def to_decimal(minor: int, currency: str) -> Decimal:
    """Return minor units as a Decimal with just the currency's own decimals: 123450 USD → 1234.50."""
    return Decimal(minor).scaleb(-decimals(currency))


def to_minor(amount: Decimal, currency: str) -> int:
    """Return a Decimal amount as whole minor units, half up."""
    return int(amount.scaleb(decimals(currency)).quantize(Decimal(1), ROUND_HALF_UP))


def from_e4(rate_e4: int) -> Decimal:
    """Return a rate in ten-thousandths as a Decimal with two to four decimals: 8200 → 0.82, 8215 → 0.8215."""
    rate = Decimal(rate_e4).scaleb(-4)
    return rate.quantize(Decimal("0.01")) if rate_e4 % 100 == 0 else rate.normalize()


def text(minor: int, currency: str) -> str:
    """Return an amount as people read it, without the currency: 123450 USD → 1,234.50."""
    return f"{to_decimal(minor, currency):,}"


def with_code(minor: int, currency: str) -> str:
    """Return an amount as a sentence says it, with the currency's code: 123450 USD → 1,234.50 USD, 123400 → 1,234 USD."""
    whole, _, cents = text(minor, currency).partition(".")
    return f"{whole}.{cents} {currency}" if cents.strip("0") else f"{whole} {currency}"
