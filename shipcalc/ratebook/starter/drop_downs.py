"""What a cell offers to choose from: a column's own words, or the names on another sheet as far as it is filled."""

from collections.abc import Mapping, Sequence

from shipcalc.ratebook.checks.names import naming_field
from shipcalc.ratebook.rows.sheet_kind import SheetKind
from shipcalc.ratebook.starter.order import columns_in_order
from shipcalc.ratebook.workbook.columns import Column, Kind
from shipcalc.sheets.reading import letter
from shipcalc.sheets.tabled import plain_name
from shipcalc.sheets.writing import Book, Page

_LONGEST_INLINE = 250  # of the 255 letters that Excel takes between quotation marks


def name_the_lists(book: Book, kinds: Sequence[SheetKind]) -> Mapping[str, str]:
    """Give the names on each sheet that others refer to a name of their own, which reaches as far down as names stand.

    Returns it by sheet. The names stand from row 2 without a gap: so many as the column holds, less its header.
    """
    wanted = {column.refers_to for kind in kinds for column in columns_in_order(kind.row_type).values()}
    named: dict[str, str] = {}
    for kind in kinds:
        field = naming_field(kind.row_type)
        if kind.name in wanted and field is not None:
            at = letter(list(columns_in_order(kind.row_type)).index(field))
            sheet = f"'{kind.name}'"
            named[kind.name] = plain_name(kind.name, "names")
            column = f"{sheet}!${at}:${at}"
            book.define_name(named[kind.name], f"{sheet}!${at}$2:INDEX({column},MAX(2,COUNTA({column})))")
    return named


def drop_down(page: Page, cells: str, column: Column, named: Mapping[str, str]) -> None:
    """Offer what belongs into the cells of a column; where names are listed one beside the other, without insisting."""
    blank = not column.required
    one_of = f"One of: {', '.join(column.choices)}."
    if column.kind is Kind.CHOICE:
        page.drop_down(cells, column.choices, message=one_of, blank=blank)
    elif column.kind is Kind.YES_NO:
        page.drop_down(cells, ("yes", "no"), message="yes or no, or blank.", blank=blank)
    elif column.kind is Kind.LIST and column.choices and len(",".join(column.choices)) <= _LONGEST_INLINE:
        page.drop_down(cells, column.choices, strict=False, blank=blank)
    elif column.refers_to in named:
        message = f"This name does not stand on the sheet {column.refers_to}." if column.kind is Kind.CODE else ""
        page.drop_down(cells, named[column.refers_to], message=message, strict=False, blank=blank)
