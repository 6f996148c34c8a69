"""The desk as an application: the interface, the pages, and who may ask for them."""

import secrets
import time
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
from shipcalc.desk.live import Live
from shipcalc.desk.pages import call, events, office, rates, shipment, shipment_doing
from shipcalc.desk.people import people_file, read_people
from shipcalc.desk.problems import tell_problems
from shipcalc.desk.safety import Door, Guard, TooLong, too_long
from shipcalc.desk.sessions import Sessions
from shipcalc.desk.sign_in import sign_in
from shipcalc.desk.who import Person

PAGES = (call, office, shipment, shipment_doing, rates)
STATIC = Path(__file__).parent / "static"
ON_THIS_MACHINE = Door()


def make_desk(
    sources_of: SourcesOf,
    *,
    today: Callable[[], date],
    now: Callable[[], str],
    door: Door = ON_THIS_MACHINE,
    clock: Callable[[], float] = time.monotonic,
) -> FastAPI:
    """Return the desk. `today` and `now` are its clock, `clock` counts seconds; `door` says how it is reached.

    Raises WrongInput where stock list or rate book cannot be used.
    """
    clerk = Clerk(sources_of, today=today, now=now)
    clerk.warm()
    live = Live(clerk)

    @asynccontextmanager
    async def open_hours(_: FastAPI) -> AsyncIterator[None]:
        yield
        await live.close()
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
    desk.add_exception_handler(TooLong, too_long)
    people, sessions = people_file(clerk.sources().settings), Sessions(clock)

    def role_now(name: str) -> Person | None:
        known = read_people(people).find(name)
        return Person(known.name, known.role) if known is not None else None

    desk.add_middleware(Guard, door=door, sessions=sessions, role_now=role_now, token=secrets.token_urlsafe(32))
    desk.include_router(sign_in(clerk, people, sessions, clock=clock))
    desk.include_router(interface(clerk))
    desk.include_router(events.paths(live))
    desk.state.live = live  # its streams must end before the server can: it waits for whoever is connected
    for page in PAGES:
        desk.include_router(page.paths(clerk))
    desk.mount("/static", StaticFiles(directory=STATIC), name="static")
    return desk
