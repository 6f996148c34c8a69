"""A copy of somebody's workbook with cells marked: the one place that opens a workbook with openpyxl, to keep its formatting.

A mark is a ground, a frame and a comment that begins with a word, so that its weight is told without the colour. A list of all
marks stands in front. The original is given as bytes and never written to.
"""

import io
import warnings
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any
from zipfile import BadZipFile, ZipFile

from shipcalc.errors import WrongInput
from shipcalc.records import dataclass, replace
from shipcalc.sheets import look
from shipcalc.sheets.lettering import height_points, lines_needed
from shipcalc.sheets.packing import packed
from shipcalc.sheets.styling import clean, put_text
from shipcalc.sheets.tabled import fit_tables

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.cell.cell import Cell, MergedCell
    from openpyxl.worksheet.worksheet import Worksheet

LIST_NAME = "To correct"
MADE_BY_MARKING = "Marked copy"  # the file's category among its properties
_COMMENT_PX, _COMMENT_LETTERS, _PX_A_LINE = 340, 9, 17
_LIST_HEADERS = ("", "Cell", "What is wrong", "How to correct it")
_LIST_WIDTHS = (11, 30, 70, 70)


@dataclass(frozen=True, slots=True)
class Mark:
    """What is to be said about a cell. `sheet` and `cell` are empty where it concerns the whole workbook or sheet.

    `stops` marks what must be corrected; the rest is to be known.
    """

    sheet: str
    cell: str
    message: str
    remedy: str
    stops: bool

    @property
    def word(self) -> str:
        """Return how the mark begins."""
        return "To correct" if self.stops else "To know"


def marked_copy(name: str, content: bytes, marks: Sequence[Mark]) -> bytes:
    """Return a copy of an .xlsx file with its marks. Raises WrongInput where openpyxl cannot open the file."""
    from openpyxl import load_workbook

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # what the library cannot keep is missing in the copy only
            book = load_workbook(io.BytesIO(content))
    except (BadZipFile, KeyError, ValueError, TypeError, AttributeError, IndexError, OSError):
        remedy = "open it in Excel, save it again as .xlsx and check it once more"
        raise WrongInput("cannot be opened to mark its cells", where=name, remedy=remedy) from None
    for mark in marks:
        sheet = _sheet_of(book, mark)
        if sheet is not None:
            sheet.sheet_state = "visible"
            if mark.cell:
                _mark(sheet, mark)
    for page in book.worksheets:
        fit_tables(page)
    _put_list(book, name, marks)
    book.properties.category = MADE_BY_MARKING
    return packed(book, [{} for _ in book.worksheets])


def is_marked_copy(content: bytes) -> bool:
    """Return whether the bytes are a file that `marked_copy` made."""
    try:
        with ZipFile(io.BytesIO(content)) as parts:
            return MADE_BY_MARKING.encode() in parts.read("docProps/core.xml")
    except (BadZipFile, KeyError, OSError):
        return False


def _sheet_of(book: "Workbook", mark: Mark) -> "Worksheet | None":
    wanted = mark.sheet.strip().casefold()
    return next((sheet for sheet in book.worksheets if sheet.title.strip().casefold() == wanted), None)


def _mark(sheet: "Worksheet", mark: Mark) -> None:
    from openpyxl.comments import Comment
    from openpyxl.styles import Border, PatternFill, Side

    cell = _writable(sheet, mark.cell)
    earlier = cell.comment.text if cell.comment else ""
    if mark.stops or not _is_marked(cell):
        ground = look.FAULT_GROUND if mark.stops else look.CAUTION_WASH
        side = Side("medium" if mark.stops else "dashed", color=look.CAUTION_INK)
        cell.fill = PatternFill("solid", fgColor=ground)
        cell.border = Border(left=side, right=side, top=side, bottom=side)
        _ground_first(sheet, mark.cell, ground)
    told = f"{mark.word}: {mark.message}"
    text = "\n\n".join(part for part in (f"{told} — {mark.remedy}" if mark.remedy else told, earlier) if part)
    lines = lines_needed(text, _COMMENT_PX, _COMMENT_LETTERS) + 1
    cell.comment = Comment(clean(text), "shipcalc", height=lines * _PX_A_LINE, width=_COMMENT_PX)
    sheet.row_dimensions[cell.row].hidden = False
    sheet.column_dimensions[cell.column_letter].hidden = False


