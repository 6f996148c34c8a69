"""Many faults with one cause: a column that was sorted without the others, so that names and figures left their rows."""

from collections.abc import Hashable, Iterator, Sequence
from itertools import pairwise

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.sorted_alone import REMEDY
from shipcalc.ratebook.rows.sheet_kind import SheetKind
from shipcalc.ratebook.rows.tables import SHEETS, Tables
from shipcalc.ratebook.workbook.addresses import address_in
from shipcalc.ratebook.workbook.columns import Row, columns_of

LOOKS_SORTED = "looks sorted by itself"
# A few wrong cells are a few mistakes; so many rows that do not fit, in a sheet with a column in order, are one.
_FEWEST_FAULTS, _FEWEST_VALUES, _FEWEST_NAMES = 8, 3, 3


def sorted_columns(tables: Tables, faults: Sequence[Problem]) -> Iterator[Problem]:
    """Yield a warning for each sheet that many faults of `faults` are about, and that has a column in order beside the others.

    `faults` are those between rows: a cell that cannot be read was not sorted wrong. Nor is a name that stands nowhere.
    """
    told = [
        fault for fault in faults if fault.severity == "fault" and "does not stand on the sheet" not in fault.message
    ]
    if len(told) < _FEWEST_FAULTS:
        return
    for kind in SHEETS:
        rows: tuple[Row, ...] = getattr(tables, kind.rows)
        about = [fault for fault in told if _is_about(fault, kind)]
        if len(about) < _FEWEST_FAULTS or len(rows) < _FEWEST_FAULTS:
            continue
        named = [field for field in columns_of(kind.row_type) if _is_in_order([getattr(row, field) for row in rows])]
        several = [field for field in named if _names_told(about, rows, kind, field) >= _FEWEST_NAMES]
        if several:
            yield _sorted(rows[0], several, len(about))


def _is_about(fault: Problem, kind: SheetKind) -> bool:
    return f"› {kind.name}!" in fault.cell or f"on the sheet {kind.name}" in fault.message


def _names_told(faults: Sequence[Problem], rows: Sequence[Row], kind: SheetKind, field: str) -> int:
    """Return of how many different cells of a column the faults are; those on another sheet each tell of one."""
    cell_of = {row.at.row: getattr(row, field) for row in rows}
    places = [address_in(fault.cell) for fault in faults]
    told = {
        _key(cell_of.get(place.row)) if place.sheet == kind.name else place for place in places if place is not None
    }
    return len(told)


def _is_in_order(cells: Sequence[object]) -> bool:
    """Return whether cells rise or fall from the first to the last, the blank ones behind them, as a program sorts them."""
    filled = [cell for cell in cells if cell not in (None, (), "")]
    if any(cell in (None, (), "") for cell in cells[: len(filled)]):
        return False
    keys = [_key(cell) for cell in filled]
    if len(set(keys)) < _FEWEST_VALUES:
        return False
    return any(all(one <= other for one, other in pairwise(order)) for order in (keys, keys[::-1]))


def _key(cell: object) -> tuple[str, Hashable]:
    if isinstance(cell, tuple):
        return "text", "; ".join(map(str, cell)).casefold()
    if isinstance(cell, int | float):
        return "number", cell
    return "text", str(cell).casefold()


def _sorted(first: Row, fields: Sequence[str], faults: int) -> Problem:
    headers = " or ".join(f'"{columns_of(type(first))[field].header}"' for field in fields)
    at, letters = first.at, first.at.letters.get(fields[0], "A")
    message = (
        f"the column {headers} {LOOKS_SORTED}: its cells stand in order, and {faults} faults say that they no longer "
        "fit their rows"
    )
    return Problem(f"{at.workbook} › {at.sheet}!{letters}1", message, REMEDY, "warning")
