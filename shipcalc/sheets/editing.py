"""Workbooks that people have worked in, changed in a few cells: everything else in them stays as it is.

    draft = open_draft(Path("checklist.xlsx"))
    draft.put("Checklist", "B7", "done")
    save(Path("checklist-2.xlsx"), draft.to_bytes())

What openpyxl cannot carry over (pictures, drawn shapes) is named by `left_out`. The results of formulas are not kept:
whoever opens the file computes them.
"""

import io
import warnings
from collections.abc import Collection, Mapping, Sequence
from copy import copy
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any
from zipfile import ZipFile

from shipcalc.errors import WrongInput, why
from shipcalc.files import read_file
from shipcalc.sheets.look import CAUTION_WASH
from shipcalc.sheets.package import repacked, unpacked
from shipcalc.sheets.packing import packed
from shipcalc.sheets.reading import WorkbookFile, letter
from shipcalc.sheets.styling import put_text
from shipcalc.sheets.tabled import fit_tables
from shipcalc.sheets.writing import Value

if TYPE_CHECKING:
    from openpyxl.cell.cell import Cell

# Parts of a package (ECMA-376 part 1, 11 and 12) that are lost when openpyxl saves it, and how people call them.
_LOST_PARTS: Mapping[str, str] = {
    "xl/media/": "pictures",
    "xl/diagrams/": "diagrams",
    "xl/embeddings/": "embedded files",
    "xl/vbaProject": "macros",
}

_WIDEST_LABEL = 80
# Excel's day 0 (ECMA-376 part 1, 18.17.4.1), for days after February 1900.
_DAY_NOUGHT = datetime(1899, 12, 30)  # noqa: DTZ001 - days in cells are of no zone


