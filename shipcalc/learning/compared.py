"""A quote beside its bills: what was reckoned with, what the buyer paid for it, what was billed."""

from collections.abc import Iterable, Iterator
from datetime import date

from shipcalc.errors import how_many
from shipcalc.learning.bill import ALL_IN, Bill, kind_of, kinds_in
from shipcalc.money import to_minor
from shipcalc.quote.model import Option, Quote
from shipcalc.records import dataclass, replace

ALL_KINDS = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """What was reckoned and what was paid, in minor units of the quote's currency; `kind` is "" for all that was billed together.

    Only kinds that were billed count on either side: what nobody has billed yet is no saving. `asked` is a price in hand, which
    nobody has paid yet.
    """

    number: str
    kind: str
    carrier: str
    lane: str
    way: str
    miles: int
    day: date
    reckoned_minor: int
    sold_minor: int
    paid_minor: int
    asked: bool = False

    @property
    def ratio(self) -> float:
        """Return what was paid for each unit of what was reckoned."""
        return self.paid_minor / self.reckoned_minor


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """A quote compared: each kind, all together (None where nothing can be compared), and what cannot be, a sentence each."""

    kinds: tuple[Compared, ...]
    total: Compared | None
    said: tuple[str, ...] = ()


def compared(quote: Quote, choice: int, bills: Iterable[Bill]) -> Comparison:
    """Return a choice of a quote beside the bills for it."""
    option, said = quote.options[choice], []
    by_kind: dict[str, list[Bill]] = {}
    for bill in bills:
        if bill.currency != quote.currency:
            said.append(f"{quote.number}: a bill in {bill.currency} is not compared with a quote in {quote.currency}")
        else:
            by_kind.setdefault(bill.kind, []).append(bill)
    kinds = []
    for kind, its in _without_doubles(by_kind).items():
        one = _of_kind(quote, option, kind, its)
        if one.reckoned_minor > 0:
            kinds.append(one)
        else:
            said.append(f"{quote.number}: {kind} was billed, and nothing was reckoned for it")
    return Comparison(kinds=tuple(kinds), total=_together(kinds), said=tuple(said))


def asked_in_hand(quote: Quote) -> Iterator[Compared]:
    """Yield the prices in hand of a quote, beside the cheapest choice of the same trailer that the rate book came to."""
    for option in quote.options:
        held = option.in_hand
        if held is None or held.amount is None:
            continue
        others = [
            _truck_costs(quote, other)[0]
            for other in quote.options
            if other.in_hand is None and other.trailer == option.trailer and other.ocean == option.ocean
        ]
        if others and min(others) > 0:
            yield replace(
                _nothing_yet(quote, option, held.carrier, quote.as_of),
                kind=ALL_IN,
                reckoned_minor=min(others),
                sold_minor=_truck_costs(quote, option)[1],
                paid_minor=to_minor(held.amount, quote.currency),
                asked=True,
            )


def _without_doubles(by_kind: dict[str, list[Bill]]) -> dict[str, list[Bill]]:
    """Return the bills with those that an all-in one takes in under it, or the same lines would be reckoned twice."""
    if ALL_IN not in by_kind:
        return by_kind
    parts = [bill for kind in kinds_in(ALL_IN) for bill in by_kind.get(kind, ())]
    others = {kind: its for kind, its in by_kind.items() if kind not in kinds_in(ALL_IN)}
    return {**others, ALL_IN: parts}


def _of_kind(quote: Quote, option: Option, kind: str, bills: list[Bill]) -> Compared:
    cost, sold = _costs(quote, option, kinds_in(kind))
    return replace(
        _nothing_yet(quote, option, bills[0].carrier, max(bill.day for bill in bills)),
        kind=kind,
        reckoned_minor=cost,
        sold_minor=sold,
        paid_minor=sum(bill.amount_minor for bill in bills),
    )


def _costs(quote: Quote, option: Option, kinds: tuple[str, ...]) -> tuple[int, int]:
    """Return what the lines of some kinds cost the dealer, and what the buyer pays the dealer for them."""
    lines = [
        charge
        for charge in option.charges
        if charge.cost and charge.payer == "seller" and kind_of(charge.code) in kinds
    ]
    cost = sum(to_minor(charge.cost.amount, quote.currency) for charge in lines if charge.cost)
    return cost, sum(to_minor(charge.amount, quote.currency) for charge in lines)


def _truck_costs(quote: Quote, option: Option) -> tuple[int, int]:
    return _costs(quote, option, kinds_in(ALL_IN))


def _nothing_yet(quote: Quote, option: Option, carrier: str, day: date) -> Compared:
    """Return what is said of a choice whatever was billed. Its miles are those of its first leg on land, from the yard."""
    land = [leg for leg in option.legs if leg.unit == "mi"]
    start, end = (_end(place.subdivision, place.country) for place in (quote.from_, quote.to))
    return Compared(
        number=quote.number or "",
        kind=ALL_KINDS,
        carrier=carrier,
        lane=f"{start} to {end}",
        way=option.ocean or (f"{option.trailer} trailer" if option.trailer else "road"),
        miles=land[0].distance if land else 0,
        day=day,
        reckoned_minor=0,
        sold_minor=0,
        paid_minor=0,
    )


def _end(subdivision: str, country: str) -> str:
    return subdivision if country == "US" and subdivision else country


def _together(kinds: list[Compared]) -> Compared | None:
    if not kinds:
        return None
    return replace(
        max(kinds, key=lambda one: one.reckoned_minor),
        kind=ALL_KINDS,
        day=max(one.day for one in kinds),
        reckoned_minor=sum(one.reckoned_minor for one in kinds),
        sold_minor=sum(one.sold_minor for one in kinds),
        paid_minor=sum(one.paid_minor for one in kinds),
    )


def too_few(quotes: int) -> str:
    """Return how a sentence begins that says that so many quotes with bills do not tell enough."""
    return f"{how_many(quotes, 'quote')} with bills {'is' if quotes == 1 else 'are'} too few"
