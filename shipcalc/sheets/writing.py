"""Workbooks out: the one door to openpyxl.

    book = Book(title="Quote", creator="Heron & Vale Motors", made=date(2026, 12, 1), paper="letter")
    page = book.page("Offer", widths=(24, 16, 16))
    page.put("A1", "A quiet title", look.TITLE)
    page.put_formula("B5", "SUM(B3:B4)", look.SUM.shown_as(look.money_format(2)), shows=Decimal("1234.50"))
    book.save(path)

What a person typed is always text: only `put_formula` makes a formula, and nothing makes a link. The same calls give the
same bytes, and the file names its maker and no program beside ours.
"""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime, time
from decimal import Decimal
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from shipcalc.records import dataclass
from shipcalc.sheets import look
from shipcalc.sheets.lettering import PIXELS_PER_POINT, column_px, height_points, lines_needed
from shipcalc.sheets.look import Style
from shipcalc.sheets.packing import packed
from shipcalc.sheets.reading import letter
from shipcalc.sheets.saving import save
from shipcalc.sheets.styling import clean, named_style, page_fitting, put_text, set_normal_letters
from shipcalc.sheets.tabled import Tabled

if TYPE_CHECKING:
    from openpyxl.cell.cell import Cell
    from openpyxl.chart._chart import ChartBase
    from openpyxl.worksheet.worksheet import Worksheet

Paper = Literal["letter", "a4"]
Value = str | int | float | bool | Decimal | date | datetime | time | None

PAPERS: Mapping[str, int] = {"letter": 1, "a4": 9}  # ECMA-376 part 1, 18.3.1.63 (paperSize)
_LONGEST_SHEET_NAME = 31
_NOT_IN_SHEET_NAMES = str.maketrans("", "", "[]:*?/\\'")
_LONGEST_LIST = 255


@dataclass(frozen=True, slots=True)
class Margins:
    """Margins of a printed page, in inches."""

    left: float = 0.6
    right: float = 0.6
    top: float = 0.6
    bottom: float = 0.6


USUAL_MARGINS = Margins()


class Book:
    """A workbook being written. `made` is the only date it carries; `paper` the size its pages print on.

    `accent` (#RRGGBB) is what stands in the place of our own dark colour.
    """

    def __init__(
        self, *, title: str, creator: str, made: date, paper: Paper = "letter", subject: str = "", accent: str = ""
    ) -> None:
        from openpyxl import Workbook

        self.paper: Paper = paper
        self.creator = creator
        self._accent = accent.removeprefix("#") or look.ACCENT
        self.shown: list[dict[str, str]] = []  # what each formula shows, by sheet and cell
        self._book: Workbook = Workbook()
        self._book.remove(self._book.worksheets[0])
        self._styles: set[str] = set()
        set_normal_letters(self._book)
        moment = datetime.combine(made, time(12))
        properties = self._book.properties
        properties.title, properties.subject = clean(title), clean(subject) or None
        properties.creator = properties.lastModifiedBy = clean(creator)
        properties.created = properties.modified = moment

    def page(self, name: str, *, widths: Sequence[float] = (), landscape: bool = False) -> "Page":
        """Add a sheet, ready to print on the book's paper, fitted to its width. `widths` are those of A, B, C …"""
        title = self._free_name(name)
        sheet = self._book.create_sheet(title)
        self.shown.append({})
        page = Page(self, sheet, self.shown[-1])
        page.widths(widths)
        page.print_on(self.paper, landscape=landscape)
        return page

    def define_name(self, name: str, formula: str) -> None:
        """Give what a formula (without "=") leads to a name that other formulas can use."""
        from openpyxl.workbook.defined_name import DefinedName

        self._book.defined_names[name] = DefinedName(name, attr_text=formula)

    def to_bytes(self) -> bytes:
        """Return the workbook as the bytes of an .xlsx file; the same calls give the same bytes."""
        return packed(self._book, self.shown)

    def save(self, path: Path) -> None:
        """Write the workbook. Raises WrongInput where the place cannot be written; what stood there then stays whole."""
        save(path, self.to_bytes())

    def style_name(self, style: Style) -> str:
        """Return the name of a style, making it known to the workbook when it is first used."""
        if style.name not in self._styles:
            self._book.add_named_style(named_style(look.accented(style, self._accent)))
            self._styles.add(style.name)
        return style.name

    def _free_name(self, name: str) -> str:
        wanted = clean(name).translate(_NOT_IN_SHEET_NAMES).strip() or "Sheet"
        taken = {title.casefold() for title in self._book.sheetnames}
        title, number = wanted[:_LONGEST_SHEET_NAME].rstrip(), 2
        while title.casefold() in taken:
            ending = f" {number}"
            title, number = wanted[: _LONGEST_SHEET_NAME - len(ending)].rstrip() + ending, number + 1
        return title


