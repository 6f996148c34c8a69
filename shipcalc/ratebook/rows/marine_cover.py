"""The sheet Marine cover of `overseas.xlsx`: what insuring the vehicles at sea costs."""

from datetime import date

from shipcalc.ratebook.rows.sourced import pickup_from_column, pickup_to_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.conditions import Condition
from shipcalc.records import dataclass
from shipcalc.trade import COVER_CONDITIONS, OCEAN_MODES


@dataclass(frozen=True, slots=True, kw_only=True)
class MarineCover(Row):
    """Marine cargo cover: conditions (Institute Cargo Clauses A, B, C), rate, minimum."""

    conditions: str = column(
        "Conditions",
        Kind.CHOICE,
        "A covers most perils, C the fewest (Institute Cargo Clauses 1.1.09).",
        choices=COVER_CONDITIONS,
        example="A",
        required=True,
        condition=Condition("cover", "is"),
    )
    mode: str | None = column(
        "Mode", Kind.CHOICE, "Blank: any.", choices=OCEAN_MODES, example="", condition=Condition("mode", "is")
    )
    rate_ppm: int = column("Rate", Kind.PERCENT, "Percent of the insured sum.", example="1.35 %", required=True)
    minimum_minor: int = column("Minimum ($)", Kind.MONEY, "Least premium of a shipment.", example="150", default=0)
    insured_ppm: int = column(
        "Insured sum",
        Kind.PERCENT,
        "Percent of the value with carriage; delivery terms ask for 110 %.",
        example="110 %",
        over_whole=True,
        default=1_100_000,
    )
    excess_ppm: int = column(
        "Excess", Kind.PERCENT, "Percent of the insured sum that the insured bears.", example="1 %", default=0
    )
    note: str | None = column("Note", Kind.TEXT, "What it does not cover, in plain words.", example="")
    valid_from: date | None = pickup_from_column()
    valid_to: date | None = pickup_to_column()
