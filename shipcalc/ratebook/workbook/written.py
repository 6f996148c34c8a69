"""Values of rows back into cells: the reader's inverse."""

from collections.abc import Callable
from datetime import date
from decimal import Decimal

from shipcalc.measures import GRAMS_PER_POUND, MM_PER_INCH, inches_to_mm, pounds_to_grams
from shipcalc.money import decimals
from shipcalc.ratebook.workbook.columns import Column, Kind
from shipcalc.sheets.numbers import exact, plain

CellText = str | int | float | bool | Decimal | date | None

_TRUE, _FALSE = "yes", "no"


def cell_of(value: object, column: Column, currency: str) -> CellText:
    """Return what to write into a cell so that the reader gives `value` back; None for a blank cell."""
    if value is None or value == ():
        return None
    match column.kind, value:
        case Kind.YES_NO, bool():
            return _TRUE if value else _FALSE
        case Kind.LIST, tuple():
            return "; ".join(value)
        case Kind.MONEY, int():
            return Decimal(value).scaleb(-decimals(currency))
        case Kind.RATE, int():
            return Decimal(value).scaleb(-4)
        case Kind.PERCENT, int():
            return Decimal(value).scaleb(-6)
        case Kind.LENGTH, int():
            return _fewest_decimals(value / MM_PER_INCH, value, inches_to_mm)
        case Kind.MASS, int():
            return _fewest_decimals(value / GRAMS_PER_POUND, value, pounds_to_grams)
    assert isinstance(value, (str, int, float, date)), f"{column.header}: {value!r} is not a {column.kind.value}"
    return value


def as_shown(value: object, column: Column, currency: str) -> str:
    """Return a value as a sentence about its cell tells it: 1,234.50, 0.82, 14 %, yes, 2026-12-01; `blank` for nothing."""
    if column.kind is Kind.PERCENT and isinstance(value, int):
        return f"{plain(Decimal(value).scaleb(-4))} %"
    cell = cell_of(value, column, currency)
    if cell is None:
        return "blank"
    if column.kind is Kind.RATE and isinstance(cell, Decimal):
        return plain(cell)
    if isinstance(cell, Decimal):
        return f"{cell:,}".removesuffix(".00")
    if isinstance(cell, int | float) and not isinstance(cell, bool):
        return plain(exact(float(cell)))
    return str(cell)


def number_format(column: Column, currency: str) -> str:
    """Return how Excel shows a column's figures."""
    # What a row may have in a currency of its own names none in its header.
    sign = '"$"' if currency == "USD" and "$" in column.header else ""
    cents = "." + "0" * decimals(currency) if decimals(currency) else ""
    formats = {
        Kind.MONEY: f"{sign}#,##0{cents}",
        Kind.RATE: f"{sign}#,##0.00##",
        Kind.PERCENT: "0.00 %",
        Kind.DATE: "yyyy-mm-dd",
        Kind.MILES: "#,##0",
        Kind.MASS: "#,##0",
        Kind.LENGTH: "0.##",
        Kind.ZIP: "@",
        Kind.PLACE: "@",
        Kind.END: "@",
    }
    return formats.get(column.kind, "General")


def _fewest_decimals(exact: float, kept: int, read: Callable[[float], int]) -> float:
    """Return the shortest figure that reads as `kept`: 4978 mm → 196 in."""
    return next(figure for places in range(6) if read(figure := round(exact, places)) == kept)
