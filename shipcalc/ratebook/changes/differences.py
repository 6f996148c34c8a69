"""What changed between two editions of a rate book: rows matched by what makes them the same row, never by their position."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Literal

from shipcalc.ratebook.changes.identity import identity_fields, identity_of
from shipcalc.ratebook.rows.sheet_kind import SheetKind
from shipcalc.ratebook.rows.tables import SHEETS
from shipcalc.ratebook.workbook.columns import Column, Kind, Row, columns_of
from shipcalc.ratebook.workbook.written import as_shown
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.ratebook.book import RateBook

_COUNTED = frozenset((Kind.MILES, Kind.FACTOR, Kind.WHOLE, Kind.MONEY, Kind.RATE, Kind.LENGTH, Kind.MASS))


@dataclass(frozen=True, slots=True)
class CellChange:
    """One cell that says something else: its header, what it said and says, its address in the new book."""

    header: str
    old: str
    new: str
    cell: str


@dataclass(frozen=True, slots=True)
class RowChange:
    """A row that was added, removed or changed; `cell` is its address in the new book, of a removed row in the old one."""

    what: Literal["added", "removed", "changed"]
    sheet: str
    name: str
    cell: str
    cells: tuple[CellChange, ...] = ()


def differences(old: "RateBook", new: "RateBook") -> tuple[RowChange, ...]:
    """Return every row that is not the same in both books, in the order of the sheets: changed, added, removed."""
    return tuple(change for kind in SHEETS for change in _of_sheet(kind, old, new))


def changed_rows(old: "RateBook", new: "RateBook") -> tuple[dict[str, list[Row]], dict[str, list[Row]]]:
    """Return the rows that are not the same in both books, by field of Tables: as they were, and as they are."""
    was: dict[str, list[Row]] = {}
    is_now: dict[str, list[Row]] = {}
    for kind in SHEETS:
        pairs, removed, added = _matched(getattr(old, kind.rows), getattr(new, kind.rows), identity_fields(kind))
        changed = [(one, other) for one, other in pairs if _values(one) != _values(other)]
        was[kind.rows] = [*(one for one, _ in changed), *removed]
        is_now[kind.rows] = [*(other for _, other in changed), *added]
    return was, is_now


def row_name(row: Row, kind: SheetKind, currency: str) -> str:
    """Return what a row is called: `Tern Haulage, open, over 500`."""
    columns = columns_of(kind.row_type)
    parts = []
    for field in identity_fields(kind):
        value = getattr(row, field)
        if value in (None, ()):
            continue
        told = as_shown(value, columns[field], currency)
        parts.append(
            f"{columns[field].header.partition(' (')[0].lower()} {told}" if _is_count(columns[field]) else told
        )
    return ", ".join(parts) or f"row {row.at.row}"


def _is_count(column: Column) -> bool:
    return column.kind in _COUNTED


def _of_sheet(kind: SheetKind, old: "RateBook", new: "RateBook") -> Iterator[RowChange]:
    fields = identity_fields(kind)
    naming = fields[0]
    before, after = getattr(old, kind.rows), getattr(new, kind.rows)
    pairs, removed, added = _matched(before, after, fields)
    for one, other in pairs:
        cells = tuple(_cells(one, other, kind, old.pricing.currency, new.pricing.currency))
        if cells:
            yield RowChange(
                "changed", kind.name, row_name(other, kind, new.pricing.currency), other.at.cell(naming), cells
            )
    for row in added:
        yield RowChange("added", kind.name, row_name(row, kind, new.pricing.currency), row.at.cell(naming))
    for row in removed:
        yield RowChange("removed", kind.name, row_name(row, kind, old.pricing.currency), row.at.cell(naming))


def _matched(
    before: Sequence[Row], after: Sequence[Row], fields: tuple[str, ...]
) -> tuple[list[tuple[Row, Row]], list[Row], list[Row]]:
    """Return the pairs of the same row, then those only in the first and only in the second.

    Rows that share a name (a carrier's rows for two seasons) are paired with their like first, then in their order.
    """
    waiting: dict[tuple[object, ...], list[Row]] = {}
    for row in before:
        waiting.setdefault(identity_of(row, fields), []).append(row)
    pairs: list[tuple[Row, Row]] = []
    later: list[Row] = []
    for row in after:
        same = waiting.get(identity_of(row, fields), [])
        twin = next((other for other in same if _values(other) == _values(row)), None)
        if twin is not None:
            same.remove(twin)
            pairs.append((twin, row))
        else:
            later.append(row)
    added = []
    for row in later:
        same = waiting.get(identity_of(row, fields), [])
        if same:
            pairs.append((same.pop(0), row))
        else:
            added.append(row)
    return pairs, [row for rows in waiting.values() for row in rows], added


def _values(row: Row) -> tuple[object, ...]:
    return tuple(getattr(row, field) for field in columns_of(type(row)))


def _cells(one: Row, other: Row, kind: SheetKind, old_currency: str, new_currency: str) -> Iterator[CellChange]:
    for field, column in columns_of(kind.row_type).items():
        was, is_now = getattr(one, field), getattr(other, field)
        if was != is_now:
            told = as_shown(was, column, old_currency), as_shown(is_now, column, new_currency)
            yield CellChange(column.header, *told, other.at.cell(field))
