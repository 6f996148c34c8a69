"""One sheet of a rate workbook, from the description of its rows: headers, cells, what folds away, how it prints."""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from shipcalc.ratebook.rows.sheet_kind import SheetKind
from shipcalc.ratebook.starter.by_row import cell_told
from shipcalc.ratebook.starter.drop_downs import drop_down
from shipcalc.ratebook.starter.order import FIGURES, columns_in_order, theme_of
from shipcalc.ratebook.starter.styles import REQUIRED_MARK, cell_style, header_style
from shipcalc.ratebook.workbook.columns import Column, Kind, Row
from shipcalc.ratebook.workbook.conditions import FACTS
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.ratebook.workbook.written import CellText, cell_of, number_format
from shipcalc.records import dataclass
from shipcalc.sheets import look
from shipcalc.sheets.lettering import WIDEST_PIXELS_PER_UNIT
from shipcalc.sheets.reading import letter
from shipcalc.sheets.writing import Book, Margins, Page

# Drop-downs and grounds reach this far down, so that new rows have them too.
LAST_ROW = 400
_NARROWEST, _WIDEST, _WIDEST_WRAPPED = 9, 44, 66
_FEWEST_LINES = 3  # a column gets wider before its longest text takes more lines than these
_FROZEN_WIDEST = 64
_LONGEST_SIDE_IN, _PIXELS_PER_INCH = 11, 96  # letter paper
_MARGINS = Margins(left=0.4, right=0.4, top=0.5, bottom=0.6)
_LEAST_SCALE = 0.62  # of full size: letters of 10 points are printed in more than 6
_FOLDED_THEMES = (Theme.WHEN, Theme.LIMIT)


@dataclass(frozen=True, slots=True)
class _Placed:
    """A column where it stands: its letter, what it is about, its cells from row 2 on, what each is, how wide it is."""

    at: str
    column: Column
    theme: Theme
    cells: tuple[CellText, ...]
    width: float
    own: tuple[Column, ...]
    format: str
    formats: tuple[str, ...]

    @property
    def is_figure(self) -> bool:
        return self.column.kind in FIGURES

    @property
    def is_empty(self) -> bool:
        return bool(self.cells) and not self.column.required and all(cell is None for cell in self.cells)


class SheetTold(NamedTuple):
    """What the front sheet tells of a sheet: its name, its lines, how many rows, its columns by field."""

    kind: SheetKind
    rows: Sequence[Row]
    letters: Mapping[str, str]


def write_sheet(
    book: Book, kind: SheetKind, rows: Sequence[Row], *, currency: str, named: Mapping[str, str], tab: str
) -> SheetTold:
    """Write a sheet with its rows, and return what the front sheet tells of it."""
    placed = tuple(_placed(kind, rows, currency))
    page = book.page(kind.name, landscape=True)
    page.tab(tab)
    page.hide_gridlines(False)
    last_row = max(LAST_ROW, len(rows) + 100)
    for one in placed:
        _write_column(page, one, last_row, named)
    for number in range(2, len(rows) + 2):
        _fit_row(page, number, placed)
    last = placed[-1].at
    frozen = _frozen(placed)
    page.freeze(f"{letter(frozen)}2")
    page.table(f"A1:{last}{max(len(rows) + 1, 2)}")
    _grounds(page, placed, last_row)
    _fold(page, placed)
    _print(page, placed, frozen, rows)
    fields = columns_in_order(kind.row_type)
    return SheetTold(kind, rows, {field: one.at for field, one in zip(fields, placed, strict=True)})


def _placed(kind: SheetKind, rows: Sequence[Row], currency: str) -> Iterator[_Placed]:
    for index, (field, column) in enumerate(columns_in_order(kind.row_type).items()):
        told = [cell_told(row, field, column) for row in rows]
        own, cells = [one for one, _ in told], tuple(cell_of(value, one, currency) for one, value in told)
        shape, formats = number_format(column, currency), tuple(number_format(one, currency) for one in own)
        width = _width(column, [str(cell) for cell in cells if cell is not None])
        yield _Placed(letter(index), column, theme_of(field, column), cells, width, tuple(own), shape, formats)


def _write_column(page: Page, one: _Placed, last_row: int, named: Mapping[str, str]) -> None:
    header = one.column.header + (REQUIRED_MARK if one.column.required else "")
    style = cell_style(one.theme, is_figure=one.is_figure)
    page.widths({one.at: one.width})
    page.column_style(one.at, style, one.format)
    head = header_style(one.theme, one.column, is_figure=one.is_figure)
    page.put(f"{one.at}1", header, head)
    page.fit_height(1, one.at, header, head, least_height=30)
    note = _note(one.column, one.theme)
    page.note(f"{one.at}1", note, height_px=max(90, 16 * _lines_of(note) + 14))
    for number, (cell, own, shown_as) in enumerate(zip(one.cells, one.own, one.formats, strict=True), 2):
        if cell is not None:
            page.put(f"{one.at}{number}", cell, cell_style(one.theme, is_figure=own.kind in FIGURES), shown_as)
        if own is not one.column:
            drop_down(page, f"{one.at}{number}", own, named)
    drop_down(page, f"{one.at}2:{one.at}{last_row}", one.column, named)


