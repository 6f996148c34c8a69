"""The answer in one breath, the same on every face: how much, by when, what else to pay, what is not included, how to book.

A face gives the way it writes money and renders what it is told here; it decides nothing. What is ours is exact, what others ask
is an estimate and rounded to what it is worth.
"""

import re
from collections.abc import Callable, Iterator
from decimal import ROUND_HALF_UP, Decimal

from shipcalc.documents import wording
from shipcalc.documents.offer.landing import (
    TREATED,
    altogether,
    as_told,
    deposit_percent,
    exchange_told,
    lacks_duty,
    landed_label,
)
from shipcalc.quote.explain.stages import DUTY_UNKNOWN, PAID_TO_OTHERS, covered_in_words
from shipcalc.quote.model import Also, ImportEstimate, Leg, Option, Quote
from shipcalc.quote.price.exchange import converted
from shipcalc.records import dataclass, replace
from shipcalc.trade import OCEAN_MODES, Payer

Money = Callable[[Decimal, str], str]

DUTY_STAGE = "duty and tax"
NOTHING_MORE = "nothing further to us or to the carrier"
FETCHED = "transport from the yard, and any charges where it goes"
# So many figures of an estimate count, and nothing finer than ten units is told.
FIGURES = 3
# So many sums of all are told in brief: the counted one, and the next.
_IN_BRIEF = 2
# What stands before a colon is a warning's gist only where it is a sentence: "HV-1129: …" is not.
SHORTEST_WARNING = 25
_NEXT_SENTENCE = re.compile(r"(?<=[a-z0-9)][a-z0-9)])\. (?=[A-Z])")
_IN_BRACKETS = re.compile(r" ?\([^)]*\)")


@dataclass(frozen=True, slots=True)
class Answer:
    """One question of the buyer with its answer. `what` tells faces which it is: "price", "when", "else" …

    `brief` is the same in fewer words, for where there is little room; "" where it cannot be told in fewer.
    """

    what: str
    label: str
    text: str
    brief: str = ""


def place_and_vehicles(quote: Quote) -> tuple[str, str]:
    """Return the place as it was understood, and what goes there: the first line of every answer."""
    return wording.place(quote.to), vehicles_told(quote)


def vehicles_told(quote: Quote) -> str:
    """Return the vehicle with its stock number, or how many there are with theirs."""
    first, *others = quote.vehicles
    if others:
        numbers = ", ".join(vehicle.stock_number or vehicle.name for vehicle in quote.vehicles)
        return f"{wording.number(len(quote.vehicles))} vehicles, {numbers}"
    named = first.stock_number and first.stock_number != first.name
    return f"{first.name} ({first.stock_number})" if named else first.name


def answers(quote: Quote, index: int, money: Money) -> tuple[Answer, ...]:
    """Return the questions in the order in which buyers ask them, each with its answer for one choice."""
    option = quote.options[index]
    return tuple(answer for answer in _answers(quote, option, money) if answer.text)


def _answers(quote: Quote, option: Option, money: Money) -> Iterator[Answer]:
    price = f"{_in_both(quote, option.total, money)}{' ' if _reaches(quote, option) else ', '}"
    yield Answer("price", "Price", f"{price}{how(quote, option)}", f"{price}{_how_in_brief(quote, option)}")
    if option.legs:
        told = there_by(option)
        yield Answer("when", "There by", told, told.partition("; picked up ")[0])
    else:
        told = f"at the yard in {wording.place(quote.from_)}, {wording.window(option.dates.pickup)}"
        yield Answer("when", "Fetch it", told)
    if quote.by is not None and option.latest_ready is not None:
        told = f"{wording.day(option.latest_ready)} at the latest, to be there by {wording.day(quote.by)}"
        yield Answer("ready", "Ready by", told)
    told = also_to_pay(quote, option, money)
    yield Answer("else", "Also to pay", told, "; ".join(part for part in told.split("; ") if not _is_told_below(part)))
    if option.buyer_pays_locally:
        told = _altogether(quote, option, money)
        yield Answer("altogether", "Altogether", told, ", or ".join(told.split(", or ")[:_IN_BRIEF]))
    beside = (_beside(one, quote, money) for one in quote.also)
    in_brief = (_beside(replace(one, note=""), quote, money) for one in quote.also)
    yield Answer("also", "Or instead", "; ".join(beside), "; ".join(in_brief))
    yield Answer("missing", "Not included", "; ".join(missing(option)))
    yield Answer("book", "To book", to_book(quote, option, money))


def further(quote: Quote, index: int, money: Money) -> tuple[Answer, ...]:
    """Return what stands behind the answers, for the faces that have room: the landed sum, the term, the cover, the exchange."""
    option = quote.options[index]
    about_all = None if option.landed is None else _about_in_both(quote, option.landed, money)
    told = (
        Answer("landed", "Landed", f"{about_all} {landed_label(quote, option)}" if about_all else ""),
        Answer("term", "Delivered under", term_told(option) if option.risk_passes else ""),
        Answer("cover", "Covered", covered_in_words(option, quote.currency)),
        Answer("exchange", "Exchange", exchange_told(quote)),
    )
    return tuple(answer for answer in told if answer.text)


