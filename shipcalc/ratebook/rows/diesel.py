"""The sheet Diesel of `trucking.xlsx`: the price of diesel, typed once a week for all fuel schemes; by region where they ask for it."""

from datetime import date

from shipcalc.ratebook.rows.sourced import trust_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class DieselPrice(Row):
    """The retail price of diesel of one week, in the whole country or in a region. Rows are its history."""

    region: str | None = column(
        "Region",
        Kind.TEXT,
        "A region as the schemes name it, e.g. West Coast. Blank: the whole country.",
        example="",
        theme=Theme.NAME,
    )
    as_of: date = column("Week of", Kind.DATE, "The day of the price.", example="2026-11-23", required=True)
    price_e4: int = column(
        "Price ($ per gallon)", Kind.RATE, "Retail diesel, dollars for a US gallon.", example="3.856", required=True
    )
    source: str | None = column("Source", Kind.TEXT, "Where the price was read.", example="the week's table")
    trust: str | None = trust_column()

    @property
    def key(self) -> str:
        """Return the region as it is compared: "" for the whole country."""
        return region_key(self.region)


def region_key(region: str | None) -> str:
    """Return a region's name as it is compared with others, without regard to case."""
    return (region or "").casefold()
