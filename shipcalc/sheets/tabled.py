"""A sheet as people type into it: an Excel table, columns that fold away, links. Part of `writing.Page`."""

import re
from typing import TYPE_CHECKING, Any

from shipcalc.sheets.look import Style

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

    from shipcalc.sheets.writing import Book

_NOT_IN_NAMES = re.compile(r"[^A-Za-z0-9_]+")


def plain_name(text: str, ending: str) -> str:
    """Return a name that Excel allows for a table or for cells: `On-carriage` → `On_carriage_rows`.

    Letters, figures and _, a letter first (ECMA-376 part 1, 18.2.5 and 18.5.1.2 leave the rest to the program; that Excel asks
    for this is from memory). The ending keeps it from looking like a cell, as FUEL2026 does.
    """
    return f"{_NOT_IN_NAMES.sub('_', text).strip('_')}_{ending}"


class Tabled:
    """What a page says of the table on it."""

    book: "Book"
    name: str
    _sheet: "Worksheet"

    def table(self, cells: str) -> None:
        """Make cells, the first row of them headers, an Excel table with filter arrows. Its ground is left to `highlight`.

        Columns are called as their headers: these must be texts, none of them twice (ECMA-376 part 1, 18.5.1.3).
        """
        from openpyxl.worksheet.table import Table

        self._sheet.add_table(Table(displayName=plain_name(self.name, "rows"), ref=cells))

    def column_style(self, column: str, style: Style, number_format: str = "") -> None:
        """Set what the cells of a column look like that nobody has filled yet."""
        from openpyxl.cell.cell import Cell

        pattern: Any = Cell(self._sheet, 1, 1)
        pattern.style = self.book.style_name(style)
        if number_format:
            pattern.number_format = number_format
        dimension: Any = self._sheet.column_dimensions[column]
        dimension._style = pattern._style  # noqa: SLF001 - a column takes no style by name

    def fold_columns(self, first: str, last: str, *, level: int, folded: bool) -> None:
        """Let columns be folded away together; a higher level folds within a lower one."""
        from openpyxl.utils import column_index_from_string, get_column_letter

        for number in range(column_index_from_string(first), column_index_from_string(last) + 1):
            dimension = self._sheet.column_dimensions[get_column_letter(number)]
            dimension.outlineLevel, dimension.hidden = level, folded
        if folded:
            following = get_column_letter(column_index_from_string(last) + 1)
            self._sheet.column_dimensions[following].collapsed = True

    def tab(self, colour: str) -> None:
        """Colour the sheet's tab."""
        self._sheet.sheet_properties.tabColor = colour

    def link(self, cell: str, sheet: str, target: str = "A1") -> None:
        """Let a click on a cell lead to a cell of another sheet."""
        from openpyxl.worksheet.hyperlink import Hyperlink

        quoted = sheet.replace("'", "''")
        self._sheet[cell]._hyperlink = Hyperlink(ref=cell, location=f"'{quoted}'!{target}")  # noqa: SLF001 - its setter makes links outward

    def repeat_columns(self, first: str, last: str) -> None:
        """Print these columns again on every page."""
        self._sheet.print_title_cols = f"{first}:{last}"

    def pages_wide(self, pages: int) -> None:
        """Fit the print to so many pages side by side, the pages of the same rows one after the other."""
        self._sheet.page_setup.fitToWidth = pages
        self._sheet.page_setup.pageOrder = "overThenDown"


def fit_tables(page: Any) -> None:
    """Let the tables of a sheet reach as far down as rows stand, their columns called as the headers now are.

    A table whose headers are not texts, or not each another, would have Excel repair the file: it becomes a plain filter.
    """
    for table in list(page.tables.values()):
        ref, headers = _area_now(page, table.ref), [cell.value for cell in page[table.ref][0]]
        is_sound = all(isinstance(header, str) and header for header in headers)
        if not is_sound or len({str(header).casefold() for header in headers}) < len(headers):
            del page.tables[table.name]
            page.auto_filter.ref = ref
            continue
        for column, header in zip(table.tableColumns, headers, strict=True):
            column.name = header
        table.ref = ref
        if table.autoFilter is not None:
            table.autoFilter.ref = ref


def _area_now(page: Any, ref: str) -> str:
    from openpyxl.utils.cell import get_column_letter, range_boundaries

    left, top, right, bottom = (number or 1 for number in range_boundaries(ref))
    while any(page.cell(bottom + 1, at).value is not None for at in range(left, right + 1)):
        bottom += 1
    return f"{get_column_letter(left)}{top}:{get_column_letter(right)}{bottom}"
