"""The rates page: the book in force, the draft that workbooks and mails go into, what it does, putting it in force, going back.

Excel stays the tool: workbooks are taken along, changed there and sent back. Nothing that is sent counts before somebody has
seen what it comes to, by its cells, and has put it in force.
"""

from collections.abc import Callable, Mapping
from contextlib import AsyncExitStack
from datetime import date
from pathlib import Path
from typing import Annotated, Any, Literal

from fastapi import APIRouter, File, Query, Response, UploadFile
from fastapi.responses import FileResponse, HTMLResponse
from pydantic import BaseModel, ConfigDict, Field

from shipcalc.actions.drafts import adopt_draft, drop_draft, find_draft, get_draft, put_into_draft
from shipcalc.actions.editions import adopt_rates, history_of
from shipcalc.actions.rates import Checked, check_rates
from shipcalc.actions.sources import Sources
from shipcalc.desk.clerk import Clerk
from shipcalc.desk.handing_out import WORKBOOK, as_file
from shipcalc.desk.pages.rates_cost import cost_data
from shipcalc.desk.pages.rates_effect import effect_data, written_comparison
from shipcalc.desk.pages.rates_mail import mail_paths
from shipcalc.desk.pages.said import Day
from shipcalc.desk.rendering import part, whole_page
from shipcalc.desk.uploads import received
from shipcalc.documents import wording
from shipcalc.errors import FaultyWorkbook, WrongInput
from shipcalc.ratebook.editions import read_history
from shipcalc.ratebook.rows.tables import WORKBOOKS

Sent = Annotated[list[UploadFile], File(max_length=len(WORKBOOKS))]
_MOST_NOTES = 60


class PutInForce(BaseModel):
    """From which day; today where none is named."""

    model_config = ConfigDict(extra="forbid")
    since: Day = None


class GoBack(BaseModel):
    """The fingerprint of the edition that is to count again."""

    model_config = ConfigDict(extra="forbid")
    fingerprint: str = Field(min_length=4, max_length=64, pattern="^[0-9a-f]+$")


def paths(clerk: Clerk) -> APIRouter:
    """Return the paths of the page."""
    router = APIRouter(prefix="/rates", include_in_schema=False)

    @router.get("", response_class=HTMLResponse)
    async def rates() -> str:
        """Return the page as it stands."""
        sources = await clerk.do(clerk.sources)
        cost = await clerk.do(lambda: cost_data(clerk.desk()))
        return whole_page("rates.html", sources, here="/rates", cost=cost, said="", **await _page(clerk))

    @router.get("/now", response_class=HTMLResponse)
    async def now() -> str:
        """Return what the page shows, without its frame."""
        return await _now(clerk)

    @router.post("/back", response_class=HTMLResponse)
    async def back(told: GoBack) -> str:
        """Put an earlier edition in force again."""
        return await _done(clerk, lambda: _back(clerk, told.fingerprint))

    _of_draft(router, clerk)
    mail_paths(router, clerk)

    @router.get("/{of}/{name}.xlsx")
    async def book(of: Literal["book", "draft"], name: str) -> Response:
        """Return a workbook of the book in force or of the draft, to be changed in Excel."""
        rates, file = (await clerk.do(clerk.sources)).rates, f"{name}.xlsx"
        folder = get_draft(rates) if of == "draft" else rates.path
        if file not in WORKBOOKS or not (folder / file).is_file():
            raise WrongInput("there is no such workbook", where=file, remedy=f"there are {', '.join(WORKBOOKS)}")
        return FileResponse(folder / file, filename=file)

    return router


