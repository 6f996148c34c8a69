"""Two quotes side by side: what a buyer who was quoted twice asks about, in one row each."""

from collections.abc import Iterator

from shipcalc.documents import wording
from shipcalc.quote.model import Option, Quote

Row = tuple[str, str, str]


def beside(one: Quote, other: Quote) -> Iterator[Row]:
    """Yield what, and how each of the quotes has it; the recommended choices first, then the cheapest of each trailer."""
    rows = [
        ("", wording.reference(one), wording.reference(other)),
        ("Made", wording.day(one.as_of), wording.day(other.as_of)),
        ("Holds until", wording.day(one.valid_until), wording.day(other.valid_until)),
        ("Buyer", one.buyer, other.buyer),
        ("Vehicles", _vehicles(one), _vehicles(other)),
        ("To", wording.place(one.to), wording.place(other.to)),
        ("Recommended", _best(one).title, _best(other).title),
        ("Total", _sum(one, _best(one)), _sum(other, _best(other))),
        ("Paid by the buyer at home", _locally(one), _locally(other)),
        ("Picked up", wording.window(_best(one).dates.pickup), wording.window(_best(other).dates.pickup)),
        ("Delivered", wording.window(_best(one).dates.delivery), wording.window(_best(other).dates.delivery)),
        ("Delivery term", wording.term(_best(one)), wording.term(_best(other))),
    ]
    yield from rows
    for kind in ("open", "enclosed"):
        yield (f"Cheapest {kind}", *(_cheapest(quote, kind) for quote in (one, other)))  # type: ignore[misc]
    yield ("Rate book", one.rate_book.fingerprint, other.rate_book.fingerprint)


def difference(one: Quote, other: Quote) -> str:
    """Return what the second quote's recommended choice costs beside the first's, in a sentence; "" in two currencies."""
    told = choice_beside(one, _best(one), other, _best(other))
    return f"The second {told}." if told else ""


def choice_beside(one: Quote, before: Option, other: Quote, after: Option) -> str:
    """Return what a choice of a second quote costs beside a choice of a first: `costs $45.00 more and may arrive 2 days later`.

    "" in two currencies.
    """
    if one.currency != other.currency:
        return ""
    more = after.total - before.total
    days = (after.dates.delivery[1] - before.dates.delivery[1]).days
    costs = (
        "costs as much"
        if not more
        else f"costs {wording.money_told(abs(more), one.currency)} {'more' if more > 0 else 'less'}"
    )
    span = "1 day" if abs(days) == 1 else f"{abs(days)} days"
    when = "arrives no later" if not days else f"may arrive {span} {'later' if days > 0 else 'sooner'}"
    return f"{costs} and {when}"


def _best(quote: Quote) -> Option:
    return quote.options[quote.recommended]


def _vehicles(quote: Quote) -> str:
    return wording.listed([vehicle.name for vehicle in quote.vehicles])


def _sum(quote: Quote, option: Option) -> str:
    return wording.money_told(option.total, quote.currency)


def _locally(quote: Quote) -> str:
    return wording.money_told(_best(quote).buyer_pays_locally, quote.currency)


def _cheapest(quote: Quote, trailer: str) -> str:
    own = [option for option in quote.options if option.trailer == trailer]
    return _sum(quote, min(own, key=lambda option: option.total)) if own else "–"
