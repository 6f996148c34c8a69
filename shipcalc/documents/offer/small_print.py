"""What is agreed, what to note and what was assumed, of one choice: the sentences behind the figures."""

import re

from shipcalc.documents import wording
from shipcalc.documents.notes import Notes, notes
from shipcalc.documents.offer.first_answer import further
from shipcalc.documents.offer.plain_words import term_in_plain_words
from shipcalc.quote.explain.stages import PAID_TO_OTHERS, has_stages
from shipcalc.quote.model import Option, Quote
from shipcalc.records import replace

_TERMS = ("cover", "exchange")
_MILES = re.compile(r": (less than a mile|[\d,]+ (nautical )?miles?) (by road|along the sea lanes)")
_FIGURES = re.compile(r" \(choices? [\d, and]+\)$|[\d.,]+")


def terms(quote: Quote, option: Option) -> list[str]:
    """Return what is agreed: delivery term, cover, how the buyer's currency is counted, and what the dealer's own terms add."""
    told = [term_in_plain_words(option)] if option.risk_passes else []
    also = (one for one in further(quote, quote.options.index(option), wording.money_told) if one.what in _TERMS)
    # The first sentence of what is included lists the stages whose lines stand on the page.
    included = notes("included", quote, option).sentences[1 if has_stages(option) else 0 :]
    return [*told, *(f"{one.label} {one.text}." for one in also), *included, *quote.dealer.terms]


def noted(quote: Quote, option: Option) -> list[str]:
    """Return what to note of a choice, and before it what the buyer should know of the others before deciding for them.

    What differs from what was told only by its figures or its choices is not told again.
    """
    told = {_FIGURES.sub("", one) for one in option.before_price}
    others = {_FIGURES.sub("", one): one for one in notes("decisive", quote).sentences}
    new = (one for gist, one in others.items() if gist not in told)
    return [*new, *notes("noted", quote, option).sentences]


def assumed(quote: Quote) -> list[str]:
    """Return what was assumed, without how the miles were found: the legs say how far they are, the office's file the rest."""
    return [one for one in notes("assumed", quote).sentences if not _MILES.search(one)]


def missing(quote: Quote, option: Option) -> Notes:
    """Return what is not included without what is paid to others: that stands in figures beside it."""
    told = notes("missing", quote, option)
    return replace(told, sentences=tuple(one for one in told.sentences if not one.startswith(PAID_TO_OTHERS)))
