"""Workbooks made from the descriptions of the rows: what the manager fills in, with notes, drop-downs and formats."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from pathlib import Path

from shipcalc.ratebook.checks.names import naming_field
from shipcalc.ratebook.rows.sheet_kind import SheetKind
from shipcalc.ratebook.rows.tables import SHEETS, WORKBOOKS
from shipcalc.ratebook.workbook.columns import Column, Kind, Row, columns_of
from shipcalc.ratebook.workbook.conditions import FACTS
from shipcalc.ratebook.workbook.written import cell_of, number_format
from shipcalc.records import replace
from shipcalc.sheets import look
from shipcalc.sheets.look import Style
from shipcalc.sheets.reading import letter
from shipcalc.sheets.writing import Book, Page

# Drop-downs and formats reach this far down, so that new rows have them too.
LAST_ROW = 400
# A blank that does not break: the star never stands on a line of its own.
REQUIRED_MARK = "\u00a0*"
_BELOW_A_RULE_POINTS = 4

HEADER = Style("Rate header", size=9, bold=True, ink=look.ACCENT, wrap=True, upright="bottom", below="medium")
HEADER_MAY_BE_BLANK = Style(
    "Rate header, may be blank", size=9, ink=look.GREY, wrap=True, upright="bottom", below="thin"
)
CELL = Style("Rate cell")
TEXT_CELL = Style("Rate text", indent=1)
LONG_TEXT = Style("Rate text, running", indent=1, wrap=True)
_FIGURES = frozenset((Kind.MONEY, Kind.RATE, Kind.PERCENT, Kind.LENGTH, Kind.MASS, Kind.MILES, Kind.WHOLE, Kind.FACTOR))
_NARROWEST, _WIDEST, _WIDEST_NAME = 9, 44, 66
_MOST_ROWS_TO_WRAP = 30  # a short sheet is read whole; a long one is scanned, and its rows stay one line high


def write_workbook(
    path: Path,
    rows: Mapping[str, Sequence[Row]],
    *,
    about: Sequence[str] = (),
    currency: str = "USD",
    made: date = date(2026, 1, 1),
) -> None:
    """Write the workbook whose name is `path.name` (trucking.xlsx or paperwork.xlsx), Notes first.

    `rows` maps a sheet's name to its rows; a sheet without rows gets its headers alone. `about` is what the Notes sheet says
    first, one paragraph each. Reading the workbook gives the same rows back.
    """
    kinds = WORKBOOKS[path.name]
    book = Book(title=f"Rate book: {path.stem}", creator="shipcalc", made=made)
    _notes(book, path.stem, kinds, about)
    last_rows = {kind.name: max(LAST_ROW, len(rows.get(kind.name, ())) + 100) for kind in kinds}
    for kind in kinds:
        _sheet(book, kind, rows.get(kind.name, ()), currency, last_rows)
    book.save(path)


def columns_in_order(row_type: type[Row]) -> dict[str, Column]:
    """Return the columns as they stand in a new sheet: the names of a row first, then the rest as it is described."""
    columns = columns_of(row_type)
    first = naming_field(row_type)
    names = [
        field
        for field, column in columns.items()
        if column.required and column.kind in (Kind.CODE, Kind.TEXT, Kind.COUNTRY) and field != "source"
    ]
    names.sort(key=lambda field: field != first)
    return {field: columns[field] for field in dict.fromkeys((*names, *columns))}


def _notes(book: Book, stem: str, kinds: Sequence[SheetKind], about: Sequence[str]) -> None:
    page = book.page("Notes", widths=(22, 100))
    page.put("A1", f"Rate book: {stem}", look.TITLE)
    page.height(1, 30)
    row = 2
    for paragraph in (*about, *_HOW_TO):
        row = page.paragraph(row, "A:B", paragraph, look.TEXT)
    for kind in kinds:
        row += 1
        page.put(f"A{row}", kind.name, look.HEADING)
        page.put(f"B{row}", "", look.HEADING)
        row += 1
        page.height(row, _BELOW_A_RULE_POINTS)
        for line in kind.about:
            row += 1
            page.paragraph(row, "B", line, look.TEXT)
        row += 1


def _sheet(book: Book, kind: SheetKind, rows: Sequence[Row], currency: str, last_rows: Mapping[str, int]) -> None:
    columns = columns_in_order(kind.row_type)
    page = book.page(kind.name, landscape=True)
    page.hide_gridlines(False)
    wraps = len(rows) <= _MOST_ROWS_TO_WRAP
    for index, (field, column) in enumerate(columns.items()):
        at = letter(index)
        page.put(f"{at}1", column.header + (REQUIRED_MARK if column.required else ""), _header_style(column))
        note = _note(column)
        page.note(f"{at}1", note, height_px=max(90, 16 * _lines_of(note) + 14))
        cells = [cell_of(getattr(row, field), column, currency) for row in rows]
        shape = number_format(column, currency)
        style = CELL.aligned("right") if column.kind in _FIGURES else TEXT_CELL
        widest = _WIDEST_NAME if field == naming_field(kind.row_type) else _WIDEST
        page.widths({at: _width(column, [str(cell) for cell in cells if cell is not None], widest)})
        for number, cell in enumerate(cells, 2):
            if cell is None:
                continue
            runs_on = wraps and style is TEXT_CELL and len(str(cell)) > widest
            page.put(f"{at}{number}", cell, LONG_TEXT if runs_on else style, shape)
            if runs_on:
                page.fit_height(number, at, str(cell), LONG_TEXT, least_height=look.ROW_POINTS)
        _drop_down(page, f"{at}2:{at}{last_rows[kind.name]}", column, last_rows)
    page.height(1, 42)
    page.freeze("B2" if naming_field(kind.row_type) or kind.name == "Per mile" else "A2")
    page.filter(f"A1:{letter(len(columns) - 1)}{max(len(rows) + 1, 2)}")
    page.repeat_rows(1, 1)


def _header_style(column: Column) -> Style:
    style = HEADER if column.required else HEADER_MAY_BE_BLANK
    return style.aligned("right") if column.kind in _FIGURES else replace(style, name=f"{style.name}, text", indent=1)


def _note(column: Column) -> str:
    """Return the note on a header: what belongs there, whether it must be filled, an example."""
    lines = [column.note, *_of_the_unknown(column), "Must be filled." if column.required else "May be blank."]
    if column.choices and column.kind is Kind.CHOICE:
        lines.insert(1, f"One of: {', '.join(column.choices)}.")
    if column.example:
        lines.append(f"Example: {column.example}")
    return "\n".join(lines)


def _lines_of(note: str) -> int:
    """Return how many lines a note takes, some forty letters each."""
    return sum(-(-len(line) // 40) for line in note.split("\n"))


def _of_the_unknown(column: Column) -> Iterator[str]:
    """Yield what a condition means for a vehicle, or a ship, of which nobody knows what it asks."""
    asked = column.condition
    if asked is not None and asked.unknown is not None and FACTS[asked.fact].about in ("vehicle", "departure"):
        yield f"Where that is not known, the condition is {asked.unknown}."


def _drop_down(page: Page, cells: str, column: Column, last_rows: Mapping[str, int]) -> None:
    if column.kind is Kind.CHOICE:
        page.drop_down(
            cells, column.choices, message=f"One of: {', '.join(column.choices)}.", blank=not column.required
        )
    elif column.kind is Kind.YES_NO:
        page.drop_down(cells, ("yes", "no"), message="yes or no, or blank.", blank=not column.required)
    elif column.kind is Kind.CODE and column.refers_to in last_rows:
        named = next(sheet for sheet in SHEETS if sheet.name == column.refers_to)
        field = naming_field(named.row_type)
        at = letter(list(columns_in_order(named.row_type)).index(str(field)))
        source = f"'{column.refers_to}'!${at}$2:${at}${last_rows[column.refers_to]}"
        message = f"This name does not stand on the sheet {column.refers_to}."
        page.drop_down(cells, source, message=message, strict=False, blank=not column.required)


def _width(column: Column, cells: Sequence[str], widest: int) -> float:
    header = max(len(word) for word in (column.header + REQUIRED_MARK).split(" ")) + 2
    header = max(header, (len(column.header) + 2) // 2 + 3)
    longest = max((len(cell) for cell in cells), default=0) + (4 if column.kind in _FIGURES else 3)
    return float(min(max(header, longest, _NARROWEST), widest))


_COLUMNS = """\
Columns marked * must be filled; the others may be blank, and the note on each header says what blank means: rest the pointer
on a header to read it. Columns may stand in any order; keep their headers."""
_UNITS = """\
Money in dollars, percentages as 18 % or 0.18, dates as 2026-12-31, lengths in inches, weights in pounds, road distances in
miles. Where a cell cannot be read, the program names the cell and says how to correct it."""
_HOW_TO = tuple(" ".join(paragraph.split()) for paragraph in (_COLUMNS, _UNITS))
