"""The rates page: what is in force, and what a workbook that is sent would come to, by its cells, before anything changes."""

import shutil
import tempfile
from contextlib import AsyncExitStack
from pathlib import Path
from typing import Annotated

from fastapi import APIRouter, File, UploadFile
from fastapi.responses import FileResponse, HTMLResponse

from shipcalc.actions.rates import Checked, check_rates
from shipcalc.desk.clerk import Clerk
from shipcalc.desk.rendering import part, whole_page
from shipcalc.desk.uploads import received
from shipcalc.errors import WrongInput
from shipcalc.ratebook.rows.tables import WORKBOOKS

Sent = Annotated[list[UploadFile], File(max_length=len(WORKBOOKS))]


def paths(clerk: Clerk) -> APIRouter:
    """Return the paths of the page."""
    router = APIRouter(include_in_schema=False)

    @router.get("/rates", response_class=HTMLResponse)
    async def rates() -> str:
        """Return the page: the book in force and what is to be said of it."""
        sources = await clerk.do(clerk.sources)
        checked = await clerk.do(lambda: check_rates(sources.rates.path, as_of=clerk.desk().today))
        return whole_page("rates.html", sources, here="/rates", books=WORKBOOKS, **checked_data(checked))

    @router.get("/rates/book/{name}")
    async def book(name: str) -> FileResponse:
        """Return a workbook of the book in force, to be changed in Excel."""
        folder = (await clerk.do(clerk.sources)).rates.path
        if name not in WORKBOOKS or not (folder / name).is_file():
            raise WrongInput("there is no such workbook", where=name, remedy=f"there are {', '.join(WORKBOOKS)}")
        return FileResponse(folder / name, filename=name)

    @router.post("/rates/check", response_class=HTMLResponse)
    async def check(books: Sent) -> str:
        """Return what is wrong with workbooks that are sent, together with those in force that were not."""
        folder = (await clerk.do(clerk.sources)).rates.path
        async with AsyncExitStack() as sent:
            files = [await sent.enter_async_context(received(file, (".xlsx",))) for file in books]
            checked = await clerk.do(lambda: _checked_beside(files, folder, clerk))
        return part("rates-checked.html", **checked_data(checked))

    return router


def _checked_beside(files: list[Path], folder: Path, clerk: Clerk) -> Checked:
    unknown = [file.name for file in files if file.name not in WORKBOOKS]
    if unknown:
        raise WrongInput("is no workbook of a rate book", where=unknown[0], remedy=f"name it {' or '.join(WORKBOOKS)}")
    with tempfile.TemporaryDirectory(prefix="shipcalc-rates-") as beside:
        for name in WORKBOOKS:
            if (folder / name).is_file():
                shutil.copyfile(folder / name, Path(beside) / name)
        for file in files:
            shutil.copyfile(file, Path(beside) / file.name)
        return check_rates(Path(beside), as_of=clerk.desk().today, beside=folder)


def checked_data(checked: Checked) -> dict[str, object]:
    """Return what the page says of a rate book: faults first, each with its cell, what is wrong and what to do."""
    told = [(one.severity, one.cell, one.message, one.remedy) for one in checked.problems]
    return {
        "fingerprint": checked.fingerprint[:8],
        "faults": [one[1:] for one in told if one[0] == "fault"],
        "notes": [one[1:] for one in told if one[0] != "fault"],
    }
