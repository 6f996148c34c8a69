"""A request and a rate book become a Quote: the only place where price, papers and dates are joined."""

from datetime import date, timedelta

import shipcalc
from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.quote.answer import Answer
from shipcalc.quote.home import answer_at_home
from shipcalc.quote.model import Also, Converted, Dealer, Exchange, Option, Quote, RateBookStamp
from shipcalc.quote.network.territory import is_home
from shipcalc.quote.own.keeping import kept, now_instead, shipped_then
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
    if request.ready < as_of:
        raise WrongInput(
            f"the vehicle cannot be ready on {request.ready.isoformat()}, before the day of the quote ({as_of.isoformat()})",
            where="--ready",
            remedy="give a later date",
        )
    then = shipped_then(request)
    if request.by is not None and request.by < then.ready:
        raise WrongInput(
            f"it cannot be there by {request.by.isoformat()}, before it is ready ({then.ready.isoformat()})",
            where="--by",
            remedy="give a later day",
        )
    exchange = exchange_for(book, request.wishes.currency, as_of)
    answer = kept(_answer(then, book, as_of), request, book)
    also = _also(request, then, answer, book, as_of)
    answer = with_own_ways(answer, request, then, book, as_of)
    rules = book.pricing
    return Quote(
        as_of=as_of,
        ready=request.ready,
        by=request.by,
        valid_until=_valid_until(as_of, answer, book),
        currency=rules.currency,
        rate_book=RateBookStamp(fingerprint=book.fingerprint, valid_from=rules.valid_from, valid_to=rules.valid_to),
        program=f"shipcalc {shipcalc.__version__}",
        dealer=dealer,
        buyer=request.buyer,
        wishes=request.wishes,
        from_=request.starts[0],
        to=request.to,
        vehicles=request.vehicles,
        recommended=answer.recommended,
        reason=answer.reason,
        exchange=exchange,
        options=tuple(_in_currency(option, exchange) for option in answer.options),
        also=also,
        left_out=answer.left_out,
        assumptions=(
            *answer.assumptions,
            *deadline_notes(then, answer.options),
            *rate_book_notes(book, as_of, then.ready),
            *exchange_notes(exchange, answer.options, request.to.country, book, as_of),
        ),
        cautions=answer.cautions,
    )


def _answer(request: Request, book: RateBook, as_of: date) -> Answer:
    if is_home(request.to.country, request.to.subdivision):
        return answer_at_home(request, book, as_of)
    # Late: a quote at home, the commonest, should not wait for ships.
    from shipcalc.quote.overseas_answer import answer_overseas

    return answer_overseas(request, book, as_of)


def _also(request: Request, then: Request, answer: Answer, book: RateBook, as_of: date) -> tuple[Also, ...]:
    """Return what buyers ask besides, told in one line each: shipped now instead of kept, to a terminal or port, fetched."""
    best = answer.options[answer.recommended]
    lines = []
    if then is not request:
        try:
            now = _answer(request, book, as_of)
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


def _valid_until(as_of: date, answer: Answer, book: RateBook) -> date:
    ends = [as_of + timedelta(days=book.pricing.days_valid), *answer.rows_end]
    if book.pricing.valid_to is not None:
        ends.append(book.pricing.valid_to)
    return max(as_of, min(ends))
