"""No task is due before it can be done: it waits for what comes first, and what happens at a moment for its first day.

And none is due after what waits for it.
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta

from shipcalc.quote.model import Task, Window
from shipcalc.quote.time.booked import FROM_THE_ACCEPTANCE
from shipcalc.records import replace
from shipcalc.schedule.due import moment
from shipcalc.schedule.in_turn import days_in_turn

_Key = tuple[str, str | None]


def in_their_turn(tasks: Sequence[Task], moments: Mapping[str, Window]) -> tuple[Task, ...]:
    """Return the tasks with days that hold: none before it can be done, none after what waits for it.

    All that takes days is begun as soon as it can be. What waits in a circle is taken as waiting for nothing.
    """
    known = {_key(task.code, task.vehicle): task for task in tasks}
    after = {key: tuple(_waits_for(task, known)) for key, task in known.items()}
    first = {stage: moment(stage, moments)[0] for stage in {task.stage for task in tasks}}
    found: dict[_Key, date] = {}
    due = {
        key: max(task.due, _done(key, known, after, first, moments["agreed"][0], found)) for key, task in known.items()
    }
    # What counts from the acceptance takes the days it takes; what waits for it moves, not the deposit.
    opens = {key: due[key] if task.stage == FROM_THE_ACCEPTANCE else first[task.stage] for key, task in known.items()}
    days = days_in_turn(due, after, opens)
    return tuple(
        task if task.due == days[key] else replace(task, due=days[key])
        for task in tasks
        for key in (_key(task.code, task.vehicle),)
    )


def _done(
    own: _Key,
    known: Mapping[_Key, Task],
    after: Mapping[_Key, Sequence[_Key]],
    first: Mapping[str, date],
    agreed: date,
    found: dict[_Key, date],
) -> date:
    """Return the first day on which a task can be done; `first` is that of each moment, `found` are those known by now."""
    if own not in found:
        task, found[own] = known[own], agreed
        opens = first[task.stage] if (task.days or 0) >= 0 else agreed
        waits = [_done(key, known, after, first, agreed, found) for key in after[own]]
        found[own] = max([agreed, opens, *waits]) + timedelta(days=task.takes_days or 0)
    return found[own]


def _waits_for(task: Task, known: Mapping[_Key, Task]) -> Iterator[_Key]:
    """Yield what a task waits for: of the same vehicle, else of the shipment, else of all vehicles."""
    for code in task.after:
        own, whole = _key(code, task.vehicle), _key(code, None)
        if own in known or whole in known:
            yield own if own in known else whole
        else:
            yield from (key for key in known if key[0] == own[0])


def _key(code: str, vehicle: str | None) -> _Key:
    return code.casefold(), vehicle
