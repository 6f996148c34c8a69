"""What a change of the rate book does: the same transports quoted by both books, through the one way a quote is made."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from decimal import Decimal
from typing import Any

from shipcalc.compare.basket import Asked, Only
from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.quote.as_data import part_to_json
from shipcalc.quote.assemble import make_quote
from shipcalc.quote.model import Dealer, Option, Quote
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.areas import Area
from shipcalc.records import dataclass, field, replace
from shipcalc.vehicles.sizes import fill_sizes
from shipcalc.vehicles.vehicle import Vehicle

NOBODY = Dealer(name="")

# What may be otherwise in a quote, in the order of its weight.
PRICE, CARRIER, LINES, DATES, PAPERS, WORDS = "price", "carrier", "lines", "dates", "papers", "words"
PARTS = (PRICE, CARRIER, LINES, DATES, PAPERS, WORDS)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a transport comes to by one book: the recommended choice and its total, or why there is none.

    `parts` holds what the whole quote says by PARTS, as text that is equal where nothing differs.
    """

    refusal: str = ""
    title: str = ""
    carrier: str = ""
    total: Decimal | None = None
    parts: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Effect:
    """One transport by both books."""

    asked: Asked
    old: Outcome
    new: Outcome

    @property
    def change(self) -> Decimal | None:
        """Return by how much the recommended choice gets dearer; None where a book has no answer."""
        return None if self.old.total is None or self.new.total is None else self.new.total - self.old.total

    @property
    def differs_in(self) -> tuple[str, ...]:
        """Return what is otherwise in the new quote; `answer` where only one of the books has one."""
        if self.old.refusal or self.new.refusal:
            return () if self.old.refusal == self.new.refusal else ("answer",)
        return tuple(part for part in PARTS if self.old.parts[part] != self.new.parts[part])


def effects(basket: Iterable[Asked], old: RateBook, new: RateBook, as_of: date) -> Iterator[Effect]:
    """Yield what each transport comes to by the old and by the new book on a day."""
    for asked in basket:
        yield Effect(asked, outcome(asked, old, as_of), outcome(asked, new, as_of))


def outcome(asked: Asked, book: RateBook, as_of: date) -> Outcome:
    """Return what one transport comes to by one book."""
    try:
        quote = quote_by(asked, book, as_of)
    except (NoAnswer, WrongInput) as refused:
        return Outcome(refusal=str(refused))
    chosen = quote.options[quote.recommended]
    return Outcome(
        title=chosen.title,
        carrier=", ".join(dict.fromkeys(leg.carrier for leg in chosen.legs)),
        total=chosen.total,
        parts=_parts(quote),
    )


def quote_by(asked: Asked, book: RateBook, as_of: date) -> Quote:
    """Return the quote of a transport by one book. Raises NoAnswer and WrongInput as `make_quote` does."""
    request = replace(asked.request, vehicles=tuple(_as_sized(vehicle, book) for vehicle in asked.request.vehicles))
    used = book if asked.only is None else narrowed(book, asked.only)
    return make_quote(request, used, as_of=as_of, dealer=NOBODY)


def narrowed(book: RateBook, only: Only) -> RateBook:
    """Return the book with what is to be looked at by itself, and without what would compete with it."""
    if only.carrier:
        wanted = (only.carrier.casefold(), only.trailer)
        book = replace(
            book, carriers=tuple(row for row in book.carriers if (row.carrier.casefold(), row.trailer) == wanted)
        )
    if only.ocean:
        name = only.ocean.casefold()
        ocean = tuple(row for row in book.ocean if row.service.casefold() == name)
        book = replace(book, ocean=ocean, areas=_areas_at_home(book))
    for code in filter(None, (only.port, only.leaves)):
        port = next((row for row in book.ports if row.port.casefold() == code.casefold()), None)
        if port is not None:
            ports = tuple(row for row in book.ports if row is port or row.exports != port.exports)
            book = replace(book, ports=ports, areas=_areas_at_home(book))
    return book


def _areas_at_home(book: RateBook) -> tuple[Area, ...]:
    """Return the areas without those over a border: trucks that go there would beat every ship."""
    return tuple(row for row in book.areas if row.country.upper() == "US")


def _as_sized(vehicle: Vehicle, book: RateBook) -> Vehicle:
    """Return the vehicle with the sizes that nobody measured taken from this book's table."""
    bare: dict[str, Any] = dict.fromkeys(vehicle.assumed)
    return fill_sizes(replace(vehicle, assumed=(), **bare), book.sizes)


def _parts(quote: Quote) -> dict[str, str]:
    """Return what a quote says, by PARTS; cells and the book's own stamp are no part of it."""
    options = quote.options
    return {
        PRICE: _text([quote.recommended, [_price(option) for option in options]]),
        CARRIER: _text([[leg.carrier for leg in option.legs] for option in options]),
        LINES: _text([_lines(option) for option in options]),
        DATES: _text([option.dates for option in options]),
        PAPERS: _text([[_without_sources(paper) for paper in (*o.documents, *o.tasks)] for o in options]),
        WORDS: _text(
            [
                quote.vehicles,
                quote.valid_until,
                quote.reason,
                quote.assumptions,
                quote.cautions,
                [_words(o) for o in options],
            ]
        ),
    }


def _price(option: Option) -> Sequence[object]:
    return option.title, option.total, option.buyer_pays_locally, option.landed, option.converted


def _lines(option: Option) -> Sequence[object]:
    charges = [replace(charge, source=None) for charge in option.charges]
    imports = [replace(i, lines=tuple(replace(line, source=None) for line in i.lines)) for i in option.imports]
    return option.total_cost, charges, imports


def _without_sources(paper: Any) -> object:
    return replace(paper, source="")


def _words(option: Option) -> Sequence[object]:
    said = (option.good_for, option.deposit, option.balance_due, option.cover, option.cover_conditions)
    term = (option.term, option.term_place, option.risk_passes, option.needed_from_buyer)
    words = (option.before_price, option.included, option.not_included, option.warnings)
    return *said, *term, *words, option.arrives, option.legs


def _text(part: object) -> str:
    return part_to_json(part)
