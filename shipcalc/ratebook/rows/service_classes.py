"""The sheet Service classes of `trucking.xlsx`: what a carrier asks for a pick-up that it guarantees."""

from datetime import date

from shipcalc.ratebook.rows.sourced import trailer_column, valid_from_column, valid_to_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ServiceClass(Row):
    """One class of a carrier beside its ordinary service: the same trucks and prices, a guaranteed pick-up, a surcharge."""

    carrier: str = column(
        "Carrier", Kind.CODE, "As on sheet Carriers.", example="Tern Haulage", required=True, refers_to="Carriers"
    )
    trailer: str | None = trailer_column()
    name: str = column(
        "Class", Kind.TEXT, "What the carrier calls it; the buyer reads it.", example="Fixed day", required=True
    )
    within_days: int = column(
        "Pick-up within (days)",
        Kind.WHOLE,
        "It is picked up within so many days after it is ready, and the carrier guarantees that.",
        example="3",
        required=True,
        theme=Theme.NAME,
    )
    amount_minor: int | None = column(
        "Surcharge ($)", Kind.MONEY, "For each vehicle. Blank where it is a percentage.", example="145"
    )
    percent_ppm: int | None = column(
        "Of the linehaul", Kind.PERCENT, "Of the linehaul. Blank where it is a sum.", example=""
    )
    if_missed: str | None = column(
        "If missed",
        Kind.TEXT,
        "What the carrier owes where it comes later, as its terms say; the buyer reads it.",
        example="the surcharge is paid back",
    )
    valid_from: date | None = valid_from_column()
    valid_to: date | None = valid_to_column()
    note: str | None = column("Note", Kind.TEXT, "For the office only.", example="")