class Page(Tabled):
    """One sheet. Cells are named as in Excel ("B4"), rows are counted from 1, columns by letter."""

    def __init__(self, book: Book, sheet: "Worksheet", shown: dict[str, str]) -> None:
        self.book = book
        self.name = sheet.title
        self._sheet = sheet
        sheet.sheet_format.defaultRowHeight = look.ROW_POINTS
        self._shown = shown
        self.hide_gridlines()

    # Cells

    def put(self, cell: str, value: Value, style: Style = look.BODY, number_format: str = "") -> None:
        """Write a value. Text stays text, whatever it begins with."""
        target = self._styled(cell, style, number_format)
        if isinstance(value, str):
            put_text(target, value)
        else:
            target.value = value

    def put_formula(
        self, cell: str, formula: str, style: Style = look.FIGURE, number_format: str = "", *, shows: Value = None
    ) -> None:
        """Write a formula, without its "=". `shows` is its result, for programs that show a file without computing."""
        target = self._styled(cell, style, number_format)
        target.value = f"={formula}"
        if shows is not None:
            self._shown[cell] = str(shows)

    def put_row(self, row: int, values: Iterable[Value], style: Style = look.BODY, *, first: str = "A") -> None:
        """Write values side by side from column `first` on."""
        start = column_number(first)
        for offset, value in enumerate(values):
            self.put(f"{letter(start + offset)}{row}", value, style)

    def fill_style(self, cells: str, style: Style) -> None:
        """Give every cell of a range a style (for rules and grounds that run across)."""
        for row in self._sheet[cells]:
            for cell in row:
                cell.style = self.book.style_name(style)

    def paragraph(self, row: int, columns: str, text: str, style: Style = look.TEXT, *, least_height: float = 0) -> int:
        """Write wrapped text across columns ("B:F") and make the row as high as the text needs; return the next row."""
        first, _, last = columns.partition(":")
        last = last or first
        if first != last:
            self.merge(f"{first}{row}:{last}{row}")
            self.fill_style(f"{first}{row}:{last}{row}", style)
        self.put(f"{first}{row}", text, style)
        self.fit_height(row, columns, text, style, least_height=least_height)
        return row + 1

    def band(self, row: int, columns: str, text: str, style: Style, *, at: str = "A") -> None:
        """Write text into column `at`, in a style that runs on across all columns ("A:F")."""
        first, _, last = columns.partition(":")
        self.fill_style(f"{first}{row}:{last}{row}", style)
        self.put(f"{at}{row}", text, style)

    def heading(self, row: int, columns: str, title: str, *, above: float) -> int:
        """Write a heading across columns, with so many points of white space above it; return the first row under it."""
        self.height(row, above)
        self.band(row + 1, columns, title, look.HEADING)
        self.height(row + 1, 20)
        self.height(row + 2, 3)
        return row + 3

    def fit_height(self, row: int, columns: str, text: str, style: Style, *, least_height: float = 0) -> None:
        """Make a row high enough for wrapped text that stands in those columns; never lower than it is already."""
        needed = self.text_height(columns, text, style)
        self.height(row, max(needed, least_height, self._sheet.row_dimensions[row].height or 0))

    def text_height(self, columns: str, text: str, style: Style) -> float:
        """Return how many points high wrapped text is in those columns."""
        room_px = self.room_px(columns) - style.indent * 9
        return height_points(lines_needed(text, room_px, style.size, bold=style.bold), style.size)

    def room_px(self, columns: str) -> float:
        """Return how many pixels wide some columns ("B:F") are together."""
        first, _, last = columns.partition(":")
        numbers = range(column_number(first), column_number(last or first) + 1)
        return sum(column_px(self._sheet.column_dimensions[letter(number)].width) for number in numbers)

    def merge(self, cells: str) -> None:
        """Join cells into one."""
        self._sheet.merge_cells(cells)

    def note(self, cell: str, text: str, *, width_px: int = 260, height_px: int = 90) -> None:
        """Attach a note that shows when the pointer rests on the cell."""
        from openpyxl.comments import Comment

        self._sheet[cell].comment = Comment(clean(text), clean(self.book.creator), height=height_px, width=width_px)

    def drop_down(
        self, cells: str, choices: Sequence[str] | str, *, message: str = "", strict: bool = True, blank: bool = True
    ) -> None:
        """Offer choices in cells: a few words (no commas in them), or the address of the cells that hold them.

        `message` tells who types something else what is wanted; where not `strict`, other words are allowed after a warning,
        and where there is no message, without one.
        """
        from openpyxl.worksheet.datavalidation import DataValidation

        source = f"={choices}" if isinstance(choices, str) else '"' + ",".join(choices) + '"'
        assert isinstance(choices, str) or len(source) <= _LONGEST_LIST, f"too many choices for one cell: {source}"
        rule = DataValidation(
            "list", source, allow_blank=blank, error=message or None, errorStyle="stop" if strict else "warning"
        )
        rule.showErrorMessage = strict or bool(message)
        rule.add(cells)
        self._sheet.add_data_validation(rule)

    def highlight(self, cells: str, formula: str, *, ink: str = "", ground: str = "", bold: bool = False) -> None:
        """Show cells otherwise where a formula (without "=") holds; give the reader a word for it too, not colour alone."""
        from openpyxl.formatting.rule import FormulaRule
        from openpyxl.styles import Font, PatternFill

        font = Font(color=ink or None, bold=bold or None) if ink or bold else None
        fill = PatternFill("solid", bgColor=ground) if ground else None
        self._sheet.conditional_formatting.add(cells, FormulaRule([formula], font=font, fill=fill))  # type: ignore[no-untyped-call]

    def filter(self, cells: str) -> None:
        """Put filter arrows on a header row and what stands under it."""
        self._sheet.auto_filter.ref = cells

    # Layout

    def widths(self, widths: Sequence[float] | Mapping[str, float]) -> None:
        """Set column widths in Excel's units (figures of the normal font): in order from A, or by letter."""
        named = widths if isinstance(widths, Mapping) else {letter(i): width for i, width in enumerate(widths)}
        for column, width in named.items():
            self._sheet.column_dimensions[column].width = width

    def height(self, row: int, points: float) -> None:
        """Set a row's height."""
        self._sheet.row_dimensions[row].height = points

    def row_height(self, row: int) -> float:
        """Return a row's height in points."""
        return float(self._sheet.row_dimensions[row].height or look.ROW_POINTS)

    def freeze(self, cell: str) -> None:
        """Keep what is above and to the left of a cell in sight."""
        self._sheet.freeze_panes = cell

    def hide(self) -> None:
        """Take the sheet out of sight, and so out of what is printed; who looks for it may show it again."""
        self._sheet.sheet_state = "hidden"

    def hide_gridlines(self, hidden: bool = True) -> None:
        """Hide the grid on the screen (pages start without it)."""
        self._sheet.sheet_view.showGridLines = not hidden

    # Printing

    def print_on(
        self,
        paper: Paper,
        *,
        landscape: bool = False,
        margins: Margins = USUAL_MARGINS,
        pages_high: int = 0,
        percent: int = 0,
    ) -> None:
        """Print on a paper size, fitted to one page in width; `pages_high` 0 takes as many pages as needed.

        With `percent` nothing is fitted and the page is printed at that size: only then does Excel heed `page_break`.
        """
        setup = self._sheet.page_setup
        setup.paperSize = PAPERS[paper]
        setup.orientation = "landscape" if landscape else "portrait"
        setup.fitToWidth, setup.fitToHeight, setup.scale = 1, pages_high, percent or None
        self._sheet.sheet_properties.pageSetUpPr = page_fitting(not percent)
        self._sheet.print_options.horizontalCentered = True
        edges = self._sheet.page_margins
        edges.left, edges.right, edges.top, edges.bottom = margins.left, margins.right, margins.top, margins.bottom
        edges.header = edges.footer = 0.35

    def print_area(self, cells: str) -> None:
        """Print these cells only."""
        self._sheet.print_area = cells

    def repeat_rows(self, first: int, last: int) -> None:
        """Print these rows again at the head of every page."""
        self._sheet.print_title_rows = f"{first}:{last}"

    def page_break(self, after_row: int) -> None:
        """Begin a new printed page after a row."""
        from openpyxl.worksheet.pagebreak import Break

        self._sheet.row_breaks.append(Break(id=after_row))

    def footer(self, left: str = "", right: str = "Page &P of &N") -> None:
        """Set the foot of the printed page. In `right`, &P is the page and &N how many there are; `left` is plain text."""
        foot = self._sheet.oddFooter
        assert foot is not None  # openpyxl makes it with the sheet
        for part, text in ((foot.left, clean(left).replace("&", "&&")), (foot.right, right)):
            assert part is not None  # openpyxl makes all three parts of a foot
            part.text, part.font, part.size, part.color = text or None, f"{look.FONT},Regular", 8, look.GREY

    # Pictures, and charts (made by `sheets.charts`)

    def place_picture(self, anchor: str, file: bytes, *, width: float, height: float) -> None:
        """Lay a picture (PNG, JPEG) over the sheet, so many points wide and high, its upper left corner in a cell."""
        from openpyxl.drawing.image import Image

        picture: Any = Image(BytesIO(file))
        picture.width, picture.height = (round(points * PIXELS_PER_POINT) for points in (width, height))
        self._sheet.add_image(picture, anchor)

    def place_chart(self, anchor: str, chart: "ChartBase", *, width_cm: float, height_cm: float) -> None:
        """Lay a native chart over the sheet, its upper left corner in a cell."""
        chart.width, chart.height = width_cm, height_cm  # type: ignore[assignment] # stubs say int
        self._sheet.add_chart(chart, anchor)

    # Addresses

    def address(self, cells: str) -> str:
        """Return the full address of cells for a formula on another sheet: 'Line by line'!$B$4."""
        from openpyxl.utils import absolute_coordinate

        return f"'{self.name}'!{absolute_coordinate(cells)}"

    def _styled(self, cell: str, style: Style, number_format: str) -> "Cell":
        target: Cell = self._sheet[cell]
        target.style = self.book.style_name(style)
        if number_format:
            target.number_format = number_format
        return target


def serial_day(day: date) -> int:
    """Return the number by which Excel keeps a day: what a formula shows that comes to it (ECMA-376 part 1, 18.17.4.1)."""
    return (day - date(1899, 12, 30)).days


def column_number(letters: str) -> int:
    """Return a column counted from 0: A → 0, AA → 26."""
    number = 0
    for sign in letters:
        number = number * 26 + ord(sign) - ord("A") + 1
    return number - 1
