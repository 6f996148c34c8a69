"""Forget a buyer: what says who it was is taken out of everything that is kept; sums, days and vehicles stay for the books."""

import json
from pathlib import Path

import msgspec
from sqlalchemy import Connection, delete, select, update

from shipcalc.errors import NoAnswer
from shipcalc.places.place import Place
from shipcalc.quote.as_data import quote_to_json
from shipcalc.records import replace
from shipcalc.register.contacts import forget_contact
from shipcalc.register.events import note_event
from shipcalc.register.opening import Register
from shipcalc.register.packing import packed
from shipcalc.register.quotes import find_kept
from shipcalc.register.states import ACCEPTED
from shipcalc.register.tables import copies, events, files, quotes, revisions, shipment_references, tasks, words

FORGOTTEN = "forgotten"


def forget(
    register: Register, numbers: tuple[str, ...], *, at: str, although_accepted: bool = False
) -> tuple[str, ...]:
    """Erase who the buyers of some quotes were, and return the numbers.

    Raises NoAnswer for one that was accepted: what is under way needs its buyer, and tax law may ask for it for years.
    """
    with register.writing("forgetting a buyer") as connection:
        for number in numbers:
            _check_may_be_forgotten(connection, number, although_accepted=although_accepted)
        for number in numbers:
            _forget(connection, number, at)
    return numbers


def _check_may_be_forgotten(connection: Connection, number: str, *, although_accepted: bool) -> None:
    """All are asked for before anything is erased: files that are deleted do not come back where the rest is refused."""
    find_kept(connection, number)
    state = connection.execute(select(quotes.c.state).where(quotes.c.number == number)).scalar_one()
    if state == ACCEPTED and not although_accepted:
        remedy = "once the law no longer has you keep it, say --although-accepted"
        raise NoAnswer(f"{number} was accepted: its buyer is on the papers", remedy=remedy)


def _forget(connection: Connection, number: str, at: str) -> None:
    latest = find_kept(connection, number)
    for revision in range(1, latest.latest + 1):
        kept = find_kept(connection, number, revision)
        request = msgspec.json.encode(replace(kept.request, buyer="")).decode()
        row = {
            "quote": packed(_without_street(quote_to_json(replace(kept.quote, buyer="")), kept.quote.to)),
            "request": packed(_without_street(request, kept.request.to)),
        }
        of_it = (revisions.c.number == number, revisions.c.revision == revision)
        connection.execute(update(revisions).where(*of_it).values(**row))
    connection.execute(update(quotes).where(quotes.c.number == number).values(buyer="", decided_by=""))
    connection.execute(update(events).where(events.c.number == number).values(who="", told=""))
    connection.execute(delete(words).where(words.c.number == number, words.c.about == "buyer"))
    _forget_shipment(connection, number, latest.quote.buyer)
    note_event(connection, latest.quote, FORGOTTEN, at=at)


def _forget_shipment(connection: Connection, number: str, buyer: str) -> None:
    """Erase what a shipment says of its buyer: notes, columns of people's own, who did what, its files (copies of ours are
    deleted), the address."""
    connection.execute(update(tasks).where(tasks.c.number == number).values(remark="", done_by="", added="{}"))
    buyers = shipment_references.c.name.in_(("tracking", "driver"))
    connection.execute(delete(shipment_references).where(shipment_references.c.number == number, buyers))
    connection.execute(delete(copies).where(copies.c.number == number))
    ours = select(files.c.path).where(files.c.number == number, files.c.copied == 1)
    for path in connection.execute(ours).scalars().all():
        Path(path).unlink(missing_ok=True)
    connection.execute(delete(files).where(files.c.number == number))
    if buyer:
        forget_contact(connection, buyer)


def _without_street(text: str, place: Place) -> str:
    """Return a quote or request as JSON with its street address, wherever it is named, as the state or country it lies in."""
    if place.kind != "address":
        return text
    street, wider = (
        json.dumps(name, ensure_ascii=False)[1:-1] for name in (place.name, place.subdivision or place.country)
    )
    return text.replace(street, wider)
