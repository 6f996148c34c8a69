"""The call page: what is typed on the left, the answer beside it, made anew with every change.

An answer has a key: its pictures, its PDF, its message, and keeping it are asked for by that, so that they are of the very quote
that stands on the page (`desk/recent.py`).
"""

from functools import partial
from typing import Annotated, Literal

from fastapi import APIRouter, Query, Response
from fastapi import Path as PathParameter
from fastapi.responses import HTMLResponse

from shipcalc.actions.files import offer_letter, reader_for
from shipcalc.actions.sources import Sources
from shipcalc.desk.clerk import Clerk
from shipcalc.desk.handing_out import PDF
from shipcalc.desk.orders import AskedQuote
from shipcalc.desk.pages import call_kept, call_typing
from shipcalc.desk.pages.call_answer import answer_data, choice_meant
from shipcalc.desk.pages.call_pictures import PICTURES, picture, pictures_data
from shipcalc.desk.recent import Given, Recent
from shipcalc.desk.rendering import part, whole_page
from shipcalc.documents.buyer.pdf import quote_pdf
from shipcalc.documents.letter import as_html, as_text
from shipcalc.documents.logo import read_logo
from shipcalc.documents.offer.beside import choice_beside
from shipcalc.errors import WrongInput
from shipcalc.languages.known import ENGLISH, LANGUAGES, language_meant
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.price.terms import CODES
from shipcalc.records import replace

Key = Annotated[str, PathParameter(max_length=40)]
Said = Annotated[str, Query(max_length=20)]
Language = Annotated[str, Query(max_length=20, description="Of the paper; English by itself.")]
SVG = "image/svg+xml"


def paths(clerk: Clerk) -> APIRouter:
    """Return the paths of the page."""
    router = APIRouter(include_in_schema=False)
    recent = Recent()

    @router.get("/", response_class=HTMLResponse)
    async def call() -> str:
        """Return the page, with nothing asked yet."""
        sources = await clerk.do(clerk.sources)
        return whole_page(
            "call.html",
            sources,
            here="/",
            yards=[name for name, _ in sources.settings.yards],
            terms=CODES,
            languages={ENGLISH: "English", **LANGUAGES},
            is_first=_is_first(sources),
        )

    @router.post("/answer", response_class=HTMLResponse)
    async def answer(asked: AskedQuote, choice: Said = "", beside: Said = "") -> str:
        """Return the answer as the page shows it; `beside` is the key of one that it is compared with."""
        made = await clerk.made(asked)
        return await clerk.do(lambda: _shown(recent, Given(made.quote, made), choice, before=recent.find(beside)))

    _of_answer(router, clerk, recent)
    router.include_router(call_typing.paths(clerk))
    router.include_router(call_kept.paths(clerk, recent, _shown))
    return router


def _of_answer(router: APIRouter, clerk: Clerk, recent: Recent) -> None:
    @router.get("/answer/{key}/{what}.svg")
    async def drawn(
        key: Key, what: Literal["way", "price", "days"], choice: Said = "", narrow: bool = False, dark: bool = False
    ) -> Response:
        """Return a picture of an answer."""
        quote = for_buyer(recent.get(key).quote)
        option = quote.options[choice_meant(quote, choice)]
        found = await clerk.do(partial(picture, quote, option, what, narrow=narrow, dark=dark))
        if found is None:
            raise WrongInput("there is nothing to draw", where=PICTURES[what][0])
        # An answer never changes, so its pictures need not be asked for again.
        return Response(found, media_type=SVG, headers={"Cache-Control": "private, max-age=3600"})

    @router.get("/answer/{key}/quote.pdf")
    async def pdf(key: Key, language: Language = "") -> Response:
        """Return the offer as PDF."""
        quote, sources = recent.get(key).quote, await clerk.do(clerk.sources)
        reader, logo = reader_for(quote, language_meant(language)), sources.settings.dealer.logo
        made = await clerk.do(lambda: quote_pdf(quote, photos=sources.photos, logo=read_logo(logo), reader=reader))
        return Response(made, media_type=PDF)

    @router.get("/answer/{key}/message")
    async def message(key: Key, language: Language = "") -> dict[str, str]:
        """Return the mail that goes with the offer, as text and as HTML, in the offer's language."""
        spoken, quote = language_meant(language), recent.get(key).quote
        letter = await clerk.do(lambda: offer_letter(quote, reader_for(quote, spoken)))
        return {"subject": letter.subject, "text": as_text(letter), "html": as_html(letter)}


def _shown(recent: Recent, given: Given, choice: str = "", *, before: Given | None = None, **kept: object) -> str:
    """Return the answer as HTML; `kept` is what there is to say of a quote that is kept."""
    quote = for_buyer(given.quote)
    index = choice_meant(quote, choice)
    option = quote.options[index]
    told = ""
    if before is not None:
        told = choice_beside(before.quote, before.quote.options[before.shown], quote, option)
    return part(
        "answer.html",
        key=recent.put(replace(given, shown=index)),
        beside=told,
        pictures=pictures_data(quote, option),
        **answer_data(quote, index),
        **{"number": quote.number, "revision": quote.revision or 1, "state": "", "order": None, "why": "", **kept},
    )


def _is_first(sources: Sources) -> bool:
    """Return whether all that is shown belongs to the invented dealer: nobody has put in a list of their own."""
    own = sources.settings.file
    return sources.stock is None or sources.stock.invented or (own is not None and own.parent.name == "demo")
