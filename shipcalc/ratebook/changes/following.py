"""Rows of one name that follow each other in time: next month's price after this month's, and no day between them."""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from operator import attrgetter

from shipcalc.errors import Problem
from shipcalc.ratebook.changes.identity import identity_fields
from shipcalc.ratebook.checks.remarks import short_cell, warning
from shipcalc.ratebook.days import DATED
from shipcalc.ratebook.rows.tables import SHEETS, Tables
from shipcalc.ratebook.workbook.columns import Row, columns_of

# Several rows of these are a history or a table of one thing, whatever their days.
_NO_GAPS = ("fuel", "areas", "extras", "quotations", "port_charges", "settings")


def rows_follow_each_other(tables: Tables) -> Iterator[Problem]:
    """Where a row follows another of the same name, no day between them is left without either."""
    for kind in SHEETS:
        if kind.rows not in DATED or kind.rows in _NO_GAPS or "valid_from" not in columns_of(kind.row_type):
            continue
        fields = tuple(field for field in identity_fields(kind) if field != "valid_from")
        # Not `identity_of`: of many thousand rows of Lanes it takes long, and names are spelt alike here.
        named = attrgetter(*fields)
        groups: dict[object, list[Row]] = {}
        for row in getattr(tables, kind.rows):
            groups.setdefault(named(row), []).append(row)
        for rows in groups.values():
            if len(rows) > 1:
                yield from _gaps(sorted(rows, key=_begins))


def _gaps(rows: Sequence[Row]) -> Iterator[Problem]:
    before = rows[0]
    for row in rows[1:]:
        ended, begins = _ends(before), _begins(row)
        if ended < date.max and begins > ended + timedelta(days=1):
            message = f"no row of this name holds from {ended + timedelta(days=1)} to {begins - timedelta(days=1)}"
            remedy = (
                f"begin on {ended + timedelta(days=1)}, or let the row at {short_cell(before, 'valid_to')} end later"
            )
            yield warning(row, "valid_from", message, remedy)
        before = row if _ends(row) > ended else before


def _begins(row: Row) -> date:
    first: date | None = getattr(row, "valid_from", None)
    return first or date.min


def _ends(row: Row) -> date:
    last: date | None = getattr(row, "valid_to", None)
    return last or date.max


CHECKS = (rows_follow_each_other,)
