"""The sheet Fuel of `trucking.xlsx`: how a carrier's fuel surcharge follows the price of diesel."""

from datetime import date

from shipcalc.ratebook.rows.sourced import pickup_from_column, pickup_to_column, trust_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class FuelScheme(Row):
    """A fuel surcharge: per mile, (price − peg) ÷ miles per gallon; so many percent for each started step above the peg; or by
    a table of its own (sheet Fuel steps).

    Of several rows of one scheme the latest whose `as_of` is not after the quote's date counts. A row with a price of its own goes
    by that; any other by the latest price of the sheet Diesel, for its region.
    """

    scheme: str = column("Scheme", Kind.CODE, "The name carriers refer to.", example="Per mile", required=True)
    as_of: date | None = column(
        "As of",
        Kind.DATE,
        "The day of the price in this row; without one, since when the scheme is as it is here.",
        example="",
        theme=Theme.NAME,
    )
    price_e4: int | None = column(
        "Price ($ per gallon)",
        Kind.RATE,
        "Blank: the latest price on the sheet Diesel, where it is typed once. A price here counts for this scheme alone.",
        example="",
    )
    method: str = column(
        "Method",
        Kind.CHOICE,
        "per mile: (price − peg) ÷ miles per gallon, for each mile. percent steps: so many percent of linehaul for each started "
        "step above the peg. step table: as the rows of the sheet Fuel steps say.",
        choices=("per mile", "percent steps", "step table"),
        example="per mile",
        required=True,
        theme=Theme.PRICE,
    )
    peg_e4: int | None = column(
        "Peg ($ per gallon)",
        Kind.RATE,
        "No surcharge up to this price. Blank with a step table, which begins where its first row does.",
        example="2.50",
    )
    miles_per_gallon: float | None = column(
        "Miles per gallon", Kind.FACTOR, "For the method per mile.", example="6.0", theme=Theme.PRICE
    )
    step_e4: int | None = column(
        "Step ($)", Kind.RATE, "For the method percent steps: the size of a step.", example="0.13"
    )
    step_percent_ppm: int | None = column(
        "Percent per step", Kind.PERCENT, "For the method percent steps: what each started step adds.", example="1 %"
    )
    source: str | None = column("Source", Kind.TEXT, "Where the price was read.", example="the week's table")
    trust: str | None = trust_column()
    diesel_region: str | None = column(
        "Diesel region",
        Kind.TEXT,
        "A region of the sheet Diesel whose price counts. Blank: the whole country's.",
        example="",
        theme=Theme.PRICE,
    )
    valid_from: date | None = pickup_from_column()
    valid_to: date | None = pickup_to_column()
