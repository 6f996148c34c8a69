"""What bills say of quotes, all in one: accuracy by group, prices in hand beside the rate book, the buffer."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date

from shipcalc.errors import NoAnswer
from shipcalc.learning.accuracy import GROUPS, Accuracy, accuracy, grouped
from shipcalc.learning.bill import Bill
from shipcalc.learning.buffer import Buffer, TooFew, buffer_for
from shipcalc.learning.compared import Compared, asked_in_hand, compared
from shipcalc.quote.model import Quote
from shipcalc.records import dataclass

ALL = "all"


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """How far quotes were from what was paid. `quotes` counts those with bills; `groups` begin with all of them together.

    `in_hand` are prices that carriers asked for single shipments, beside what the rate book came to.
    """

    as_of: date
    since: date | None
    currency: str
    quotes: int
    bills: int
    groups: tuple[Accuracy, ...]
    in_hand: tuple[Accuracy, ...]
    buffer: Buffer | TooFew
    said: tuple[str, ...]


def report_of(
    billed: Sequence[tuple[Quote, int, Sequence[Bill]]],
    in_hand: Iterable[Quote],
    *,
    as_of: date,
    since: date | None,
    share: float,
) -> Report:
    """Return what quotes, each with the choice that counts and its bills, come to; of several currencies the most frequent.

    Raises NoAnswer where there is nothing to compare.
    """
    hand = [(quote.currency, one) for quote in in_hand for one in asked_in_hand(quote)]
    currencies = [*(quote.currency for quote, *_ in billed), *(currency for currency, _ in hand)]
    if not currencies:
        remedy = "shipcalc costs add and shipcalc costs take keep what was paid"
        raise NoAnswer("no bill is kept that a quote could be held to", remedy=remedy)
    currency = max(dict.fromkeys(currencies), key=currencies.count)
    found = [compared(quote, choice, bills) for quote, choice, bills in billed if quote.currency == currency]
    totals = [one.total for one in found if one.total is not None]
    kinds = [kind for one in found for kind in one.kinds]
    others = len(currencies) - currencies.count(currency)
    return Report(
        as_of=as_of,
        since=since,
        currency=currency,
        quotes=len(totals),
        bills=sum(len(bills) for *_, bills in billed),
        groups=tuple(_groups(totals, kinds)),
        in_hand=tuple(_in_hand([one for of, one in hand if of == currency])),
        buffer=buffer_for(totals, share),
        said=(
            *((f"{others} quotes in other currencies are left out",) if others else ()),
            *(told for one in found for told in one.said),
        ),
    )


def _groups(totals: Sequence[Compared], kinds: Sequence[Compared]) -> Iterator[Accuracy]:
    if totals:
        yield accuracy(ALL, "all quotes", totals)
        yield from grouped("billed for", lambda one: one.kind, kinds)
        for by, name_of in GROUPS:
            yield from grouped(by, name_of, totals)


def _in_hand(asked_for: Sequence[Compared]) -> Iterator[Accuracy]:
    if asked_for:
        yield accuracy(ALL, "all prices in hand", asked_for)
        yield from grouped("carrier", lambda one: one.carrier, asked_for)
        yield from grouped("lane", lambda one: one.lane, asked_for)
