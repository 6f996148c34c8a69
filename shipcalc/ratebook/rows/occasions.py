"""The sheet When it happens of `trucking.xlsx`: what a carrier asks for what may come: waiting, storage, a night on the way."""

from datetime import date

from shipcalc.ratebook.rows.sourced import trailer_column, valid_from_column, valid_to_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Occasion(Row):
    """One such charge: in no price, told with it. A carrier's own row stands in place of one for all with the same name,
    and of its own the one that names the trailer.
    """

    carrier: str | None = column(
        "Carrier",
        Kind.CODE,
        "As on sheet Carriers. Blank: all that have no row of their own with this name.",
        example="Tern Haulage",
        refers_to="Carriers",
        theme=Theme.NAME,
    )
    trailer: str | None = trailer_column("Blank: every trailer; driven has to be named.", example="")
    name: str = column(
        "What", Kind.TEXT, "What may happen, in a word or two; the buyer reads it.", example="Waiting", required=True
    )
    amount_minor: int = column("Amount ($)", Kind.MONEY, "For each hour, day or time.", example="75", required=True)
    per: str = column(
        "Per", Kind.CHOICE, "What it is counted in.", example="hour", required=True, choices=("hour", "day", "time")
    )
    free: int = column(
        "Free first", Kind.WHOLE, "So many of these are free, as 2 hours. Blank: none.", example="2", default=0
    )
    when: str | None = column(
        "When",
        Kind.TEXT,
        "When it arises, as the end of a sentence; the buyer reads it.",
        example="where nobody can hand over or receive the vehicle",
    )
    valid_from: date | None = valid_from_column()
    valid_to: date | None = valid_to_column()
    note: str | None = column("Note", Kind.TEXT, "For the office only.", example="")
