"""The interface for other programs: quote, place, stock, health. Its description (OpenAPI 3.1) is at `/api/openapi.json`."""

from hashlib import sha256
from http import HTTPStatus
from pathlib import Path
from typing import Annotated, Any, Literal

import msgspec
from fastapi import APIRouter, Header, Query, Request, Response
from fastapi import Path as PathParameter

from shipcalc import __version__
from shipcalc.actions.kept_quotes import show as show_kept
from shipcalc.actions.lanes import LanesOrder, lanes_as_data
from shipcalc.actions.place import understand_place
from shipcalc.actions.stock import look_through_stock
from shipcalc.desk.clerk import Clerk
from shipcalc.desk.orders import AskedQuote
from shipcalc.quote.as_data import quote_to_json
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.model import Quote

Audience = Literal["office", "buyer"]
For = Annotated[Audience, Query(alias="for", description="buyer: without cost, margin and cells.")]
Text = Annotated[str, Query(max_length=200)]
_PROBLEM: dict[str, Any] = {"description": "RFC 9457", "content": {"application/problem+json": {}}}
_PROBLEMS: dict[int | str, dict[str, Any]] = {409: _PROBLEM, 422: _PROBLEM}
JSON = "application/json"
_MOST_ROWS = 5_000
Kind = Annotated[Literal["states", "countries", "ports"], Query(description="Which places.")]
Vehicles = Annotated[
    list[str], Query(min_length=1, max_length=20, description="Stock numbers or descriptions; may be repeated.")
]
_READ: dict[int | str, dict[str, Any]] = {
    200: {"content": {JSON: {}}, "headers": {"ETag": {"schema": {"type": "string"}}}},
    304: {"description": "It is as it was when the asker read it."},
}
Key = Annotated[
    str, Header(alias="Idempotency-Key", max_length=200, description="A key of the asker's own, for asking again.")
]
Number = Annotated[str, PathParameter(max_length=40, description="Q-2026-0017, or 17 for one of this year.")]


def interface(clerk: Clerk) -> APIRouter:
    """Return the paths under `/api`."""
    paths = APIRouter(prefix="/api", responses=_PROBLEMS)

    @paths.get("/health")
    def health() -> dict[str, str]:
        """Say that the desk is open."""
        return {"status": "ok", "version": __version__}

    @paths.post("/quote", response_class=Response, responses={200: {"content": {JSON: {}}}})
    async def quote(asked: AskedQuote, whom: For = "office") -> Response:
        """Price the transport of vehicles to a place: the same object as `shipcalc quote --json`."""
        return _told(await clerk.quote(asked), whom)

    @paths.post("/quotes", status_code=201, response_class=Response, responses={201: {"content": {JSON: {}}}})
    async def keep(asked: AskedQuote, whom: For = "office", key: Key = "") -> Response:
        """Price it and keep it: the quote has its number. Asked again within a week with the same key, it is kept once."""
        return _told(await clerk.kept(asked, key), whom, status=201)

    @paths.get("/quotes/{number}", response_class=Response, responses=_READ)
    async def kept(number: Number, request: Request, whom: For = "office") -> Response:
        """Return a kept quote as it was promised, in its latest revision."""
        desk = clerk.desk()
        found = await clerk.do(lambda: show_kept(number, desk).kept.quote)
        return _read(request, quote_to_json(for_buyer(found) if whom == "buyer" else found))

    @paths.get("/place", response_class=Response, responses=_READ)
    async def place(text: Text, request: Request) -> Response:
        """Say what is understood by a place, which others have its name, and what else may have been meant."""
        found = await clerk.do(lambda: understand_place(text))
        return _read(
            request,
            {"found": found.place, "others": found.others, "suggestions": found.suggestions, "note": found.note},
        )

    @paths.get("/stock", response_class=Response, responses=_READ)
    async def stock(request: Request, text: Text = "") -> Response:
        """Return the vehicles that have every word of a text, or nearly; all of them without one."""
        found = await clerk.do(lambda: look_through_stock(clerk.sources().get_stock(), text))
        return _read(
            request,
            {"vehicles": found.vehicles, "nearly": found.nearly, "problems": [str(one) for one in found.problems]},
        )

    @paths.get("/lanes", response_class=Response, responses=_READ)
    async def lanes(request: Request, to: Kind, vehicle: Vehicles, trailer: Text = "") -> Response:
        """Return what vehicles cost to many places, one row each: the same as `shipcalc lanes`, whose extra it needs."""
        order = LanesOrder(to=to, out=Path(), vehicles=tuple(vehicle), trailer=trailer, by_sea=True)
        rows = await clerk.do(lambda: lanes_as_data(order, clerk.sources(), as_of=clerk.desk().today, most=_MOST_ROWS))
        return _read(request, {"rows": rows})

    return paths


def _told(quote: Quote, whom: Audience, *, status: int = 200) -> Response:
    shown = for_buyer(quote) if whom == "buyer" else quote
    return Response(quote_to_json(shown), media_type=JSON, status_code=status)


def _read(request: Request, told: object) -> Response:
    """Return what is only read, with its ETag; nothing but that where the asker has it already (RFC 9110, 13.1.2)."""
    content = told.encode() if isinstance(told, str) else msgspec.json.encode(told)
    tag = f'"{sha256(content).hexdigest()[:32]}"'
    headers = {"ETag": tag, "Cache-Control": "private, no-cache"}
    asked = request.headers.get("if-none-match", "")
    if asked == "*" or tag in (one.strip().removeprefix("W/") for one in asked.split(",")):
        return Response(status_code=HTTPStatus.NOT_MODIFIED, headers=headers)
    return Response(content, media_type=JSON, headers=headers)
