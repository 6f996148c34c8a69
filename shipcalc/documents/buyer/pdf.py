"""`quote.pdf`: the offer on two pages, to read, print and sign. It holds no cost, margin, source cell or private carrier."""

from collections.abc import Mapping
from typing import Any

from shipcalc.documents import stationery, wording
from shipcalc.documents.notes import notes
from shipcalc.documents.offer.differences import differences, signed
from shipcalc.documents.offer.first_answer import answers
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.model import Quote
from shipcalc.typeset.typesetting import typeset

TEMPLATE = "documents/buyer/quote.typ"


def quote_pdf(quote: Quote) -> bytes:
    """Return the offer of any quote as a PDF, on the paper of the buyer's country; what is not the buyer's is taken out."""
    shown = for_buyer(quote)
    paper = stationery.paper_for(shown.to.country)
    return typeset(TEMPLATE, quote_data(shown), paper=paper, language="en", day=shown.as_of)


def quote_data(quote: Quote) -> Mapping[str, Any]:
    """Return all that the template sets, as it is said on every face."""
    told = answers(quote, quote.recommended, wording.money)
    return {
        **stationery.head(quote),
        "title": wording.headline(quote),
        "buyer": quote.buyer,
        "answers": [{"what": one.what, "label": one.label, "text": wording.sentence_case(one.text)} for one in told],
        "choices": [
            {
                "number": one.number,
                "told": one.told,
                "price": wording.money(one.price, quote.currency),
                "more": "" if one.more is None else signed(one.more),
                "there_by": wording.day(one.there_by),
            }
            for one in differences(quote)
        ],
        "decisive": notes("decisive", quote).sentences,
    }
