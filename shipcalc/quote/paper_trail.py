"""Which papers and tasks an option brings, with their dates: where the tables meet the schedule."""

from collections.abc import Iterator
from datetime import date

from shipcalc.paperwork.needs import Facts, documents_needed, tasks_needed
from shipcalc.quote.model import Document, Task
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.schedule.due import due_date
from shipcalc.schedule.road import RoadDates


def papers(
    request: Request, book: RateBook, *, trailer: str, agreed: date, dates: RoadDates
) -> tuple[tuple[Document, ...], tuple[Task, ...]]:
    """Return the documents and tasks of the shipment; with several vehicles each names its own."""
    documents: list[Document] = []
    tasks: list[Task] = []
    for number, facts in _facts(request, trailer):
        for paper in documents_needed(book.documents, facts):
            documents.append(
                Document(
                    code=paper.code,
                    title=paper.document,
                    due=due_date(paper.stage, paper.days, agreed=agreed, dates=dates),
                    prepared_by=paper.prepared_by,
                    given_to=paper.given_to or "",
                    copies=paper.copies or "",
                    note=paper.note or "",
                    source=paper.source or "",
                    vehicle=number,
                )
            )
        for row in tasks_needed(book.tasks, facts):
            tasks.append(
                Task(
                    code=row.code,
                    title=row.task,
                    owner=row.owner,
                    due=due_date(row.stage, row.days, agreed=agreed, dates=dates),
                    stage=row.stage,
                    after=row.after,
                    proof=row.proof or "",
                    critical=row.critical,
                    note=row.note or "",
                    source=row.source or "",
                    vehicle=number,
                )
            )
    return tuple(documents), tuple(tasks)


def _facts(request: Request, trailer: str) -> Iterator[tuple[str | None, Facts]]:
    several = len(request.vehicles) > 1
    for vehicle in request.vehicles:
        facts = Facts(
            overseas=False,
            to_country=request.to.country,
            trailer=trailer,
            title=vehicle.title,
            runs=vehicle.runs,
            lift_gate=request.wishes.lift_gate,
            value_minor=vehicle.value_minor,
        )
        yield (vehicle.stock_number if several else None), facts
