"""A sheet read into rows: every cell checked by its column, every fault named by its cell."""

from collections.abc import Iterator, Mapping
from typing import Generic, TypeVar

from shipcalc.errors import Problem
from shipcalc.ratebook.workbook.cells import text, value_of
from shipcalc.ratebook.workbook.columns import Column, Kind, Row, RowRef, columns_of
from shipcalc.ratebook.workbook.headers import Headers, Own, headers_of
from shipcalc.ratebook.workbook.misread import Doubt, Misread
from shipcalc.ratebook.workbook.shown import write_like
from shipcalc.ratebook.workbook.unseen import what_nobody_sees
from shipcalc.records import MISSING, dataclass, fields
from shipcalc.sheets.reading import CellValue, Sheet, is_blank, letter

R = TypeVar("R", bound=Row)

_NOT_READ = object()


@dataclass(frozen=True, slots=True)
class Reading(Generic[R]):
    """The usable rows of a sheet and its problems.

    `unread` holds the names in rows that could not be used, so that the checks across sheets do not also complain about
    what those rows would have said; None where no row of the sheet could be read.
    """

    rows: tuple[R, ...]
    problems: tuple[Problem, ...]
    unread: frozenset[str] | None = frozenset()
    own: tuple[Own, ...] = ()


@dataclass(frozen=True, slots=True)
class _Place:
    """A field and where it is read from: column counted from 0, or None where the sheet lacks it; `known` cells were read."""

    field: str
    column: Column
    index: int | None
    default: object
    known: dict[tuple[type, CellValue], object]


def read_rows(sheet: Sheet, row_type: type[R], *, currency: str = "USD") -> Reading[R]:
    """Read all rows of a sheet. Rows without a fault are returned, faults and warnings listed in reading order."""
    columns = columns_of(row_type)
    headers = headers_of(sheet, columns, currency)
    problems = [*what_nobody_sees(sheet, headers), *headers.problems, *_merged_cells(sheet, headers)]
    if not headers.usable:
        return Reading((), tuple(problems), None, headers.own)
    places = _places(row_type, columns, headers)
    letters = {field: letter(index) for field, index in headers.at.items()}
    rows: list[R] = []
    unread: set[str] = set()
    blank = {place.field: place.default for place in places}
    there = tuple(place for place in places if place.index is not None or place.column.required)
    for number, cells in _rows_below(sheet, headers):
        values, found = _row_values(sheet, number, cells, there, currency)
        problems.extend(found)
        if any(problem.severity == "fault" for problem in found):
            unread.update(_names_in(cells, places))
        elif any(place.index is not None and not is_blank(_at(cells, place.index)) for place in places):
            rows.append(row_type(at=RowRef(sheet.workbook, sheet.name, number + 1, letters), **{**blank, **values}))
    return Reading(tuple(rows), tuple(problems), frozenset(unread), headers.own)


def _row_values(
    sheet: Sheet, number: int, cells: tuple[CellValue, ...], places: tuple[_Place, ...], currency: str
) -> tuple[Mapping[str, object], list[Problem]]:
    """Return the values of one row by field, as far as it says any, and its problems."""
    values: dict[str, object] = {}
    problems: list[Problem] = []
    width, lost = len(cells), sheet.lost
    for place in places:
        cell = None if place.index is None or place.index >= width else cells[place.index]
        # Most cells are blank and may be, or hold what stands further up in their column.
        if cell is None and not place.column.required and not lost:
            continue
        known = place.known.get((type(cell), cell), _NOT_READ)
        if known is not _NOT_READ and not isinstance(known, Doubt):
            values[place.field] = known
            continue
        if is_blank(cell) and place.index is not None and (number, place.index) in sheet.lost:
            problems.append(_lost_cell(sheet, number, place.index, write_like(place.column, currency)))
            continue
        if is_blank(cell):
            if place.column.required and place.index is not None:
                what = f'"{place.column.header}" is empty'
                problems.append(Problem(sheet.cell(number, place.index), what, write_like(place.column, currency)))
            values[place.field] = place.default
            continue
        try:
            value = _value_of(cell, place, currency)
        except Misread as wrong:
            problems.append(Problem(sheet.cell(number, place.index or 0), wrong.message, wrong.remedy))
            continue
        if isinstance(value, Doubt):
            where = sheet.cell(number, place.index or 0)
            problems.append(Problem(where, value.message, value.remedy, "warning"))
            value = value.value
        values[place.field] = value
    return values, problems


def _value_of(cell: CellValue, place: _Place, currency: str) -> object:
    """Return what a cell holds; the same cell further down the column is read once (1 and True are not the same)."""
    key = type(cell), cell
    if key not in place.known:
        place.known[key] = value_of(cell, place.column, currency)
    return place.known[key]


def _rows_below(sheet: Sheet, headers: Headers) -> Iterator[tuple[int, tuple[CellValue, ...]]]:
    """Yield the rows below the headers that hold anything, also those whose every cell is lost."""
    lost = {row for row, column in sheet.lost if column in headers.at.values()}
    filled = dict(sheet.filled_rows())
    for number in sorted(filled.keys() | lost):
        if number > headers.row:
            yield number, filled.get(number, ())


def _lost_cell(sheet: Sheet, number: int, index: int, remedy: str) -> Problem:
    shows = sheet.lost[number, index]
    if shows:
        return Problem(sheet.cell(number, index), f"the formula gives the error {shows}", f"correct it, or {remedy}")
    message = "the result of the formula was not saved"
    return Problem(sheet.cell(number, index), message, f"open the workbook in Excel and save it, or {remedy}")


def _places(row_type: type[Row], columns: Mapping[str, Column], headers: Headers) -> tuple[_Place, ...]:
    defaults = {field.name: None if field.default is MISSING else field.default for field in fields(row_type)}
    return tuple(
        _Place(field, column, headers.at.get(field), defaults[field], {})
        for field, column in sorted(columns.items(), key=lambda item: headers.at.get(item[0], -1))
    )


def _at(cells: tuple[CellValue, ...], index: int) -> CellValue:
    return cells[index] if index < len(cells) else None


def _names_in(cells: tuple[CellValue, ...], places: tuple[_Place, ...]) -> Iterator[str]:
    """Yield the names (codes) that a row mentions, made comparable."""
    for place in places:
        if place.column.kind is Kind.CODE and place.index is not None:
            cell = _at(cells, place.index)
            if isinstance(cell, str):  # one that is too long to be read is a name all the same
                yield " ".join(cell.split())[:100].casefold()
            elif isinstance(cell, (int, float)):
                yield text(cell, place.column, "").casefold()


def _merged_cells(sheet: Sheet, headers: Headers) -> Iterator[Problem]:
    """Only the first of merged cells holds the value: the others would count as blank, which means any."""
    last_column = max(headers.at.values(), default=-1)
    for (top, left), (bottom, right) in sheet.merged:
        if bottom >= headers.row and left <= last_column:
            area = f"{letter(left)}{top + 1}:{letter(right)}{bottom + 1}"
            yield Problem(
                sheet.cell(top, left),
                f"the cells {area} are merged, and only the first of them holds the value",
                "unmerge them and fill each cell",
            )
