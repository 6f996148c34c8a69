"""The deposit as a percentage of the total, so that a page can compute it."""

from decimal import ROUND_HALF_UP, Decimal

from shipcalc.money import decimals
from shipcalc.quote.model import Option

_FINEST = 4  # decimals of a percentage


def deposit_percent(option: Option, currency: str) -> Decimal | None:
    """Return the shortest percentage of the total that gives the deposit to the cent (25), or None where none does."""
    if not option.total:
        return None
    exact = option.deposit * 100 / option.total
    unit = Decimal(1).scaleb(-decimals(currency))
    for places in range(_FINEST + 1):
        percent = exact.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP)
        if (option.total * percent / 100).quantize(unit, ROUND_HALF_UP) == option.deposit:
            return percent
    return None
