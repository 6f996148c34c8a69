"""The choices of an overseas quote within a message: the recommended one in full, the others in a line each."""

from collections.abc import Iterator

from shipcalc.documents import wording
from shipcalc.documents.landing import altogether, landed_label, sum_told
from shipcalc.documents.message_sums import when_and_what_is_paid
from shipcalc.quote.model import Option, Quote


def choices_abroad(quote: Quote) -> Iterator[str]:
    """Yield the choices line by line; sums in the buyer's currency too, where the quote has one."""
    best = quote.options[quote.recommended]
    yield ""
    yield from _in_full(quote, best)
    others = [(index, option) for index, option in enumerate(quote.options) if index != quote.recommended]
    if others:
        yield ""
        yield "The other choices, with what others ask (estimate) and the delivery:"
        yield from (_in_a_line(quote, index, option) for index, option in others)


def _in_full(quote: Quote, option: Option) -> Iterator[str]:
    total = sum_told(quote, option.total)
    name = f"{wording.choice_name(quote.recommended)}: {option.title}"
    yield f"{name}, {total}, {wording.term(option)} (Incoterms 2020)"
    yield from when_and_what_is_paid(quote, option)
    if option.buyer_pays_locally:
        yield f"  Altogether that is about {sum_told(quote, altogether(option))}."
    if option.landed is not None:
        yield f"  Landed, {landed_label(quote, option)}: about {sum_told(quote, option.landed)}."
    yield from _customs(quote, option)
    yield f"  The risk passes to you {option.risk_passes}."
    if option.cover_conditions:
        cover = wording.money(option.cover, quote.currency)
        yield f"  The marine cover (conditions {option.cover_conditions}) reaches {cover}."


def _customs(quote: Quote, option: Option) -> Iterator[str]:
    """Yield what the customs may ask if they take the vehicle as a collector's piece."""
    counted = next((one for one in option.imports if one.counted), None)
    for other in option.imports:
        if counted is not None and other is not counted:
            asked, instead = wording.money(counted.amount, quote.currency), wording.money(other.amount, quote.currency)
            yield (
                f"  Duty and tax are counted at {asked}; if your customs take it as a collector's piece, they come to about "
                f"{instead}."
            )


def _in_a_line(quote: Quote, index: int, option: Option) -> str:
    total, local = sum_told(quote, option.total), wording.money(option.buyer_pays_locally, quote.currency)
    window = wording.window(option.dates.delivery)
    good_for = f" ({', '.join(option.good_for)})" if option.good_for else ""
    return f"  {index + 1}. {option.title}{good_for}: {total}; to others {local}; {window}"
