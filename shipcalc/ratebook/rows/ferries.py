"""The sheet *Ferries* of `trucking.xlsx`: car ferries to places at home that no road reaches."""

from datetime import date

from shipcalc.ratebook.rows.sourced import (
    checked_on_column,
    office_note_column,
    pickup_from_column,
    pickup_to_column,
    trust_column,
)
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Ferry(Row):
    """One ferry between two terminals, each given by its ZIP; it serves the land that its second terminal is on.

    With `carrier` it is that carrier's own fare on the ferry of the row beside it, and nothing else.
    """

    ferry: str = column(
        "Ferry",
        Kind.CODE,
        "A name of its own; the buyer reads it as the label of the charge.",
        example="Car ferry Hyannis – Nantucket",
        required=True,
    )
    from_zip: str = column(
        "From ZIP", Kind.ZIP, "The ZIP of the terminal that roads reach, kept as text.", example="02601", required=True
    )
    to_zip: str = column(
        "To ZIP", Kind.ZIP, "The ZIP of the terminal on the island, kept as text.", example="02554", required=True
    )
    carrier: str | None = column(
        "Carrier",
        Kind.CODE,
        "A carrier as on sheet Carriers that pays a price of its own there; the rest of its row says nothing. Blank: all others.",
        example="",
        refers_to="Carriers",
        theme=Theme.NAME,
    )
    takes_vehicles: bool = column(
        "Takes vehicles",
        Kind.YES_NO,
        "No: the row says that vehicles cannot go there by this ferry, and Remark says what to do instead.",
        example="yes",
        default=True,
    )
    amount_minor: int | None = column(
        "Price ($)", Kind.MONEY, "For each vehicle carried, one way, the trailer's share included.", example="420"
    )
    crossing_nmi: float | None = column(
        "Sea miles", Kind.FACTOR, "Nautical miles from terminal to terminal.", example="26"
    )
    crossing_hours: float | None = column("Hours", Kind.FACTOR, "How long the crossing takes.", example="2.25")
    sailings: int | None = column("Sailings a day", Kind.WHOLE, "On an ordinary day; for the office.", example="3")
    extra_days: int = column(
        "Extra days",
        Kind.WHOLE,
        "Days added to the late end of the delivery window: waiting for a place on board.",
        example="1",
        default=1,
    )
    remark: str | None = column(
        "Remark", Kind.TEXT, "What the office must know: seasons, bookings, permits.", example="Book the trailer early."
    )
    source: str | None = column(
        "Source", Kind.TEXT, "Where the figures are from.", example="the carrier's tariff of 2026"
    )
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()
    checked_on: date | None = checked_on_column()
    valid_from: date | None = pickup_from_column()
    valid_to: date | None = pickup_to_column()

    @property
    def terminals(self) -> frozenset[str]:
        """The ZIPs of both terminals, whichever way it goes."""
        return frozenset((self.from_zip, self.to_zip))
