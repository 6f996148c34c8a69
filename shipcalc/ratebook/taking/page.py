"""A carrier's or forwarder's file as pages of cells: merged cells filled, hidden and struck-out ones known."""

from collections.abc import Iterator, Mapping
from datetime import date, datetime
from pathlib import Path

from shipcalc.errors import WrongInput
from shipcalc.ratebook.taking.serials import with_days
from shipcalc.records import dataclass, field
from shipcalc.sheets.numbers import exact, plain, plain_text
from shipcalc.sheets.reading import CellValue, Sheet, is_blank, letter, read_workbook
from shipcalc.sheets.shown_as import NOTHING_SHOWN, shown_as

MOST_ROWS = 100_000
MOST_COLUMNS = 200
# A merged range larger than this is a background, not a value for each cell.
MOST_MERGED = 20_000

Spot = tuple[int, int]
"""(row, column), both counted from 0."""


@dataclass(frozen=True, slots=True, eq=False)
class Page:
    """One sheet. `values` maps each filled cell, those that a merged range covers too, to what stands in it, `texts` to text."""

    sheet: Sheet
    values: Mapping[Spot, CellValue]
    texts: Mapping[Spot, str]
    formats: Mapping[Spot, str] = field(default_factory=dict)
    struck: frozenset[Spot] = frozenset()
    merged: Mapping[Spot, Spot] = field(default_factory=dict)
    height: int = 0
    width: int = 0
    turned: bool = False

    def text(self, row: int, column: int) -> str:
        """Return what stands in a cell as plain text, numbers as the sheet keeps them, days as year-month-day."""
        return self.texts.get((row, column), "")

    def row(self, row: int, columns: range | None = None) -> dict[int, str]:
        """Return the filled cells of a row as text, by column."""
        over = columns if columns is not None else range(self.width)
        return {column: self.texts[row, column] for column in over if (row, column) in self.texts}

    def is_lost(self, row: int, column: int) -> bool:
        """Return whether a cell holds a formula, and its result was never saved or is an error."""
        return ((column, row) if self.turned else (row, column)) in self.sheet.lost

    def sheet_row(self, row: int, column: int) -> int:
        """Return the row of a cell on the sheet, counted from 1."""
        return (column if self.turned else row) + 1

    def short(self, row: int, column: int) -> str:
        """Return a cell's address within the file: `Lanes!D14`, in a CSV file `D14`."""
        row, column = (column, row) if self.turned else (row, column)
        at = f"{letter(column)}{row + 1}"
        return f"{self.sheet.name}!{at}" if self.sheet.name else at


def turned(page: Page) -> Page:
    """Return a page with its rows as columns, for tables whose headers stand one below the other."""
    return Page(
        page.sheet,
        {(column, row): value for (row, column), value in page.values.items()},
        {(column, row): text.rstrip(" :") for (row, column), text in page.texts.items()},
        {(column, row): code for (row, column), code in page.formats.items()},
        frozenset((column, row) for row, column in page.struck),
        {(column, row): (left, top) for (row, column), (top, left) in page.merged.items()},
        page.width,
        page.height,
        turned=True,
    )


@dataclass(frozen=True, slots=True)
class Mail:
    """A file of rates: its pages that are seen, and what is hidden in it: where, and what is said of it.

    `shows_signs`: the currency that a cell shows by its number format alone can be read (it cannot in an old .xls file).
    """

    name: str
    pages: tuple[Page, ...]
    unseen: tuple[tuple[str, str], ...] = ()
    shows_signs: bool = True


def read_mail(path: Path) -> Mail:
    """Read a file of rates. Raises WrongInput where nothing can be read of it."""
    workbook = read_workbook(path)
    shown = shown_as(path)
    for sheet in workbook.sheets:
        if len(sheet.rows) > MOST_ROWS:
            what = f"has {len(sheet.rows):,} rows on {sheet.name or 'its only sheet'}, and {MOST_ROWS:,} are the most"
            raise WrongInput(what, where=path.name, remedy="keep the rows that are needed, or split it")
    pages = []
    unseen = []
    for sheet in workbook.sheets:
        if sheet.hidden:
            if any(True for _ in sheet.filled_rows()):
                unseen.append((f"{sheet.name}!A1", "the whole sheet is hidden and is not read"))
            continue
        looks = shown.get(sheet.name, NOTHING_SHOWN)
        pages.append(_page(sheet, looks.formats, looks.struck))
        unseen += _hidden_told(sheet)
    if not any(page.values for page in pages):
        what = "holds no text and no figure that can be read (a picture, a scan or an empty sheet)"
        raise WrongInput(what, where=path.name, remedy="ask for the rates as an Excel or CSV file, or type them in")
    shows_signs = path.suffix.lower() not in (".xls", ".xlsb", ".ods")
    return Mail(path.name, tuple(page for page in pages if page.values), tuple(unseen), shows_signs)


def text_of(value: CellValue) -> str:
    """Return a cell's value as plain text."""
    if value is None:
        return ""
    if isinstance(value, str):
        return plain_text(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, (int, float)):
        return plain(exact(float(value)))
    if isinstance(value, datetime):
        return value.date().isoformat()
    return value.isoformat() if isinstance(value, date) else str(value)


def _page(sheet: Sheet, formats: Mapping[Spot, str], struck: frozenset[Spot]) -> Page:
    values = with_days(dict(_seen_cells(sheet)))
    formats, struck_now = dict(formats), set(struck)
    merged: dict[Spot, Spot] = {}
    for (top, left), (bottom, right) in sheet.merged:
        right = min(right, left + MOST_COLUMNS)
        if (top, left) not in values or (bottom - top + 1) * (right - left + 1) > MOST_MERGED:
            continue
        for spot in ((r, c) for r in range(top, bottom + 1) for c in range(left, right + 1)):
            values[spot] = values[top, left]
            merged[spot] = (top, left)
            if (top, left) in formats:
                formats[spot] = formats[top, left]
            if (top, left) in struck:
                struck_now.add(spot)
    height = max((row for row, _ in values), default=-1) + 1
    width = max((column for _, column in values), default=-1) + 1
    texts = {spot: text_of(value) for spot, value in values.items()}
    return Page(sheet, values, texts, formats, frozenset(struck_now), merged, height, min(width, MOST_COLUMNS))


def _seen_cells(sheet: Sheet) -> Iterator[tuple[Spot, CellValue]]:
    for number, row in enumerate(sheet.rows):
        if number in sheet.unseen.rows:
            continue
        for column, value in enumerate(row):
            if column not in sheet.unseen.columns and not is_blank(value):
                yield (number, column), value


def _hidden_told(sheet: Sheet) -> Iterator[tuple[str, str]]:
    rows = [number for number, _ in sheet.filled_rows() if number in sheet.unseen.rows]
    columns = sorted(
        column
        for column in sheet.unseen.columns
        if any(column < len(row) and not is_blank(row[column]) for row in sheet.rows)
    )
    name = f"{sheet.name}!" if sheet.name else ""
    for number in rows:
        yield f"{name}A{number + 1}", "the row is hidden and is not read: is it still offered?"
    for column in columns:
        yield f"{name}{letter(column)}1", "the column is hidden and is not read"
