"""Quotes kept, on the call page: keep an answer, find a buyer's earlier quotes, open one, keep its revision."""

from collections.abc import Callable
from hashlib import sha256
from typing import Annotated

from fastapi import APIRouter, Query
from fastapi import Path as PathParameter
from fastapi.responses import HTMLResponse

from shipcalc.actions.kept_quotes import find, keep, keep_as_revision, show
from shipcalc.actions.quoting import Made
from shipcalc.desk.clerk import Clerk
from shipcalc.desk.orders import AskedQuote
from shipcalc.desk.orders_again import order_of
from shipcalc.desk.recent import Given, Recent
from shipcalc.desk.rendering import part
from shipcalc.documents import wording
from shipcalc.errors import WrongInput
from shipcalc.register.asked_once import AskedKey
from shipcalc.register.finding import Asked, Listed
from shipcalc.register.states import OPEN

MOST, FEWEST_LETTERS = 6, 2
Number = Annotated[str, PathParameter(max_length=40)]
Key = Annotated[str, PathParameter(max_length=40)]
Text = Annotated[str, Query(max_length=200)]
Show = Callable[..., str]


def paths(clerk: Clerk, recent: Recent, shown: Show) -> APIRouter:
    """Return the paths; `shown` renders an answer."""
    router = APIRouter()

    def made_of(key: str) -> Made:
        made = recent.get(key).made
        if made is None:
            raise WrongInput("this one is kept already", remedy="change something first")
        return made

    @router.post("/answer/{key}/keep", status_code=201)
    async def kept(key: Key, once: Text = "") -> dict[str, str]:
        """Keep an answer under a number; asked again with the same key `once`, it is kept once."""
        made, desk = made_of(key), clerk.desk()
        asked = AskedKey(once, sha256(key.encode()).hexdigest()) if once else None
        quote = await clerk.do(lambda: keep(made, desk, once=asked))
        return {"number": quote.number or "", "key": recent.put(Given(quote))}

    @router.post("/answer/{key}/revise", status_code=201)
    async def revised(key: Key, number: Text) -> dict[str, str]:
        """Keep an answer as a revision of a kept quote, and say what differs."""
        made, desk = made_of(key), clerk.desk()
        quote, why = await clerk.do(lambda: keep_as_revision(number, made, desk))
        told = f"{quote.number} r{quote.revision}"
        return {"number": quote.number or "", "told": told, "why": why, "key": recent.put(Given(quote))}

    _of_earlier(router, clerk, recent, shown)
    return router


def _of_earlier(router: APIRouter, clerk: Clerk, recent: Recent, shown: Show) -> None:
    @router.get("/earlier", response_class=HTMLResponse)
    async def earlier(buyer: Text = "") -> str:
        """Return a buyer's earlier quotes, the latest first; those kept last of all where no buyer is named."""
        desk = clerk.desk()
        named = buyer.strip() if len(buyer.strip()) >= FEWEST_LETTERS else ""
        found = await clerk.do(lambda: find(Asked(buyer=named, most=MOST), desk))
        return part("earlier.html", named=named, quotes=[_listed(one) for one in found])

    @router.get("/kept/{number}", response_class=HTMLResponse)
    async def opened(number: Number, choice: Text = "") -> str:
        """Return a kept quote as it was promised, with the order that asks for it again."""
        desk = clerk.desk()
        found = await clerk.do(lambda: show(number, desk))
        quote = found.kept.quote
        sources = await clerk.do(clerk.sources)
        order = await clerk.do(lambda: order_of(found.kept.request, sources.settings, today=desk.today))
        asked = AskedQuote.model_validate(order)  # what is put into the form can be asked
        return await clerk.do(
            lambda: shown(
                recent,
                Given(quote),
                choice,
                state=found.listed.state,
                state_told=_state(found.listed),
                order=asked.model_dump(by_alias=True, exclude_defaults=True),
                why=found.kept.why,
            )
        )


def _listed(one: Listed) -> dict[str, str]:
    return {
        "number": one.number,
        "revision": f"r{one.revision}" if one.revision > 1 else "",
        "buyer": one.buyer,
        "vehicles": one.vehicles,
        "to": one.to,
        "total": wording.money(one.total, one.currency),
        "state": _state(one),
    }


def _state(one: Listed) -> str:
    """Return how a quote stands, in words: an open one holds until its last day."""
    return f"good until {wording.day(one.valid_until)}" if one.state == OPEN else one.state
