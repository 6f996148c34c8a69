"""What a dealer's own site may ask: what it costs to deliver one vehicle of the stock list to a place, as the buyer may know it.

An application of its own, so that nobody outside reaches the desk: no pages, no register, nothing kept. A site shows itself by a
key, which stands in its pages and is therefore no secret: it is worth only as much as its origin, which browsers send and check
(CORS), and as the allowance that it has. Quotes are the buyer's view; what is wrong with the rate book is not told.
"""

from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from datetime import date
from http import HTTPStatus
from pathlib import Path
from typing import Annotated

from fastapi import FastAPI, Header, Query, Request, Response
from fastapi.responses import FileResponse, JSONResponse

from shipcalc import __version__
from shipcalc.desk.app import ON_THIS_MACHINE
from shipcalc.desk.books import SourcesOf
from shipcalc.desk.clerk import Clerk
from shipcalc.desk.orders import AskedQuote
from shipcalc.desk.people import people_file, read_people
from shipcalc.desk.problems import problem, tell_problems
from shipcalc.desk.safety import LARGEST_BODY, Door, OutsideGuard
from shipcalc.desk.sessions import Allowance
from shipcalc.documents import wording
from shipcalc.errors import FaultyWorkbook, NoAnswer, ShipcalcError, WrongInput
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.model import Quote

SNIPPET = Path(__file__).parent / "static" / "delivered-to.js"
# Questions a minute: of a site in all, and of one visitor.
BY_SITE, BY_VISITOR, SECONDS = 120, 20, 60
_KEY = Annotated[str, Header(alias="X-Site-Key", max_length=100)]
_STOCK = Annotated[str, Query(max_length=40, pattern=r"^[\w.\-/ ]+$", description="A stock number.")]
_TO = Annotated[str, Query(max_length=120, description="A ZIP, or city and state or country.")]
ASK_US = "We cannot say it here. Please ask us; we will work it out for you."


def make_public(
    sources_of: SourcesOf,
    *,
    today: Callable[[], date],
    now: Callable[[], str],
    door: Door = ON_THIS_MACHINE,
    clock: Callable[[], float],
) -> FastAPI:
    """Return the application for sites. `clock` counts seconds; the rest is as for the desk."""
    clerk = Clerk(sources_of, today=today, now=now)
    clerk.warm()

    @asynccontextmanager
    async def open_hours(_: FastAPI) -> AsyncIterator[None]:
        yield
        clerk.close()

    app = FastAPI(
        title="shipcalc, for sites",
        version=__version__,
        openapi_url="/openapi.json",
        docs_url=None,
        redoc_url=None,
        lifespan=open_hours,
    )
    tell_problems(app)
    app.add_exception_handler(ShipcalcError, _told_outside)
    app.add_middleware(OutsideGuard, names=door.names, most=LARGEST_BODY)

    _for_everybody(app)
    _for_sites(app, clerk, clock)
    return app


def _for_everybody(app: FastAPI) -> None:
    @app.get("/health")
    def health() -> dict[str, str]:
        """Say that it is open."""
        return {"status": "ok"}

    @app.get("/delivered-to.js", response_class=Response)
    def snippet() -> Response:
        """Return the script that shows the question and its answer on a page."""
        headers = {
            "Access-Control-Allow-Origin": "*",  # browsers ask for it before they take a module from elsewhere
            "Cross-Origin-Resource-Policy": "cross-origin",
            "Cache-Control": "public, max-age=300",
        }
        return FileResponse(SNIPPET, media_type="text/javascript", headers=headers)


def _for_sites(app: FastAPI, clerk: Clerk, clock: Callable[[], float]) -> None:
    people = people_file(clerk.sources().settings)
    of_site, of_visitor = Allowance(BY_SITE, SECONDS, clock), Allowance(BY_VISITOR, SECONDS, clock)

    @app.options("/delivered", include_in_schema=False)
    def may_ask(request: Request) -> Response:
        """Answer a browser that asks before it asks (CORS): the site's key is looked at when it asks."""
        origin = request.headers.get("origin", "")
        if not any(one.origin == origin for one in read_people(people).sites):
            return problem(HTTPStatus.FORBIDDEN, "Not for this site", "This site has no key.")
        allowed = {"Access-Control-Allow-Methods": "GET", "Access-Control-Allow-Headers": "X-Site-Key"}
        return Response(status_code=HTTPStatus.NO_CONTENT, headers=_for(origin) | allowed)

    @app.get("/delivered")
    async def delivered(request: Request, vehicle: _STOCK, to: _TO, key: _KEY = "") -> Response:
        """Say what it costs to deliver a vehicle to a place, by when it is there, and what is to be paid there besides."""
        site = read_people(people).site_of(key)
        origin = request.headers.get("origin")
        if site is None or (origin is not None and origin != site.origin):
            return problem(HTTPStatus.FORBIDDEN, "Not for this site", "This site has no key, or another one.")
        wait = of_visitor.take(request.client.host if request.client else "") or of_site.take(site.name)
        if wait:
            answer: Response = problem(
                HTTPStatus.TOO_MANY_REQUESTS, "Too many questions", "Please try again in a minute."
            )
            answer.headers["Retry-After"] = str(int(wait) + 1)
        else:
            answer = await _answer(clerk, vehicle, to)
        answer.headers.update(_for(site.origin))
        return answer


async def _answer(clerk: Clerk, vehicle: str, to: str) -> Response:
    try:
        quote = for_buyer(await clerk.quote(AskedQuote.model_validate({"vehicles": [vehicle], "to": to})))
    except ShipcalcError as error:
        return _outside(error)
    return JSONResponse(delivered_data(quote))


def delivered_data(quote: Quote) -> dict[str, object]:
    """Return what a site shows of a quote: the recommended choice alone, and nothing that the buyer may not see."""
    chosen = quote.options[quote.recommended]
    to = ", ".join(part for part in (quote.to.name, quote.to.subdivision or quote.to.country) if part)
    return {
        "vehicle": quote.vehicles[0].stock_number,
        "to": to,
        "how": chosen.title,
        "price": wording.money(chosen.total, quote.currency),
        "there_by": wording.day(chosen.dates.delivery[1]),
        "paid_there": wording.money(chosen.buyer_pays_locally, quote.currency) if chosen.buyer_pays_locally else "",
        "know_first": list(chosen.before_price),
        "not_included": list(chosen.not_included),
        "valid_until": wording.day(quote.valid_until),
    }


def _outside(error: ShipcalcError) -> Response:
    """Return what is told outside: what was typed and cannot be understood. What the books lack is the dealer's own business."""
    if isinstance(error, (FaultyWorkbook, NoAnswer)) or not isinstance(error, WrongInput):
        return problem(HTTPStatus.CONFLICT, "Please ask us", ASK_US)
    return problem(
        HTTPStatus.UNPROCESSABLE_ENTITY, "Please say it otherwise", error.what[:1].upper() + error.what[1:] + "."
    )


async def _told_outside(_: Request, error: Exception) -> Response:
    assert isinstance(error, ShipcalcError)
    return _outside(error)


def _for(origin: str) -> dict[str, str]:
    return {"Access-Control-Allow-Origin": origin, "Vary": "Origin"}
