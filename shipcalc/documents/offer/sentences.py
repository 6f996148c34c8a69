"""The first answer in whole sentences, as people say it in a mail or on the telephone: from the same sums as every face has."""

import re
from collections.abc import Iterator
from decimal import ROUND_HALF_UP, Decimal

from shipcalc.documents import wording
from shipcalc.documents.offer.first_answer import (
    DUTY_STAGE,
    duty_paid,
    missing,
    other_treatments,
    rounded,
    warning_gist,
)
from shipcalc.documents.offer.landing import altogether, as_told, lacks_duty, landed_label, sum_told
from shipcalc.documents.offer.plain_words import term_in_plain_words
from shipcalc.quote.explain.payment import balance_is_due
from shipcalc.quote.model import Also, Option, Quote
from shipcalc.quote.price.exchange import converted

_SUM = r"(?<![\w.,-])(\d[\d,]*(?:\.\d+)?) ({currencies})\b"


def in_one_style(text: str, quote: Quote) -> str:
    """Return a sentence of the quote with its sums written as in letters: `35,000 USD` → `$35,000`."""
    known = {quote.currency, *([quote.exchange.currency] if quote.exchange else [])}
    pattern = _SUM.format(currencies="|".join(map(re.escape, sorted(known))))
    return re.sub(pattern, lambda sum_: wording.money_told(Decimal(sum_[1].replace(",", "")), sum_[2]), text)


def price_sentences(quote: Quote, option: Option) -> Iterator[str]:
    """Yield what it costs, how far that reaches, and how it travels."""
    price = sum_told(quote, option.total)
    if not option.legs:
        yield f"The price is {price}, for everything that we do until you fetch {_them(quote)} from our yard."
        return
    called = wording.called_on(option)
    if option.risk_passes and option.term_place != quote.to.name:
        yield f"The price is {price}, for our part of the way under {wording.term(option)}."
    else:
        yield f"The price is {price}, for the whole way to {wording.stop(option.legs[-1].to, called)}."
    legs = [f"{wording.carried(leg, option.trailer)} to {wording.stop(leg.to, called)}" for leg in option.legs]
    yield f"{_it(quote, 'travels', 'travel')} {', then '.join(legs)}."
    if option.service_class:
        yield f"The carrier guarantees the pickup by {wording.day(option.dates.pickup[1])}."
    if option.in_hand:
        yield f"The carrier holds its price for us until {wording.day(option.in_hand.until)}."


def when_sentences(quote: Quote, option: Option) -> Iterator[str]:
    """Yield the latest day first, then the earliest, and the days of pickup."""
    first, last = (wording.day(day) for day in option.dates.delivery)
    pickup = wording.within(option.dates.pickup)
    if not option.legs:
        yield f"You can fetch {_them(quote)} in {wording.place(quote.from_)} {pickup}."
        return
    earliest = "" if first == last else f", and at the earliest on {first}"
    if option.arrives:
        yield f"{_it(quote, 'will be', 'will be')} with you by {last}{earliest}."
    else:
        end = wording.stop(option.legs[-1].to, wording.called_on(option))
        yield f"{_it(quote, 'will be', 'will be')} ready in {end} by {last}{earliest}; there our part ends."
    yield f"The truck comes for {_them(quote)} {pickup}."
    if quote.by is not None and option.latest_ready is not None:
        ready, by = wording.day(option.latest_ready), wording.day(quote.by)
        yield f"To be there by {by}, {_it(quote, 'must', 'must').lower()} be ready by {ready} at the latest."


def else_sentences(quote: Quote, option: Option) -> Iterator[str]:
    """Yield what the buyer pays to others, each way in which customs may treat it, and what all of it comes to."""
    if not option.legs:
        yield "The transport from the yard, and any charges where it goes, are yours."
        return
    yield from _to_others(quote, option) if option.buyer_pays_locally else _nothing_more(quote, option)
    if lacks_duty(quote, option):
        yield "We have no figures for duty and tax there; please ask a customs broker."


def _to_others(quote: Quote, option: Option) -> Iterator[str]:
    local, duty = option.buyer_pays_locally, duty_paid(option, "buyer")
    tax = f", of which about {_sum(quote, duty)} is {DUTY_STAGE}" if duty else ""
    yield f"You also pay about {_sum(quote, local)} to others{tax}; this is an estimate."
    all_of_it, without = altogether(option), altogether(option) - duty - duty_paid(option, "seller")
    lacking = ", without duty and tax" if lacks_duty(quote, option) else ""
    yield f"Altogether you pay about {_sum_in_both(quote, all_of_it)}{lacking}."
    for other in other_treatments(option):
        instead = f"about {_sum(quote, without + other.amount)} altogether"
        yield f"Should customs take it {as_told(other)}, it is {instead}, with about {_sum(quote, other.amount)} of duty and tax."


