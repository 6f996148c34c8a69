"""Work old quotes out again from what is kept with them, and hold the outcome to what was promised, byte for byte."""

import tempfile
from collections.abc import Iterator
from datetime import date
from pathlib import Path

from sqlalchemy import select

import shipcalc
from shipcalc.errors import ShipcalcError
from shipcalc.quote.as_data import quote_to_json
from shipcalc.quote.assemble import make_quote
from shipcalc.quote.model import Quote
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass, replace
from shipcalc.register.books import read_kept
from shipcalc.register.opening import Register
from shipcalc.register.quotes import Kept, find_kept
from shipcalc.register.tables import revisions


@dataclass(frozen=True, slots=True, kw_only=True)
class Verified:
    """What became of one revision: `same`, or `told` says what differs and which program made it."""

    number: str
    revision: int
    same: bool
    told: str = ""


def verify(register: Register, numbers: tuple[str, ...] = ()) -> Iterator[Verified]:
    """Yield for every kept revision, or those of some numbers, whether it comes out the same today."""
    asked = select(revisions.c.number, revisions.c.revision, revisions.c.fingerprint)
    if numbers:
        asked = asked.where(revisions.c.number.in_(numbers))
    with register.reading() as connection:
        rows = connection.execute(
            asked.order_by(revisions.c.fingerprint, revisions.c.number, revisions.c.revision)
        ).all()
        with tempfile.TemporaryDirectory() as place:
            book: RateBook | None = None
            for number, revision, fingerprint in rows:
                if book is None or book.folder.name != fingerprint:
                    folder = Path(place) / fingerprint
                    folder.mkdir()
                    book = read_kept(connection, fingerprint, folder)
                yield _verified(find_kept(connection, number, revision), book)


def _verified(kept: Kept, book: RateBook) -> Verified:
    quote, told = kept.quote, ""
    try:
        again = worked_out(kept, book)
    except ShipcalcError as error:
        told = str(error)
    else:
        if quote_to_json(again) != quote_to_json(quote):
            told = what_differs(quote, again)
    program = f"shipcalc {shipcalc.__version__}"
    if told and kept.program != program:
        told = f"{told}; it was made by {kept.program}, and this is {program}"
    assert quote.number is not None and quote.revision is not None, "what is kept has a number"  # noqa: PT018
    return Verified(number=quote.number, revision=quote.revision, same=not told, told=told)


def worked_out(kept: Kept, book: RateBook) -> Quote:
    """Return the quote that a kept request comes to today, with number, revision and what was set by hand."""
    made = make_quote(kept.request, book, as_of=kept.quote.as_of, dealer=kept.quote.dealer)
    made = replace(made, number=kept.quote.number, revision=kept.quote.revision)
    until = kept.by_hand.get("valid_until")
    return replace(made, valid_until=date.fromisoformat(until)) if until else made


def what_differs(before: Quote, after: Quote) -> str:
    """Return in a few words where two quotes differ first: the sums of a choice, its days, or anything else."""
    if len(before.options) != len(after.options):
        return f"{len(before.options)} choices then, {len(after.options)} now"
    for number, (one, other) in enumerate(zip(before.options, after.options, strict=True), 1):
        if one.total != other.total:
            return f"choice {number} cost {one.total} {before.currency} then, and {other.total} {after.currency} now"
        if one.dates.delivery != other.dates.delivery:
            then, now = (" to ".join(map(date.isoformat, option.dates.delivery)) for option in (one, other))
            return f"choice {number} was to arrive {then}, and now {now}"
        if one != other:
            return f"choice {number} says something else in its lines, papers or sentences"
    return "sums and days are the same; something is said otherwise"
