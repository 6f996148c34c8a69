"""The sheet Vehicles loaded of `trucking.xlsx`: what each vehicle pays where several go on one truck."""

from datetime import date

from shipcalc.ratebook.rows.sourced import trailer_column, valid_from_column, valid_to_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class VehiclesLoaded(Row):
    """What a carrier takes off each vehicle from so many on, loaded at one place. The row with the most vehicles counts."""

    carrier: str | None = column(
        "Carrier",
        Kind.CODE,
        "As on sheet Carriers. Blank: all that have no row of their own here.",
        example="Tern Haulage",
        refers_to="Carriers",
        theme=Theme.NAME,
    )
    trailer: str | None = trailer_column()
    vehicles: int = column(
        "Vehicles",
        Kind.WHOLE,
        "From so many vehicles on, loaded at one place and going to one place; up to the next row's.",
        example="3",
        required=True,
        theme=Theme.NAME,
    )
    percent_ppm: int | None = column(
        "Each at",
        Kind.PERCENT,
        "What each vehicle then pays of the linehaul of one that goes alone, as 90 %.",
        example="90 %",
        over_whole=True,
    )
    less_minor: int | None = column(
        "Each less by ($)", Kind.MONEY, "In place of a percentage: so much is taken off each vehicle.", example=""
    )
    valid_from: date | None = valid_from_column()
    valid_to: date | None = valid_to_column()
    note: str | None = column("Note", Kind.TEXT, "For the office only.", example="")
