"""The quote as a plain message that a salesperson pastes into a mail."""

from collections.abc import Iterator

from shipcalc.documents import wording
from shipcalc.documents.landing import exchange_told, sum_told
from shipcalc.documents.message_abroad import choices_abroad
from shipcalc.documents.message_sums import when_and_what_is_paid
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.model import Option, Quote
from shipcalc.quote.stages import is_staged


def buyer_message(quote: Quote) -> str:
    """Return the message of any quote: how much, when, what else is to be paid, what is not included."""
    return "\n".join(_lines(for_buyer(quote))) + "\n"


def _lines(quote: Quote) -> Iterator[str]:
    best = quote.options[quote.recommended]
    yield f"Dear {quote.buyer}," if quote.buyer else "Good day,"
    yield ""
    yield f"thank you for asking what it takes to bring {wording.vehicles(quote.vehicles)} to {wording.place(quote.to)}."
    if len(quote.vehicles) > 1:
        yield f"That is: {wording.listed([vehicle.name for vehicle in quote.vehicles])}."
    yield ""
    if len(quote.options) > 1:
        yield f"We recommend {_named(quote.recommended, best)}. {quote.reason}"
    else:
        yield quote.reason
    yield from _choices(quote)
    if quote.exchange is not None:
        yield ""
        yield f"In {wording.currency_name(quote.exchange.currency)} we counted {exchange_told(quote)}."
    yield ""
    yield f"The prices are good until {wording.long_day(quote.valid_until)}."
    not_included = wording.by_choice([option.not_included for option in quote.options])
    if not_included:
        yield ""
        yield "Not included:"
        yield from (f"  - {line}" for line in not_included)
    warnings = wording.by_choice([option.warnings for option in quote.options])
    if warnings:
        yield ""
        yield "Please note:"
        yield from (f"  - {line}" for line in warnings)
    yield ""
    yield "When it arrives, look at it all round and write any damage on the delivery receipt before you sign it."
    yield "Every line of the price, the dates and the papers are in the workbook that comes with this message."
    yield "Tell us which choice you like, and we book it. Until a carrier has confirmed, dates are windows and not promises."
    yield ""
    yield "With kind regards"
    yield from _signature(quote)


def _named(index: int, option: Option) -> str:
    if is_staged(option):
        return f"{wording.choice_name(index).lower()} ({option.title})"
    return f"{wording.choice_name(index).lower()}, the {wording.lower_first(option.title)}"


def _choices(quote: Quote) -> Iterator[str]:
    if is_staged(quote.options[0]):
        yield from choices_abroad(quote)
        return
    for index, option in enumerate(quote.options):
        yield ""
        yield from _choice(quote, index, option)


def _choice(quote: Quote, index: int, option: Option) -> Iterator[str]:
    total = sum_told(quote, option.total)
    yield f"{wording.choice_name(index)}: {wording.lower_first(option.title)}, {total} in all"
    yield from when_and_what_is_paid(quote, option)
    yield f"  The carrier's cargo cover reaches {wording.money(option.cover, quote.currency)} for each vehicle."


def _signature(quote: Quote) -> Iterator[str]:
    yield quote.dealer.name
    yield from (way for way in (quote.dealer.phone, quote.dealer.email, quote.dealer.website) if way)
    yield wording.reference(quote)
