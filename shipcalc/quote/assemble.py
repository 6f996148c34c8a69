"""A request and a rate book become a Quote: the only place where price, papers and dates are joined."""

from datetime import date, timedelta

import shipcalc
from shipcalc.errors import NoAnswer, WrongInput, asked
from shipcalc.money import LARGEST_MINOR, with_code
from shipcalc.quote.answer import Answer, answer
from shipcalc.quote.model import Also, Converted, Dealer, Exchange, Option, Quote, RateBookStamp
from shipcalc.quote.own.keeping import now_instead, shipped_then
from shipcalc.quote.own.ways import beside, with_own_ways
from shipcalc.quote.price.exchange import converted, exchange_for
from shipcalc.quote.request import Request
from shipcalc.quote.time.deadline import deadline_notes
from shipcalc.quote.time.weekly import exchange_notes, rate_book_notes
from shipcalc.ratebook.book import RateBook
from shipcalc.records import replace


def make_quote(request: Request, book: RateBook, *, as_of: date, dealer: Dealer) -> Quote:
    """Return the whole answer to a request. Same request, same rate book, same date: the same quote.

    Raises NoAnswer where nothing goes there, nobody can take it or it is held, WrongInput where the request contradicts itself.
    """
    _check_countable(request, book.pricing.currency)
    then = _on_the_day_it_leaves(request, as_of)
    exchange = exchange_for(book, request.wishes.currency, as_of)
    found = answer(then, book, as_of)
    also = _also(request, then, found, book, as_of)
    found = with_own_ways(found, then, book, as_of)
    rules = book.pricing
    return Quote(
        as_of=as_of,
        ready=request.ready,
        by=request.by,
        valid_until=_valid_until(as_of, found, book),
        currency=rules.currency,
        rate_book=RateBookStamp(fingerprint=book.fingerprint, valid_from=rules.valid_from, valid_to=rules.valid_to),
        program=f"shipcalc {shipcalc.__version__}",
        dealer=dealer,
        buyer=request.buyer,
        wishes=request.wishes,
        from_=request.starts[0],
        to=request.to,
        vehicles=request.vehicles,
        recommended=found.recommended,
        reason=found.reason,
        exchange=exchange,
        options=tuple(_in_currency(option, exchange) for option in found.options),
        also=also,
        left_out=found.left_out,
        assumptions=(
            *found.assumptions,
            *deadline_notes(then, found.options),
            *rate_book_notes(book, as_of, then.ready),
            *exchange_notes(exchange, found.options, request.to.country, book, as_of),
        ),
        cautions=found.cautions,
    )


def _check_countable(request: Request, currency: str) -> None:
    """Raise WrongInput for vehicles whose worth no column holds: a percentage of it would be a wrong sum, and look like one."""
    worth = sum(vehicle.value_minor or 0 for vehicle in request.vehicles)
    if worth > LARGEST_MINOR:
        largest = with_code(LARGEST_MINOR, currency)
        remedy = "check the values, or ask for them in several quotes"
        raise WrongInput(f"together they are worth more than {largest}", where=asked("vehicle"), remedy=remedy)


def _on_the_day_it_leaves(request: Request, as_of: date) -> Request:
    """Return the request as it is once the vehicle has been kept. Raises WrongInput for days that are not in order."""
    if request.ready < as_of:
        raise WrongInput(
            f"the vehicle cannot be ready on {request.ready.isoformat()}, before the day of the quote ({as_of.isoformat()})",
            where=asked("ready"),
            remedy="give a later date",
        )
    then = shipped_then(request)
    if request.by is not None and request.by < then.ready:
        raise WrongInput(
            f"it cannot be there by {request.by.isoformat()}, before it is ready ({then.ready.isoformat()})",
            where=asked("by"),
            remedy="give a later day",
        )
    return then


def _also(request: Request, then: Request, found: Answer, book: RateBook, as_of: date) -> tuple[Also, ...]:
    """Return what buyers ask besides, told in one line each: shipped now instead of kept, to a terminal or port, fetched."""
    best = found.options[found.recommended]
    lines = []
    if then is not request:
        try:
            now = answer(request, book, as_of)
        except NoAnswer:
            now = None
        if now is not None:
            lines.append(now_instead(best, now.options[now.recommended], then.ready))
    return (*lines, *beside(then, best, book, as_of))


def _in_currency(option: Option, exchange: Exchange | None) -> Option:
    if exchange is None:
        return option
    return replace(
        option,
        converted=Converted(
            total=converted(option.total, exchange),
            buyer_pays_locally=converted(option.buyer_pays_locally, exchange),
            landed=converted(option.landed, exchange) if option.landed is not None else None,
        ),
    )


def _valid_until(as_of: date, found: Answer, book: RateBook) -> date:
    ends = [as_of + timedelta(days=book.pricing.days_valid), *found.rows_end]
    if book.pricing.valid_to is not None:
        ends.append(book.pricing.valid_to)
    return max(as_of, min(ends))
