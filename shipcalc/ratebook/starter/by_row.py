"""Columns whose cells are not all of one kind: what a cell holds then follows from its row."""

from shipcalc.ratebook.rows.pricing_setting import PricingSetting
from shipcalc.ratebook.rows.pricing_settings import find_setting
from shipcalc.ratebook.workbook.columns import Column, Row


def cell_told(row: Row, field: str, column: Column) -> tuple[Column, object]:
    """Return what a row's cell is, and its value: a setting is what its name says, a percentage a number."""
    found = find_setting(row) if isinstance(row, PricingSetting) and field == "value" else None
    return found or (column, getattr(row, field))
