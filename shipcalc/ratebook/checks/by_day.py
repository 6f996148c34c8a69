"""What must be true of the rows of every day: checks across rows are asked of each time between two changes of a sheet.

A row that stands twice is no fault where one ends before the other begins; a carrier without prices is one on any day.
"""

from collections.abc import Callable, Iterator, Sequence
from datetime import date, timedelta

from shipcalc.errors import Problem
from shipcalc.ratebook.changes.identity import identity_fields, identity_of
from shipcalc.ratebook.checks.remarks import short_cell, warning
from shipcalc.ratebook.days import DATED, changes_in, tables_of_day
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.rows.tables import SHEETS, Tables
from shipcalc.ratebook.workbook.columns import Row, columns_of
from shipcalc.records import replace

Check = Callable[[Tables], Iterator[Problem]]

# Rows of these say themselves whether they meet each other, by their ends or their quotation.
_BY_THEMSELVES = ("lanes", "quotations", "port_charges")
# Several rows of these are a history or a table of one thing, whatever their days.
_NO_GAPS = ("fuel", "areas", "extras", "quotations", "port_charges")


def of_every_day(
    tables: Tables, rules: PricingRules, checks: Sequence[Check], gaps: Sequence[Check]
) -> Iterator[Problem]:
    """Yield what checks find on any day of the book, each once.

    What `gaps` find on some days and not on others is a warning with these days: no price is better than a wrong one. Of their
    warnings only those are told.
    """
    of_day = [(day, tables_of_day(tables, day)) for day in _first_days(tables, rules)]
    told = {(one.cell, one.message): one for check in checks for _, then in of_day for one in check(then)}
    yield from told.values()
    for check in gaps:
        found: dict[tuple[str, str], list[int]] = {}
        for number, (_, then) in enumerate(of_day):
            for one in check(then):
                told[one.cell, one.message] = one
                found.setdefault((one.cell, one.message), []).append(number)
        for key, numbers in found.items():
            if told[key].severity == "warning" and len(numbers) == len(of_day):
                continue
            yield _on_some_days(told[key], numbers, [day for day, _ in of_day])


def _first_days(tables: Tables, rules: PricingRules) -> list[date]:
    """Return the first day of the book and every later one on which other rows hold."""
    changes = changes_in(tables, [field for field in DATED if field not in _BY_THEMSELVES])
    first, last = rules.valid_from or date.min, rules.valid_to or date.max
    return [first, *(day for day in changes if first < day <= last)]


def _on_some_days(problem: Problem, numbers: Sequence[int], days: Sequence[date]) -> Problem:
    if len(numbers) == len(days):
        return problem
    first, after = (
        days[numbers[0]],
        next((days[n + 1] for n in numbers if n + 1 not in numbers and n + 1 < len(days)), None),
    )
    from_day = f" from {first}" if first > days[0] else ""
    to_day = f" up to {after - timedelta(days=1)}" if after else " on"
    return replace(problem, message=f"{problem.message}, for pickups{from_day}{to_day}", severity="warning")


def rows_follow_each_other(tables: Tables) -> Iterator[Problem]:
    """Where a row follows another of the same name, no day between them is left without either."""
    for kind in SHEETS:
        if kind.rows not in DATED or kind.rows in _NO_GAPS or "valid_from" not in columns_of(kind.row_type):
            continue
        fields = tuple(field for field in identity_fields(kind) if field != "valid_from")
        groups: dict[tuple[object, ...], list[Row]] = {}
        for row in getattr(tables, kind.rows):
            groups.setdefault(identity_of(row, fields), []).append(row)
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


CHECKS: tuple[Check, ...] = (rows_follow_each_other,)
