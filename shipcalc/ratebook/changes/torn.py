"""A column that was sorted by itself, seen beside an earlier edition: the same cells, in other rows."""

from collections import Counter
from collections.abc import Hashable, Iterator

from shipcalc.errors import Problem
from shipcalc.ratebook.changes.identity import identity_fields, identity_of
from shipcalc.ratebook.checks.remarks import warning
from shipcalc.ratebook.checks.sorted_alone import REMEDY
from shipcalc.ratebook.rows.sheet_kind import SheetKind
from shipcalc.ratebook.rows.tables import SHEETS, Tables
from shipcalc.ratebook.workbook.columns import Kind, Row, columns_of

# So many cells that have changed rows, all different, are no accident.
_FEWEST_MOVED = 3


def torn_columns(tables: Tables, former: Tables, told: str) -> Iterator[Problem]:
    """Yield a warning for each column whose figures are those of an earlier edition, in other rows; `told` names the edition."""
    for kind in SHEETS:
        fields = identity_fields(kind)
        now, was = _by_identity(kind, tables, fields), _by_identity(kind, former, fields)
        common = [name for name in now if name in was]
        others = [field for field in columns_of(kind.row_type) if field not in fields]
        torn = [field for field in others if _is_torn([(was[name], now[name]) for name in common], field)]
        changed = [field for field in others if any(getattr(now[n], field) != getattr(was[n], field) for n in common)]
        if len(torn) > 1 and 2 * len(torn) > len(changed):  # it is the name that has left its row
            yield _torn(next(iter(now.values())), fields[0], told, "names")
        else:
            yield from (_torn(_first_moved(now, was, field), field, told, _called(kind, field)) for field in torn)


def _called(kind: SheetKind, field: str) -> str:
    return "words" if columns_of(kind.row_type)[field].kind in (Kind.TEXT, Kind.CODE, Kind.CHOICE) else "figures"


def _torn(row: Row, field: str, told: str, what: str) -> Problem:
    header = columns_of(type(row))[field].header
    message = f'the {what} under "{header}" are those of {told}, but stand in other rows'
    return warning(row, field, message, REMEDY)


def _by_identity(kind: SheetKind, tables: Tables, fields: tuple[str, ...]) -> dict[tuple[object, ...], Row]:
    """Return the rows by what tells them apart; not those that share it."""
    rows: tuple[Row, ...] = getattr(tables, kind.rows)
    often = Counter(identity_of(row, fields) for row in rows)
    return {name: row for row in rows if often[name := identity_of(row, fields)] == 1}


def _is_torn(pairs: list[tuple[Row, Row]], field: str) -> bool:
    """Return whether a column's changed cells hold, but for a fifth, the values that other changed cells held."""
    moved = [(was, now) for one, other in pairs if (was := _cell(one, field)) != (now := _cell(other, field))]
    if len({now for _, now in moved}) < _FEWEST_MOVED:
        return False
    found = sum((Counter(was for was, _ in moved) & Counter(now for _, now in moved)).values())
    return 5 * found >= 4 * len(moved)


def _first_moved(now: dict[tuple[object, ...], Row], was: dict[tuple[object, ...], Row], field: str) -> Row:
    return next(row for name, row in now.items() if name in was and _cell(row, field) != _cell(was[name], field))


def _cell(row: Row, field: str) -> Hashable:
    value: Hashable = getattr(row, field)
    return value
