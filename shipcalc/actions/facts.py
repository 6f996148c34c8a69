"""What of the rate book is to be looked at again, by how often quotes lean on it."""

from collections.abc import Iterator, Sequence
from datetime import date
from typing import TYPE_CHECKING

from shipcalc.actions.kept_quotes import Desk
from shipcalc.actions.order_tables import order_of, read_buyers
from shipcalc.actions.quoting import Books, Order, made_quote, open_books
from shipcalc.actions.sources import Sources, invented_folder, invented_sources
from shipcalc.compare.leaning import ENTRY, PAPER, PRICE, counted, weight_of
from shipcalc.errors import ShipcalcError
from shipcalc.ratebook.facts import REASONS, Fact, facts_of, reasons_to_look
from shipcalc.records import dataclass, replace

if TYPE_CHECKING:
    from shipcalc.quote.model import Quote
    from shipcalc.ratebook.book import RateBook

# The twenty countries that buy most, with a place each: common practice, no source.
BUYING_MOST = {
    "CA": "Toronto, Canada",
    "MX": "Monterrey, Mexico",
    "DE": "Hamburg, Germany",
    "GB": "London, United Kingdom",
    "NL": "Rotterdam, Netherlands",
    "BE": "Antwerp, Belgium",
    "FR": "Le Havre, France",
    "IT": "Milan, Italy",
    "ES": "Barcelona, Spain",
    "SE": "Gothenburg, Sweden",
    "NO": "Oslo, Norway",
    "CH": "Zurich, Switzerland",
    "AU": "Sydney, Australia",
    "NZ": "Auckland, New Zealand",
    "JP": "Yokohama, Japan",
    "AE": "Dubai, United Arab Emirates",
    "SA": "Jeddah, Saudi Arabia",
    "PL": "Gdynia, Poland",
    "DK": "Copenhagen, Denmark",
    "FI": "Helsinki, Finland",
}
# An old vehicle and one that is no collector's piece anywhere, of the invented stock list: its numbers.
_ASKED_ABOUT = ("HV-1042", "HV-1014")
_MOST_KEPT = 500
_WEIGHTS = (PRICE, ENTRY, PAPER)


@dataclass(frozen=True, slots=True, kw_only=True)
class ToLook:
    """A fact, why somebody should look at it, and how many quotes lean on it."""

    fact: Fact
    reasons: tuple[str, ...]
    quotes: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """The facts to look at, the first one first. `of` is how many facts there are, `quotes` how many quotes were asked."""

    rates: str
    as_of: date
    to_look: tuple[ToLook, ...]
    of: int
    read: int
    quotes: int
    kept: bool


def find_facts(desk: Desk, sources: Sources, *, soon_days: int, country: str = "") -> Looked:
    """Return what is old, from memory, second hand, ended or changes soon, by how many quotes lean on it.

    The quotes are those that the register keeps; where it keeps none, the invented dealer's and one to each of the countries that
    buy most, worked out from this rate book.
    """
    from shipcalc.ratebook.book import read_rate_book

    book = read_rate_book(sources.rates.path)
    kept = _kept(desk)
    quotes = kept or tuple(_invented(book, desk.today))
    facts = [fact for fact in facts_of(book) if not country or country in fact.countries]
    leaning = counted(facts, quotes)
    stale = book.pricing.source_stale_after_days
    looked = (
        ToLook(
            fact=fact,
            reasons=reasons_to_look(fact, desk.today, soon_days=soon_days, stale_after_days=stale),
            quotes=leaning[id(fact)],
        )
        for fact in facts
    )
    return Looked(
        rates=str(sources.rates.path),
        as_of=desk.today,
        to_look=tuple(sorted((one for one in looked if one.reasons), key=_first)),
        of=len(facts),
        read=sum(fact.trust in ("read", "partly read") for fact in facts),
        quotes=len(quotes),
        kept=bool(kept),
    )


def _first(one: ToLook) -> tuple[int, int, int, int]:
    """What a price hangs on comes first, if any quote leans on it; then what most quotes lean on, then what presses most."""
    weight = _WEIGHTS.index(weight_of(one.fact))
    return (weight if one.quotes else len(_WEIGHTS), -one.quotes, REASONS.index(one.reasons[0]), weight)


def _kept(desk: Desk) -> "tuple[Quote, ...]":
    """Return the latest revisions of the latest quotes in the register; none where there is no register yet."""
    if not _has_register(desk):
        return ()
    from shipcalc.register.finding import Asked, find_quotes
    from shipcalc.register.quotes import find_kept

    with desk.register() as register, register.reading() as connection:
        listed = find_quotes(connection, Asked(most=_MOST_KEPT), today=desk.today)
        return tuple(find_kept(connection, one.number).quote for one in listed)


def _has_register(desk: Desk) -> bool:
    """Return whether there is one: a question alone begins none."""
    from pathlib import Path

    from sqlalchemy import make_url

    url = make_url(desk.url)
    return url.get_backend_name() != "sqlite" or Path(url.database or "").is_file()


def _invented(book: "RateBook", day: date) -> "Iterator[Quote]":
    """Yield the demo's quotes and two to each of the countries that buy most, as this book answers them."""
    sources = invented_sources()
    books = replace(open_books(sources), rates=book)
    buyers = (order_of(buyer, day) for buyer in read_buyers(invented_folder("demo") / "buyers.csv"))
    asked = (Order(vehicles=(number,), to=to, ready=day) for to in BUYING_MOST.values() for number in _ASKED_ABOUT)
    for order in (*buyers, *asked):
        yield from _answered(order, sources, books, day)


def _answered(order: Order, sources: Sources, books: Books, day: date) -> "Sequence[Quote]":
    try:
        return (made_quote(order, sources, as_of=day, books=books).quote,)
    except ShipcalcError:  # a book without such a carrier or country
        return ()
