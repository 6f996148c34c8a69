"""The quote as a plain message that a salesperson pastes into a mail: the answer first, then the choices, cautions last."""

from collections.abc import Iterator

from shipcalc.documents import wording
from shipcalc.documents.notes import Notes, notes
from shipcalc.documents.offer.acceptance import WINDOWS, payment_told
from shipcalc.documents.offer.differences import Difference, differences, signed
from shipcalc.documents.offer.first_answer import answers, further
from shipcalc.documents.offer.landing import sum_told
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.model import Option, Quote
from shipcalc.records import replace

# So many notes are read in a mail; all of them are in the workbook.
MOST_NOTES = 4
RECEIPT = "When it arrives, look at it all round and write any damage on the delivery receipt before you sign it."


def buyer_message(quote: Quote) -> str:
    """Return the message of any quote: how much, when, what else is to be paid, what is not included."""
    return "\n".join(_lines(for_buyer(quote))) + "\n"


def _lines(quote: Quote) -> Iterator[str]:
    best = quote.options[quote.recommended]
    yield f"Dear {quote.buyer}," if quote.buyer else "Good day,"
    yield ""
    yield f"Thank you for asking what it takes to bring {wording.vehicles(quote.vehicles)} to {wording.place(quote.to)}."
    if len(quote.vehicles) > 1:
        yield f"That is: {wording.listed([vehicle.name for vehicle in quote.vehicles])}."
    yield from _list(notes("decisive", quote))
    yield ""
    for told in (answers, further):
        yield from (f"{answer.label}: {answer.text}." for answer in told(quote, quote.recommended, wording.money_told))
    yield ""
    yield from _choices(quote)
    yield from _list(notes("needed", quote))
    yield ""
    yield from _to_accept(quote, best)
    yield from _notes(quote)
    yield ""
    yield "Kind regards"
    yield from _signature(quote)


def _choices(quote: Quote) -> Iterator[str]:
    if len(quote.options) == 1:
        yield quote.reason
        return
    yield "Your choices:"
    yield from (f"  {_choice(quote, one)}" for one in differences(quote))
    if any(option.buyer_pays_locally for option in quote.options):
        yield "What a choice adds includes what you would pay to others, and is an estimate."
    yield f"We recommend choice {quote.recommended + 1}. {quote.reason}"


def _choice(quote: Quote, one: Difference) -> str:
    """Return `2. Open trailer, 3 days sooner: $1,065.00 (+20), there by 12 Dec 2026`."""
    more = f" ({signed(one.more)})" if one.more is not None else ""
    return f"{one.number}. {one.told}: {sum_told(quote, one.price)}{more}, there by {wording.day(one.there_by)}"


def _to_accept(quote: Quote, best: Option) -> Iterator[str]:
    which = f" with the number of the choice you like (or {quote.recommended + 1})" if len(quote.options) > 1 else ""
    until = wording.long_day(quote.valid_until)
    yield f"To accept, reply to this message{which} until {until}, and we book it."
    if best.deposit:
        yield payment_told(quote, best)
    yield WINDOWS


def _notes(quote: Quote) -> Iterator[str]:
    noted = notes("noted", quote)
    more = len(noted.sentences) - MOST_NOTES
    yield from _list(replace(noted, sentences=(*noted.sentences[:MOST_NOTES], RECEIPT)))
    beside = ("the dates", "the papers", f"{wording.number(more)} more notes" if more > 1 else "another note")
    told = wording.listed(["Every line of the price", *beside[: 3 if more > 0 else 2]])
    yield f"{told} are in the workbook that comes with this message."


def _list(told: Notes) -> Iterator[str]:
    if told.sentences:
        yield ""
        yield f"{told.title}:"
        yield from (f"  - {sentence}" for sentence in told.sentences)


def _signature(quote: Quote) -> Iterator[str]:
    yield from (who for who in (quote.dealer.signatory, quote.dealer.name) if who)
    yield from (way for way in (quote.dealer.phone, quote.dealer.email, quote.dealer.website) if way)
    yield wording.reference(quote)
