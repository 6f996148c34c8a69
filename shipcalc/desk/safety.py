"""Who may ask: pages of this desk alone, by a name of this machine.

The Host header is held to the names of the loopback, so that no other site's name can be led here; a request that changes or
computes something and comes from a page (Origin) must come from this one. What a page may load is what the desk itself serves.
"""

from collections.abc import Awaitable, Callable
from http import HTTPStatus
from urllib.parse import urlsplit

from fastapi import Request, Response

from shipcalc.desk.problems import problem

LOOPBACK = ("127.0.0.1", "localhost", "::1")
_HEADERS = {
    "Content-Security-Policy": "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
    "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}
_LARGEST_BODY = 64 * 1024


async def guarded(request: Request, go_on: Callable[[Request], Awaitable[Response]]) -> Response:
    """Let a request through that may ask, and mark every answer."""
    refused = _refusal(request)
    answer = refused or await go_on(request)
    for name, value in _HEADERS.items():
        answer.headers.setdefault(name, value)
    answer.headers.setdefault("Cache-Control", "no-store")
    return answer


def _refusal(request: Request) -> Response | None:
    host = request.headers.get("host", "")
    if _name(f"//{host}") not in LOOPBACK:
        return problem(
            HTTPStatus.MISDIRECTED_REQUEST, "Not this desk", "The desk answers on this machine alone, as 127.0.0.1."
        )
    origin = request.headers.get("origin")
    if origin is not None and urlsplit(origin).netloc != host:
        return problem(HTTPStatus.FORBIDDEN, "Not from this desk", "Only the desk's own page may ask.")
    if int(request.headers.get("content-length") or 0) > _LARGEST_BODY:
        return problem(HTTPStatus.REQUEST_ENTITY_TOO_LARGE, "Too long", "An order has at most 64 kB.")
    return None


def _name(address: str) -> str:
    try:
        return urlsplit(address).hostname or ""
    except ValueError:
        return ""