class Draft:
    """A workbook opened for changing. Cells are named as in Excel ("B4"), rows are counted from 1."""

    def __init__(self, content: bytes, name: str) -> None:
        from openpyxl import load_workbook

        try:
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")  # openpyxl tells of extensions of rules that nobody misses
                self._book = load_workbook(io.BytesIO(repacked(unpacked(content))), rich_text=True)
        except Exception:  # noqa: BLE001 - openpyxl raises whatever it stumbles over: KeyError, AttributeError, ParseError
            raise WrongInput(
                "is no .xlsx workbook, and no other can be changed",
                where=name,
                remedy="open it in Excel and save it as .xlsx",
            ) from None
        self._name = name
        self.left_out = _left_out(content)
        self._shown: dict[str, dict[str, str]] = {}

    def _page(self, sheet: str) -> Any:
        """Return the sheet of that name, without regard to case and outer blanks, as whoever reads the file finds it."""
        wanted = sheet.strip().casefold()
        page = next((page for page in self._book.worksheets if page.title.strip().casefold() == wanted), None)
        if page is None:
            remedy = "give the sheet its name again, or take it from an earlier copy of the file"
            raise WrongInput(f"has no sheet {sheet}", where=self._name, remedy=remedy)
        return page

    def value(self, sheet: str, cell: str) -> Any:
        """Return what stands in a cell; a formula as its text."""
        return self._page(sheet)[cell].value

    def is_formula(self, sheet: str, cell: str) -> bool:
        """Return whether a formula stands in a cell."""
        return bool(self._page(sheet)[cell].data_type == "f")

    def put(self, sheet: str, cell: str, value: Value) -> None:
        """Write a value; the cell's look stays. Text stays text, whatever it begins with."""
        target: Cell = self._page(sheet)[cell]
        if isinstance(value, str) and value:
            put_text(target, value)
        else:
            target.value = None if value == "" else value

    def mark(self, sheet: str, cell: str, text: str) -> None:
        """Mark a cell by its ground and a note, so that whoever looks through the workbook finds it."""
        from openpyxl.comments import Comment
        from openpyxl.styles import PatternFill

        target: Cell = self._page(sheet)[cell]
        target.fill = PatternFill("solid", fgColor=CAUTION_WASH)
        target.comment = Comment(text, "shipcalc", height=110, width=320)

    def show(self, sheet: str, cell: str, text: str) -> None:
        """Say what the formula in a cell shows, for programs that show a file without computing."""
        self._shown.setdefault(self._page(sheet).title, {})[cell] = text

    def last_row(self, sheet: str) -> int:
        """Return the last row in which anything stands."""
        return int(self._page(sheet).max_row)

    def can_hold(self, sheet: str, cell: str) -> bool:
        """Return whether a cell can be written to: not one that a merged range covers."""
        return type(self._page(sheet)[cell]).__name__ != "MergedCell"

    def look_like(self, sheet: str, row: int, *, as_row: int) -> None:
        """Give the cells of a row the look of another row's."""
        page: Any = self._page(sheet)
        for cell in page[as_row]:
            page.cell(row, cell.column)._style = copy(cell._style)  # noqa: SLF001 - openpyxl's way of copying a style

    def put_label(self, sheet: str, cell: str, text: str, *, as_cell: str) -> None:
        """Write text to be read at a glance: a cell without a look gets that of another, a narrow column becomes wider."""
        self.put(sheet, cell, text)
        page: Any = self._page(sheet)
        target = page[cell]
        if not target.has_style:
            target._style = copy(page[as_cell]._style)  # noqa: SLF001
        column = page.column_dimensions[target.column_letter]
        column.width = max(column.width, min(len(text) + 2, _WIDEST_LABEL))

    def add_row(self, sheet: str, *, as_row: int) -> int:
        """Write a copy of a row, with its look and its formulas, below the last row that is filled, and return its number.

        A table, and the filter of the sheet, that end with that row take it in.
        """
        from openpyxl.formula.translate import Translator

        page: Any = self._page(sheet)
        below: int = max(cell.row for cells in page.iter_rows() for cell in cells if cell.value is not None)
        row = below + 1
        for cell in page[as_row]:
            target = page.cell(row, cell.column)
            value = cell.value
            if cell.data_type == "f" and isinstance(value, str):
                value = Translator(value, origin=cell.coordinate).translate_formula(target.coordinate)
            target.value, target.data_type, target._style = value, cell.data_type, copy(cell._style)  # noqa: SLF001
        page.row_dimensions[row].height = page.row_dimensions[as_row].height
        for table in page.tables.values():
            table.ref = _grown(table.ref, below)
            if table.autoFilter is not None:
                table.autoFilter.ref = _grown(table.autoFilter.ref, below)
        if page.auto_filter.ref:
            page.auto_filter.ref = _grown(page.auto_filter.ref, below)
        return row

    def keep_results(self, read: WorkbookFile, changed: Collection[str], *, aside: Collection[str] = ()) -> None:
        """Keep what formulas showed when the file was read, where nothing they reckon with stands on a sheet that was changed.

        Of the sheets `aside` nothing is kept: whoever opens the file computes them. Raises WrongInput where a formula reckons
        with what was changed: only a program that computes can say what it shows now.
        """
        formulas = [cell for page in self._book for row in page.iter_rows() for cell in row if cell.data_type == "f"]
        names = {str(name): str(told.attr_text) for name, told in self._book.defined_names.items()}
        for cell in formulas:
            if cell.parent.title in aside:
                continue
            meant = [str(cell.value), *(told for name, told in names.items() if name in str(cell.value))]
            if cell.parent.title in changed or any(_speaks_of(sheet, meant) for sheet in changed):
                raise WrongInput(
                    f"has a formula that may reckon with what is changed on {' and '.join(sorted(changed))}",
                    where=f"{read.name} › {cell.parent.title}!{cell.coordinate}",
                    remedy="write its value in its place, or type the figures in Excel, which computes it anew",
                )
            result = _result(read, cell.parent.title, cell.coordinate)
            if result:
                self.show(cell.parent.title, cell.coordinate, result)

    def add_sheet(self, name: str) -> str:
        """Add a sheet at the end and return its name."""
        return str(self._book.create_sheet(name).title)

    def reorder(self, sheet: str, order: Sequence[int]) -> None:
        """Put rows in another order: the places of `order`, from the topmost down, take its rows one after the other.

        Each row takes its look, height, notes and links along; a formula keeps pointing beside itself, as when Excel sorts.
        """
        page = self._page(sheet)
        rows = {row: _lifted(page, row) for row in order}
        for place, row in zip(sorted(order), order, strict=True):
            _lay(page, rows[row], place, from_row=row)

    def to_bytes(self) -> bytes:
        """Return the workbook as the bytes of an .xlsx file; the same changes give the same bytes."""
        for page in self._book.worksheets:
            fit_tables(page)
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            return packed(self._book, [self._shown.get(name, {}) for name in self._book.sheetnames])


