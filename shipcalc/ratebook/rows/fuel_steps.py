"""The sheet Fuel steps of `trucking.xlsx`: a carrier's own table of surcharges, where no formula gives it."""

from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class FuelStep(Row):
    """What a scheme asks from one price of diesel on, up to the next row of its table; below its first row it asks nothing."""

    scheme: str = column(
        "Scheme",
        Kind.CODE,
        "A scheme of the sheet Fuel whose method is step table.",
        example="Our own table",
        required=True,
        refers_to="Fuel",
    )
    from_price_e4: int = column(
        "From price ($ per gallon)",
        Kind.RATE,
        "This row counts from this price of diesel on, itself included, up to the next row's.",
        example="3.75",
        required=True,
    )
    percent_ppm: int | None = column(
        "Percent", Kind.PERCENT, "Of the linehaul. Blank where it is dollars a mile.", example="24 %"
    )
    rate_e4: int | None = column(
        "$ a mile", Kind.RATE, "For each mile, as 0.21 for 21 cents. Blank where it is a percentage.", example=""
    )
