"""Amounts of a row in its own currency, as the rate book's: its sheet Currencies says how, and each amount is rounded once.

A row's cells are read with the decimals of the book's currency, so an amount keeps its scale and only its value changes. The
buffer of a currency is for prices that a buyer pays later, and is not added here.
"""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING

from shipcalc.money import half_up
from shipcalc.ratebook.rows.tables import Tables

if TYPE_CHECKING:
    from shipcalc.ratebook.rows.currencies import Currency


def rate_of_row(tables: Tables, currency: str | None, own: str, day: date) -> "Currency | None":
    """Return the rate of a row's currency: the latest not after the day, else the earliest; None where it is the book's `own`.

    Raises KeyError where the book has no rate for it; `rates check` lets no such row through.
    """
    if not currency or currency.upper() == own.upper():
        return None
    rates: Sequence[Currency] = [row for row in tables.currencies if row.currency.upper() == currency.upper()]
    if not rates:
        raise KeyError(currency)
    so_far = [row for row in rates if row.as_of <= day]
    return max(so_far, key=lambda row: row.as_of) if so_far else min(rates, key=lambda row: row.as_of)


def in_book_currency(amount: int, rate: "Currency | None") -> int:
    """Return an amount (minor units, or a rate in ten-thousandths) in the book's currency, half up: 1,370 at 1.37 is 1,000."""
    if rate is None:
        return amount
    units, of = Decimal(repr(rate.rate)).as_integer_ratio()
    return half_up(amount * of, units)


def exchanged(amount_told: str, rate: "Currency | None") -> str:
    """Return how an amount became the book's, for the office: "1,370.00 CAD at 1.37 of 2026-11-23"; "" where it did not."""
    if rate is None:
        return ""
    return f"{amount_told} {rate.currency.upper()} at {rate.rate:g} of {rate.as_of.isoformat()}"
