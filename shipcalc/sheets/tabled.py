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
        """Fit the print to so many pages side by side."""
        self._sheet.page_setup.fitToWidth = pages
