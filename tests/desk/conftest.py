"""A desk that is open in this process, and a real browser before it: what the tests of all pages share.

`desk` is open at a port of its own, with a fixed clock and an empty register; `page` is a page of Chromium that stands before
it, `open_page` opens further ones, on other screens. Without Chromium a test is skipped, but fails where CI is set.
"""

import asyncio
import os
import shutil
import socket
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import uvicorn
from playwright.sync_api import Browser, Page, expect, sync_playwright

from shipcalc.actions.demo_office import fill_office, new_register
from shipcalc.actions.quoting import open_books
from shipcalc.actions.sources import Sources, find_sources, invented_sources
from shipcalc.desk.app import make_desk
from shipcalc.records import replace
from shipcalc.register.opening import url_of_file

DAY = date(2026, 12, 1)
AT = "2026-12-01T16:20:05Z"
ROOT = Path(__file__).parents[2]
_SECONDS = 15  # that a busy machine is waited for


class OpenDesk:
    """A desk in a thread of this process. `register` is the file of its register: another one may be set while it is open."""

    def __init__(self, register: Path) -> None:
        self.register = register
        self._app = make_desk(self._sources, today=lambda: DAY, now=lambda: AT)
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self._port = free.getsockname()[1]
        self._server: uvicorn.Server | None = None
        self._thread: threading.Thread | None = None

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self._port}"

    def _sources(self, day: date) -> Sources:
        found = find_sources(folder=ROOT, as_of=day)
        return replace(found, settings=replace(found.settings, register=url_of_file(self.register)))

    def start(self) -> None:
        """Open it, at the port that it had before."""
        listening = socket.socket()
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listening.bind(("127.0.0.1", self._port))
        listening.listen(128)
        config = uvicorn.Config(self._app, log_level="error", access_log=False, lifespan="off")
        self._server = uvicorn.Server(config)
        self._thread = threading.Thread(target=self._server.run, kwargs={"sockets": [listening]}, daemon=True)
        self._thread.start()

    def stop(self) -> None:
        """Close it, with whatever is under way."""
        assert self._server is not None
        assert self._thread is not None
        self._server.should_exit = self._server.force_exit = True
        self._thread.join(_SECONDS)
        assert not self._thread.is_alive()


class Clock:
    """A clock that a test moves on."""

    seconds = 0.0

    def __call__(self) -> float:
        return self.seconds


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture(scope="session")
def _desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[OpenDesk]:
    desk = OpenDesk(tmp_path_factory.mktemp("desk") / "register.sqlite")
    desk.start()
    yield desk
    desk.stop()


@pytest.fixture
def open_desk(_desk: OpenDesk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> OpenDesk:
    """Return the desk with a register of this test's own, in which nothing is kept yet."""
    monkeypatch.delenv("SHIPCALC_REGISTER", raising=False)
    _desk.register = tmp_path / "register.sqlite"
    return _desk


@pytest.fixture(scope="session")
def filled(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the register of the demo's office, as it stands on its day: to be copied, never to be worked in."""
    out = tmp_path_factory.mktemp("office")
    register, sources = new_register(out), invented_sources()
    fill_office(register, sources, open_books(sources), DAY)
    register.close()
    return out / "register.sqlite"


@pytest.fixture(scope="session")
def _chromium() -> Iterator[tuple[Browser, asyncio.AbstractEventLoop]]:
    command = shutil.which("chromium")
    if command is None:
        if os.environ.get("CI"):
            pytest.fail("Chromium (chromium) is not installed, and this check may not be left out in CI")
        pytest.skip("Chromium (chromium) is not installed")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=command, args=["--no-sandbox"])
        loop = asyncio.get_running_loop()
        asyncio._set_running_loop(None)
        yield browser, loop
        asyncio._set_running_loop(loop)
        browser.close()


@contextmanager
def _loop_set(loop: asyncio.AbstractEventLoop) -> Iterator[None]:
    """Have Playwright's loop count as running only while a test of a page runs: others would take it for their own."""
    asyncio._set_running_loop(loop)
    yield
    asyncio._set_running_loop(None)


OpenPage = Callable[..., Page]


@pytest.fixture
def open_page(open_desk: OpenDesk, _chromium: tuple[Browser, asyncio.AbstractEventLoop]) -> Iterator[OpenPage]:
    """Return a function that opens a page: `open_page("/", width=390, dark=True)`. No script of it may have failed in the end."""
    browser, loop = _chromium
    faults: list[str] = []

    def opened(path: str = "/", *, width: int = 1280, height: int = 800, dark: bool = False, **more: Any) -> Page:
        context = browser.new_context(
            base_url=open_desk.url,
            viewport={"width": width, "height": height},
            color_scheme="dark" if dark else "light",
            reduced_motion="reduce",
            locale="en-US",
            **more,
        )
        page = context.new_page()
        page.on("pageerror", lambda error: faults.append(str(error)))
        if "permissions" not in more:  # what a page puts onto the clipboard, styles and all, is held to its policy too
            page.on("console", lambda told: faults.append(told.text) if "Content Security" in told.text else None)
        page.goto(path)
        return page

    expect.set_options(timeout=_SECONDS * 1000)
    with _loop_set(loop):
        yield opened
        for context in browser.contexts:
            context.close()
    assert faults == []


@pytest.fixture
def page(open_page: OpenPage) -> Page:
    """Return the call page, opened on a usual screen."""
    return open_page()
