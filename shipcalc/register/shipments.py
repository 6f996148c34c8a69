"""An accepted quote as a shipment: its checklist line by line, its days, its references. Same number."""

import json
from collections.abc import Mapping, Sequence
from datetime import date

from sqlalchemy import ColumnElement, Connection, Row, case, delete, func, insert, or_, select, update

from shipcalc.checklist.accepting import accepted_on
from shipcalc.checklist.items import Item, item_id
from shipcalc.checklist.making import checklist, free_days, gates
from shipcalc.checklist.ordering import in_working_order, with_dates_that_hold
from shipcalc.errors import ShipcalcError, WrongInput
from shipcalc.quote.model import Option, Quote, Window
from shipcalc.records import dataclass, replace
from shipcalc.register.dialect import insert_into
from shipcalc.register.quotes import find_kept
from shipcalc.register.states import ACCEPTED
from shipcalc.register.tables import quotes, shipment_references, shipments, tasks
from shipcalc.register.words import has_words


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of a checklist as it is kept: what is to be done, the person it was given to, and how often it was changed.

    `place` is its number, counted from 1; it stays, whatever moves. `paper` is the one that it makes, "" for none; `added` is
    what people wrote into columns of their own, by header.
    """

    item: Item
    place: int
    assigned: str = ""
    version: int = 1
    paper: str = ""
    added: tuple[tuple[str, str], ...] = ()

    @property
    def who(self) -> str:
        """Return whose it is, as the column Who says it: the role, and the person behind a colon."""
        return f"{self.item.owner}: {self.assigned}" if self.assigned else self.item.owner


@dataclass(frozen=True, slots=True, kw_only=True)
class Shipment:
    """A shipment as it stands. `quote` is dated from its acceptance; `recorded` are days that came true, by moment."""

    number: str
    quote: Quote
    choice: int
    accepted_on: date
    moments: Mapping[str, Window]
    free_days: Mapping[str, int]
    recorded: Mapping[str, date]
    version: int
    lines: tuple[Line, ...]
    references: Mapping[str, str]

    @property
    def option(self) -> Option:
        """Return the choice that was taken."""
        return self.quote.options[self.choice]

    @property
    def items(self) -> tuple[Item, ...]:
        """Return what is to be done, in working order, with how far each line may slip."""
        items = [line.item for line in self.lines]
        slack = {item.id: item.slack_days for item in with_dates_that_hold(items, self.moments)}
        return in_working_order([replace(item, slack_days=slack[item.id]) for item in items])


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A shipment as lists show it: how many lines are open and late, and the day of the next one."""

    number: str
    buyer: str
    vehicles: str
    to: str
    accepted_on: date
    open: int
    late: int
    next_due: date | None
    moments: Mapping[str, Window]


def begin(connection: Connection, quote: Quote, choice: int, on: date) -> tuple[str, ...]:
    """Keep the checklist of a choice that was accepted on a day, and return what that day no longer reaches.

    Where an earlier yes was taken back, versions go on, so that a checklist of then is known for an older one; references and
    files stay.

    Raises NoAnswer where its ship is no longer reached.
    """
    taken = accepted_on(quote, choice, on)
    _keep(connection, taken.quote, choice, on)
    return taken.said


def begin_missing(connection: Connection) -> None:
    """Begin the shipments of quotes that were accepted while registers had none; part of bringing one up to date."""
    asked = select(quotes.c.number, quotes.c.choice, quotes.c.decided_on).where(
        quotes.c.state == ACCEPTED, quotes.c.number.not_in(select(shipments.c.number))
    )
    for number, choice, day in connection.execute(asked).all():
        quote = find_kept(connection, number).quote
        chosen, on = quote.recommended if choice is None else choice, day or quote.as_of
        _keep(connection, _dated(quote, chosen, on), chosen, on)


def _dated(quote: Quote, choice: int, on: date) -> Quote:
    """Return a quote dated from its acceptance; as it was quoted, where that day reaches nothing any more."""
    try:
        return accepted_on(quote, choice, on).quote
    except ShipcalcError:
        return quote


