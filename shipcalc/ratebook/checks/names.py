"""Names: each stands once where it is given, and is given where it is used."""

from collections.abc import Iterator
from typing import TypeVar

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.remarks import fault, short_cell
from shipcalc.ratebook.rows.paperwork import Conditioned, DocumentRow, FromBuyerRow, TaskRow
from shipcalc.ratebook.rows.sheet_kind import SheetKind
from shipcalc.ratebook.rows.tables import SHEETS, Tables
from shipcalc.ratebook.workbook.columns import Column, Kind, Row, columns_of
from shipcalc.ratebook.workbook.misread import nearest
from shipcalc.records import replace

R = TypeVar("R", bound=Row)


def naming_field(row_type: type[Row]) -> str | None:
    """Return the field that gives a row its name, by which other sheets refer to it: its first code of its own."""
    columns = columns_of(row_type).items()
    named = (field for field, one in columns if one.kind is Kind.CODE and one.required and not one.refers_to)
    return next(named, None)


def references_are_known(tables: Tables) -> Iterator[Problem]:
    """A carrier, an area, a fuel scheme or a task that a row names stands on its own sheet."""
    known = {sheet.name: _names_on(tables, sheet) for sheet in SHEETS}
    for sheet in SHEETS:
        fields = _references(sheet.row_type)
        for row in getattr(tables, sheet.rows):
            for field, column in fields:
                for name in _named(row, field):
                    if name.casefold() not in known[column.refers_to] and not tables.may_stand_in(
                        column.refers_to, name
                    ):
                        yield _unknown(row, field, name, column.refers_to, known[column.refers_to])


def names_hold_no_divider(tables: Tables) -> Iterator[Problem]:
    """Where names are listed they are divided by ; so that a name with one in it could never be listed."""
    for sheet in SHEETS:
        field = naming_field(sheet.row_type)
        for row in getattr(tables, sheet.rows) if field is not None and sheet.name in _LISTED else ():
            name = getattr(row, field or "")
            if _DIVIDER in name:
                message = f'"{name}" has a ; in it, and where such names are listed they are divided by ;'
                yield fault(row, field or "", message, "write one name in one row, without ;")


def names_stand_once(tables: Tables) -> Iterator[Problem]:
    """A name stands in one row only, or the program would not know which row is meant."""
    named = (
        (tables.extras, "code"),
        (tables.seasons, "season"),
        (tables.loading_ways, "code"),
        (tables.stage_charges, "code"),
    )
    for rows, field in named:
        first: dict[str, Row] = {}
        for row in rows:
            name = getattr(row, field)
            earlier = first.setdefault(name.casefold(), row)
            if earlier is not row:
                where = short_cell(earlier, field)
                yield fault(row, field, f'"{name}" is already at {where}', "give one of the two another name")


def papers_can_be_told_apart(tables: Tables) -> Iterator[Problem]:
    """Of several rows with one code the first that holds counts: none stands below one that always holds before it.

    Such rows stand one below the other, or nobody would see which is the first.
    """
    for rows in (tables.documents, tables.tasks, tables.from_buyer):
        above: dict[str, list[DocumentRow | TaskRow | FromBuyerRow]] = {}
        last = ""
        for row in rows:
            earlier = above.setdefault(row.code.casefold(), [])
            hides = next((other for other in earlier if _covers(other, row)), None)
            if hides is not None:
                where = short_cell(hides, "code")
                yield fault(row, "code", f'"{row.code}" is already at {where}', "give one of the two another name")
            elif earlier and last != row.code.casefold():
                where = short_cell(earlier[-1], "code")
                yield fault(row, "code", f'"{row.code}" stands at {where} too', "move this row right below it")
            earlier.append(row)
            last = row.code.casefold()


def _covers(one: Conditioned, other: Conditioned) -> bool:
    """Return whether a row holds wherever the other does, as far as it can be seen: it asks for nothing else."""
    return all(
        getattr(one, field) in (None, (), getattr(other, field))
        for field in columns_of(Conditioned)
        if field != "each_vehicle"
    )


def bodies_stand_once(tables: Tables) -> Iterator[Problem]:
    """A word for a body leads to one size only."""
    first: dict[str, tuple[Row, str]] = {}
    for row in tables.sizes:
        for field, word in (("body", row.body), *(("also", other) for other in row.also)):
            earlier, at = first.setdefault(word.casefold(), (row, field))
            if earlier is not row:
                where = short_cell(earlier, at)
                yield fault(row, field, f'"{word}" is already at {where}', "leave it in one of the two rows")


def spelt_alike(tables: Tables) -> Tables:
    """Return the tables with every reference spelt as the name is where it is given, so that `==` finds it."""
    known = {sheet.name: _names_on(tables, sheet) for sheet in SHEETS}
    respelt = {
        sheet.rows: tuple(_respelt(row, known, references) for row in getattr(tables, sheet.rows))
        for sheet in SHEETS
        if (references := _references(sheet.row_type))
    }
    return replace(tables, **respelt)  # type: ignore[arg-type]


def _respelt(row: R, known: dict[str, dict[str, str]], references: tuple[tuple[str, Column], ...]) -> R:
    changes: dict[str, object] = {}
    for field, column in references:
        spelling = known[column.refers_to]
        value = getattr(row, field)
        if isinstance(value, str) and spelling.get(value.casefold()) == value:
            continue
        told = tuple(spelling.get(name.casefold(), name) for name in _named(row, field))
        new = told if isinstance(value, tuple) else (told[0] if told else value)
        if new != value:
            changes[field] = new
    return replace(row, **changes) if changes else row  # type: ignore[arg-type]


def _references(row_type: type[Row]) -> tuple[tuple[str, Column], ...]:
    return tuple((field, column) for field, column in columns_of(row_type).items() if column.refers_to)


def _named(row: Row, field: str) -> tuple[str, ...]:
    value = getattr(row, field)
    return value if isinstance(value, tuple) else (value,) if value else ()


def _names_on(tables: Tables, sheet: SheetKind) -> dict[str, str]:
    """Return the names given on a sheet by their comparable form."""
    field = naming_field(sheet.row_type)
    if field is None:
        return {}
    names: dict[str, str] = {}
    for row in getattr(tables, sheet.rows):
        name = getattr(row, field)
        names.setdefault(name.casefold(), name)
    return names


def _unknown(row: Row, field: str, name: str, sheet: str, known: dict[str, str]) -> Problem:
    near = nearest(name, known.values())
    remedy = f'write "{near}"' if near else f"add it to the sheet {sheet}, or write one that stands there"
    return fault(row, field, f'"{name}" does not stand on the sheet {sheet}', remedy)


_DIVIDER = ";"
# Sheets whose names stand in lists on other sheets.
_LISTED = frozenset(
    column.refers_to for sheet in SHEETS for _, column in _references(sheet.row_type) if column.kind is Kind.LIST
)

CHECKS = (names_hold_no_divider, names_stand_once, papers_can_be_told_apart, bodies_stand_once, references_are_known)