def _of_draft(router: APIRouter, clerk: Clerk) -> None:
    @router.get("/draft/comparison.xlsx")
    async def comparison() -> Response:
        """Return the comparison of the book in force with the draft."""
        sources = await clerk.do(clerk.sources)
        made = await clerk.apart(written_comparison, sources, get_draft(sources.rates), clerk.desk().today)
        return as_file("comparison.xlsx", WORKBOOK, made)

    @router.get("/draft/effect", response_class=HTMLResponse)
    async def effect(on: Annotated[Day, Query()] = None) -> str:
        """Return what the draft does to prices, of today or of another day's pick-ups."""
        sources = await clerk.do(clerk.sources)
        draft, today = get_draft(sources.rates), clerk.desk().today
        return part("rates-effect.html", **await clerk.apart(effect_data, sources, draft, today, on))

    @router.post("/draft", response_class=HTMLResponse)
    async def send(books: Sent) -> str:
        """Put workbooks into the draft, and return how it stands."""
        async with AsyncExitStack() as sent:
            files = [await sent.enter_async_context(received(file, (".xlsx",))) for file in books]
            await clerk.do(lambda: put_into_draft(files, clerk.sources().rates, today=clerk.desk().today))
        return await _now(clerk)

    @router.post("/draft/in-force", response_class=HTMLResponse)
    async def put(told: PutInForce) -> str:
        """Put the draft in force, from today or another day on."""
        return await _done(clerk, lambda: _put(clerk, told.since))

    @router.post("/draft/drop", response_class=HTMLResponse)
    async def drop() -> str:
        """Take the draft away."""
        return await _done(clerk, lambda: _dropped(clerk.sources()))


async def _done(clerk: Clerk, work: Callable[[], str]) -> str:
    return await _now(clerk, await clerk.do(work))


async def _now(clerk: Clerk, said: str = "") -> str:
    return part("rates-now.html", said=said, **await _page(clerk))


async def _page(clerk: Clerk) -> Mapping[str, Any]:
    return await clerk.do(lambda: _page_data(clerk.sources(), clerk.desk().today))


def _put(clerk: Clerk, since: date | None) -> str:
    adopted = adopt_draft(clerk.sources().rates, today=clerk.desk().today, since=since)
    if adopted.waits:
        return f"It is kept, and counts from {wording.day(adopted.since)} on."
    return (
        f"It counts from now on. The former one is kept: {adopted.former}."
        if adopted.former
        else "It counts from now on."
    )


def _dropped(sources: Sources) -> str:
    drop_draft(sources.rates)
    return "The draft is gone; the book in force is as it was."


def _back(clerk: Clerk, fingerprint: str) -> str:
    rates = clerk.sources().rates
    adopted = adopt_rates(fingerprint, rates.path, today=clerk.desk().today)
    return f"{adopted.fingerprint} counts again from now on."


def _page_data(sources: Sources, today: date) -> Mapping[str, Any]:
    """Return what the page shows: book, draft, history."""
    folder = sources.rates.path
    draft = find_draft(folder) if not sources.rates.invented else None
    return {
        "own": not sources.rates.invented,
        "books": [name for name in WORKBOOKS if (folder / name).is_file()],
        "book": checked_data(_looked_over(folder, today)),
        "draft": None if draft is None else checked_data(_looked_over(draft, today, beside=folder)),
        "today": today.isoformat(),
        "history": _history(folder, today),
    }


def _looked_over(folder: Path, today: date, beside: Path | None = None) -> Checked:
    """A workbook that cannot even be opened is a fault like another."""
    try:
        return check_rates(folder, as_of=today, beside=beside)
    except FaultyWorkbook as error:
        return Checked(folder, error.problems, "")


def _history(folder: Path, today: date) -> list[Mapping[str, Any]]:
    """Return the editions of a folder that has several; to look at one that was never exchanged keeps no copy of it."""
    if not read_history(folder).editions:
        return []
    return [
        {
            "fingerprint": one.edition.fingerprint,
            "since": wording.day(one.edition.since) if one.edition.since else "",
            "came": one.edition.came,
            "waits": one.edition.waits,
            "counts": one.counts,
        }
        for one in history_of(folder, today=today)
    ]


def checked_data(checked: Checked) -> Mapping[str, Any]:
    """Return what the page says of a rate book: faults first, each with its cell, what is wrong and what to do."""
    told = [(one.severity, one.cell, one.message, one.remedy) for one in checked.problems]
    notes = [one[1:] for one in told if one[0] != "fault"]
    return {
        "fingerprint": checked.fingerprint,
        "faults": [one[1:] for one in told if one[0] == "fault"],
        "notes": notes[:_MOST_NOTES],
        "more_notes": max(0, len(notes) - _MOST_NOTES),
    }
