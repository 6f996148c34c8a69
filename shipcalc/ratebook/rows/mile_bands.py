"""The sheet Per mile of `trucking.xlsx`: what a carrier asks a mile, by the length of the trip."""

from datetime import date

from shipcalc.ratebook.rows.sourced import pickup_from_column, pickup_to_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass
from shipcalc.trade import TRAILERS


@dataclass(frozen=True, slots=True, kw_only=True)
class MileBand(Row):
    """One distance band of one carrier's tariff: from over `from_mi` up to and including `to_mi`."""

    carrier: str = column(
        "Carrier", Kind.CODE, "As on sheet Carriers.", example="Tern Haulage", required=True, refers_to="Carriers"
    )
    trailer: str = column("Trailer", Kind.CHOICE, "Open or enclosed.", example="open", required=True, choices=TRAILERS)
    from_mi: int = column(
        "Over (mi)",
        Kind.MILES,
        "The band begins after this many road miles; the first band at 0.",
        example="500",
        required=True,
        theme=Theme.NAME,
    )
    to_mi: int | None = column(
        "Up to (mi)",
        Kind.MILES,
        "The band ends with this mile, included. Blank: no end.",
        example="1000",
        theme=Theme.NAME,
    )
    rate_e4: int = column("Rate ($ per mile)", Kind.RATE, "Dollars for one road mile.", example="0.82", required=True)
    valid_from: date | None = pickup_from_column()
    valid_to: date | None = pickup_to_column()
