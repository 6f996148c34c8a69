"""The buyer says yes or no. A vehicle that was promised to one buyer cannot be promised to another."""

import re
from datetime import date

from sqlalchemy import Connection, delete, select, update

from shipcalc.errors import NoAnswer
from shipcalc.money import to_minor
from shipcalc.quote.model import Quote
from shipcalc.register.dialect import insert_into
from shipcalc.register.events import note_event
from shipcalc.register.opening import Register
from shipcalc.register.quotes import find_kept, total_of
from shipcalc.register.shipments import begin
from shipcalc.register.states import ACCEPTED, DECLINED
from shipcalc.register.tables import promises, quotes
from shipcalc.vehicles.vehicle import AS_DESCRIBED

_SINGLE = re.compile(r"[^\w]+")


def accept(
    register: Register, number: str, *, choice: int | None, on: date, by: str, at: str
) -> tuple[Quote, tuple[str, ...]]:
    """Keep that a buyer accepted a choice (counted from 0, None the recommended one) of the latest revision on a day, and begin
    the shipment; return the quote, and what that day no longer reaches.

    Raises NoAnswer for a quote that had ended or was decided already, and for a vehicle that is promised to somebody else.
    """
    with register.writing("accepting a quote") as connection:
        quote = find_kept(connection, number).quote
        _check_open(connection, quote, on)
        _promise(connection, quote)
        chosen = quote.recommended if choice is None else choice
        _decide(
            connection,
            quote,
            ACCEPTED,
            on,
            by,
            choice=chosen,
            total_minor=to_minor(total_of(quote, chosen), quote.currency),
        )
        said = begin(connection, quote, chosen, on)
        told = f"choice {chosen + 1}, {quote.options[chosen].title}"
        note_event(connection, quote, ACCEPTED, at=at, who=by, told="; ".join((told, *said)))
    return quote, said


def decline(register: Register, number: str, *, on: date, by: str, why: str, at: str) -> Quote:
    """Keep that a buyer said no, also after a yes: its vehicles are free again."""
    with register.writing("declining a quote") as connection:
        quote = find_kept(connection, number).quote
        state = state_of(connection, number)
        if state == DECLINED:
            raise NoAnswer(f"{number} was declined already")
        connection.execute(delete(promises).where(promises.c.number == number))
        total = to_minor(total_of(quote), quote.currency)
        _decide(connection, quote, DECLINED, on, by, choice=None, total_minor=total)
        note_event(connection, quote, DECLINED, at=at, who=by, told=why)
    return quote


def state_of(connection: Connection, number: str) -> str:
    """Return how a quote, which must be there, stands as it is kept: *ended* is not."""
    return str(connection.execute(select(quotes.c.state).where(quotes.c.number == number)).scalar_one())


def promised_to(connection: Connection, quote: Quote) -> tuple[tuple[str, str], ...]:
    """Return the vehicles of a quote that are promised under another number: (stock number, number)."""
    keys = {_key(vehicle): vehicle.stock_number for vehicle in quote.vehicles if _can_be_promised(vehicle.stock_number)}
    asked = select(promises).where(promises.c.vehicle.in_(keys), promises.c.number != (quote.number or ""))
    return tuple((keys[row.vehicle], row.number) for row in connection.execute(asked).all())


def _key(vehicle: object) -> str:
    return _SINGLE.sub("", getattr(vehicle, "stock_number", "").casefold())


def _can_be_promised(stock_number: str) -> bool:
    """Return whether a vehicle stands in stock: what was only described may be any number of vehicles."""
    return not stock_number.startswith(AS_DESCRIBED)


def _promise(connection: Connection, quote: Quote) -> None:
    for vehicle in quote.vehicles:
        if not _can_be_promised(vehicle.stock_number):
            continue
        row = insert_into(connection, promises).values(vehicle=_key(vehicle), number=quote.number)
        connection.execute(row.on_conflict_do_nothing(index_elements=["vehicle"]))
    taken = promised_to(connection, quote)
    if taken:
        stock, number = taken[0]
        remedy = f"shipcalc quotes decline {number} frees it, if that buyer has stepped back"
        raise NoAnswer(f"{stock} is promised to the buyer of {number}", remedy=remedy)


def _check_open(connection: Connection, quote: Quote, on: date) -> None:
    state = state_of(connection, quote.number or "")
    if state == ACCEPTED:
        raise NoAnswer(
            f"{quote.number} was accepted already", remedy=f"shipcalc quotes show {quote.number} says when and by whom"
        )
    if state == DECLINED:
        raise NoAnswer(
            f"{quote.number} was declined", remedy=f"shipcalc quotes revise {quote.number} makes a new offer of it"
        )
    if on > quote.valid_until:
        remedy = f"shipcalc quotes revise {quote.number} prices it anew, extend keeps its price for longer"
        raise NoAnswer(f"{quote.number} ended on {quote.valid_until.isoformat()}", remedy=remedy)


def _decide(
    connection: Connection, quote: Quote, state: str, on: date, by: str, *, choice: int | None, total_minor: int
) -> None:
    values = {"state": state, "decided_on": on, "decided_by": by, "choice": choice, "total_minor": total_minor}
    connection.execute(update(quotes).where(quotes.c.number == quote.number).values(**values))
