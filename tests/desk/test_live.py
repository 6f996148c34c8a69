"""What happens is told to every page that listens: from this desk, another desk or a terminal; and nothing is kept for pages
that have gone."""

import asyncio
import gc
import json
import time
from collections.abc import AsyncIterator, Awaitable, Callable
from datetime import date
from pathlib import Path

import pytest

from shipcalc.actions import kept_quotes
from shipcalc.actions.kept_quotes import Desk
from shipcalc.actions.quoting import Made, Order, made_quote, open_books
from shipcalc.actions.sources import Sources, find_sources, invented_sources
from shipcalc.cli.main import run
from shipcalc.desk.app import make_desk
from shipcalc.desk.clerk import Clerk
from shipcalc.desk.live import MOST_WAITING, Live
from shipcalc.register.finding import Asked
from shipcalc.register.opening import url_of_file
from shipcalc.settings import Settings

DAY = date(2026, 12, 1)
AT = "2026-12-01T16:20:05Z"
ROOT = Path(__file__).parents[2]
PATIENCE_S = 20.0


def sources_of(day: date) -> Sources:
    return find_sources(folder=ROOT, as_of=day)


@pytest.fixture(scope="module")
def made() -> Made:
    sources = invented_sources()
    order = Order(vehicles=("HV-1042",), to="59715", buyer="Åsa Lindqvist")
    return made_quote(order, sources, as_of=DAY, books=open_books(sources))


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Desk:
    monkeypatch.setenv("SHIPCALC_REGISTER", url_of_file(tmp_path / "register.sqlite"))
    monkeypatch.chdir(ROOT)
    return Desk(Settings(), DAY, AT, "Nell")


def listening(work: Callable[[Live], Awaitable[None]], sources: Callable[[date], Sources] = sources_of) -> None:
    """Do something with what tells, on a loop of its own; the register is asked fifty times a second."""

    async def all_of_it() -> None:
        clerk = Clerk(sources, today=lambda: DAY, now=lambda: AT)
        live = Live(clerk, every=0.02, quiet=0.05)
        try:
            await work(live)
        finally:
            await live.close()
            clerk.close()

    asyncio.run(all_of_it())


async def next_of(stream: AsyncIterator[bytes]) -> dict:
    """Return the next event as a browser reads it (WHATWG HTML, 9.2.6); remarks are left out."""
    until = time.monotonic() + PATIENCE_S
    while time.monotonic() < until:
        told = (await anext(stream)).decode()
        if told.startswith(":"):
            continue
        fields = dict(line.split(": ", 1) for line in told.strip().split("\n"))
        return {"event": fields["event"], "id": fields.get("id", ""), **json.loads(fields["data"])}
    pytest.fail("nothing was told")


def test_what_a_terminal_does_is_told_to_everybody(desk: Desk, made: Made, capsys) -> None:
    async def work(live: Live) -> None:
        one, two = live.stream(None), live.stream(None)
        assert (await next_of(one))["event"] == (await next_of(two))["event"] == "hello"
        number = kept_quotes.keep(made, desk).number or ""
        for stream in (one, two):
            assert await next_of(stream) == {
                "event": "happened",
                "id": "1",
                "number": number,
                "what": "kept",
                "who": "Nell",
            }
        assert await asyncio.to_thread(run, ["quotes", "accept", number, "--as-of", DAY.isoformat(), "--json"]) == 0
        assert await asyncio.to_thread(run, ["shipments", "tick", number, "1", "--who", "Per", "--json"]) == 0
        for stream in (one, two):
            told = [await next_of(stream) for _ in range(2)]
            assert [(event["what"], event["number"]) for event in told] == [("accepted", number), ("ticked", number)]
            assert told[1]["who"] == "Per"

    listening(work)


def test_a_page_that_comes_back_is_told_what_it_missed(desk: Desk, made: Made) -> None:
    async def work(live: Live) -> None:
        stream = live.stream(None)
        last = int((await next_of(stream))["id"])
        await stream.aclose()
        numbers = [kept_quotes.keep(made, desk).number for _ in range(3)]
        back = live.stream(last)
        assert [(await next_of(back))["number"] for _ in numbers] == numbers
        assert await next_of(back) == {"event": "hello", "id": "3"}

    listening(work)


def test_too_much_to_tell_is_told_in_one_word(desk: Desk, made: Made) -> None:
    """Also where the register was put back from a backup: it has fewer events than the page has seen."""

    async def work(live: Live) -> None:
        kept_quotes.keep(made, desk)
        ahead = live.stream(99)
        assert await next_of(ahead) == {"event": "lost", "id": "1"}
        slow = live.stream(None)
        await next_of(slow)
        for _ in range(MOST_WAITING + 1):
            live.tell([b"event: happened\ndata: {}\n\n"])
        assert await next_of(slow) == {"event": "lost", "id": ""}

    listening(work)


