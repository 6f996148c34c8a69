"""A row of the sheet Pricing of `trucking.xlsx`."""

from datetime import date

from shipcalc.ratebook.rows.sourced import pickup_from_column, pickup_to_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class PricingSetting(Row):
    """One setting of the sheet Pricing; the known ones are listed in `known_settings.SETTINGS`."""

    setting: str = column(
        "Setting", Kind.CODE, "One of the known settings.", example="Markup on linehaul", required=True
    )
    value: str = column(
        "Value", Kind.TEXT, "Its value, in the unit beside it.", example="14 %", required=True, theme=Theme.PRICE
    )
    unit: str | None = column("Unit", Kind.TEXT, "How the value is read.", example="percent", theme=Theme.PRICE)
    note: str | None = column("Note", Kind.TEXT, "What it does.", example="")
    valid_from: date | None = pickup_from_column()
    valid_to: date | None = pickup_to_column()