def term_told(option: Option) -> str:
    """Return `DAP Bremen (Incoterms 2020); the risk passes to you at the named place`."""
    return f"{wording.term(option)} (Incoterms 2020); the risk passes to you {option.risk_passes}"


def _beside(one: Also, quote: Quote, money: Money) -> str:
    """Return what else buyers ask, in few words: `to the Spokane terminal 890 USD, 215 miles from you`."""
    return f"{wording.lower_first(one.title)} {money(one.total, quote.currency)}{f', {one.note}' if one.note else ''}"


def how(quote: Quote, option: Option) -> str:
    """Return how it travels, and first how far the price reaches: `to your door (DAP Bremen), RoRo and open truck`.

    Where no passing of risk is agreed, the miles stand instead: `open trailer, 749 miles`.
    """
    if not _is_agreed(option):
        miles = sum(leg.distance for leg in option.legs if leg.unit == "mi")
        kind = wording.lower_first(option.title)
        told = f"{kind}, {miles:,} miles" if len({leg.from_ for leg in option.legs}) == 1 and miles else kind
        return _with_mark(told, option)
    truck = f"{option.trailer} truck" if option.trailer else ""
    ways = [part for part in (wording.lower_first(by_sea(option)), truck) if part]
    reach = _reach(quote, option)
    return _with_mark(f"{reach}, {' and '.join(ways)}" if ways else reach, option)


def _with_mark(told: str, option: Option) -> str:
    return ", ".join(part for part in (told, wording.in_hand(option), wording.guaranteed(option)) if part)


def _reaches(quote: Quote, option: Option) -> bool:
    """Return whether it is told how far the price reaches, and not by the term's code alone."""
    return _is_agreed(option) and how(quote, option).startswith(("to ", "from "))


def _is_agreed(option: Option) -> bool:
    """Return whether it is agreed, for what is carried, where the risk passes."""
    return bool(option.legs and option.risk_passes)


def _how_in_brief(quote: Quote, option: Option) -> str:
    """Return the same without the place that stands in the first line: `to your door (DAP), RoRo and open truck`."""
    return how(quote, option).replace(f" {quote.to.name})", ")").removesuffix(f", {wording.guaranteed(option)}")


def _reach(quote: Quote, option: Option) -> str:
    """Return how far the price reaches, the trade's word in brackets."""
    sea = [leg for leg in option.legs if leg.mode in (*OCEAN_MODES, "ferry")]
    ends_at_sea = bool(sea) and option.legs[-1] is sea[-1]
    if option.term_place == quote.to.name and not ends_at_sea:
        return f"to your door ({wording.term(option)})"
    if option.term_place in [end.name for leg in sea for end in (leg.from_, leg.to)]:
        return f"to the {wording.called_on(option).place} of {option.term_place} ({option.term})"
    if option.term_place == quote.from_.name:
        return f"from our yard ({wording.term(option)})"
    return wording.term(option)


def ship(option: Option) -> Leg | None:
    """Return the leg over the sea, where there is one; a ferry that takes the truck aboard belongs to the road."""
    return next((leg for leg in option.legs if leg.mode in OCEAN_MODES), None)


def by_sea(option: Option) -> str:
    """Return what carries it over the sea, as the choice's title begins: `RoRo`, `1 × 20′ container`; nothing by road alone."""
    return option.title.split(",")[0] if ship(option) else ""


def there_by(option: Option) -> str:
    """Return the latest day first, then the earliest and the days of pickup; and where the way ends, if not at the buyer's."""
    first, last = option.dates.delivery
    earliest, picked_up = (
        told.removesuffix(f" {last.year}") for told in (wording.day(first), wording.window(option.dates.pickup))
    )
    days = wording.day(last) if first == last else f"{wording.day(last)}, at the earliest {earliest}"
    end = "" if option.arrives or not option.legs else f" in {wording.place(option.legs[-1].to)}, where the way ends"
    return f"{days}{end}; picked up {picked_up}"


def also_to_pay(quote: Quote, option: Option, money: Money) -> str:
    """Return what the buyer pays to others: an estimate, and each way in which the customs may treat the vehicle."""
    if not option.legs:
        return FETCHED
    unknown = "; we have no figures for duty and tax there" if lacks_duty(quote, option) else ""
    if not option.buyer_pays_locally:
        return f"{NOTHING_MORE}{_duty_in_price(option)}{unknown}"
    local, duty = option.buyer_pays_locally, duty_paid(option, "buyer")
    told = f"{about(local, quote.currency, money)} to others"
    if duty:
        told += f", {_plain(duty)} of it duty and tax"
    for other in other_treatments(option) if duty else ():
        instead = local - duty + other.amount
        told += f"; {as_told(other)} about {_plain(instead)}, {_plain(other.amount)} of it duty and tax"
    return f"{told}{_duty_in_price(option)}{unknown}"


