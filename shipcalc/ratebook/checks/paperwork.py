"""What must be true of documents and tasks."""

from collections.abc import Iterator

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.remarks import fault, short_cell, warning
from shipcalc.ratebook.rows.paperwork import DocumentRow, TaskRow
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.region_codes import COUNTRIES, MISTAKEN_COUNTRIES
from shipcalc.trade import SEA_MOMENTS


def countries_are_known(tables: Tables) -> Iterator[Problem]:
    """A condition names countries by their ISO 3166-1 letters, or it would never hold."""
    for row in (*tables.documents, *tables.tasks, *tables.from_buyer):
        for code in row.to_country:
            if code.upper() not in COUNTRIES:
                meant = MISTAKEN_COUNTRIES.get(code.upper(), "two letters (ISO 3166-1), e.g. DE")
                yield fault(row, "to_country", f'"{code}" is not the code of a country', f"write {meant}")


def stages_are_reached(tables: Tables) -> Iterator[Problem]:
    """Nothing is due by a stage that the shipments it is for never come to."""
    rows: tuple[DocumentRow | TaskRow, ...] = (*tables.documents, *tables.tasks)
    for row in rows:
        if row.stage in SEA_MOMENTS and row.overseas is False and row.mode == ("truck",):
            yield fault(
                row,
                "stage",
                f"a shipment by truck at home never comes to {row.stage}",
                "write ready, pickup, delivery or after delivery, or leave Mode or Overseas blank",
            )


def seasons_have_both_ends(tables: Tables) -> Iterator[Problem]:
    """A season has a first and a last day, or it would not count at all."""
    for row in (*tables.documents, *tables.tasks, *tables.from_buyer):
        for filled, empty in (("season_from", "season_to"), ("season_to", "season_from")):
            if getattr(row, filled) is not None and getattr(row, empty) is None:
                yield fault(row, empty, "a season needs its first and its last day", "fill both, or leave both blank")


def payers_can_be_met(tables: Tables) -> Iterator[Problem]:
    """Nothing is asked to be paid for by both sides, or the row would never hold."""
    for row in (*tables.documents, *tables.tasks, *tables.from_buyer):
        for stage in set(row.seller_pays) & set(row.buyer_pays):
            yield fault(row, "buyer_pays", f"{stage} stands under Seller pays too", "remove it from one of the two")


def documents_are_due_with_their_task(tables: Tables) -> Iterator[Problem]:
    """A document is due with the task of its code: another day beside it is read by nobody, and looks as if it counted."""
    tasks: dict[str, list[TaskRow]] = {}
    for task in tables.tasks:
        tasks.setdefault(task.code.casefold(), []).append(task)
    for row in tables.documents:
        own = tasks.get(row.code.casefold(), [])
        if own and all((task.stage, task.days) != (row.stage, row.days) for task in own):
            where = short_cell(own[0], "days")
            message = f'"{row.code}" is due with its task, {own[0].days} days from {own[0].stage}, whatever stands here'
            yield warning(row, "days", message, f"write the same here, or change the task ({where})")


def tasks_come_in_an_order(tables: Tables) -> Iterator[Problem]:
    """No task waits for itself, neither straight away nor around a circle of others."""
    by_code: dict[str, list[TaskRow]] = {}
    for row in tables.tasks:
        by_code.setdefault(row.code.casefold(), []).append(row)
    settled: set[str] = set()
    for code in by_code:
        circle = _circle(code, by_code, settled)
        if circle:
            follows = circle[1] if len(circle) > 1 else circle[0]
            row = next(row for row in by_code[circle[0]] if follows in {name.casefold() for name in row.after})
            way = " → ".join(by_code[name][0].code for name in (*circle, circle[0]))
            yield fault(row, "after", f"the tasks wait for each other: {way}", "remove one of these from After")


def _circle(start: str, by_code: dict[str, list[TaskRow]], settled: set[str]) -> tuple[str, ...]:
    """Return the codes of a circle that can be reached from `start`, or nothing; `settled` codes lead to none."""
    trail: list[str] = []
    stack: list[tuple[str, Iterator[str]]] = []

    def enter(code: str) -> None:
        trail.append(code)
        before = dict.fromkeys(name.casefold() for row in by_code[code] for name in row.after)
        stack.append((code, iter([name for name in before if name in by_code])))

    if start in settled:
        return ()
    enter(start)
    while stack:
        code, rest = stack[-1]
        following = next(rest, None)
        if following is None:
            settled.add(code)
            trail.pop()
            stack.pop()
        elif following in trail:
            found = tuple(trail[trail.index(following) :])
            settled.update(trail)
            return found
        elif following not in settled:
            enter(following)
    return ()


CHECKS = (
    countries_are_known,
    stages_are_reached,
    seasons_have_both_ends,
    payers_can_be_met,
    documents_are_due_with_their_task,
    tasks_come_in_an_order,
)
