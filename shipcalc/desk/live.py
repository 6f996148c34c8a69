"""What happens at the register and with the rates, told to every page that listens.

The register is asked once a second, and only while somebody listens, for what happened after the last event it told: so changes
made in a terminal or at another desk are told just the same as the desk's own.
"""

import asyncio
from collections.abc import AsyncIterator, Sequence
from contextlib import suppress

import msgspec

from shipcalc.actions.watching import Happened, Watch
from shipcalc.desk.clerk import Clerk
from shipcalc.errors import ShipcalcError

EVERY_S, QUIET_S = 1.0, 15.0
# A stream ends after so long, and the browser asks for it anew: whoever may no longer sign in is not told for ever.
LONGEST_S = 600.0
# A page that does not fetch what it is told is told once that it has missed something, and no more is kept for it.
MOST_WAITING = 200


class Live:
    """Tells listeners what happens. All of it runs on the desk's own loop; the clerk asks the register."""

    def __init__(self, clerk: Clerk, *, every: float = EVERY_S, quiet: float = QUIET_S) -> None:
        self._clerk, self._every, self._quiet = clerk, every, quiet
        self._watch = Watch()
        self._listeners: set[asyncio.Queue[bytes | None]] = set()
        self._asking: asyncio.Task[None] | None = None
        self._last: int | None = None
        self._rates: object = None

    @property
    def listeners(self) -> int:
        """Return how many pages listen."""
        return len(self._listeners)

    @property
    def is_watching(self) -> bool:
        """Return whether the register is asked."""
        return self._asking is not None

    async def stream(self, after: int | None) -> AsyncIterator[bytes]:
        """Yield what happens, as server-sent events (WHATWG HTML, 9.2): first what happened after an event, if one is named."""
        queue: asyncio.Queue[bytes | None] = asyncio.Queue(MOST_WAITING)
        self._listeners.add(queue)
        try:
            began = await self._ask(after)
            if self._asking is None or self._asking.done():
                self._last = began.last
                self._asking = asyncio.create_task(self._watching())
            for told in _told(began):
                yield told
            yield _event("hello", began.last)
            ends = asyncio.get_running_loop().time() + LONGEST_S
            while (told_now := await self._next(queue)) is not None:
                yield told_now
                if asyncio.get_running_loop().time() > ends:
                    break
        finally:
            self._listeners.discard(queue)
            if not self._listeners:
                await self._stop()

    def tell(self, told: Sequence[bytes]) -> None:
        """Hand events to everybody who listens."""
        for queue in self._listeners:
            for one in told:
                _put(queue, one)

    async def close(self) -> None:
        """End every stream: the desk closes."""
        for queue in self._listeners:
            _put(queue, None)
        await self._stop()

    async def _next(self, queue: asyncio.Queue[bytes | None]) -> bytes | None:
        """Return what is told next; a remark where nothing is, so that a page that has gone is noticed."""
        try:
            return await asyncio.wait_for(queue.get(), self._quiet)
        except TimeoutError:
            return b": still here\n\n"

    async def _watching(self) -> None:
        while True:
            await asyncio.sleep(self._every)
            found = await self._ask(self._last)
            self._last = found.last
            rates = await self._clerk.do(self._clerk.marks)
            told = list(_told(found))
            if self._rates is not None and rates != self._rates:
                told.append(_event("rates", found.last))
            self._rates = rates
            self.tell(told)

    async def _ask(self, after: int | None) -> Happened:
        """Return what happened; nothing where the register cannot be asked just now: the page itself says why."""
        try:
            return await self._clerk.do(lambda: self._watch.since(after, self._clerk.desk()))
        except ShipcalcError:
            return Happened(after or 0, ())

    async def _stop(self) -> None:
        asking, self._asking = self._asking, None
        self._rates = None
        if asking is not None:
            asking.cancel()
            with suppress(asyncio.CancelledError):
                await asking
        with suppress(RuntimeError):  # the clerk has gone home already
            await self._clerk.do(self._watch.close)


def _told(found: Happened) -> list[bytes]:
    if found.lost:
        return [_event("lost", found.last)]
    return [
        _event("happened", one.id, {"number": one.number, "what": one.what, "who": one.who}) for one in found.events
    ]


def _event(name: str, last: int, data: object = None) -> bytes:
    told = msgspec.json.encode(data if data is not None else {}).decode()
    return f"id: {last}\nevent: {name}\ndata: {told}\n\n".encode()


def _put(queue: asyncio.Queue[bytes | None], told: bytes | None) -> None:
    """Hand something to a listener; where it has not taken what waits for it, one word in place of all that."""
    if not queue.full():
        queue.put_nowait(told)
        return
    while not queue.empty():
        queue.get_nowait()
    queue.put_nowait(None if told is None else b"event: lost\ndata: {}\n\n")