def _keep(connection: Connection, quote: Quote, choice: int, on: date) -> None:
    option = quote.options[choice]
    row = {
        "revision": quote.revision,
        "choice": choice,
        "accepted_on": on,
        "moments": moments_to_json(gates(quote, option)),
        "free_days": json.dumps(free_days(option)),
        "recorded": "{}",
    }
    kept = insert_into(connection, shipments).values(number=quote.number, version=1, **row)
    further = {**row, "version": shipments.c.version + 1}
    connection.execute(kept.on_conflict_do_update(index_elements=["number"], set_=further))
    connection.execute(delete(tasks).where(tasks.c.number == quote.number))
    papers = {item_id(paper.code, paper.vehicle): paper.title for paper in option.documents}
    lines = [
        Line(item=item, place=place, paper=papers.get(item.id, ""))
        for place, item in enumerate(checklist(quote, option), 1)
    ]
    if lines:
        connection.execute(insert(tasks), [row_of(quote.number or "", line) for line in lines])


def row_of(number: str, line: Line) -> dict[str, object]:
    """Return a line as its row."""
    item = line.item
    return {
        "number": number,
        "id": item.id,
        "place": line.place,
        "title": item.title,
        "owner": item.owner,
        "assigned": line.assigned,
        "due": item.due,
        "due_by_hand": int(item.due_by_hand),
        "stage": item.stage,
        "after": json.dumps(item.after),
        "critical": int(item.critical),
        "wanted": item.wanted,
        "note": item.note,
        "source": item.source,
        "vehicle": item.vehicle,
        "state": item.state,
        "done_on": item.done_on,
        "done_by": item.done_by,
        "remark": item.remark,
        "version": line.version,
        "paper": line.paper,
        "added": json.dumps(dict(line.added), ensure_ascii=False),
    }


def _line(row: Row[tuple[object, ...]]) -> Line:
    item = Item(
        id=row.id,
        title=row.title,
        owner=row.owner,
        due=row.due,
        due_by_hand=bool(row.due_by_hand),
        stage=row.stage,
        after=tuple(json.loads(row.after)),
        critical=bool(row.critical),
        wanted=row.wanted,
        note=row.note,
        source=row.source,
        vehicle=row.vehicle,
        state=row.state,
        done_on=row.done_on,
        done_by=row.done_by,
        remark=row.remark,
    )
    return Line(
        item=item,
        place=row.place,
        assigned=row.assigned,
        version=row.version,
        paper=row.paper,
        added=tuple(json.loads(row.added).items()),
    )


def find_shipment(connection: Connection, number: str) -> Shipment:
    """Return a shipment as it stands. Raises WrongInput where the quote was not accepted, or there is none."""
    kept = find_kept(connection, number)
    if connection.execute(select(quotes.c.state).where(quotes.c.number == number)).scalar() != ACCEPTED:
        remedy = f"shipcalc quotes accept {number} keeps the buyer's yes"
        raise WrongInput(f"{number} is no shipment: nobody has accepted it", remedy=remedy)
    row = connection.execute(select(shipments).where(shipments.c.number == number)).first()
    if row is None:
        remedy = "shipcalc register upgrade FOLDER begins its shipment"
        raise WrongInput(f"{number} was accepted when the register had no shipments", remedy=remedy)
    lines = connection.execute(select(tasks).where(tasks.c.number == number).order_by(tasks.c.place)).all()
    named = connection.execute(select(shipment_references).where(shipment_references.c.number == number)).all()
    return Shipment(
        number=number,
        quote=_dated(kept.quote, row.choice, row.accepted_on),
        choice=row.choice,
        accepted_on=row.accepted_on,
        moments=moments_from_json(row.moments),
        free_days=json.loads(row.free_days),
        recorded={stage: date.fromisoformat(day) for stage, day in json.loads(row.recorded).items()},
        version=row.version,
        lines=tuple(_line(line) for line in lines),
        references={one.name: one.value for one in named},
    )


