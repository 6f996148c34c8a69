"""The sheet Lanes of `trucking.xlsx`: what a carrier asks for a lane, or adds to its prices a mile in one direction."""

from datetime import date

from shipcalc.ratebook.rows.sourced import (
    office_note_column,
    trailer_column,
    trust_column,
    valid_from_column,
    valid_to_column,
)
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass

_END = (
    "A ZIP (59715), its first digits (597), a range (590-599), a city (Bozeman, MT), a state (MT), an area of the sheet Areas, "
    "a yard (yard Bellingham), a terminal of the sheet Terminals (Denver terminal), a port (USSEA) or a country (Canada; country DE). Blank: anywhere on the home road network."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LaneRow(Row):
    """One price of one carrier from one end to the other: a sum, a rate a mile, or a share of what its bands come to.

    Of rows that meet a shipment the most specific counts (`pricing/lane_prices.py`). `flat_minor`, `minimum_minor` and `rate_e4`
    are in the row's own currency.
    """

    carrier: str = column(
        "Carrier", Kind.CODE, "As on sheet Carriers.", example="Tern Haulage", required=True, refers_to="Carriers"
    )
    trailer: str | None = trailer_column()
    from_end: str | None = column("From", Kind.END, _END, example="yard Bellingham")
    to_end: str | None = column("To", Kind.END, _END, example="590-599")
    flat_minor: int | None = column(
        "Flat", Kind.MONEY, "The whole price of a vehicle, in place of base fee, miles and minimum.", example="1150"
    )
    rate_e4: int | None = column(
        "Per mile", Kind.RATE, "For each road mile, in place of base fee, bands and minimum.", example=""
    )
    minimum_minor: int | None = column(
        "Minimum",
        Kind.MONEY,
        "With Per mile: never less than this. Alone: the carrier's minimum on this lane, its bands stay.",
        example="",
    )
    percent_ppm: int | None = column(
        "Percent",
        Kind.PERCENT,
        "Alone: added to base fee and miles in this direction; less for the way back empty (backhaul) is negative.",
        example="",
        signed=True,
    )
    currency: str | None = column(
        "Currency",
        Kind.TEXT,
        "Three letters (ISO 4217), with a rate on the sheet Currencies. Blank: the rate book's.",
        example="",
        theme=Theme.PRICE,
    )
    fuel_included: bool = column(
        "Fuel included",
        Kind.YES_NO,
        "Yes: no fuel surcharge is added to a price of this row.",
        example="no",
        default=False,
        theme=Theme.PRICE,
    )
    both_ways: bool = column(
        "Both ways",
        Kind.YES_NO,
        "Yes: the row holds from To back to From as well.",
        example="no",
        default=False,
        theme=Theme.PRICE,
    )
    valid_from: date | None = valid_from_column("2026-11-01")
    valid_to: date | None = valid_to_column("2027-01-31")
    reference: str | None = column(
        "Reference", Kind.TEXT, "For the office only: the carrier's number of this price.", example="TH-2041"
    )
    source: str | None = column("Source", Kind.TEXT, "Where the price is from.", example="its mail of 20 November")
    trust: str | None = trust_column()
    note: str | None = column("Note", Kind.TEXT, "What the buyer reads beside the price.", example="")
    office_note: str | None = office_note_column()


def says(row: LaneRow, what: str) -> bool:
    """Return whether a row says a "price" of its own, or a "percent" or a "minimum" of the carrier's prices a mile."""
    if what == "price":
        return row.flat_minor is not None or row.rate_e4 is not None
    if what == "percent":
        return row.percent_ppm is not None
    return row.minimum_minor is not None and not says(row, "price") and row.percent_ppm is None
