"""Charges that stand in two rows under two names, so that one shipment pays both."""

from collections.abc import Iterator, Sequence

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.remarks import short_cell, warning
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.columns import Row, columns_of

# What does not tell two charges apart: their names, what only the office reads, how much they are, when they hold.
_NAMES = ("code", "season", "note", "office_note", "source", "trust", "checked_on", "address")
_AMOUNTS = ("amount_minor", "percent_ppm", "rate_e4")
_DAYS = ("valid_from", "valid_to")


def charges_stand_once(tables: Tables) -> Iterator[Problem]:
    """A charge with one label and the same conditions stands in one row at any time."""
    for rows, name in ((tables.extras, "code"), (tables.stage_charges, "code"), (tables.seasons, "season")):
        yield from _twins(rows, name)


def _twins(rows: Sequence[Row], name: str) -> Iterator[Problem]:
    earlier: dict[tuple[object, ...], list[Row]] = {}
    for row in rows:
        others = earlier.setdefault(_conditions(row), [])
        twin = next(
            (other for other in others if _share_a_day(row, other) and _name(row, name) != _name(other, name)), None
        )
        if twin is not None:
            how = "the same charge" if _amounts(row) == _amounts(twin) else "this charge, with another amount,"
            message = f"{how} stands at {short_cell(twin, name)} too, and a shipment pays both"
            yield warning(row, name, message, "remove one of the two rows, or say in their conditions how they differ")
        others.append(row)


def _conditions(row: Row) -> tuple[object, ...]:
    left_out = {*_NAMES, *_AMOUNTS, *_DAYS}
    cells = (getattr(row, field) for field in columns_of(type(row)) if field not in left_out)
    return tuple(cell.casefold() if isinstance(cell, str) else cell for cell in cells)


def _amounts(row: Row) -> tuple[object, ...]:
    return tuple(getattr(row, field, None) for field in _AMOUNTS)


def _name(row: Row, field: str) -> str:
    return str(getattr(row, field)).casefold()


def _share_a_day(one: Row, other: Row) -> bool:
    """Return whether both rows hold on some day; a row without dates holds always."""
    first = [getattr(row, "valid_from", None) for row in (one, other)]
    last = [getattr(row, "valid_to", None) for row in (one, other)]
    return not any(end is not None and begin is not None and end < begin for end in last for begin in first)


CHECKS = (charges_stand_once,)
