"""The mail that goes with the offer: warm, short, in whole sentences; as text, as HTML, and ready to open in a mail program."""

import re
from collections.abc import Iterator
from decimal import Decimal

from shipcalc.documents import wording
from shipcalc.documents.letter import SUBJECT, Letter, Part, Row, as_html, as_text, greeting, signed_by
from shipcalc.documents.notes import notes
from shipcalc.documents.offer.acceptance import BANK_CAUTION, WINDOWS, payment_told
from shipcalc.documents.offer.differences import Difference, differences
from shipcalc.documents.offer.landing import sum_told
from shipcalc.documents.offer.plain_words import explained
from shipcalc.documents.offer.sentences import (
    abroad_sentences,
    also_sentence,
    cover_sentences,
    else_sentences,
    in_one_style,
    missing_sentences,
    price_sentences,
    when_sentences,
)
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.model import Option, Quote
from shipcalc.quote.network.territory import is_domestic
from shipcalc.records import replace

_COVER = re.compile(r"^cover ([\d,]+)$")
RECEIPT = "When it arrives, look at it all round and write any damage on the delivery receipt before you sign it."
ATTACHED = "Our offer is attached as quote.pdf, with every line of the price, the dates, and what we need from you."


def buyer_message(quote: Quote) -> str:
    """Return the message of any quote as plain text: how much, when, what else is to be paid, what is not included."""
    return as_text(message_letter(quote))


def buyer_message_html(quote: Quote) -> str:
    """Return the same message as a page of HTML."""
    return as_html(message_letter(quote))


def message_letter(quote: Quote) -> Letter:
    """Return the parts of the message; what is not the buyer's is taken out."""
    shown = for_buyer(quote)
    best = shown.options[shown.recommended]
    parts = [part for part in _parts(shown, best) if part.sentences or part.points or part.rows]
    styled = tuple(_in_one_style(part, shown) for part in parts)
    words = _words(shown, styled)
    return Letter(
        subject=f"{wording.headline(shown)}{SUBJECT}{wording.reference(shown)}",
        greeting=greeting(shown.buyer),
        parts=(*styled[:-1], *words, styled[-1]),
        signature=signed_by(shown.dealer, wording.reference(shown)),
        sender=shown.dealer.name,
    )


def _parts(quote: Quote, best: Option) -> Iterator[Part]:
    """Yield the parts in the order in which buyers ask; the last one is how to accept."""
    yield Part(sentences=tuple(_opening(quote)))
    yield Part(title=notes("decisive", quote).title, points=notes("decisive", quote).sentences)
    yield Part(title="How much", sentences=tuple(price_sentences(quote, best)))
    yield Part(title="When", sentences=(*when_sentences(quote, best), WINDOWS))
    others = (*else_sentences(quote, best), *missing_sentences(best))
    yield Part(title="What else, and what not", sentences=(*others, *cover_sentences(quote, best)))
    yield _choices(quote)
    yield Part(title="Good to know", sentences=(*abroad_sentences(quote, best), RECEIPT))
    yield Part(title="What happens next", sentences=tuple(_to_accept(quote, best)))


def _opening(quote: Quote) -> Iterator[str]:
    what, where = wording.vehicles(quote.vehicles), wording.place(quote.to)
    yield f"Thank you for asking us to bring {what} to {where}; we would be glad to."
    if len(quote.vehicles) > 1:
        yield f"They are {wording.listed([vehicle.name for vehicle in quote.vehicles])}."
    yield ATTACHED


def _choices(quote: Quote) -> Part:
    also = tuple(also_sentence(quote, one) for one in quote.also)
    if len(quote.options) == 1:
        return Part(title="Why this way", sentences=(f"We offer this way: {_reason(quote)}", *also))
    to_others = any(option.buyer_pays_locally for option in quote.options)
    estimate = ("What a choice adds counts what you would pay to others too, and is an estimate.",) if to_others else ()
    return Part(
        title="Your choices",
        header=("Choice", "Price", "There by"),
        rows=tuple(_choice(quote, one) for one in differences(quote)),
        after=(f"We recommend choice {quote.recommended + 1}: {_reason(quote)}", *estimate, *also),
    )


def _reason(quote: Quote) -> str:
    return wording.lower_first(quote.reason)


def _choice(quote: Quote, one: Difference) -> Row:
    """Return a choice as a row, and as the line `2. Open trailer, 3 days sooner: $1,065.00 ($20 more), there by 12 Dec 2026.`."""
    best = one.number == quote.recommended + 1
    price = sum_told(quote, one.price)
    if one.more is not None and one.more:
        more = wording.money_told(abs(one.more), quote.currency).removesuffix(".00")
        price += f", {more} {'more' if one.more > 0 else 'less'}"
    there = wording.day(one.there_by)
    words = (_COVER.sub(lambda cover: f"covered up to {_money(quote, cover[1])}", word) for word in one.words)
    name = wording.sentence_case(", ".join((one.name, *words)))
    return Row(f"{one.number}. {name}", (price, there), f"{one.number}. {name}: {price}, there by {there}.", best=best)


def _money(quote: Quote, figures: str) -> str:
    return wording.money_told(Decimal(figures.replace(",", "")), quote.currency)


def _to_accept(quote: Quote, best: Option) -> Iterator[str]:
    which = " with the number of the choice you like" if len(quote.options) > 1 else " and say yes"
    yield f"If you would like us to go ahead, reply to this message{which} by {wording.day(quote.valid_until)}, and we book it."
    if best.deposit:
        yield payment_told(quote, best)
    yield BANK_CAUTION
    yield "If anything is unclear, please write or call: we are happy to explain."


def _in_one_style(part: Part, quote: Quote) -> Part:
    sentences, points, after = (
        tuple(in_one_style(told, quote) for told in texts) for texts in (part.sentences, part.points, part.after)
    )
    return replace(part, sentences=sentences, points=points, after=after)


def _words(quote: Quote, parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """Return the trade's words that the message uses, explained, for buyers overseas."""
    if is_domestic(quote.to.country):
        return ()
    told = [
        text
        for part in parts
        for text in (*part.sentences, *part.points, *part.after, *(row.line for row in part.rows))
    ]
    words = tuple(f"{one.word}: {one.meaning}." for one in explained(told))
    return (Part(title="Words explained", points=words),) if words else ()
