"""Who may ask: pages of this desk alone, by a name that is its own; and once others reach it, who has signed in.

The Host header is held to the desk's names, so that no other site's name can be led here. What a browser's page changes or
computes must come from this desk (Origin) and carry the token of its session, which no other site can read; a program on this
machine has neither, and needs none. What a page may load is what the desk itself serves. Where sign-in is asked for, only its
own page, its style and the health are for everybody.
"""

from collections.abc import Callable
from http import HTTPStatus
from urllib.parse import quote, urlsplit

from fastapi import Request
from starlette.datastructures import MutableHeaders
from starlette.responses import RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from shipcalc.desk.problems import problem
from shipcalc.desk.sessions import Session, Sessions
from shipcalc.desk.who import HERE, WHO, Person, role_needed
from shipcalc.records import dataclass

LOOPBACK = ("127.0.0.1", "localhost", "::1")
PAGE_HEADER = "x-desk-token"
PAGE_TOO_OLD = "urn:shipcalc:page-too-old"
# `__Host-`: a browser takes it only over TLS, for this host alone and every path of it (RFC 6265bis).
COOKIE = "__Host-desk"
LARGEST_BODY, LARGEST_UPLOAD = 64 * 1024, 25 * 1024 * 1024
_FOR_EVERYBODY = ("/sign-in", "/session", "/api/health", "/static/desk.css", "/static/asking.js", "/static/sign-in.js")
_READING = ("GET", "HEAD", "OPTIONS")
_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
_HEADERS = {
    "Content-Security-Policy": _POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-store",
}
OVER_TLS = {"Strict-Transport-Security": "max-age=31536000"}


@dataclass(frozen=True, slots=True)
class Door:
    """How the desk is reached: the names it answers to, and whether one signs in, which is over TLS alone."""

    names: tuple[str, ...] = LOOPBACK
    sign_in: bool = False


class Guard:
    """Lets a request through that may ask, and marks every answer. `token` is that of whoever sits at this machine."""

    def __init__(
        self,
        app: ASGIApp,
        *,
        door: Door,
        sessions: Sessions,
        role_now: Callable[[str], Person | None],
        token: str,
    ) -> None:
        self._app, self._door, self._sessions = app, door, sessions
        self._role_now, self._token = role_now, token

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request, or refuse it."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        request = Request(scope)
        marked = _marking(send, OVER_TLS if self._door.sign_in else {})
        session = self._session(request)
        refused = self._refusal(request, session)
        if refused is not None:
            await refused(scope, receive, marked)
            return
        request.state.token = session.token if session is not None else ""
        was = WHO.set(session.person if session is not None else HERE)
        try:
            await self._app(scope, _no_longer_than(_most(request), receive), marked)
        finally:
            WHO.reset(was)

    def _session(self, request: Request) -> Session | None:
        if not self._door.sign_in:
            return Session(HERE, self._token, 0.0)
        secret = request.cookies.get(COOKIE, "")
        found = self._sessions.find(secret)
        person = self._role_now(found.person.name) if found is not None else None
        if found is None or person is None:
            self._sessions.end(secret)
            return None
        found.person = person
        return found

    def _refusal(self, request: Request, session: Session | None) -> Response | None:
        host = request.headers.get("host", "")
        if host_of(f"//{host}") not in self._door.names:
            return problem(HTTPStatus.MISDIRECTED_REQUEST, "Not this desk", "The desk has another name than that.")
        if not _comes_from(request, host):
            return problem(HTTPStatus.FORBIDDEN, "Not from this desk", "Only the desk's own page may ask.")
        if int(request.headers.get("content-length") or 0) > _most(request):
            return _too_long(_most(request))
        if request.url.path in _FOR_EVERYBODY:
            return None
        if session is None:
            return _sign_in_first(request)
        if not session.person.may(request.url.path):
            told = f"This is for the {role_needed(request.url.path)}; {session.person.name} is there for {session.person.role}."
            return problem(HTTPStatus.FORBIDDEN, "Not for this role", told)
        if self._needs_token(request) and request.headers.get(PAGE_HEADER) != session.token:
            told = "The desk was started again since this page was loaded. Load the page again."
            return problem(HTTPStatus.FORBIDDEN, "The page is too old", told, kind=PAGE_TOO_OLD)
        return None

    def _needs_token(self, request: Request) -> bool:
        """What a browser sends has an Origin, or a cookie that it adds by itself; a program on this machine has neither."""
        return request.method not in _READING and (self._door.sign_in or "origin" in request.headers)


class OutsideGuard:
    """The guard of what anybody may ask: the name, the length, and how every answer is marked."""

    def __init__(self, app: ASGIApp, *, names: tuple[str, ...], most: int) -> None:
        self._app, self._names, self._most = app, names, most

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request, or refuse it."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        request, marked = Request(scope), _marking(send, {})
        if host_of(f"//{request.headers.get('host', '')}") not in self._names:
            told = "This is reached by another name."
            await problem(HTTPStatus.MISDIRECTED_REQUEST, "Not here", told)(scope, receive, marked)
        elif int(request.headers.get("content-length") or 0) > self._most:
            await _too_long(self._most)(scope, receive, marked)
        else:
            await self._app(scope, _no_longer_than(self._most, receive), marked)


def _comes_from(request: Request, host: str) -> bool:
    """Return whether no other site's page asks: browsers say so in one header or both."""
    origin = request.headers.get("origin")
    if origin is not None and urlsplit(origin).netloc != host:
        return False
    site = request.headers.get("sec-fetch-site", "none")
    # A link on another page may lead here; anything else that it makes a browser ask is refused.
    followed = request.method == "GET" and request.headers.get("sec-fetch-mode") == "navigate"
    return site in ("same-origin", "none") or followed


def _sign_in_first(request: Request) -> Response:
    if request.method == "GET" and "text/html" in request.headers.get("accept", ""):
        return RedirectResponse(f"/sign-in?to={quote(request.url.path, safe='')}", HTTPStatus.SEE_OTHER)
    return problem(HTTPStatus.UNAUTHORIZED, "Nobody is signed in", "Sign in first, then ask again.")


def _most(request: Request) -> int:
    files = request.headers.get("content-type", "").startswith("multipart/form-data")
    return LARGEST_UPLOAD if files else LARGEST_BODY


def _too_long(most: int) -> Response:
    told = (
        f"At most {most // 1024:,} kB are taken." if most < 1024 * 1024 else f"At most {most // 1024**2} MB are taken."
    )
    return problem(HTTPStatus.REQUEST_ENTITY_TOO_LARGE, "Too long", told)


class TooLong(Exception):
    """A body that goes on past what is taken, without having said how long it is."""


def _no_longer_than(most: int, receive: Receive) -> Receive:
    seen = 0

    async def counted() -> Message:
        nonlocal seen
        message = await receive()
        seen += len(message.get("body", b""))
        if seen > most:
            raise TooLong
        return message

    return counted


async def too_long(request: Request, _: Exception) -> Response:
    """Answer a body that went on past what is taken."""
    return _too_long(_most(request))


def _marking(send: Send, more: dict[str, str]) -> Send:
    async def marked(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in (_HEADERS | more).items():
                headers.setdefault(name, value)
        await send(message)

    return marked


def host_of(address: str) -> str:
    """Return the name in an address, "" where there is none that can be read."""
    try:
        return urlsplit(address).hostname or ""
    except ValueError:
        return ""