def _duty_in_price(option: Option) -> str:
    """Return what of the price is duty and tax, and what they would be otherwise, where the seller pays them."""
    duty, others = duty_paid(option, "seller"), other_treatments(option)
    if not duty or not others:
        return ""
    instead = ", ".join(f"{as_told(other)} about {_plain(other.amount)}" for other in others)
    return f"; the price includes {_plain(duty)} of duty and tax, {instead}"


def duty_paid(option: Option, payer: Payer) -> Decimal:
    """Return the duty and tax on one party's account."""
    own = (c.amount for c in option.charges if c.stage == DUTY_STAGE and c.payer == payer)
    return sum(own, Decimal(0))


def other_treatments(option: Option) -> tuple[ImportEstimate, ...]:
    """Return how else the customs may treat the vehicle than is counted: as a collector's piece, with proof of origin."""
    return tuple(one for one in option.imports if not one.counted)


def _is_told_below(part: str) -> bool:
    """Return whether a part of what is to be paid is another treatment, which stands with the sum of all."""
    return part.startswith(TREATED)


def warning_gist(sentence: str) -> str:
    """Return what a warning is about: its first sentence, without what stands in brackets or behind a colon."""
    first = _IN_BRACKETS.sub("", _NEXT_SENTENCE.split(sentence)[0])
    head, _, rest = first.partition(": ")
    told = head if len(head) >= SHORTEST_WARNING else f"{head}: {rest}" if rest else head
    return f"{told.rstrip('.')}."


def _altogether(quote: Quote, option: Option, money: Money) -> str:
    told = _about_in_both(quote, altogether(option), money)
    if lacks_duty(quote, option):
        told += ", without duty and tax"
    without = altogether(option) - duty_paid(option, "buyer") - duty_paid(option, "seller")
    instead = [f"{_plain(without + other.amount)} {as_told(other)}" for other in other_treatments(option)]
    return ", or ".join((told, *instead))


def missing(option: Option) -> tuple[str, ...]:
    """Return what is not included in few words: of each sentence what stands before its colon, each once.

    What is asked only when something happens is left to the list in full: nobody waits on the telephone to hear it.
    """
    occasions = tuple(f"{one.what}{of}:" for one in option.when_it_happens for of in ("", " of the truck"))
    told = (
        sentence for sentence in option.not_included if not _is_told(sentence) and not sentence.startswith(occasions)
    )
    return tuple(dict.fromkeys(map(gist, told)))


def gist(sentence: str) -> str:
    """Return what a sentence is about: `Storage: for each day …` → storage."""
    return wording.lower_first(sentence.split(":", maxsplit=1)[0].strip().rstrip("."))


def _is_told(sentence: str) -> bool:
    """Return whether the card says it already: what is paid to others, and that duty is not known."""
    return sentence.startswith((PAID_TO_OTHERS, DUTY_UNKNOWN))


def to_book(quote: Quote, option: Option, money: Money) -> str:
    """Return the deposit, what share of the price it is, and until when the price holds."""
    until = f"good until {wording.day(quote.valid_until)}"
    if not option.deposit:
        return until
    percent = deposit_percent(option, quote.currency)
    share = f" ({percent.normalize():f} %)" if percent is not None else ""
    return f"{_in_both(quote, option.deposit, money)} deposit{share}; {until}"


def rounded(amount: Decimal) -> Decimal:
    """Return an estimate to what it is worth: 23,416.20 → 23,400; 463 → 460; 42.70 → 43."""
    step = worth(amount)
    return (amount / step).quantize(Decimal(1), ROUND_HALF_UP) * step


def worth(amount: Decimal) -> Decimal:
    """Return how finely an estimate is told: 23,416.20 to hundreds, 463 to tens, 42.70 to units."""
    return Decimal(1) if abs(amount) < 100 else Decimal(10) ** max(1, amount.adjusted() + 1 - FIGURES)


def about(amount: Decimal, currency: str, money: Money) -> str:
    """Return `about 23,400 USD`."""
    return f"about {money(rounded(amount), currency)}"


def _plain(amount: Decimal) -> str:
    return f"{rounded(amount):,f}"


def _in_both(quote: Quote, amount: Decimal, money: Money) -> str:
    told = money(amount, quote.currency)
    if quote.exchange is None:
        return told
    return f"{told} ({money(converted(amount, quote.exchange), quote.exchange.currency)})"


def _about_in_both(quote: Quote, amount: Decimal, money: Money) -> str:
    told = about(amount, quote.currency, money)
    if quote.exchange is None:
        return told
    return f"{told} ({money(rounded(converted(amount, quote.exchange)), quote.exchange.currency)})"
