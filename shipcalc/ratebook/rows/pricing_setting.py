"""A row of the sheet Pricing of `trucking.xlsx`."""

from shipcalc.ratebook.workbook.columns import Column, Kind, Row, column
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class PricingSetting(Row):
    """One setting of the sheet Pricing; the known ones are listed in `pricing_settings.SETTINGS`."""

    setting: str = column(
        "Setting", Kind.CODE, "One of the known settings.", example="Markup on linehaul", required=True
    )
    value: str = column(
        "Value", Kind.TEXT, "Its value, in the unit beside it.", example="14 %", required=True, theme=Theme.PRICE
    )
    unit: str | None = column("Unit", Kind.TEXT, "How the value is read.", example="percent", theme=Theme.PRICE)
    note: str | None = column("Note", Kind.TEXT, "What it does.", example="")

    def column_of(self, field: str) -> Column:
        """Return what the cell is: a value is what its setting says, so that a percentage is written as a number."""
        found = self._as_number() if field == "value" else None
        return found[0] if found is not None else Row.column_of(self, field)

    def written_value(self, field: str) -> object:
        """Return the value as its setting reads it; else the text that stands there."""
        found = self._as_number() if field == "value" else None
        return found[1] if found is not None else getattr(self, field)

    def _as_number(self) -> tuple[Column, object] | None:
        from shipcalc.ratebook.rows.pricing_settings import find_setting

        return find_setting(self)
