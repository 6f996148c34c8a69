"""What happened to a quote, and when: written with the change itself, and never changed."""

from sqlalchemy import Connection, insert, select

from shipcalc.quote.model import Quote
from shipcalc.register.tables import events


def note_event(connection: Connection, quote: Quote, what: str, *, at: str, who: str = "", told: str = "") -> None:
    """Note what happened to a quote."""
    row = {"number": quote.number, "revision": quote.revision, "at": at, "what": what, "who": who, "told": told}
    connection.execute(insert(events), row)


def events_of(connection: Connection, number: str) -> tuple[tuple[str, str, str, str, int], ...]:
    """Return what happened to a quote, oldest first: (at, what, who, told, revision)."""
    asked = select(events).where(events.c.number == number).order_by(events.c.id)
    return tuple((row.at, row.what, row.who, row.told, row.revision) for row in connection.execute(asked))
