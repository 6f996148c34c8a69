"""The buyer's currency: the latest rate of the rate book, and sums converted once."""

from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING

from shipcalc.errors import WrongInput, asked
from shipcalc.money import PPM, decimals
from shipcalc.quote.model import Exchange
from shipcalc.ratebook.book import RateBook

if TYPE_CHECKING:
    from shipcalc.ratebook.rows.currencies import Currency


def rate_on(book: RateBook, currency: str, day: date) -> "Currency | None":
    """Return the latest rate of a currency that is not after the day, or None."""
    rows = [row for row in book.currencies if row.currency.upper() == currency.upper() and row.as_of <= day]
    return max(rows, key=lambda row: row.as_of, default=None)


def exchange_for(book: RateBook, currency: str | None, day: date) -> Exchange | None:
    """Return how the quote's sums become the buyer's currency; None where it is the quote's own.

    Raises WrongInput where the rate book has no rate for it.
    """
    if currency in (None, book.pricing.currency):
        return None
    assert currency is not None
    row = rate_on(book, currency, day)
    if row is None:
        known = sorted({row.currency.upper() for row in book.currencies if row.as_of <= day})
        near = " or ".join(code for code in known if code[:2] == currency[:2])
        add = f"add a row to the sheet Currencies, or quote in {book.pricing.currency}"
        raise WrongInput(
            f"the rate book has no rate for {currency}",
            where=asked("currency"),
            remedy=f"did you mean {near}?" if near else add,
        )
    return Exchange(
        currency=currency,
        rate=Decimal(repr(row.rate)),
        as_of=row.as_of,
        buffer=Decimal(row.buffer_ppm) * 100 / PPM,
        source=row.at.cell("rate"),
    )


def converted(amount: Decimal, exchange: Exchange) -> Decimal:
    """Return an amount in the buyer's currency, with the buffer on it, rounded once to that currency's decimals."""
    exact = amount * exchange.rate * (100 + exchange.buffer) / 100
    return exact.quantize(Decimal(1).scaleb(-decimals(exchange.currency)), ROUND_HALF_UP)
