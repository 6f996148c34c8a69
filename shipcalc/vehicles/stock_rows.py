"""The rows of a stock list's sheet: each read cell by cell, then checked as a whole."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from shipcalc.errors import Problem, Severity, WrongInput
from shipcalc.records import dataclass, replace
from shipcalc.sheets.reading import CellValue, Sheet, is_blank
from shipcalc.vehicles.serial import check_serial
from shipcalc.vehicles.sizes import BODIES, body_key
from shipcalc.vehicles.stock_cells import Read, reader
from shipcalc.vehicles.stock_columns import Found, Layout
from shipcalc.vehicles.units import MissingUnit, quoted

Cells = tuple[CellValue, ...]


@dataclass(frozen=True, slots=True)
class StockRow:
    """One row as read: the vehicle's fields, and what is wrong. `number` and `columns` (by field) count from 0.

    `without_unit` are the columns whose cell has a bare number that no header gives a unit to.
    """

    sheet: Sheet
    number: int
    columns: Mapping[str, int]
    values: dict[str, Any]
    problems: tuple[Problem, ...] = ()
    without_unit: tuple[int, ...] = ()

    @property
    def stock_number(self) -> str:
        """Return the row's stock number, or an empty text."""
        return str(self.values.get("stock_number", ""))

    @property
    def is_usable(self) -> bool:
        """Return whether nothing in the row is a fault."""
        return not self.without_unit and all(problem.severity == "warning" for problem in self.problems)

    def problem(self, field: str, message: str, remedy: str, severity: Severity = "fault") -> Problem:
        """Return a problem at the cell of a field."""
        return Problem(self.sheet.cell(self.number, self.columns[field]), message, remedy, severity)


def rows_of(sheet: Sheet, layout: Layout, currency: str, bodies: frozenset[str]) -> list[StockRow]:
    """Return the rows below the headers, in their order. `bodies` are the keys of the known bodies."""
    readers = tuple((found, reader(found, currency)) for found in layout.found)
    columns = {found.column.field: found.index for found in layout.found}
    rows = (_row(sheet, number, cells, readers, columns) for number, cells in _data_rows(sheet, layout))
    return [_checked(row, bodies) for row in rows]


def _row(
    sheet: Sheet, number: int, cells: Cells, readers: Sequence[tuple[Found, Read]], columns: Mapping[str, int]
) -> StockRow:
    values: dict[str, Any] = {}
    problems: list[Problem] = []
    without_unit: list[int] = []
    for found, read in readers:
        value = cells[found.index] if found.index < len(cells) else None
        if is_blank(value):
            if (number, found.index) in sheet.lost:
                problems.append(_lost_cell(sheet, number, found))
            continue
        try:
            values[found.column.field] = read(value)
        except MissingUnit:
            without_unit.append(found.index)
        except WrongInput as error:
            problems.append(Problem(sheet.cell(number, found.index), error.what, error.remedy))
    return StockRow(sheet, number, columns, values, tuple(problems), tuple(without_unit))


def _lost_cell(sheet: Sheet, number: int, found: Found) -> Problem:
    """Return the fault of a cell whose formula has no value: read as blank, it would be an unknown size or value."""
    shows = sheet.lost[number, found.index]
    message = f"the formula gives the error {shows}" if shows else "the result of the formula was not saved"
    remedy = "correct it" if shows else "open the workbook in Excel and save it"
    return Problem(sheet.cell(number, found.index), message, f"{remedy}, or type the value in its place")


def _data_rows(sheet: Sheet, layout: Layout) -> Iterator[tuple[int, Cells]]:
    """Yield (row, cells) below the headers, without blank rows, headings over merged cells, and headers said again."""
    header = sheet.rows[layout.header_row]
    filled, headings = _merged(sheet, layout.header_row)
    for number, cells in enumerate(sheet.rows[layout.header_row + 1 :], layout.header_row + 1):
        if number in headings or cells == header or all(is_blank(value) for value in cells):
            continue
        down = filled.get(number)
        yield number, tuple(down.get(index, value) for index, value in enumerate(cells)) if down else cells