def _nothing_more(quote: Quote, option: Option) -> Iterator[str]:
    yield "You pay nothing further to us or to the carrier."
    duty = duty_paid(option, "seller")
    if duty and other_treatments(option):
        yield f"The price includes {_sum(quote, duty)} of duty and tax, as an estimate."
        for other in other_treatments(option):
            yield f"Should customs take it {as_told(other)}, duty and tax are about {_sum(quote, other.amount)}."


def missing_sentences(option: Option) -> Iterator[str]:
    """Yield what the price does not hold, in few words."""
    lacking = missing(option)
    if lacking:
        yield f"The price does not include {'; '.join(lacking)}."


def cover_sentences(quote: Quote, option: Option) -> Iterator[str]:
    """Yield up to what sum each vehicle is covered on its way, and by what."""
    if not option.cover and option.in_hand:
        yield "Up to which sum it is covered we tell you once we have seen the carrier's certificate."
    elif not option.cover:
        yield "Insuring it on its way is not in this price and is yours."
    else:
        each = "Each vehicle" if len(quote.vehicles) > 1 else "It"
        marine = f" by a marine cover under conditions {option.cover_conditions}" if option.cover_conditions else ""
        yield f"{each} is covered on the way up to {wording.money_told(_whole(option.cover), quote.currency)}{marine}."


def abroad_sentences(quote: Quote, option: Option) -> Iterator[str]:
    """Yield what the delivery term means, where the risk passes, all with the vehicle, how the buyer's currency is counted."""
    if option.risk_passes:
        yield f"{term_in_plain_words(option) or f'The delivery term is {wording.term(option)} (Incoterms 2020).'}"
        yield f"The risk passes to you {option.risk_passes}."
    if option.landed is not None:
        yield f"All of it {landed_label(quote, option)} comes to about {_sum_in_both(quote, option.landed)}."
    exchange = quote.exchange
    if exchange is not None:
        buffer = (
            f", with {exchange.buffer.normalize():f} % on it because rates move until you pay"
            if exchange.buffer
            else ""
        )
        yield (
            f"Sums in {exchange.currency} are counted at {exchange.rate:f} {exchange.currency} for 1 {quote.currency}, the rate "
            f"of {wording.day(exchange.as_of)}{buffer}."
        )


def also_sentence(quote: Quote, also: Also) -> str:
    """Return what else there is, beside the choices."""
    price = sum_told(quote, also.total)
    if also.what == "now":
        return f"{also.title}, the price would be {price}."
    if also.what == "collected":
        return f"Or you fetch it yourself from our yard, {also.note} away; then our price is {price}."
    then = f"; then {also.note}" if also.what == "port" else f"; that is {also.note}" if also.note else ""
    return f"Or we bring it only {wording.lower_first(also.title)} for {price}{then}."


def phone_script(quote: Quote, index: int) -> tuple[str, str, str]:
    """Return the three sentences to say on the telephone: how much and when; what else and what not; the next step.

    What may change the buyer's mind is said before the price.
    """
    option = quote.options[index]
    told = [warning_gist(one).rstrip(".") for one in option.before_price]
    first = f"First you should know that {'; and that '.join(map(wording.lower_first, told))}; " if told else ""
    what = f"bringing {wording.vehicles(quote.vehicles)} to {wording.place(quote.to)}"
    by = wording.day(option.dates.delivery[1])
    end = f"you can fetch {_them(quote)} {wording.within(option.dates.pickup)}"
    there = f"{_it(quote, 'is', 'are').lower()} there by {by}" if option.legs else end
    price = f"{first}{what} costs {sum_told(quote, option.total)}, and {there}."
    lacking = f", and the price does not include {wording.listed(missing(option))}" if missing(option) else ""
    besides = next(else_sentences(quote, option)).rstrip(".")
    until = f"until {wording.day(quote.valid_until)}"
    if not option.deposit:
        book = f"The price holds {until}: shall I book it for you?"
    else:
        rest = f"the rest {balance_is_due(option)}"
        book = f"To book it you pay {sum_told(quote, option.deposit)} now and {rest}, and the price holds {until}."
    return wording.sentence_case(price), f"{besides}{lacking}.", book


def _whole(amount: Decimal) -> Decimal:
    return amount.quantize(Decimal(1), ROUND_HALF_UP)


def _them(quote: Quote) -> str:
    return "them" if len(quote.vehicles) > 1 else "it"


def _it(quote: Quote, one: str, several: str) -> str:
    return f"They {several}" if len(quote.vehicles) > 1 else f"It {one}"


def _sum(quote: Quote, amount: Decimal) -> str:
    return wording.money_told(rounded(amount), quote.currency)


def _sum_in_both(quote: Quote, amount: Decimal) -> str:
    if quote.exchange is None:
        return _sum(quote, amount)
    also = wording.money_told(rounded(converted(amount, quote.exchange)), quote.exchange.currency)
    return f"{_sum(quote, amount)} ({also})"