def test_another_register_in_its_place_is_noticed(desk: Desk, made: Made, tmp_path: Path) -> None:
    async def work(live: Live) -> None:
        kept_quotes.keep(made, desk)
        stream = live.stream(None)
        assert (await next_of(stream))["id"] == "1"
        for file in tmp_path.glob("register.sqlite*"):
            file.unlink()
        kept_quotes.find(Asked(), desk)
        assert (await next_of(stream))["event"] == "lost"
        kept_quotes.keep(made, desk)
        assert (await next_of(stream))["what"] == "kept"

    listening(work)


def test_new_rates_are_told(desk: Desk, tmp_path: Path) -> None:
    import shutil

    shutil.copytree(ROOT / "rates", tmp_path / "rates")
    own = lambda day: find_sources(folder=tmp_path, as_of=day)  # noqa: E731

    async def work(live: Live) -> None:
        stream = live.stream(None)
        assert (await next_of(stream))["event"] == "hello"
        await asyncio.sleep(0.5)  # it has looked at them once
        file = tmp_path / "rates" / "trucking.xlsx"
        file.write_bytes(file.read_bytes() + b"\0")
        assert (await next_of(stream))["event"] == "rates"

    listening(work, own)


def test_of_pages_that_go_away_nothing_is_left(desk: Desk, made: Made) -> None:
    """Three hundred come and go, some in the midst of an event: no listener, no task, no queue, no open register stays."""

    def queues() -> int:
        gc.collect()
        return sum(isinstance(one, asyncio.Queue) for one in gc.get_objects())

    async def work(live: Live) -> None:
        before, tasks = queues(), len(asyncio.all_tasks())
        for _ in range(3):
            streams = [live.stream(None) for _ in range(100)]
            for stream in streams:
                await next_of(stream)
            assert live.listeners == 100
            assert live.is_watching
            kept_quotes.keep(made, desk)
            for place, stream in enumerate(streams):
                if place % 2:
                    assert (await next_of(stream))["event"] == "happened"
                await stream.aclose()
            streams.clear()
            assert live.listeners == 0
            assert not live.is_watching
        del stream
        assert queues() == before
        assert len(asyncio.all_tasks()) == tasks
        assert live._watch._register is None

    listening(work)


def test_a_browser_that_goes_away_ends_its_stream(desk: Desk) -> None:
    """As the server tells it (ASGI, http.disconnect), through all that stands before the path."""
    app = make_desk(sources_of, today=lambda: DAY, now=lambda: AT)
    scope = {
        "type": "http",
        "asgi": {"version": "3.0"},
        "http_version": "1.1",
        "method": "GET",
        "path": "/events",
        "raw_path": b"/events",
        "root_path": "",
        "scheme": "http",
        "query_string": b"",
        "headers": [(b"host", b"127.0.0.1:8720")],
        "server": ("127.0.0.1", 8720),
        "client": ("127.0.0.1", 50000),
    }

    async def all_of_it() -> None:
        sent, gone = [], asyncio.Event()

        async def receive() -> dict:
            await gone.wait()
            return {"type": "http.disconnect"}

        async def send(message: dict) -> None:
            sent.append(message)
            if b"hello" in message.get("body", b""):
                assert app.state.live.listeners == 1
                gone.set()

        await asyncio.wait_for(app(dict(scope), receive, send), PATIENCE_S)
        assert dict(sent[0]["headers"])[b"content-type"].startswith(b"text/event-stream")
        assert app.state.live.listeners == 0
        assert not app.state.live.is_watching
        await app.state.live.close()

    asyncio.run(all_of_it())


def test_a_desk_that_closes_ends_every_stream(desk: Desk) -> None:
    async def work(live: Live) -> None:
        stream = live.stream(None)
        await next_of(stream)
        await live.close()
        assert [told async for told in stream if not told.startswith(b":")] == []
        assert live.listeners == 0

    listening(work)


def test_a_register_that_cannot_be_asked_ends_no_stream(desk: Desk, made: Made, tmp_path: Path, monkeypatch) -> None:
    async def work(live: Live) -> None:
        stream = live.stream(None)
        await next_of(stream)
        monkeypatch.setenv("SHIPCALC_REGISTER", "sqlite:////proc/no/register.sqlite")
        await asyncio.sleep(0.1)
        monkeypatch.setenv("SHIPCALC_REGISTER", url_of_file(tmp_path / "register.sqlite"))
        kept_quotes.keep(made, desk)
        assert (await next_of(stream))["what"] == "kept"

    listening(work)
