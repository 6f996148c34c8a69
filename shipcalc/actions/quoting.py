"""Quote: from what somebody typed to the whole answer."""

from collections.abc import Iterator, Sequence
from datetime import date
from typing import TYPE_CHECKING

from shipcalc.actions.sources import Sources
from shipcalc.actions.starting import Start, start_of
from shipcalc.actions.vehicles import read_stock_of, vehicles_meant
from shipcalc.errors import NoAnswer, WrongInput, asked
from shipcalc.one_line import one_line
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from decimal import Decimal

    from shipcalc.quote.model import Dealer, Quote, SpotPrice, Wishes
    from shipcalc.quote.request import Request
    from shipcalc.ratebook.book import RateBook
    from shipcalc.trade import Conditions, Ocean, Trailer
    from shipcalc.vehicles.stock import Stock

TRAILERS: dict[str, "Trailer | None"] = {"open": "open", "enclosed": "enclosed", "": None}
OCEANS: dict[str, "Ocean | None"] = {"roro": "roro", "container": "container", "": None}
COVERS: dict[str, "Conditions | None"] = {"A": "A", "B": "B", "C": "C", "": None}


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """What is asked for, as typed: stock numbers or descriptions, a place, the buyer's wishes."""

    vehicles: tuple[str, ...]
    to: str
    online: bool = False
    start: str = ""
    ready: date | None = None
    by: date | None = None
    trailer: str = ""
    lift_gate: bool = False
    limited_access: bool = False
    express: bool = False
    ocean: str = ""
    cover: str = ""
    insure_for: str = ""
    term: str = ""
    currency: str = ""
    released_by: str = ""
    keep_until: date | None = None
    collect: bool = False
    terminal: bool = False
    sailing: date | None = None
    spot: tuple[str, ...] = ()
    buyer_is: str = ""
    buyer: str = ""


@dataclass(frozen=True, slots=True)
class Books:
    """The stock list and the rate book, read once for as many quotes as are wanted."""

    stock: "Stock"
    rates: "RateBook"


def open_books(sources: Sources) -> Books:
    """Read the stock list and the rate book. Raises WrongInput where either cannot be used."""
    from shipcalc.ratebook.book import read_rate_book

    rates = read_rate_book(sources.rates.path)
    return Books(read_stock_of(sources, rates.sizes), rates)


@dataclass(frozen=True, slots=True)
class Made:
    """A quote with what it was made from: all that is needed to keep it."""

    quote: "Quote"
    request: "Request"
    rates: "RateBook"


def quote(order: Order, sources: Sources, *, as_of: date, books: Books | None = None) -> "Quote":
    """Return the quote for an order. Raises WrongInput (an input) and NoAnswer (nobody goes there, a hold)."""
    return made_quote(order, sources, as_of=as_of, books=books).quote


def made_quote(order: Order, sources: Sources, *, as_of: date, books: Books | None = None) -> Made:
    """Return the quote for an order with its request. Raises as `quote` does."""
    from shipcalc.quote.assemble import make_quote

    books = books or open_books(sources)
    request = request_for(order, sources, as_of=as_of, books=books)
    try:
        return Made(make_quote(request, books.rates, as_of=as_of, dealer=dealer_of(sources)), request, books.rates)
    except NoAnswer as no:
        raise _refusal(no, request) from None


def _refusal(no: NoAnswer, request: "Request") -> NoAnswer:
    """Return a refusal that begins with the place as it was understood; the cell it is from stands behind it."""
    from shipcalc.documents.wording import place

    named = f"{request.to.name} "
    told = no.what.removeprefix(named) if no.what.startswith(named) else f": {no.what}"
    cell = f" ({no.where})" if "›" in no.where else ""
    joined = f"{place(request.to)}{told if told.startswith(':') else f' {told}'}"
    return NoAnswer(f"{joined}{cell}", remedy=no.remedy)


def request_for(order: Order, sources: Sources, *, as_of: date, books: Books) -> "Request":
    """Return the request that an order comes to: its vehicles and places found. Raises WrongInput where one is not."""
    from shipcalc.actions.place import destination
    from shipcalc.quote.request import Request

    wishes = wishes_of(order, sources, as_of)
    vehicles = vehicles_meant(order.vehicles, books.stock, books.rates.sizes)
    starts = [start_of(vehicle, order.start, sources.settings, books.rates.terminals) for vehicle in vehicles]
    target = destination(order.to, online=order.online, settings=sources.settings)
    assert target.place is not None, "what is not a place raises"
    return Request(
        vehicles=vehicles,
        starts=tuple(start.place for start in starts),
        to=target.place,
        ready=order.ready or as_of,
        by=order.by,
        wishes=wishes,
        buyer=_name(order.buyer),
        notes=_notes(starts, target.note, sources),
    )


