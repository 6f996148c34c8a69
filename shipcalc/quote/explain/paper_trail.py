"""Which papers and tasks an option brings, with their dates: where the tables meet the schedule."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from functools import cache, lru_cache, partial
from typing import TypeVar

from shipcalc.money import to_decimal
from shipcalc.paperwork.needs import (
    DELIVERED,
    Facts,
    Rules,
    as_travelled,
    asked_of_buyer,
    documents_needed,
    rules_of,
    tasks_needed,
)
from shipcalc.pricing.facts import age_in_years
from shipcalc.quote.model import Document, Loaded, Task, Window
from shipcalc.quote.network.trucks import is_low
from shipcalc.quote.request import Request
from shipcalc.quote.time.soonest import in_their_turn
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.paperwork import DocumentRow, FromBuyerRow, TaskRow
from shipcalc.records import dataclass, replace
from shipcalc.schedule.due import due_date
from shipcalc.trade import Treatment
from shipcalc.vehicles.vehicle import Vehicle

_WITH_BATTERY = frozenset({"electric", "hybrid", "diesel hybrid"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """How a shipment travels, as far as its papers depend on it.

    `overseas`: it leaves the customs territory; `export_filing`: an export filing is due (also to Puerto Rico and the US Virgin
    Islands). `mode` is one of `trade.PAPER_MODES`, `term` the delivery term; `seller_pays` are the cost stages
    on the seller's account, all others are the buyer's. `treatment` is how the buyer's customs take the vehicle in the sums, None
    where no customs do; vehicles of `collector_from_years` may be taken as collector's pieces there.
    `loading` is how each vehicle goes onto what carries it; one that is not named there is carried by nobody.
    """

    trailer: str | None
    to_country: str
    mode: str = "truck"
    overseas: bool = False
    export_filing: bool = False
    term: str = "DAP"
    seller_pays: frozenset[str] = DELIVERED
    treatment: Treatment | None = None
    collector_from_years: int | None = None
    loading: tuple[Loaded, ...] = ()


def papers(
    request: Request, book: RateBook, *, way: Way, days: Mapping[str, Window]
) -> tuple[tuple[Document, ...], tuple[Task, ...]]:
    """Return the documents and tasks of the shipment; each of several vehicles has its own, unless their row says otherwise.

    `days` are the windows of the stages that the shipment has (`trade.MOMENTS`);
    by road, `schedule.due.home_days`.
    """
    several = len(request.vehicles) > 1
    rules, currency = _rules(book), book.pricing.currency
    due = cache(partial(due_date, moments=days))
    documents: list[Document] = []
    tasks: list[Task] = []
    for vehicle, facts in zip(request.vehicles, _all_facts(request, book, way, days), strict=True):
        number = vehicle.stock_number if several else None
        documents += [
            _document(row, number, due(row.stage, row.days), currency)
            for row in documents_needed(rules.documents, facts)
        ]
        tasks += [
            _task(row, number, due(row.stage, row.days, row.counts_from)) for row in tasks_needed(rules.tasks, facts)
        ]
    to_do = in_their_turn(_once(tasks), days)
    return due_with_their_task(_once(documents), to_do), to_do


def due_with_their_task(documents: Sequence[Document], tasks: Sequence[Task]) -> tuple[Document, ...]:
    """Return the documents, each due with the task that bears its code."""
    by_task = {(task.code, task.vehicle): task.due for task in tasks}
    return tuple(replace(one, due=by_task.get((one.code, one.vehicle), one.due)) for one in documents)


def needed_from_buyer(request: Request, book: RateBook, *, way: Way, days: Mapping[str, Window]) -> tuple[str, ...]:
    """Return what the buyer must bring or tell for the shipment, a sentence each."""
    rules = _rules(book).from_buyer
    told = [row.asked for facts in _all_facts(request, book, way, days) for row in asked_of_buyer(rules, facts)]
    return tuple(dict.fromkeys(told))


def _all_facts(request: Request, book: RateBook, way: Way, days: Mapping[str, Window]) -> list[Facts]:
    """Return the facts of every vehicle, in the order of the request."""
    on_arrival, leaves = days.get("arrival", days["delivery"])[0], days.get("sailing", days["pickup"])
    facts = partial(
        _facts, request, way=way, days=(on_arrival, leaves, days["agreed"][0]), balance_due=book.pricing.balance_due
    )
    return [facts(vehicle) for vehicle in request.vehicles]


@dataclass(frozen=True, slots=True, eq=False)
class _Rules:
    documents: Rules[DocumentRow]
    tasks: Rules[TaskRow]
    from_buyer: Rules[FromBuyerRow]


@lru_cache(maxsize=8)
def _rules(book: RateBook) -> _Rules:
    return _Rules(rules_of(book.documents), rules_of(book.tasks), rules_of(book.from_buyer))


def task_rules(book: RateBook) -> Rules[TaskRow]:
    """Return the tasks of a rate book as they are asked."""
    return _rules(book).tasks


Paper = TypeVar("Paper", Document, Task)


def _once(papers: Iterable[Paper]) -> tuple[Paper, ...]:
    """Return the papers without what is for the whole shipment and came with another vehicle already."""
    first: dict[tuple[str, str | None], Paper] = {}
    for paper in papers:
        first.setdefault((paper.code, paper.vehicle), paper)
    return tuple(first.values())


def _facts(request: Request, vehicle: Vehicle, *, way: Way, days: tuple[date, Window, date], balance_due: str) -> Facts:
    on_arrival, leaves, asked_on = days
    age, old_enough = age_in_years(vehicle, on_arrival), way.collector_from_years
    return Facts(
        day=asked_on,
        overseas=way.overseas,
        export_filing=way.export_filing,
        to_country=way.to_country,
        mode=way.mode,
        loaded=next((one.way for one in way.loading if one.vehicle == vehicle.stock_number), None),
        term=way.term,
        seller_pays=as_travelled(way.seller_pays, way.mode),
        balance_due=balance_due,
        leaves=leaves,
        treatment=way.treatment,
        may_be_collectors=old_enough is not None and (age or 0) >= old_enough,
        trailer=way.trailer,
        title=vehicle.title,
        runs=vehicle.runs,
        lift_gate=request.wishes.lift_gate or is_low(vehicle),
        value_minor=vehicle.value_minor,
        age_years=age,
        battery=vehicle.fuel in _WITH_BATTERY,
    )


def _document(row: DocumentRow, vehicle: str | None, due: date, currency: str) -> Document:
    return Document(
        code=row.code,
        title=row.document,
        due=due,
        stage=row.stage,
        prepared_by=row.prepared_by,
        given_to=row.given_to or "",
        copies=row.copies or "",
        fee=None if row.fee_minor is None else to_decimal(row.fee_minor, currency),
        note=row.note or "",
        source=row.source or "",
        trust=row.trust or "",
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
        takes_days=row.takes_days,
        days=row.days,
        counts_from=row.counts_from or "",
        proof=row.proof or "",
        critical=row.critical,
        note=row.note or "",
        source=row.source or "",
        trust=row.trust or "",
        vehicle=vehicle if row.each_vehicle else None,
    )
