"""What differs between two revisions of a quote, and why: in a sentence that somebody can read out."""

from collections.abc import Iterator
from datetime import date

from shipcalc.quote.model import Option, Quote
from shipcalc.quote.request import Request
from shipcalc.records import fields

_NAMED = {
    "to": "the place",
    "ready": "the day it is ready",
    "by": "the day it must be there by",
    "buyer": "the buyer's name",
    "vehicles": "the vehicles",
    "starts": "where it starts",
}


def what_is_different(before: Quote, after: Quote, asked_before: Request, asked_now: Request) -> str:
    """Return what differs in price and days of the recommended choice, and why: wishes, rates, fuel, the day."""
    told = [*_price(before, after), *_days(before, after)] or ["the same price and days"]
    why = [*_wishes(asked_before, asked_now), *_rates(before, after)]
    return f"{'; '.join(told)}{' – because of ' + ', '.join(why) if why else ''}"


def _price(before: Quote, after: Quote) -> Iterator[str]:
    one, other = _best(before), _best(after)
    if before.currency == after.currency and one.total != other.total:
        more = other.total - one.total
        yield f"{other.total:,} {after.currency} in place of {one.total:,} ({more:+,})"


def _days(before: Quote, after: Quote) -> Iterator[str]:
    one, other = _best(before).dates.delivery, _best(after).dates.delivery
    if one != other:
        then, now = (" to ".join(map(date.isoformat, days)) for days in (one, other))
        yield f"delivered {now} in place of {then}"


def _wishes(before: Request, now: Request) -> Iterator[str]:
    for name, words in _NAMED.items():
        if getattr(before, name) != getattr(now, name):
            yield words
    for field in fields(now.wishes):
        one, other = getattr(before.wishes, field.name), getattr(now.wishes, field.name)
        if one != other:
            yield f"the wish “{field.name.replace('_', ' ')}”"


def _rates(before: Quote, after: Quote) -> Iterator[str]:
    if before.rate_book.fingerprint != after.rate_book.fingerprint:
        yield "new rates"
    elif before.as_of != after.as_of:
        yield "the later day"
    if before.program != after.program:
        yield "a newer version of the program"


def _best(quote: Quote) -> Option:
    return quote.options[quote.recommended]