def _fit_row(page: Page, number: int, placed: Sequence[_Placed]) -> None:
    for one in placed:
        cell = one.cells[number - 2]
        if isinstance(cell, str) and len(cell) > one.width * 0.8:
            style = cell_style(one.theme, is_figure=one.is_figure)
            page.fit_height(number, one.at, cell, style, least_height=look.ROW_POINTS)


def _frozen(placed: Sequence[_Placed]) -> int:
    """Return how many columns stay in sight: those that name a row, while they leave room for others."""
    count, wide = 0, 0.0
    for one in placed:
        wide += one.width
        if one.theme is not Theme.NAME or wide > _FROZEN_WIDEST:
            break
        count += 1
    return max(count, 1)


def _grounds(page: Page, placed: Sequence[_Placed], last_row: int) -> None:
    """Tint prices, every other row, and what a filled row still lacks; they follow the rows as they are filled."""
    last = placed[-1].at
    filled = f"COUNTA($A2:${last}2)>0"
    for first, end in _runs(placed, lambda one: one.column.required):
        lacking = f'AND({filled},TRIM({first}2)="")'
        page.highlight(f"{first}2:{end}{last_row}", lacking, ground=look.FAULT_GROUND)
    for first, end in _runs(placed, lambda one: one.theme is Theme.PRICE):
        page.highlight(f"{first}2:{end}{last_row}", f"AND({filled},MOD(ROW(),2)=1)", ground=look.PRICE_BAND)
        page.highlight(f"{first}2:{end}{last_row}", filled, ground=look.PRICE_WASH)
    page.highlight(f"A2:{last}{last_row}", f"AND({filled},MOD(ROW(),2)=1)", ground=look.BAND)


def _fold(page: Page, placed: Sequence[_Placed]) -> None:
    """Let conditions and limits fold away; those that no row uses are folded, one level deeper. Blank forms show all."""
    for theme in _FOLDED_THEMES:
        for first, last in _runs(placed, lambda one, theme=theme: one.theme is theme):
            page.fold_columns(first, last, level=1, folded=False)
    for first, last in _runs(placed, lambda one: one.theme in _FOLDED_THEMES and one.is_empty):
        page.fold_columns(first, last, level=2, folded=True)


def _print(page: Page, placed: Sequence[_Placed], frozen: int, rows: Sequence[Row]) -> None:
    """Print on as few pages side by side as letters of a size that can be read allow; names stand on each."""
    page.print_on(page.book.paper, landscape=True, margins=_MARGINS)
    page.print_area(f"A1:{placed[-1].at}{max(len(rows) + 1, 2)}")
    page.repeat_rows(1, 1)
    page.footer(f"{page.name}")
    room = (_LONGEST_SIDE_IN - _MARGINS.left - _MARGINS.right) / _LEAST_SCALE
    inches = [
        0.0 if one.is_empty and one.theme in _FOLDED_THEMES else one.width * WIDEST_PIXELS_PER_UNIT / _PIXELS_PER_INCH
        for one in placed
    ]
    repeated = sum(inches[:frozen])
    if sum(inches) > room:
        page.repeat_columns("A", placed[frozen - 1].at)
        page.pages_wide(-int(-(sum(inches) - repeated) // (room - repeated)))


def _runs(placed: Sequence[_Placed], is_meant: object) -> Iterator[tuple[str, str]]:
    """Yield the first and last letter of each run of columns that are meant."""
    assert callable(is_meant)
    run: list[str] = []
    for one in placed:
        if is_meant(one):
            run.append(one.at)
        elif run:
            yield run[0], run[-1]
            run = []
    if run:
        yield run[0], run[-1]


def _note(column: Column, theme: Theme) -> str:
    """Return the note on a header: what belongs there, whether it must be filled, an example."""
    lines = [column.note, *_of_the_unknown(column), "Must be filled." if column.required else "May be blank."]
    if column.choices and column.kind is Kind.CHOICE:
        lines.insert(1, f"One of: {', '.join(column.choices)}.")
    if column.example:
        lines.append(f"Example: {column.example}")
    if theme is Theme.WHEN:
        lines.append("A condition: the row holds only where it is met; blank is always met.")
    return "\n".join(lines)


def _lines_of(note: str) -> int:
    """Return how many lines a note takes, some forty letters each."""
    return sum(-(-len(line) // 40) for line in note.split("\n"))


def _of_the_unknown(column: Column) -> Iterator[str]:
    """Yield what a condition means for a vehicle, or a ship, of which nobody knows what it asks."""
    asked = column.condition
    if asked is not None and asked.unknown is not None and FACTS[asked.fact].about in ("vehicle", "departure"):
        yield f"Where that is not known, the condition is {asked.unknown}."


def _width(column: Column, cells: Sequence[str]) -> float:
    header = max(len(word) for word in (column.header + REQUIRED_MARK).split(" ")) + 2
    header = max(header, (len(column.header) + 2) // 2 + 3)
    longest = max((len(cell) for cell in cells), default=0) + (4 if column.kind in FIGURES else 3)
    if longest > _WIDEST:
        longest = min(max(_WIDEST, longest // _FEWEST_LINES), _WIDEST_WRAPPED)
    return float(max(header, longest, _NARROWEST))
