"""Workbooks to begin with that hold no price: what is known stays, as holds, tasks, papers, countries and ports."""

from collections.abc import Mapping
from typing import Any

from shipcalc.ratebook.making import build_overseas, build_paperwork, build_trucking
from shipcalc.ratebook.rows.overseas_sheets import BORDER_PORTS, GATEWAYS, OVERSEAS, PASSAGES, PORTS
from shipcalc.ratebook.rows.paperwork_sheets import PAPERWORK
from shipcalc.ratebook.rows.trucking_sheets import ROAD_FACTORS, TRUCKING, VEHICLE_SIZES
from shipcalc.ratebook.workbook.columns import Kind, Row, columns_of
from shipcalc.records import fields, replace

_KEPT = {
    TRUCKING: (VEHICLE_SIZES, ROAD_FACTORS),
    OVERSEAS: (PORTS, GATEWAYS, PASSAGES, BORDER_PORTS),
}
_PRICES = (Kind.MONEY, Kind.RATE)


def rows_without_prices(workbook: str) -> Mapping[str, tuple[Row, ...]]:
    """Return the rows of a workbook by sheet, without prices and without sheets of prices."""
    if workbook == PAPERWORK:
        return build_paperwork.written_rows()
    rows = {TRUCKING: build_trucking, OVERSEAS: build_overseas}[workbook].invented_rows()
    return {kind.name: tuple(_without_prices(row) for row in rows[kind.name]) for kind in _KEPT[workbook]}


def _without_prices(row: Row) -> Row:
    """Return a row with its sums as a new row has them."""
    defaults = {field.name: field.default for field in fields(row)}
    columns = columns_of(type(row)).items()
    empty: dict[str, Any] = {field: defaults[field] for field, column in columns if column.kind in _PRICES}
    return replace(row, **empty)
