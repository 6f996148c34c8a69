"""Kept quotes asked for again: what those of some days would cost by the rates of today."""

from collections.abc import Sequence
from datetime import date, timedelta
from decimal import Decimal
from typing import TYPE_CHECKING

from shipcalc.records import dataclass, replace

if TYPE_CHECKING:
    from shipcalc.actions.kept_quotes import Desk
    from shipcalc.actions.sources import Sources
    from shipcalc.quote.request import Request
    from shipcalc.ratebook.book import RateBook
    from shipcalc.register.finding import Asked
    from shipcalc.register.quotes import Kept

ZERO = Decimal(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Again:
    """A kept quote and what it comes to today, each by its recommended choice; `why` says why there is no price today.

    `left_out` is what was asked then and cannot be asked today.
    """

    number: str
    as_of: date
    what: str
    then: Decimal
    now: Decimal | None
    by_then: str
    by_now: str
    why: str = ""
    left_out: tuple[str, ...] = ()

    @property
    def change(self) -> Decimal | None:
        """Return by how much it gets dearer; None without a price today."""
        return None if self.now is None else self.now - self.then


@dataclass(frozen=True, slots=True, kw_only=True)
class AllAgain:
    """Kept quotes asked for again as of a day, by one rate book; the sums are of those that it prices."""

    book: str
    fingerprint: str
    currency: str
    as_of: date
    quotes: tuple[Again, ...]

    @property
    def priced(self) -> tuple[Again, ...]:
        """The quotes that have a price today."""
        return tuple(one for one in self.quotes if one.now is not None)

    @property
    def then(self) -> Decimal:
        """What the priced ones came to."""
        return sum((one.then for one in self.priced), ZERO)

    @property
    def now(self) -> Decimal:
        """What they come to today."""
        return sum((one.now for one in self.priced if one.now is not None), ZERO)


def last_month(today: date) -> tuple[date, date]:
    """Return the first and the last day of the month before."""
    last = today.replace(day=1) - timedelta(days=1)
    return last.replace(day=1), last


def ask_again(wanted: "Asked", sources: "Sources", desk: "Desk") -> AllAgain:
    """Return what kept quotes, by their latest revisions, would cost by the rate book of `sources` today.

    Raises FaultyWorkbook where the rate book has faults.
    """
    from shipcalc.ratebook.book import read_rate_book
    from shipcalc.register.finding import find_quotes
    from shipcalc.register.quotes import find_kept

    book = read_rate_book(sources.rates.path)
    with desk.register() as register, register.reading() as connection:
        found = find_quotes(connection, wanted, today=desk.today)
        kept = tuple(find_kept(connection, one.number) for one in found)
    return AllAgain(
        book=str(sources.rates.path),
        fingerprint=book.fingerprint,
        currency=book.pricing.currency,
        as_of=desk.today,
        quotes=tuple(_again(one, book, desk.today) for one in kept),
    )


def _again(kept: "Kept", book: "RateBook", today: date) -> Again:
    from shipcalc.compare.basket import Asked, named
    from shipcalc.compare.books import outcome

    quote = kept.quote
    chosen = quote.options[quote.recommended]
    request, left_out = _of_today(kept.request, today)
    told = Again(
        number=quote.number or "",
        as_of=quote.as_of,
        what=named(quote.vehicles[0], quote.to),
        then=chosen.total,
        now=None,
        by_then=_carriers([leg.carrier for leg in chosen.legs]),
        by_now="",
        left_out=left_out,
    )
    if quote.currency != book.pricing.currency:
        return replace(told, why=f"it is in {quote.currency}, and the rate book in {book.pricing.currency}")
    found = outcome(Asked(told.what, request), book, today)
    return replace(told, now=found.total, by_now=found.carrier, why=found.refusal)


def _of_today(request: "Request", today: date) -> "tuple[Request, tuple[str, ...]]":
    """Return the request as it can be asked today: what was ready before is ready today, and days that are past are left out."""
    wishes = request.wishes
    past = {
        "the day it had to be there by": request.by is not None and request.by < today,
        "the day it was kept until": wishes.keep_until is not None and wishes.keep_until <= today,
        "its ship": wishes.sailing is not None and wishes.sailing <= today,
        "its price in hand": bool(wishes.spot),
    }
    by, kept_until, ship, in_hand = past.values()
    asked = replace(
        wishes,
        keep_until=None if kept_until else wishes.keep_until,
        sailing=None if ship else wishes.sailing,
        spot=() if in_hand else wishes.spot,
    )
    left_out = tuple(what for what, is_so in past.items() if is_so)
    again = replace(request, ready=max(request.ready, today), by=None if by else request.by, wishes=asked)
    return again, left_out


def _carriers(names: Sequence[str]) -> str:
    return ", ".join(dict.fromkeys(names))