def _name(text: str) -> str:
    """Return a name as one line. Raises WrongInput for one that no file and no mail could hold."""
    if any("\ud800" <= letter <= "\udfff" for letter in text):  # what a terminal sent was not in its own letters
        raise WrongInput("holds letters that could not be read", where=asked("buyer"), remedy="type the name anew")
    return one_line(text)


def _notes(starts: Sequence[Start], target: str, sources: Sources) -> tuple[str, ...]:
    """Return all that was assumed, each sentence once, in the order somebody would ask."""
    notes = [*_started(starts), target]
    if sources.rates.invented:
        notes.append("The prices are from the invented rate book inside shipcalc: nobody offers them.")
    return tuple(dict.fromkeys(note for note in notes if note))


def _started(starts: Sequence[Start]) -> Iterator[str]:
    """Yield where each vehicle starts from, and how its place was understood with the first that starts there."""
    told: set[str] = set()
    for start in starts:
        yield start.note if start.taken in told else f"{start.note} {start.taken}".strip()
        told.add(start.taken)


def wishes_of(order: Order, sources: Sources, as_of: date) -> "Wishes":
    """Return the wishes of an order. Raises WrongInput for what is no kind of trailer, ship or cover."""
    from shipcalc.quote.model import Wishes

    trailer, ocean = order.trailer.strip().casefold(), order.ocean.strip().casefold()
    cover, term = order.cover.strip().upper(), order.term.strip().upper()
    currency = (order.currency or sources.settings.currency).strip().upper()
    if trailer not in TRAILERS:
        raise WrongInput(
            f'"{order.trailer}" is not a kind of trailer', where=asked("trailer"), remedy="say open or enclosed"
        )
    if ocean not in OCEANS:
        raise WrongInput(
            f'"{order.ocean}" is not a way to cross the sea', where=asked("ocean"), remedy="say roro or container"
        )
    if cover not in COVERS:
        raise WrongInput(
            f'"{order.cover}" is not a set of marine cover conditions', where=asked("cover"), remedy="say A, B or C"
        )
    return Wishes(
        trailer=TRAILERS[trailer],
        lift_gate=order.lift_gate,
        limited_access=order.limited_access,
        express=order.express,
        ocean=OCEANS[ocean],
        cover=COVERS[cover],
        insure_for=_sum_of(order.insure_for),
        term=term or None,
        currency=currency or None,
        released_by=order.released_by.strip(),
        keep_until=order.keep_until,
        collect=order.collect,
        terminal=order.terminal,
        sailing=order.sailing,
        spot=_spot(order, as_of),
        buyer_is=order.buyer_is.strip(),
    )


def _spot(order: Order, as_of: date) -> "tuple[SpotPrice, ...]":
    if not order.spot:
        return ()
    from shipcalc.actions.in_hand import prices_in_hand

    return prices_in_hand(order.spot, today=as_of)


def _sum_of(text: str) -> "Decimal | None":
    """Return a sum as it was written, `90,000`; None where none was. Raises WrongInput where it is not a sum."""
    from decimal import Decimal, InvalidOperation

    if not text.strip():
        return None
    try:
        found = Decimal(text.strip().lstrip("$").replace(",", "").replace(" ", ""))
    except InvalidOperation:
        found = Decimal(0)
    if not (found.is_finite() and 0 < found <= 100_000_000):
        raise WrongInput(
            f'"{text}" is not a sum to insure for', where=asked("insure_for"), remedy="give a sum, e.g. 90000"
        )
    return found.quantize(Decimal("0.01"))


def dealer_of(sources: Sources) -> "Dealer":
    """Return who makes the offer, as the settings say."""
    from shipcalc.quote.model import Dealer

    set_by = sources.settings.dealer
    return Dealer(
        name=set_by.name or "The dealer",
        phone=set_by.phone,
        email=set_by.email,
        address=set_by.address,
        website=set_by.website,
        licence=set_by.licence,
        signatory=set_by.signatory,
        accent=set_by.accent,
        terms=set_by.terms,
        bank=sources.settings.bank.lines(),
    )
