"""What must be true of the rows of every day: checks across rows are asked of each time between two changes of a sheet.

A row that stands twice is no fault where one ends before the other begins; a carrier without prices is one on any day.
"""

from collections.abc import Callable, Iterator, Sequence
from datetime import date, timedelta

from shipcalc.errors import Problem
from shipcalc.ratebook.days import DATED, FACTS, changes_in, tables_of_day
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.records import replace

Check = Callable[[Tables], Iterator[Problem]]

# Rows of these say themselves whether they meet each other, by their ends or their quotation.
_BY_THEMSELVES = ("lanes", "quotations", "port_charges")


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
    changes = changes_in(tables, [field for field in DATED + FACTS if field not in _BY_THEMSELVES])
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
