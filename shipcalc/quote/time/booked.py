"""No truck comes before it is booked: what the pickup waits for, and counts from the acceptance, is done by then."""

from collections.abc import Collection, Iterable, Iterator
from datetime import date

from shipcalc.quote.model import Task
from shipcalc.ratebook.rows.paperwork import TaskRow
from shipcalc.schedule.due import due_date

FROM_THE_ACCEPTANCE = "agreed"

Waiting = TaskRow | Task


def before_pickup(tasks: Collection[Waiting]) -> frozenset[str]:
    """Return the codes, in lower case, of all that must be done by the pickup: what is due then, and what that waits for."""
    waits_for: dict[str, set[str]] = {}
    for task in tasks:
        waits_for.setdefault(task.code.casefold(), set()).update(code.casefold() for code in task.after)
    found: set[str] = set()
    ahead = [task.code.casefold() for task in tasks if task.stage == "pickup" and (task.days or 0) <= 0]
    while ahead:
        code = ahead.pop()
        if code not in found:
            found.add(code)
            ahead += waits_for.get(code, ())
    return frozenset(found)


def booked_on(tasks: Iterable[Waiting], agreed: date) -> date:
    """Return the day by which all of these tasks that count from the acceptance are done: the deposit in, the truck booked."""
    return max(_days_done(tasks, agreed), default=agreed)


def _days_done(tasks: Iterable[Waiting], agreed: date) -> Iterator[date]:
    moments = {FROM_THE_ACCEPTANCE: (agreed, agreed)}
    for task in tasks:
        if task.stage == FROM_THE_ACCEPTANCE:
            yield due_date(task.stage, task.days or 0, task.counts_from or None, moments=moments)
