"""What can be wrong between the rows of *Documents* and *Tasks*, each with its cell."""

from collections.abc import Iterable, Iterator, Sequence

from shipcalc.errors import Problem
from shipcalc.ratebook.paperwork_rows import DocumentRow, TaskRow


def paperwork_problems(documents: Sequence[DocumentRow], tasks: Sequence[TaskRow]) -> tuple[Problem, ...]:
    """Return all that is wrong between the rows, the documents first, then the tasks."""
    return (
        *_unknown_codes(tasks),
        *_circles(tasks),
        *_later_than_what_waits(tasks),
        *_sources_missing(documents, tasks),
    )


def _unknown_codes(tasks: Sequence[TaskRow]) -> Iterator[Problem]:
    """Every code under After is the code of a task, or it would wait for nothing."""
    known = {task.code.casefold() for task in tasks}
    for task in tasks:
        for code in task.after:
            if code.casefold() not in known:
                yield Problem(
                    task.at.cell("after"),
                    f'"{code}" is not the code of any task',
                    "write the code of a row of this sheet, or leave it blank",
                )


def _circles(tasks: Sequence[TaskRow]) -> Iterator[Problem]:
    """No task waits for itself by way of others, or neither could ever begin."""
    after: dict[str, set[str]] = {}
    for task in tasks:
        after.setdefault(task.code.casefold(), set()).update(code.casefold() for code in task.after)
    reported: set[frozenset[str]] = set()
    for task in tasks:
        circle = _way_back(task.code.casefold(), after)
        if circle and frozenset(circle) not in reported:
            reported.add(frozenset(circle))
            names = {entry.code.casefold(): entry.code for entry in tasks}
            way = " → ".join(names[code] for code in (*circle, circle[0]))
            yield Problem(
                task.at.cell("after"),
                f"these tasks wait for each other in a circle: {way}",
                "take one of the codes out of After",
            )


def _way_back(start: str, after: dict[str, set[str]]) -> tuple[str, ...]:
    """Return the shortest way from a task through what it waits for back to itself, or nothing."""
    ways: list[tuple[str, ...]] = [(start,)]
    seen: set[str] = set()
    while ways:
        way = ways.pop(0)
        for code in sorted(after.get(way[-1], ())):
            if code == start:
                return way
            if code not in seen:
                seen.add(code)
                ways.append((*way, code))
    return ()


def _later_than_what_waits(tasks: Sequence[TaskRow]) -> Iterator[Problem]:
    """Of two tasks of one stage, the one that waits is not due before the one it waits for."""
    due = {task.code.casefold(): (task.stage, task.days) for task in tasks}
    for task in tasks:
        for code in task.after:
            stage, days = due.get(code.casefold(), ("", 0))
            if stage == task.stage and days > task.days:
                yield Problem(
                    task.at.cell("days"),
                    f'is due before "{code}", which comes first',
                    "make it due later, or the other sooner; until then the checklist moves the other forward",
                    "warning",
                )


def _sources_missing(documents: Iterable[DocumentRow], tasks: Iterable[TaskRow]) -> Iterator[Problem]:
    """Every row says where it is from, be it common practice."""
    rows: tuple[DocumentRow | TaskRow, ...] = (*documents, *tasks)
    for row in rows:
        if not (row.source or "").strip():
            yield Problem(
                row.at.cell("source"),
                "no source is given",
                'write the law or standard, or "common practice, no source"',
                "warning",
            )
