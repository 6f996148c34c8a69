"""The sheet Road factors of `trucking.xlsx`: roads that are longer than the program would reckon."""

from datetime import date

from shipcalc.ratebook.rows.sourced import trust_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class RoadFactor(Row):
    """Road miles ÷ straight-line miles for a country, a pair of states, or one lane; the closest match counts."""

    from_place: str | None = column(
        "From",
        Kind.PLACE,
        "A country (US), a state (US-WA), a ZIP or its beginning (98225). Blank: any.",
        example="US-MI",
    )
    to_place: str | None = column("To", Kind.PLACE, "As From; the row holds in both directions.", example="US-WI")
    over_mi: float | None = column(
        "Over (mi)", Kind.FACTOR, "Only where the straight line is longer than this.", example=""
    )
    up_to_mi: float | None = column(
        "Up to (mi)", Kind.FACTOR, "Only where the straight line is up to this long.", example=""
    )
    factor: float | None = column("Factor", Kind.FACTOR, "Road miles for each straight-line mile.", example="1.20")
    road_mi: float | None = column(
        "Road miles", Kind.FACTOR, "The miles of a lane that you know; used in place of a factor.", example=""
    )
    source: str | None = column(
        "Source", Kind.TEXT, "Where the figure is from.", example="Ballou, Rahardja & Sakai 2002, table 1"
    )
    trust: str | None = trust_column()
    checked_on: date | None = column("Checked on", Kind.DATE, "When somebody last looked at it.", example="2026-11-25")