def _merged(sheet: Sheet, header_row: int) -> tuple[dict[int, dict[int, CellValue]], set[int]]:
    """Return what cells merged downwards give to the rows below their first, and the rows that are only a heading."""
    filled: dict[int, dict[int, CellValue]] = {}
    headings: set[int] = set()
    for (top, left), (bottom, right) in sheet.merged:
        if not header_row < top < len(sheet.rows) or left >= len(sheet.rows[top]):
            continue
        cells = sheet.rows[top]
        if right > left and sum(not is_blank(value) for value in cells) == 1 and not is_blank(cells[left]):
            headings.update(range(top, bottom + 1) if bottom < len(sheet.rows) else (top,))
        elif right == left:
            for number in range(top + 1, min(bottom + 1, len(sheet.rows))):
                filled.setdefault(number, {})[left] = cells[left]
    return filled, headings


def _checked(row: StockRow, bodies: frozenset[str]) -> StockRow:
    more = tuple(problem for check in CHECKS if (problem := check(row, bodies)) is not None)
    return replace(row, problems=(*row.problems, *more)) if more else row


def _has_a_stock_number(row: StockRow, _bodies: frozenset[str]) -> Problem | None:
    """Every row has a stock number, or nobody could ask for the vehicle."""
    if "stock_number" in row.values or any(cell == _address(row, "stock_number") for cell in _faulty(row)):
        return None
    return row.problem("stock_number", "there is no stock number", "give the vehicle one, or delete the row")


def _says_what_it_is(row: StockRow, _bodies: frozenset[str]) -> Problem | None:
    """A vehicle has a year, a make, a model or a body: a line of totals or remarks has none."""
    if not row.stock_number or row.problems or any(field in row.values for field in ("year", "make", "model", "body")):
        return None
    message = f"{quoted(row.stock_number)} has neither year nor make, model or body"
    return row.problem("stock_number", message, "complete the row, or delete it if it is no vehicle")


def _is_longer_than_wide(row: StockRow, _bodies: frozenset[str]) -> Problem | None:
    """No road vehicle is wider than long."""
    length, width = row.values.get("length_mm"), row.values.get("width_mm")
    if length is None or width is None or width <= length:
        return None
    return row.problem("width_mm", "the vehicle is wider than long", "are the length and the width swapped?")


def _has_a_known_body(row: StockRow, bodies: frozenset[str]) -> Problem | None:
    """A body is a known one, or missing sizes cannot be filled in."""
    body = row.values.get("body")
    if body is None or body_key(body) in bodies:
        return None
    known = ", ".join(words[0] for words in BODIES)
    message = f"{quoted(body)} is not a body the program knows, so no typical sizes stand in for missing ones"
    return row.problem("body", message, f"write one of: {known}; or add it to the sheet Vehicle sizes", "warning")


def _has_a_right_serial(row: StockRow, _bodies: frozenset[str]) -> Problem | None:
    """A serial is right by the rules of its year; a wrong one does not stand in the way of a price, but of the papers."""
    serial = row.values.get("serial")
    if serial is None:
        return None
    checked = check_serial(serial, row.values.get("year"))
    return row.problem("serial", checked.message, checked.remedy, "warning") if checked.message else None


def _says_its_title(row: StockRow, _bodies: frozenset[str]) -> Problem | None:
    """Where the list has titles every vehicle has one, or it would be taken for clean without a word."""
    if "title" not in row.columns or "title" in row.values or row.problems:
        return None
    return row.problem("title", "no title is named, so it is taken to be clean", "write clean, lien …", "warning")


def _faulty(row: StockRow) -> tuple[str, ...]:
    return tuple(problem.cell for problem in row.problems)


def _address(row: StockRow, field: str) -> str:
    return row.sheet.cell(row.number, row.columns[field])


CHECKS: tuple[Callable[[StockRow, frozenset[str]], Problem | None], ...] = (
    _has_a_stock_number,
    _says_what_it_is,
    _is_longer_than_wide,
    _has_a_known_body,
    _has_a_right_serial,
    _says_its_title,
)