def _ground_first(sheet: "Worksheet", cell: str, ground: str) -> None:
    """Show the ground of a mark before any that the workbook itself gives by a rule, as it tints prices."""
    from openpyxl.formatting.rule import FormulaRule
    from openpyxl.styles import PatternFill

    for area in sheet.conditional_formatting:
        for rule in area.rules:
            rule.priority += 1
    first = FormulaRule(["TRUE"], fill=PatternFill("solid", bgColor=ground))  # type: ignore[no-untyped-call]
    first.priority = 1
    sheet.conditional_formatting.add(cell, first)


def _writable(sheet: "Worksheet", address: str) -> "Cell":
    """Return the cell, or the first one of those that it is merged with."""
    from openpyxl.cell.cell import Cell

    found: Cell | MergedCell = sheet[address]
    if isinstance(found, Cell):
        return found
    first = next(area.start_cell for area in sheet.merged_cells.ranges if address in area)
    assert isinstance(first, Cell), "the first of merged cells holds the value"
    return first


def _is_marked(cell: "Cell") -> bool:
    return cell.fill.fill_type == "solid" and str(cell.fill.fgColor.rgb) == f"00{look.FAULT_GROUND}"


def _put_list(book: "Workbook", name: str, marks: Sequence[Mark]) -> None:
    """Put the list of all marks in front, each with a link to its cell."""
    page: Worksheet = book.create_sheet(LIST_NAME, 0)
    book.active = 0
    for sheet in book.worksheets:
        sheet.sheet_view.tabSelected = sheet is page
    page.sheet_view.showGridLines = False
    stops = sum(mark.stops for mark in marks)
    _write(page, 1, 1, f"{name}: {stops} to correct, {len(marks) - stops} to know", look.TITLE)
    told = (
        "This is a copy: correct the cells in your own workbook. In the copy they are framed, and each has a comment."
    )
    _write(page, 2, 1, told, look.SUBTITLE)
    page.row_dimensions[1].height = 30
    for column, (header, width) in enumerate(zip(_LIST_HEADERS, _LIST_WIDTHS, strict=True), 1):
        _write(page, 4, column, header, look.HEADER)
        page.column_dimensions["ABCD"[column - 1]].width = width
    for row, mark in enumerate(marks, 5):
        style = look.CAUTION_STRONG if mark.stops else look.TEXT
        _write(page, row, 1, mark.word, replace(style, wrap=True))
        where = f"{mark.sheet}!{mark.cell}" if mark.cell else mark.sheet or name
        link = _write(page, row, 2, where, look.TEXT)
        target = _sheet_of(book, mark)
        if target is not None:
            link.hyperlink = f"#'{target.title.replace(chr(39), chr(39) * 2)}'!{mark.cell or 'A1'}"
        for column, text in ((3, mark.message), (4, mark.remedy)):
            _write(page, row, column, text, look.TEXT)
        lines = max(lines_needed(text, 70 * 7, look.TEXT.size) for text in (mark.message, mark.remedy))
        page.row_dimensions[row].height = height_points(lines, look.TEXT.size)
    page.freeze_panes = "A5"
    page.page_setup.orientation = "landscape"
    page.page_setup.fitToWidth, page.page_setup.fitToHeight = 1, 0
    page.sheet_properties.pageSetUpPr = _fitted()


def _write(page: "Worksheet", row: int, column: int, text: str, style: look.Style) -> "Cell":
    from openpyxl.styles import Alignment, Border, Font, PatternFill, Side

    cell: Any = page.cell(row, column)
    put_text(cell, text)
    cell.font = Font(name=look.FONT, size=style.size, bold=style.bold, color=style.ink)
    cell.alignment = Alignment(vertical="top" if style.wrap else "center", wrap_text=style.wrap or None)
    if style.below:
        cell.border = Border(bottom=Side(style.below, color=style.rule_ink))
    if style.ground:
        cell.fill = PatternFill("solid", fgColor=style.ground)
    return cell  # type: ignore[no-any-return]


def _fitted() -> Any:
    from shipcalc.sheets.styling import page_fitting

    return page_fitting(True)