def list_shipments(connection: Connection, *, today: date, text: str = "", most: int = 50) -> tuple[Standing, ...]:
    """Return the shipments under way, what is due first at the head; with a text, those that it is a word or a reference of."""
    still = tasks.c.state == "open"
    counted = (
        select(
            tasks.c.number,
            func.sum(case((still, 1), else_=0)).label("open"),
            func.sum(case((still & (tasks.c.due < today), 1), else_=0)).label("late"),
            func.min(case((still, tasks.c.due))).label("next_due"),
        )
        .group_by(tasks.c.number)
        .subquery()
    )
    asked = (
        select(shipments, quotes.c.buyer, quotes.c.vehicles, quotes.c.place, counted)
        .join(quotes, quotes.c.number == shipments.c.number)
        .outerjoin(counted, counted.c.number == shipments.c.number)
        .where(quotes.c.state == ACCEPTED)
    )
    if text.strip():
        asked = asked.where(_found(connection, text))
    due = func.coalesce(counted.c.next_due, date.max)
    rows = connection.execute(asked.order_by(due, shipments.c.number).limit(most)).all()
    return tuple(
        Standing(
            number=row.number,
            buyer=row.buyer,
            vehicles=row.vehicles,
            to=row.place,
            accepted_on=row.accepted_on,
            open=int(row.open or 0),
            late=int(row.late or 0),
            next_due=row.next_due,
            moments=moments_from_json(row.moments),
        )
        for row in rows
    )


def _found(connection: Connection, text: str) -> ColumnElement[bool]:
    """Say of a shipment that it has every word of a text, or the whole text in a reference."""
    named = select(shipment_references.c.number).where(
        func.lower(shipment_references.c.value).contains(text.strip().casefold(), autoescape=True)
    )
    return or_(has_words(connection, shipments.c.number, text), shipments.c.number.in_(named))


def moments_to_json(moments: Mapping[str, Window]) -> str:
    """Return the days of a shipment's moments as they are kept."""
    return json.dumps({stage: [day.isoformat() for day in days] for stage, days in moments.items()})


def moments_from_json(text: str) -> dict[str, Window]:
    """Return the days of a shipment's moments, in their order."""
    return {
        stage: (date.fromisoformat(first), date.fromisoformat(last))
        for stage, (first, last) in json.loads(text).items()
    }


def keep_changed(connection: Connection, was: Shipment, now: Shipment, seen: Mapping[str, int] | None = None) -> None:
    """Keep a shipment as it is now; `seen` are versions of lines that somebody looked at before changing them.

    Raises WrongInput where another desk has changed such a line meanwhile: one of the two changes would be lost unseen.
    """
    before = {line.item.id: line for line in was.lines}
    for line in now.lines:
        old = before.get(line.item.id)
        if old is None:
            connection.execute(insert(tasks), row_of(now.number, line))
        elif old != line:
            _keep_line(connection, now.number, line, (seen or {}).get(line.item.id, old.version))
    _keep_references(connection, was, now)
    row = {
        "moments": moments_to_json(now.moments),
        "recorded": json.dumps({stage: day.isoformat() for stage, day in now.recorded.items()}),
        "version": was.version + 1,
    }
    connection.execute(update(shipments).where(shipments.c.number == now.number).values(**row))


def _keep_line(connection: Connection, number: str, line: Line, seen: int) -> None:
    at = (tasks.c.number == number, tasks.c.id == line.item.id, tasks.c.version == seen)
    done = connection.execute(update(tasks).where(*at).values(**row_of(number, replace(line, version=seen + 1))))
    if done.rowcount != 1:
        told = f"“{line.item.title}” was changed at another desk meanwhile"
        raise WrongInput(told, where=number, remedy="look at it again, then change it")


def _keep_references(connection: Connection, was: Shipment, now: Shipment) -> None:
    table = shipment_references
    for name in {*was.references, *now.references}:
        value = now.references.get(name, "")
        if value and value != was.references.get(name):
            row = insert_into(connection, table).values(number=now.number, name=name, value=value)
            connection.execute(row.on_conflict_do_update(index_elements=["number", "name"], set_={"value": value}))
        elif not value:
            connection.execute(delete(table).where(table.c.number == now.number, table.c.name == name))


def line_meant(shipment: Shipment, text: str) -> Line:
    """Return the line that somebody names, by its number or its id. Raises WrongInput where none, or several, are meant."""
    wanted = text.strip().casefold()
    found: Sequence[Line] = [
        line for line in shipment.lines if wanted in (str(line.place), line.item.id.casefold())
    ] or [line for line in shipment.lines if line.item.id.casefold().startswith(wanted)]
    if len(found) != 1 or not wanted:
        which = ", ".join(f"{line.place} {line.item.id}" for line in found[:4])
        told = f'"{text}" can be {which}' if found else f'{shipment.number} has no line "{text}"'
        raise WrongInput(told, remedy=f"shipcalc shipments show {shipment.number} has the numbers")
    return found[0]
