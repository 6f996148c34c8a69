"""Keep quotes: each under a number, each change as a revision beside the one before."""

import json
from collections.abc import Mapping
from datetime import date
from decimal import Decimal

import msgspec
from sqlalchemy import Connection, insert, select, update

from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.money import to_minor
from shipcalc.quote.as_data import quote_from_json
from shipcalc.quote.model import Quote
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass, replace
from shipcalc.register.asked_once import AskedKey, kept_before, remember
from shipcalc.register.books import bundle_of, is_kept, keep_book
from shipcalc.register.events import note_event
from shipcalc.register.numbers import next_number
from shipcalc.register.opening import Register
from shipcalc.register.packing import packed, unpacked
from shipcalc.register.states import ACCEPTED, OPEN
from shipcalc.register.tables import quotes, revisions
from shipcalc.register.words import keep_words

# How a quote stands that is offered anew: an earlier yes or no is history.
_OFFERED = {"state": OPEN, "choice": None, "decided_on": None, "decided_by": ""}


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """A revision as it is kept: the quote with its number, the request that it answers, why it differs from the one before.

    `by_hand` is what was set beside the request: the last day of an extended quote. `latest` counts the revisions.
    """

    quote: Quote
    request: Request
    why: str
    by_hand: Mapping[str, str]
    latest: int
    fingerprint: str
    program: str


def keep_quote(
    register: Register,
    quote: Quote,
    request: Request,
    book: RateBook,
    *,
    at: str,
    who: str = "",
    once: AskedKey | None = None,
) -> Quote:
    """Keep a quote under the next number of its year, and return it with the number. `at` is now, in UTC.

    What was kept before under the key `once` is returned instead of being kept again. The rate book is packed before the register
    is held: that takes longer than keeping the quote.
    """
    bundle = _bundle_if_new(register, book)
    with register.writing("keeping a quote") as connection:
        before = kept_before(connection, once) if once is not None else None
        if before is not None:
            return find_kept(connection, before, 1).quote
        numbered = replace(quote, number=next_number(connection, quote.as_of.year), revision=1)
        if bundle is not None:
            keep_book(connection, book.fingerprint, bundle, at=at)
        connection.execute(insert(quotes).values(number=numbered.number, state=OPEN, **_as_listed(numbered)))
        _keep_revision(connection, numbered, request, at=at)
        note_event(connection, numbered, "kept", at=at, who=who)
        if once is not None:
            remember(connection, once, numbered.number or "", at=at)
    return numbered


def keep_revision(
    register: Register,
    quote: Quote,
    request: Request,
    *,
    of: Quote,
    why: str,
    at: str,
    who: str = "",
    book: RateBook | None = None,
    by_hand: Mapping[str, str] | None = None,
) -> Quote:
    """Keep a quote as the next revision of another, and return it with number and revision.

    Raises WrongInput where somebody else has revised it meanwhile: one of the two would be lost unseen; NoAnswer where the buyer
    has said yes: what was agreed is not changed by one side.
    """
    bundle = _bundle_if_new(register, book) if book is not None else None
    with register.writing("keeping a quote") as connection:
        asked = select(quotes.c.revision, quotes.c.state).where(quotes.c.number == of.number)
        latest, state = connection.execute(asked).one()
        check_not_accepted(of.number or "", state)
        if latest != of.revision:
            told = f"{of.number} was revised meanwhile (there is a revision {latest})"
            raise WrongInput(told, remedy="look at it first, then revise that one")
        revised = replace(quote, number=of.number, revision=latest + 1)
        if bundle is not None and book is not None:
            keep_book(connection, book.fingerprint, bundle, at=at)
        connection.execute(update(quotes).where(quotes.c.number == of.number).values(**_OFFERED, **_as_listed(revised)))
        _keep_revision(connection, revised, request, at=at, why=why, by_hand=by_hand)
        note_event(connection, revised, "revised", at=at, who=who, told=why)
    return revised


def check_not_accepted(number: str, state: str) -> None:
    """Raise NoAnswer for a quote that a buyer said yes to."""
    if state == ACCEPTED:
        remedy = f"shipcalc quotes decline {number} takes the yes back, if both agree"
        raise NoAnswer(f"{number} was accepted: what was agreed is not changed", remedy=remedy)


def find_kept(connection: Connection, number: str, revision: int | None = None) -> Kept:
    """Return a revision, the latest unless one is named. Raises WrongInput where there is none."""
    latest = connection.execute(select(quotes.c.revision).where(quotes.c.number == number)).scalar()
    if latest is None:
        raise WrongInput(f"there is no quote {number}", remedy="shipcalc quotes list shows which there are")
    wanted = revision or latest
    row = connection.execute(
        select(revisions).where(revisions.c.number == number, revisions.c.revision == wanted)
    ).first()
    if row is None:
        raise WrongInput(f"{number} has no revision {wanted}", remedy=f"it has 1 to {latest}")
    return Kept(
        quote=quote_from_json(unpacked(row.quote), where=number),
        request=msgspec.json.decode(unpacked(row.request), type=Request),
        why=row.why,
        by_hand=json.loads(row.by_hand) if row.by_hand else {},
        latest=latest,
        fingerprint=row.fingerprint,
        program=row.program,
    )


def _bundle_if_new(register: Register, book: RateBook) -> bytes | None:
    with register.reading() as connection:
        if is_kept(connection, book.fingerprint):
            return None
    return bundle_of(book)


def _as_listed(quote: Quote) -> dict[str, object]:
    """Return what lists show of a quote: the recommended choice's total, the vehicles and the place in words."""
    to = quote.to
    place = ", ".join(part for part in (to.name, to.subdivision if to.country == "US" else to.country) if part)
    return {
        "revision": quote.revision,
        "as_of": quote.as_of,
        "valid_until": quote.valid_until,
        "buyer": quote.buyer,
        "vehicles": "; ".join(f"{vehicle.stock_number} {vehicle.name}".strip() for vehicle in quote.vehicles),
        "place": place,
        "total_minor": to_minor(total_of(quote), quote.currency),
        "currency": quote.currency,
    }


def total_of(quote: Quote, choice: int | None = None) -> Decimal:
    """Return the total of a choice, counted from 0; of the recommended one for None."""
    return quote.options[quote.recommended if choice is None else choice].total


def _keep_revision(
    connection: Connection,
    quote: Quote,
    request: Request,
    *,
    at: str,
    why: str = "",
    by_hand: Mapping[str, str] | None = None,
) -> None:
    row = {
        "number": quote.number,
        "revision": quote.revision,
        "kept_at": at,
        "fingerprint": quote.rate_book.fingerprint,
        "program": quote.program,
        "why": why,
        "by_hand": json.dumps(by_hand, sort_keys=True) if by_hand else "",
        "request": packed(msgspec.json.encode(request).decode()),
        "quote": packed(msgspec.json.encode(quote).decode()),
    }
    connection.execute(insert(revisions), row)
    assert quote.number is not None, "what is kept has a number"
    keep_words(connection, quote.number, quote)


def holds_on(quote: Quote, day: date) -> bool:
    """Return whether a quote still holds on a day."""
    return quote.as_of <= day <= quote.valid_until
