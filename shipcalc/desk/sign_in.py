"""Signing in and out, and what a page has to know of who uses it."""

from collections.abc import Callable
from http import HTTPStatus
from pathlib import Path

from fastapi import APIRouter, Request, Response
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import HTMLResponse, JSONResponse
from pydantic import BaseModel, Field

from shipcalc.desk.clerk import Clerk
from shipcalc.desk.people import MOST_PASSWORD, is_password, read_people
from shipcalc.desk.problems import problem
from shipcalc.desk.rendering import whole_page
from shipcalc.desk.safety import COOKIE
from shipcalc.desk.sessions import Allowance, Sessions
from shipcalc.desk.who import WHO, Person

# Tries that go wrong, by name and by where they come from.
TRIES, IN_SECONDS = 8, 15 * 60


class Asked(BaseModel):
    """The body of `POST /sign-in`."""

    name: str = Field(max_length=200)
    password: str = Field(max_length=MOST_PASSWORD)


def sign_in(clerk: Clerk, people: Path, sessions: Sessions, *, clock: Callable[[], float]) -> APIRouter:
    """Return the paths of signing in."""
    router = APIRouter(include_in_schema=False)
    tries = Allowance(TRIES, IN_SECONDS, clock)

    @router.get("/sign-in", response_class=HTMLResponse)
    async def ask() -> str:
        return whole_page("sign-in.html", await clerk.do(clerk.sources), here="/sign-in")

    @router.post("/sign-in")
    async def begin(asked: Asked, request: Request) -> Response:
        whom = (asked.name.strip().casefold(), request.client.host if request.client else "")
        wait = max(tries.wait(one) for one in whom)
        if wait:
            told = f"That was tried too often. Try again in {max(1, round(wait / 60))} minutes."
            answer = problem(HTTPStatus.TOO_MANY_REQUESTS, "Too many tries", told)
            answer.headers["Retry-After"] = str(int(wait) + 1)
            return answer
        known = read_people(people).find(asked.name)
        if not await run_in_threadpool(is_password, known, asked.password) or known is None:
            for one in whom:
                tries.take(one)
            return problem(HTTPStatus.UNAUTHORIZED, "Not signed in", "Name and password do not go together.")
        for one in whom:
            tries.give_back(one)
        answer = JSONResponse({"name": known.name, "role": known.role})
        secret = sessions.begin(Person(known.name, known.role))
        answer.set_cookie(COOKIE, secret, secure=True, httponly=True, samesite="strict", path="/")
        return answer

    @router.post("/sign-out", status_code=204)
    async def end(request: Request) -> Response:
        sessions.end(request.cookies.get(COOKIE, ""))
        answer = Response(status_code=HTTPStatus.NO_CONTENT)
        answer.delete_cookie(COOKIE, secure=True, httponly=True, samesite="strict", path="/")
        return answer

    @router.get("/session")
    async def session(request: Request) -> dict[str, str]:
        """Say who uses the page, and the token that goes with what it changes."""
        person = WHO.get()
        token = request.state.token
        return {"name": person.name, "role": person.role if token else "", "token": token}

    return router
