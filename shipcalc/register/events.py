"""What happened to a quote, and when: written with the change itself, and never changed."""

from sqlalchemy import Connection, func, insert, select

from shipcalc.quote.model import Quote
from shipcalc.records import dataclass
from shipcalc.register.tables import events, quotes


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """Something that happened to a quote or shipment. `id` is greater with each."""

    id: int
    number: str
    what: str
    who: str


def note_event(connection: Connection, quote: Quote, what: str, *, at: str, who: str = "", told: str = "") -> None:
    """Note what happened to a quote."""
    row = {"number": quote.number, "revision": quote.revision, "at": at, "what": what, "who": who, "told": told}
    connection.execute(insert(events), row)


def events_of(connection: Connection, number: str) -> tuple[tuple[str, str, str, str, int], ...]:
    """Return what happened to a quote, oldest first: (at, what, who, told, revision)."""
    asked = select(events).where(events.c.number == number).order_by(events.c.id)
    return tuple((row.at, row.what, row.who, row.told, row.revision) for row in connection.execute(asked))


def note_of_number(connection: Connection, number: str, what: str, *, at: str, who: str, told: str) -> None:
    """Note what happened to a quote of which only the number is at hand."""
    revision = connection.execute(select(quotes.c.revision).where(quotes.c.number == number)).scalar_one()
    row = {"number": number, "revision": revision, "at": at, "what": what, "who": who, "told": told}
    connection.execute(insert(events), row)


def latest_event(connection: Connection) -> int:
    """Return the number of the latest event, 0 where nothing ever happened."""
    return int(connection.execute(select(func.max(events.c.id))).scalar() or 0)


def events_after(connection: Connection, last: int, *, most: int) -> tuple[Event, ...]:
    """Return what happened after an event, oldest first."""
    asked = select(events.c.id, events.c.number, events.c.what, events.c.who).where(events.c.id > last)
    rows = connection.execute(asked.order_by(events.c.id).limit(most))
    return tuple(Event(id=row.id, number=row.number, what=row.what, who=row.who) for row in rows)
