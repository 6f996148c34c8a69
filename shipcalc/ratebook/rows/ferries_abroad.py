"""The sheet *Ferries abroad* of `overseas.xlsx`: car ferries to islands that neither a road nor a ship of the book reaches."""

from datetime import date

from shipcalc.ratebook.rows.sourced import (
    checked_on_column,
    office_note_column,
    pickup_from_column,
    pickup_to_column,
    trust_column,
)
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class FerryAbroad(Row):
    """One ferry between two ports; it serves the land that its second port is on, for what comes by road to the first."""

    ferry: str = column(
        "Ferry",
        Kind.CODE,
        "A name of its own; the buyer reads it as the label of the charge.",
        example="Car ferry Nynäshamn – Visby",
        required=True,
    )
    from_port: str = column(
        "From code",
        Kind.CODE,
        "The UN/LOCODE of the port that roads reach (UNECE Recommendation 16).",
        example="SENYN",
        required=True,
    )
    from_name: str = column("From", Kind.TEXT, "Its name.", example="Nynäshamn", required=True)
    to_port: str = column(
        "To code", Kind.CODE, "The UN/LOCODE of the port on the island.", example="SEVBY", required=True
    )
    to_name: str = column("To", Kind.TEXT, "Its name.", example="Visby", required=True)
    amount_minor: int = column(
        "Price ($)",
        Kind.MONEY,
        "For each vehicle carried, one way, the trailer's share included.",
        example="310",
        required=True,
    )
    crossing_nmi: float | None = column("Sea miles", Kind.FACTOR, "Nautical miles from port to port.", example="80")
    crossing_hours: float | None = column(
        "Hours", Kind.FACTOR, "How long the crossing takes; from 12 hours on it takes a day more.", example="3.4"
    )
    sailings: int | None = column("Sailings a day", Kind.WHOLE, "On an ordinary day; for the office.", example="2")
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
    def takes_vehicles(self) -> bool:
        """Return that vehicles go by it: only such ferries stand in the sheet."""
        return True

    @property
    def crossing_days(self) -> int:
        """Return the days that the crossing itself takes, to the nearest whole one."""
        return int((self.crossing_hours or 0) / 24 + 0.5)
