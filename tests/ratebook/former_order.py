"""The order in which columns stood in workbooks of earlier versions: such workbooks are still read, by their headers."""

import pytest

from shipcalc.ratebook.checks.names import naming_field
from shipcalc.ratebook.starter import drop_downs, one_sheet, overview
from shipcalc.ratebook.workbook.columns import Kind, columns_of


def columns_in_former_order(row_type):
    columns = columns_of(row_type)
    first = naming_field(row_type)
    names = [
        field
        for field, column in columns.items()
        if column.required and column.kind in (Kind.CODE, Kind.TEXT, Kind.COUNTRY) and field != "source"
    ]
    names.sort(key=lambda field: field != first)
    return {field: columns[field] for field in dict.fromkeys((*names, *columns))}


def write_in_former_order(patch: pytest.MonkeyPatch) -> None:
    for module in (one_sheet, overview, drop_downs):
        patch.setattr(module, "columns_in_order", columns_in_former_order)
