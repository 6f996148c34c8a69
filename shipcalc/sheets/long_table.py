"""Long tables into Excel, row by row, so that a million rows take no memory; and pictures on a sheet of their own."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date, datetime, time
from io import BytesIO
from pathlib import Path
from typing import Any

from shipcalc.records import dataclass
from shipcalc.sheets import look
from shipcalc.sheets.lettering import column_px, height_points, lines_needed
from shipcalc.sheets.packing import packed
from shipcalc.sheets.reading import letter
from shipcalc.sheets.saving import save
from shipcalc.sheets.styling import clean, named_style, put_text

# Figures stand a little off their right edge, or they would run into the text of the next column.
_HEADER_FIGURE = look.HEADER_FIGURE.set_in()
_SET_IN = "_0_0"  # in a number format: as much white as two noughts

# openpyxl's sheet that is only written, and its cells: its stubs know neither their columns nor their styles.
_Sheet = Any
_Cell = Any


@dataclass(frozen=True, slots=True)
class LongColumn:
    """One column of a long table. `number_format` "" leaves values as they are; `wraps` is for sentences."""

    title: str
    width: float
    number_format: str = ""
    wraps: bool = False


@dataclass(frozen=True, slots=True)
class PicturePage:
    """A sheet with a picture (PNG) on it; `text` tells it to whom cannot see it."""

    name: str
    text: str
    png: bytes
    width_px: int
    height_px: int


def write_long_book(
    path: Path,
    *,
    title: str,
    creator: str,
    made: date,
    sheet: str,
    columns: Sequence[LongColumn],
    rows: Iterable[Sequence[object]],
    notes: Mapping[str, str],
    pictures: Sequence[PicturePage] = (),
) -> None:
    """Write a table with its headers in the first row, a sheet of notes, and pictures. The same calls give the same bytes.

    Raises WrongInput where the place cannot be written.
    """
    from openpyxl import Workbook

    book = Workbook(write_only=True)
    for style in (look.HEADER, _HEADER_FIGURE, look.BODY, look.TITLE, look.TEXT, look.LABEL):
        book.add_named_style(named_style(style))
    properties = book.properties
    properties.title, properties.creator, properties.lastModifiedBy = clean(title), clean(creator), clean(creator)
    properties.created = properties.modified = datetime.combine(made, time(12))
    _write_table(book.create_sheet(sheet), columns, rows)
    _write_notes(book.create_sheet("Notes"), title, notes)
    for picture in pictures:
        _write_picture(book.create_sheet(picture.name), picture)
    save(path, packed(book, [{} for _ in book.worksheets]))


def _write_table(page: _Sheet, columns: Sequence[LongColumn], rows: Iterable[Sequence[object]]) -> None:
    for number, column in enumerate(columns):
        page.column_dimensions[letter(number)].width = column.width
    page.freeze_panes = "A2"
    _fit_to_width(page, landscape=True)
    page.print_title_rows = "1:1"
    page.sheet_view.showGridLines = False
    last = letter(len(columns) - 1)
    page.append(
        [_cell(page, column.title, _HEADER_FIGURE if column.number_format else look.HEADER) for column in columns]
    )
    formats = [
        (number, _cells(page, column)) for number, column in enumerate(columns) if column.number_format or column.wraps
    ]
    wrapping = [number for number, column in enumerate(columns) if column.wraps]
    count = 1
    for row in rows:
        cells = [_text(page, str(value)) if _needs_care(value) else value for value in row]
        for number, cell in formats:
            if cells[number] is not None:
                cells[number] = cell(row[number])
        count += 1
        lines = max((_lines(row[number], columns[number]) for number in wrapping), default=1)
        if lines > 1:
            page.row_dimensions[count].height = height_points(lines, look.TEXT.size)
        page.append(cells)
    page.auto_filter.ref = f"A1:{last}{count}"


def _lines(value: object, column: LongColumn) -> int:
    return lines_needed(str(value), column_px(column.width), look.TEXT.size) if value is not None else 1


def _needs_care(value: object) -> bool:
    """Return whether a text would not stay what it is: one like a formula, or with characters that no workbook holds."""
    return isinstance(value, str) and not (value[:1].isalnum() and value.isprintable())


def _write_notes(page: _Sheet, title: str, notes: Mapping[str, str]) -> None:
    page.column_dimensions["A"].width, page.column_dimensions["B"].width = 22, 90
    _fit_to_width(page, landscape=False)
    page.sheet_view.showGridLines = False
    page.append([_cell(page, title, look.TITLE)])
    page.append([])
    for label, text in notes.items():
        page.append([_cell(page, label, look.LABEL), _cell(page, text, look.TEXT)])


def _write_picture(page: _Sheet, picture: PicturePage) -> None:
    from openpyxl.drawing.image import Image

    page.sheet_view.showGridLines = False
    _fit_to_width(page, landscape=picture.width_px > picture.height_px)
    page.page_setup.fitToHeight = 1
    image = Image(BytesIO(picture.png))
    image.width, image.height = picture.width_px, picture.height_px
    page.add_image(image, "A2")
    page.append([_cell(page, picture.text, look.LABEL)])


def _fit_to_width(page: _Sheet, *, landscape: bool) -> None:
    page.page_setup.orientation = "landscape" if landscape else "portrait"
    page.sheet_properties.pageSetUpPr.fitToPage = True
    page.page_setup.fitToWidth, page.page_setup.fitToHeight = 1, 0


def _cell(page: _Sheet, value: str, style: look.Style) -> _Cell:
    cell = _text(page, value)
    cell.style = style.name
    return cell


def _cells(page: _Sheet, column: LongColumn) -> Callable[[object], _Cell]:
    """Return what makes the cells of a column: their style is looked up once, which takes longer than all the rest."""
    from openpyxl.cell import WriteOnlyCell

    pattern: _Cell = WriteOnlyCell(page)
    if column.wraps:
        pattern.style = look.TEXT.name
    if column.number_format:
        pattern.number_format = ";".join(f"{part}{_SET_IN}" for part in column.number_format.split(";"))
    style = pattern._style  # noqa: SLF001

    def cell(value: object) -> _Cell:
        made: _Cell = WriteOnlyCell(page)
        if isinstance(value, str):
            put_text(made, value)
        else:
            made.value = value
        made._style = style  # noqa: SLF001
        return made

    return cell


def _text(page: _Sheet, value: str) -> _Cell:
    from openpyxl.cell import WriteOnlyCell

    cell = WriteOnlyCell(page)
    put_text(cell, value)
    return cell
