"""A table of bills, Excel or CSV, as offices keep one: a line each."""

from datetime import date
from decimal import Decimal

from shipcalc.errors import WrongInput
from shipcalc.learning.bill import WORDS, Bill
from shipcalc.money import decimals
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.records import dataclass

HEADERS = "Number, Carrier, Kind, Amount, Currency, Date"
QUOTE = "Quote"
_READ_WITH = 2  # decimals of the currency that a table is read in


@dataclass(frozen=True, slots=True, kw_only=True)
class BillRow(Row):
    """One line of a bill."""

    number: str = column("Number", Kind.TEXT, "The quote's number.", example="Q-2026-0001", required=True)
    carrier: str = column("Carrier", Kind.TEXT, "Who billed it.", example="Tern Haulage", required=True)
    kind: str = column("Kind", Kind.CHOICE, "What it is for.", example="linehaul", required=True, choices=WORDS)
    amount_minor: int = column("Amount", Kind.MONEY, "Below 0: given back.", example="950", required=True, signed=True)
    currency: str | None = column("Currency", Kind.TEXT, "Blank: US dollars.", example="USD")
    day: date = column("Date", Kind.DATE, "The day of the bill.", example="2026-12-15", required=True)
    reference: str | None = column("Reference", Kind.TEXT, "The bill's own number.", example="4711")


@dataclass(frozen=True, slots=True, kw_only=True)
class QuotedBillRow(BillRow):
    """One line of a bill where the table has a column *Quote*: then *Number* is the bill's own."""

    number: str = column(QUOTE, Kind.TEXT, "The quote's number.", example="Q-2026-0001", required=True)
    reference: str | None = column("Number", Kind.TEXT, "The bill's own.", example="4711", synonyms=("Reference",))


def bill_of(row: BillRow, number: str) -> Bill:
    """Return the bill that a row says. Raises WrongInput for an amount that its currency has no coins for."""
    currency = (row.currency or "USD").strip().upper()
    return Bill(
        number=number,
        carrier=row.carrier.strip(),
        kind=row.kind,
        amount_minor=minor_of(Decimal(row.amount_minor).scaleb(-_READ_WITH), currency),
        currency=currency,
        day=row.day,
        reference=(row.reference or "").strip(),
    )


def minor_of(amount: Decimal, currency: str) -> int:
    """Return an amount in whole minor units. Raises WrongInput for no currency's code, and for parts of a minor unit."""
    if len(currency) != 3 or not (currency.isascii() and currency.isalpha()):
        raise WrongInput(f'"{currency}" is no code of a currency', remedy="write three letters, as USD")
    minor = amount.scaleb(decimals(currency))
    if minor != minor.to_integral_value():
        raise WrongInput(
            f"{amount} {currency} is no whole amount", remedy=f"write at most {decimals(currency)} decimals"
        )
    return int(minor)
