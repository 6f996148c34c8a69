"""The sheet Fuel of `trucking.xlsx`: how a carrier's fuel surcharge follows the price of diesel."""

from datetime import date

from shipcalc.ratebook.rows.sourced import trust_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class FuelScheme(Row):
    """A fuel surcharge: per mile, (price − peg) ÷ miles per gallon; or so many percent for each started step above the peg.

    Several rows of one scheme, with different `as_of`, are its price history: the latest not after the quote's date counts.
    """

    scheme: str = column("Scheme", Kind.CODE, "The name carriers refer to.", example="Per mile", required=True)
    as_of: date = column("As of", Kind.DATE, "The day of the price.", example="2026-11-23", required=True)
    price_e4: int = column(
        "Price ($ per gallon)", Kind.RATE, "Retail diesel, dollars for a US gallon.", example="3.856", required=True
    )
    method: str = column(
        "Method",
        Kind.CHOICE,
        "per mile: (price − peg) ÷ miles per gallon, for each mile. percent steps: so many percent of linehaul for each started step above the peg.",
        choices=("per mile", "percent steps"),
        example="per mile",
        required=True,
    )
    peg_e4: int = column(
        "Peg ($ per gallon)", Kind.RATE, "No surcharge up to this price.", example="2.50", required=True
    )
    miles_per_gallon: float | None = column("Miles per gallon", Kind.FACTOR, "For the method per mile.", example="6.0")
    step_e4: int | None = column(
        "Step ($)", Kind.RATE, "For the method percent steps: the size of a step.", example="0.13"
    )
    step_percent_ppm: int | None = column(
        "Percent per step", Kind.PERCENT, "For the method percent steps: what each started step adds.", example="1 %"
    )
    source: str | None = column("Source", Kind.TEXT, "Where the price was read.", example="the week's table")
    trust: str | None = trust_column()
