"""What stands at an address of a rate book: the row, the column and the value, as the manager sees them."""

from decimal import Decimal
from typing import TYPE_CHECKING

from shipcalc.ratebook.changes.differences import row_name
from shipcalc.ratebook.rows.tables import WORKBOOKS
from shipcalc.ratebook.workbook.addresses import address_in
from shipcalc.ratebook.workbook.columns import Kind, Row, columns_of
from shipcalc.ratebook.workbook.written import as_shown, cell_of
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.ratebook.book import RateBook


@dataclass(frozen=True, slots=True)
class AtCell:
    """A figure where it stands. `number` is the cell's number where it holds an amount, a rate or a percentage (18, not 0.18);
    `percent` says that it is one."""

    cell: str
    row: Row
    row_name: str
    header: str
    told: str
    number: Decimal | None
    percent: bool = False


def find_cell(book: "RateBook", cell: str) -> AtCell | None:
    """Return what stands at a cell of the book, or None where no row that is read stands there."""
    address = address_in(cell)
    if address is None or not address.row:
        return None
    kinds = (kind for kind in WORKBOOKS.get(address.workbook, ()) if kind.name.casefold() == address.sheet.casefold())
    for kind in kinds:
        row = next((row for row in getattr(book, kind.rows) if row.at.row == address.row), None)
        field = (
            next((name for name, letters in row.at.letters.items() if letters == address.letters), None)
            if row
            else None
        )
        if row is not None and field is not None:
            column, value = columns_of(kind.row_type)[field], getattr(row, field)
            currency = book.pricing.currency
            number = None
            if column.kind in (Kind.MONEY, Kind.RATE, Kind.PERCENT) and isinstance(value, int):
                kept = cell_of(value, column, currency)
                assert isinstance(kept, Decimal), "money, rates and percentages are written as exact decimals"
                number = kept * 100 if column.kind is Kind.PERCENT else kept
            told = as_shown(value, column, currency)
            percent = column.kind is Kind.PERCENT
            return AtCell(cell, row, row_name(row, kind, currency), column.header, told, number, percent)
    return None
