"""The interface for other programs: quote, place, stock, health. Its description (OpenAPI 3.1) is at `/api/openapi.json`."""

from typing import Annotated, Any, Literal

import msgspec
from fastapi import APIRouter, Query, Response

from shipcalc import __version__
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
    async def keep(asked: AskedQuote, whom: For = "office") -> Response:
        """Price it and keep it: the quote has its number."""
        return _told(await clerk.kept(asked), whom, status=201)

    @paths.get("/place", response_class=Response, responses={200: {"content": {JSON: {}}}})
    async def place(text: Text) -> Response:
        """Say what is understood by a place, which others have its name, and what else may have been meant."""
        found = await clerk.do(lambda: understand_place(text))
        return _as_json(
            {"found": found.place, "others": found.others, "suggestions": found.suggestions, "note": found.note}
        )

    @paths.get("/stock", response_class=Response, responses={200: {"content": {JSON: {}}}})
    async def stock(text: Text = "") -> Response:
        """Return the vehicles that have every word of a text, or nearly; all of them without one."""
        found = await clerk.do(lambda: look_through_stock(clerk.sources().get_stock(), text))
        return _as_json(
            {"vehicles": found.vehicles, "nearly": found.nearly, "problems": [str(one) for one in found.problems]}
        )

    return paths


def _told(quote: Quote, whom: Audience, *, status: int = 200) -> Response:
    shown = for_buyer(quote) if whom == "buyer" else quote
    return Response(quote_to_json(shown), media_type=JSON, status_code=status)


def _as_json(told: object) -> Response:
    return Response(msgspec.json.encode(told), media_type=JSON)
