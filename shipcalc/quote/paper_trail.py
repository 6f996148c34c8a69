"""Which papers and tasks an option brings, with their dates: where the tables meet the schedule."""

from collections.abc import Iterable
from datetime import date
from typing import TypeVar

from shipcalc.paperwork.needs import Facts, documents_needed, tasks_needed
from shipcalc.quote.choices import is_low
from shipcalc.quote.model import Document, Task
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.paperwork_rows import DocumentRow, TaskRow
from shipcalc.schedule.due import due_date
from shipcalc.schedule.road import RoadDates
from shipcalc.vehicles.vehicle import Vehicle


def papers(
    request: Request, book: RateBook, *, trailer: str, agreed: date, dates: RoadDates
) -> tuple[tuple[Document, ...], tuple[Task, ...]]:
    """Return the documents and tasks of the shipment; each of several vehicles has its own, unless their row says otherwise."""
    several = len(request.vehicles) > 1
    documents: list[Document] = []
    tasks: list[Task] = []
    for vehicle in request.vehicles:
        facts, number = _facts(request, vehicle, trailer), vehicle.stock_number if several else None
        documents += [
            _document(row, number, due_date(row.stage, row.days, agreed=agreed, dates=dates))
            for row in documents_needed(book.documents, facts)
        ]
        tasks += [
            _task(row, number, due_date(row.stage, row.days, agreed=agreed, dates=dates))
            for row in tasks_needed(book.tasks, facts)
        ]
    return _once(documents), _once(tasks)


Paper = TypeVar("Paper", Document, Task)


def _once(papers: Iterable[Paper]) -> tuple[Paper, ...]:
    """Return the papers without what is for the whole shipment and came with another vehicle already."""
    first: dict[tuple[str, str | None], Paper] = {}
    for paper in papers:
        first.setdefault((paper.code, paper.vehicle), paper)
    return tuple(first.values())


def _facts(request: Request, vehicle: Vehicle, trailer: str) -> Facts:
    return Facts(
        overseas=False,
        to_country=request.to.country,
        trailer=trailer,
        title=vehicle.title,
        runs=vehicle.runs,
        lift_gate=request.wishes.lift_gate or is_low(vehicle),
        value_minor=vehicle.value_minor,
    )


def _document(row: DocumentRow, vehicle: str | None, due: date) -> Document:
    return Document(
        code=row.code,
        title=row.document,
        due=due,
        stage=row.stage,
        prepared_by=row.prepared_by,
        given_to=row.given_to or "",
        copies=row.copies or "",
        note=row.note or "",
        source=row.source or "",
        vehicle=vehicle if row.each_vehicle else None,
    )


def _task(row: TaskRow, vehicle: str | None, due: date) -> Task:
    return Task(
        code=row.code,
        title=row.task,
        owner=row.owner,
        due=due,
        stage=row.stage,
        after=row.after,
        proof=row.proof or "",
        critical=row.critical,
        note=row.note or "",
        source=row.source or "",
        vehicle=vehicle if row.each_vehicle else None,
    )
