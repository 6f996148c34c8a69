"""The sheet Currencies of `overseas.xlsx`: rates of exchange and their day."""

from datetime import date

from shipcalc.ratebook.rows.sourced import trust_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Currency(Row):
    """What one unit of the book's currency buys. Several rows of a currency are its history: the latest not after the quote counts."""

    currency: str = column("Currency", Kind.CODE, "Three letters (ISO 4217).", example="EUR", required=True)
    as_of: date = column("As of", Kind.DATE, "The day of the rate.", example="2026-11-23", required=True)
    rate: float = column(
        "For one dollar",
        Kind.FACTOR,
        "Units of the currency for one dollar.",
        example="0.9215",
        required=True,
        theme=Theme.PRICE,
    )
    buffer_ppm: int = column(
        "Buffer",
        Kind.PERCENT,
        "Added to the converted price as a buffer against exchange-rate movements until payment.",
        example="1.5 %",
        default=0,
    )
    source: str | None = column("Source", Kind.TEXT, "Where the rate was read.", example="the bank's sheet of the day")
    trust: str | None = trust_column()
