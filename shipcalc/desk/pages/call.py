"""The call page: what is typed on the left, the answer beside it, made anew with every change."""

from collections.abc import Mapping
from typing import Any

from fastapi import APIRouter, Response
from fastapi.responses import HTMLResponse

from shipcalc.desk.clerk import Clerk
from shipcalc.desk.orders import AskedQuote
from shipcalc.desk.rendering import part, whole_page
from shipcalc.documents import wording
from shipcalc.documents.buyer.pdf import quote_pdf
from shipcalc.documents.logo import read_logo
from shipcalc.documents.offer.differences import differences, signed
from shipcalc.documents.offer.first_answer import answers, place_and_vehicles
from shipcalc.documents.offer.itemised import groups, included_charges, label, local_charges
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.model import Option, Quote


def paths(clerk: Clerk) -> APIRouter:
    """Return the paths of the page."""
    router = APIRouter(include_in_schema=False)

    @router.get("/", response_class=HTMLResponse)
    async def call() -> str:
        """Return the page, with nothing asked yet."""
        return whole_page("call.html", await clerk.do(clerk.sources), here="/")

    @router.post("/answer", response_class=HTMLResponse)
    async def answer(asked: AskedQuote) -> str:
        """Return the answer as the page shows it."""
        quote = await clerk.quote(asked)
        return part("answer.html", **answer_data(for_buyer(quote)))

    @router.post("/quote.pdf")
    async def pdf(asked: AskedQuote) -> Response:
        """Return the offer as PDF."""
        quote = await clerk.quote(asked)
        logo = (await clerk.do(clerk.sources)).settings.dealer.logo
        made = await clerk.do(lambda: quote_pdf(quote, logo=read_logo(logo)))
        return Response(made, media_type="application/pdf")

    return router


def answer_data(quote: Quote) -> Mapping[str, Any]:
    """Return what the page says of a quote, in the words of every other face."""
    chosen = quote.options[quote.recommended]
    to, vehicles = place_and_vehicles(quote)
    return {
        "to": to,
        "vehicles": vehicles,
        "number": quote.number,
        "decisive": chosen.before_price,
        "answers": [
            (one.label, wording.sentence_case(one.text))
            for one in answers(quote, quote.recommended, wording.money_told)
        ],
        "currency": quote.currency,
        "choices": [
            {
                "number": one.number,
                "told": one.told,
                "price": f"{one.price:,}",
                "more": "" if one.more is None else signed(one.more),
                "there_by": wording.day(one.there_by),
                "recommended": one.number == quote.recommended + 1,
            }
            for one in differences(quote)
        ],
        "reason": quote.reason,
        "options": [_option(quote, index) for index in range(len(quote.options))],
        "assumed": quote.assumptions,
        "cautions": quote.cautions,
    }


def _option(quote: Quote, index: int) -> Mapping[str, Any]:
    option = quote.options[index]
    return {
        "number": index + 1,
        "title": option.title,
        "ours": _lines(quote, option, mine=True),
        "total": wording.money(option.total, quote.currency),
        "theirs": _lines(quote, option, mine=False),
        "locally": wording.money(option.buyer_pays_locally, quote.currency),
        "days": [(step.what, wording.window((step.earliest, step.latest))) for step in option.dates.timeline],
        "needed": option.needed_from_buyer,
        "not_included": option.not_included,
        "warnings": option.warnings,
    }


def _lines(quote: Quote, option: Option, *, mine: bool) -> list[tuple[str, list[tuple[str, str]]]]:
    charges = included_charges(option) if mine else local_charges(option)
    return [
        (title, [(label(one, quote), f"{one.amount:,}") for one in own if one.amount])
        for title, own in groups(option, charges, quote.vehicles)
    ]
