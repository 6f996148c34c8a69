"""From an option of a quote to its checklist."""

import hashlib
from collections.abc import Iterator, Sequence
from datetime import date

from shipcalc.checklist.items import Item, item_id
from shipcalc.checklist.ordering import with_dates_that_hold
from shipcalc.quote.model import Document, Option, Quote, Task
from shipcalc.records import replace
from shipcalc.trade import MOMENTS

# How the line of a paper begins that no task makes.
PAPER_READY = "Have this paper ready"


def checklist(quote: Quote, option: Option) -> tuple[Item, ...]:
    """Return what is to be done for an option, by date, with what comes first before what waits for it.

    Each paper has an item: the task that bears its code, or else one made for it. An item is due no later than what waits for
    it, whatever the tables say. Where there are several vehicles, what is to be done names the one it is for.
    """
    several = len(quote.vehicles) > 1
    papers = {item_id(paper.code, paper.vehicle): paper for paper in option.documents}
    ids = [item_id(task.code, task.vehicle) for task in option.tasks]
    items = [_task_item(task, own_id, ids, papers.get(own_id)) for task, own_id in zip(option.tasks, ids, strict=True)]
    items.extend(_paper_item(paper, key) for key, paper in papers.items() if key not in set(ids))
    named = [_named(item) for item in items] if several else items
    return with_dates_that_hold(named, gates(quote, option))


def gates(quote: Quote, option: Option) -> dict[str, tuple[date, date]]:
    """Return the first and the last day of the stages that an item must not pass, in the order they come."""
    between = {step.stage: (step.earliest, step.latest) for step in option.dates.timeline if step.stage}
    known = {
        "ready": (quote.ready, quote.ready),
        **between,
        "pickup": option.dates.pickup,
        "delivery": option.dates.delivery,
    }
    return {stage: known[stage] for stage in MOMENTS if stage in known}


def free_days(option: Option) -> dict[str, int]:
    """Return how many days by the calendar a vehicle stands in a port free of storage, by the stage that brings it there."""
    return {step.stage: step.free_days for step in option.dates.timeline if step.free_days is not None}


def _named(item: Item) -> Item:
    return replace(item, title=f"{item.vehicle}: {item.title}") if item.vehicle else item


def _task_item(task: Task, own_id: str, ids: Sequence[str], paper: Document | None) -> Item:
    return Item(
        id=own_id,
        title=task.title,
        owner=task.owner,
        due=min(task.due, paper.due) if paper else task.due,
        stage=task.stage,
        after=tuple(dict.fromkeys(key for code in task.after for key in _ids_of(code, task.vehicle, ids))),
        critical=task.critical,
        wanted=task.proof or (paper.title if paper else ""),
        note=task.note,
        source=_learnt(task),
        vehicle=task.vehicle,
    )


def _learnt(told: Task | Document) -> str:
    """Return the source with how it was learnt, where nobody read all of it."""
    told_so = told.trust if told.trust in ("partly read", "second hand", "memory") else ""
    return " · ".join(part for part in (told.source, told_so and f"trust: {told_so}") if part)


def _paper_item(paper: Document, key: str) -> Item:
    handing_on = f" and give it to the {paper.given_to}" if paper.given_to else ""
    return Item(
        id=key,
        title=f"{PAPER_READY}{handing_on}: {paper.title}",
        owner=paper.prepared_by,
        due=paper.due,
        stage=paper.stage,
        wanted=paper.copies or paper.title,
        note=paper.note,
        source=_learnt(paper),
        vehicle=paper.vehicle,
    )


def _ids_of(code: str, vehicle: str | None, ids: Sequence[str]) -> Iterator[str]:
    """Yield the ids a code means: the one of the same vehicle, else the shipment's, else those of all vehicles."""
    wanted = code.casefold()
    for key in (item_id(code, vehicle), code):
        same = [entry for entry in ids if entry.casefold() == key.casefold()]
        if same:
            yield from same
            return
    yield from (entry for entry in ids if entry.casefold().startswith(f"{wanted}/"))


def shipment_key(quote: Quote, option: Option) -> str:
    """Return what tells one shipment from another, also where the quote has no number: it stays when dates move."""
    told = "|".join(
        (quote.dealer.name, quote.buyer, quote.to.name, *(vehicle.stock_number for vehicle in quote.vehicles))
    )
    digest = hashlib.sha256(f"{told}|{option.title}".encode()).hexdigest()[:10]
    return f"{quote.number}-{digest}" if quote.number else digest