def open_draft(path: Path) -> Draft:
    """Open a workbook for changing. Raises WrongInput where it cannot be read or is none."""
    try:
        content = read_file(path)
    except OSError as error:
        raise WrongInput(
            f"cannot be read ({why(error)})", where=str(path), remedy="check its name and permissions"
        ) from None
    return Draft(content, path.name)


def _left_out(content: bytes) -> tuple[str, ...]:
    with ZipFile(io.BytesIO(content)) as parts:
        names = parts.namelist()
        found = [told for start, told in _LOST_PARTS.items() if any(name.startswith(start) for name in names)]
        drawings = [name for name in names if name.startswith("xl/drawings/drawing")]
        if any(b"<xdr:sp " in parts.read(name) or b"<xdr:sp>" in parts.read(name) for name in drawings):
            found.append("drawn shapes")
    return tuple(found)


def _grown(area: str, below: int) -> str:
    """Return an area such as A1:F16, one row longer if it ends with the row `below`."""
    start, _, end = area.partition(":")
    letters = end.rstrip("0123456789")
    return f"{start}:{letters}{below + 1}" if end == f"{letters}{below}" else area


def _speaks_of(sheet: str, formulas: Sequence[str]) -> bool:
    return any(sheet.casefold() in formula.casefold() for formula in formulas)


def _result(read: WorkbookFile, sheet: str, cell: str) -> str:
    """Return what a formula showed, as the file keeps it; empty where nothing was saved."""
    from openpyxl.utils.cell import coordinate_to_tuple

    page = read.find_sheet(sheet)
    row, column = (number - 1 for number in coordinate_to_tuple(cell))
    value = page.rows[row][column] if page and row < len(page.rows) and column < len(page.rows[row]) else None
    if isinstance(value, date):  # a datetime is one, too
        day = value if isinstance(value, datetime) else datetime(value.year, value.month, value.day)  # noqa: DTZ001
        return str((day - _DAY_NOUGHT) / timedelta(days=1))
    return "" if value is None else str(value)


# The height of a row, and for each cell: value, kind, look, note, link.
Lifted = tuple[float | None, list[tuple[Any, str, Any, Any, Any]]]


def _lifted(page: Any, row: int) -> Lifted:
    cells = [
        (cell.value, cell.data_type, copy(cell._style), cell.comment, cell.hyperlink)  # noqa: SLF001
        for cell in page[row]
    ]
    for cell in page[row]:
        cell.comment = None
    return (page.row_dimensions[row].height, cells)


def _lay(page: Any, lifted: Lifted, place: int, *, from_row: int) -> None:
    from openpyxl.formula.translate import Translator

    height, cells = lifted
    page.row_dimensions[place].height = height
    for column, (value, kind, look, note, link) in enumerate(cells, 1):
        target = page.cell(place, column)
        if kind == "f" and isinstance(value, str):
            value = Translator(value, origin=f"{letter(column - 1)}{from_row}").translate_formula(target.coordinate)
        target.value, target.data_type, target.comment, target.hyperlink = value, kind, note, None
        if link is not None:
            target.hyperlink = link.target or link.location
        target._style = look  # noqa: SLF001 - last, since a link would bring a look of its own
