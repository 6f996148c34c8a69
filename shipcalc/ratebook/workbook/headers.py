"""The row of headers found by the headers themselves: any order, any case, with or without units and stars."""

import re
from collections.abc import Iterator, Mapping
from functools import cache
from typing import NamedTuple

from shipcalc.errors import Problem
from shipcalc.ratebook.workbook.columns import Column, Kind
from shipcalc.ratebook.workbook.misread import nearest
from shipcalc.ratebook.workbook.shown import shown
from shipcalc.records import dataclass
from shipcalc.sheets.reading import CellValue, Sheet, is_blank

# The headers may stand below a title, but not deeper than this.
DEEPEST_ROW = 30
# Columns whose figures would mean something else in another unit.
_MEASURED = frozenset((Kind.MONEY, Kind.RATE, Kind.LENGTH, Kind.MASS, Kind.MILES))
_UNITS_TOLD = {"in": "inches", "lb": "pounds", "mi": "miles", "$": "dollars"}
_UNIT = re.compile(r"(?P<name>.*?)\s*\((?P<unit>[^()]*)\)")


class Own(NamedTuple):
    """Something of somebody's own, which is not read: its address and what it is called."""

    cell: str
    name: str


@dataclass(frozen=True, slots=True)
class Headers:
    """Where the headers stand: `row` counted from 0, and the column, counted from 0, of each field found.

    `own` are the columns that somebody has added for himself, each as its cell and what stands there.
    """

    row: int
    at: Mapping[str, int]
    problems: tuple[Problem, ...]
    own: tuple[Own, ...] = ()

    @property
    def usable(self) -> bool:
        """Return whether the rows below can be read at all."""
        return all(problem.severity != "fault" for problem in self.problems)


def headers_of(sheet: Sheet, columns: Mapping[str, Column], currency: str = "USD") -> Headers:
    """Find the row of headers and which field stands in which column.

    A missing required column, a column that stands twice and a column in another unit are faults; a header that is almost a
    known one is a warning, any other is somebody's own.
    """
    fields = _fields_by_name(columns)
    row = _header_row(sheet, fields)
    if row is None:
        required = ", ".join(column.header for column in columns.values() if column.required)
        missing = Problem(sheet.cell(0, 0), "there is no row of headers", f"write in row 1 at least: {required}")
        return Headers(0, {}, (missing,))
    at: dict[str, int] = {}
    refused: set[str] = set()
    problems: list[Problem] = []
    own: list[Own] = []
    for number, cell in enumerate(sheet.rows[row]):
        if is_blank(cell):
            own.extend(_below_no_header(sheet, row, number))
            continue
        name, unit = _name_and_unit(cell)
        field = fields.get(name)
        if field is None and not nearest(str(cell), (one.header for one in columns.values() if one.header not in at)):
            own.append(Own(sheet.cell(row, number), shown(cell)))
            continue
        problem = _header_problem(sheet.cell(row, number), cell, unit, field, at, columns, currency)
        if problem is not None:
            problems.append(problem)
        if field is not None and problem is not None:
            refused.add(field)
        elif field is not None:
            at[field] = number
    absent = list(_missing(sheet, row, columns, at.keys() | refused, fields))
    told = {one.cell for one in absent}
    said = (*(one for one in problems if one.cell not in told), *absent)
    return Headers(row, at, said, tuple(one for one in own if one.cell not in told))


def has_header(sheet: Sheet, header: str) -> bool:
    """Return whether a header stands in the rows where headers may stand."""
    name = _name_and_unit(header)[0]
    return any(
        isinstance(cell, str) and _name_and_unit(cell)[0] == name
        for cells in sheet.rows[:DEEPEST_ROW]
        for cell in cells
    )


def _header_problem(
    where: str,
    cell: CellValue,
    unit: str,
    field: str | None,
    at: Mapping[str, int],
    columns: Mapping[str, Column],
    currency: str,
) -> Problem | None:
    if field is None:
        near = nearest(str(cell), (column.header for column in columns.values() if column.header not in at))
        remedy = f'write "{near}" if that is meant; a column of your own may stay'
        return Problem(where, f"no column {shown(cell)} is known here; it is not read", remedy, "warning")
    column = columns[field]
    if field in at:
        return Problem(where, f'the column "{column.header}" stands twice', "remove one of the two")
    own = _name_and_unit(column.header)[1]
    if unit and column.kind in _MEASURED and unit not in (own, own.replace("$", currency.casefold())):
        return Problem(
            where,
            f"the figures under {shown(cell)} would be read as {_UNITS_TOLD.get(own, own)}",
            f'turn them into that unit and write "{column.header}"',
        )
    return None


def _below_no_header(sheet: Sheet, row: int, number: int) -> Iterator[Own]:
    for below in range(row + 1, len(sheet.rows)):
        if number < len(sheet.rows[below]) and not is_blank(sheet.rows[below][number]):
            yield Own(sheet.cell(below, number), shown(sheet.rows[below][number]))
            return


def _missing(
    sheet: Sheet, row: int, columns: Mapping[str, Column], found: set[str], fields: Mapping[str, str]
) -> Iterator[Problem]:
    """Yield the required columns that are not there; where a header is almost one of them, at that header."""
    strange = {
        str(cell): number
        for number, cell in enumerate(sheet.rows[row])
        if not is_blank(cell) and _name_and_unit(cell)[0] not in fields
    }
    for field, column in columns.items():
        if column.required and field not in found:
            near = nearest(column.header, strange)
            at = sheet.cell(row, strange.pop(near) if near else 0)
            remedy = f'write it in place of "{near}"' if near else f"add it to the headers in row {row + 1}"
            yield Problem(at, f'the column "{column.header}" is missing', remedy)


def _fields_by_name(columns: Mapping[str, Column]) -> dict[str, str]:
    """Return field by name of its header or a synonym, names made comparable."""
    return {
        _name_and_unit(name)[0]: field
        for field, column in columns.items()
        for name in (*column.synonyms, column.header)
    }


def _header_row(sheet: Sheet, fields: Mapping[str, str]) -> int | None:
    """Return the row with the most known headers: at least two, or the only one there is to find."""
    every = len(set(fields.values()))
    best, most = None, min(2, every) - 1
    for number, cells in enumerate(sheet.rows[:DEEPEST_ROW]):
        known = {
            fields[name] for cell in cells if isinstance(cell, str) and (name := _name_and_unit(cell)[0]) in fields
        }
        if len(known) > most:
            best, most = number, len(known)
        if most == every:
            break
    return best


@cache
def _name_and_unit(cell: CellValue) -> tuple[str, str]:
    """Return a header's comparable name and unit: `Up to  (mi) *` → `up to`, `mi`."""
    plain = " ".join(str(cell).replace("*", " ").replace("_", " ").split()).casefold()
    found = _UNIT.fullmatch(plain)
    return (found["name"], found["unit"].strip()) if found and found["name"] else (plain, "")
