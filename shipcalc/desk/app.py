"""The desk as an application: the interface, the page, and who may ask for them."""

from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from datetime import date
from pathlib import Path

from fastapi import FastAPI
from fastapi.staticfiles import StaticFiles

from shipcalc import __version__
from shipcalc.desk.books import SourcesOf
from shipcalc.desk.clerk import Clerk
from shipcalc.desk.interface import interface
from shipcalc.desk.pages import call
from shipcalc.desk.problems import tell_problems
from shipcalc.desk.safety import guarded

PAGES = (call,)
STATIC = Path(__file__).parent / "static"


def make_desk(sources_of: SourcesOf, *, today: Callable[[], date], now: Callable[[], str]) -> FastAPI:
    """Return the desk. `today` and `now` are its clock. Raises WrongInput where stock list or rate book cannot be used."""
    clerk = Clerk(sources_of, today=today, now=now)
    clerk.warm()

    @asynccontextmanager
    async def open_hours(_: FastAPI) -> AsyncIterator[None]:
        yield
        clerk.close()

    desk = FastAPI(
        title="shipcalc",
        version=__version__,
        description="What it costs to bring a vehicle to a place, when it is there, and what else is to pay.",
        openapi_url="/api/openapi.json",
        docs_url=None,  # its page would load scripts from elsewhere
        redoc_url=None,
        lifespan=open_hours,
    )
    tell_problems(desk)
    desk.middleware("http")(guarded)
    desk.include_router(interface(clerk))
    for page in PAGES:
        desk.include_router(page.paths(clerk))
    desk.mount("/static", StaticFiles(directory=STATIC), name="static")
    return desk
