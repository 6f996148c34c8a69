"""List and find what is kept."""

from datetime import date
from decimal import Decimal

from sqlalchemy import Connection, Row, Select, select

from shipcalc.money import to_decimal
from shipcalc.records import dataclass
from shipcalc.register.states import ENDED, OPEN, State, state_on
from shipcalc.register.tables import quotes
from shipcalc.register.words import has_words


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """Which quotes are wanted: those that meet all that is said. `ending_by`: open ones whose last day is not after it."""

    state: State | None = None
    ending_by: date | None = None
    text: str = ""
    buyer: str = ""
    vehicle: str = ""
    place: str = ""
    since: date | None = None
    until: date | None = None
    most: int = 50


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """A quote as lists show it."""

    number: str
    revision: int
    state: State
    as_of: date
    valid_until: date
    buyer: str
    vehicles: str
    to: str
    total: Decimal
    currency: str


def find_quotes(connection: Connection, asked: Asked, *, today: date) -> tuple[Listed, ...]:
    """Return the quotes that are asked for, the latest first; those that end soon by their last day."""
    wanted = _by_state(select(quotes), asked, today)
    if asked.since is not None:
        wanted = wanted.where(quotes.c.as_of >= asked.since)
    if asked.until is not None:
        wanted = wanted.where(quotes.c.as_of <= asked.until)
    for text, about in ((asked.text, None), (asked.buyer, "buyer"), (asked.vehicle, "vehicle"), (asked.place, "place")):
        if text.strip():
            wanted = wanted.where(has_words(connection, quotes.c.number, text, about))
    order = (
        (quotes.c.valid_until, quotes.c.number) if asked.ending_by else (quotes.c.as_of.desc(), quotes.c.number.desc())
    )
    rows = connection.execute(wanted.order_by(*order).limit(asked.most)).all()
    return tuple(_listed(row, today) for row in rows)


def find_one(connection: Connection, number: str, *, today: date) -> Listed:
    """Return how a quote stands, which must be there."""
    return _listed(connection.execute(select(quotes).where(quotes.c.number == number)).one(), today)


def numbers_of_buyer(connection: Connection, buyer: str) -> tuple[str, ...]:
    """Return the numbers of all quotes of a buyer whose name is written just so, but for capitals."""
    rows = connection.execute(
        select(quotes.c.number, quotes.c.buyer).where(has_words(connection, quotes.c.number, buyer, "buyer"))
    )
    return tuple(number for number, name in rows if name.casefold() == buyer.strip().casefold())


def _by_state(wanted: Select[tuple[object, ...]], asked: Asked, today: date) -> Select[tuple[object, ...]]:
    if asked.ending_by is not None:
        return wanted.where(quotes.c.state == OPEN, quotes.c.valid_until.between(today, asked.ending_by))
    if asked.state == ENDED:
        return wanted.where(quotes.c.state == OPEN, quotes.c.valid_until < today)
    if asked.state == OPEN:
        return wanted.where(quotes.c.state == OPEN, quotes.c.valid_until >= today)
    return wanted if asked.state is None else wanted.where(quotes.c.state == asked.state)


def _listed(row: Row[tuple[object, ...]], today: date) -> Listed:
    return Listed(
        number=row.number,
        revision=row.revision,
        state=state_on(row.state, row.valid_until, today),
        as_of=row.as_of,
        valid_until=row.valid_until,
        buyer=row.buyer,
        vehicles=row.vehicles,
        to=row.place,
        total=to_decimal(row.total_minor, row.currency),
        currency=row.currency,
    )
