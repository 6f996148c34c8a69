"""Who does what the desk is asked: one thread, one thing after the other, so that no engine meets itself."""

import asyncio
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from contextvars import copy_context
from datetime import date
from hashlib import sha256
from typing import TypeVar

from shipcalc.actions.kept_quotes import Desk, keep
from shipcalc.actions.quoting import Books, Made, made_quote
from shipcalc.actions.sources import Sources
from shipcalc.desk.apart import Apart
from shipcalc.desk.books import OpenBooks, SourcesOf
from shipcalc.desk.orders import AskedQuote
from shipcalc.desk.who import WHO
from shipcalc.quote.model import Quote
from shipcalc.register.asked_once import AskedKey

T = TypeVar("T")
_MOST_REMEMBERED = 64


class Clerk:
    """Answers with the books as they are now. `today` and `now` are the clock: the day here, and this moment in UTC."""

    def __init__(self, sources_of: SourcesOf, *, today: Callable[[], date], now: Callable[[], str]) -> None:
        self._books = OpenBooks(sources_of)
        self._today, self._now = today, now
        self._thread = ThreadPoolExecutor(1, "clerk")
        self._apart = Apart()
        self._remembered: dict[tuple[str, date, Sources], Made] = {}  # the last asked is the last in it
        self._remembered_of: Books | None = None

    async def do(self, work: Callable[[], T]) -> T:
        """Return what some work comes to, once it is its turn."""
        context = copy_context()  # who asks goes along into the thread
        return await asyncio.get_running_loop().run_in_executor(self._thread, lambda: context.run(work))

    async def apart(self, work: Callable[..., T], *told: object) -> T:
        """Return what a function comes to that takes seconds, from a process of its own: quotes do not wait for it."""
        return await self._apart.do(work, *told)

    async def quote(self, asked: AskedQuote) -> Quote:
        """Return the quote for an order. Raises WrongInput and NoAnswer as the terminal would."""
        return (await self.made(asked)).quote

    async def made(self, asked: AskedQuote) -> Made:
        """Return the quote for an order with what it was made from. Raises as `quote` does."""
        return await self.do(lambda: self._made(asked))

    async def kept(self, asked: AskedQuote, key: str = "") -> Quote:
        """Return the quote for an order, kept under its number; asked again with the same key, it is kept once."""
        return await self.do(lambda: self._kept(asked, key))

    def _kept(self, asked: AskedQuote, key: str) -> Quote:
        made = self._made(asked)
        digest = sha256(asked.model_dump_json().encode()).hexdigest()
        once = AskedKey(key, digest) if key else None
        return keep(made, self.desk(asked.day(self._today())), once=once)

    def _made(self, asked: AskedQuote) -> Made:
        """Return the quote for an order, remembered where it was asked before of the same books: page, PDF, message ask alike."""
        day = asked.day(self._today())
        sources, books = self._books.at(day)
        if books is not self._remembered_of:
            self._remembered.clear()
            self._remembered_of = books
        key = (asked.model_dump_json(), day, sources)
        made = self._remembered.pop(key, None) or made_quote(asked.order(day), sources, as_of=day, books=books)
        self._remembered[key] = made
        if len(self._remembered) > _MOST_REMEMBERED:
            del self._remembered[next(iter(self._remembered))]
        return made

    def desk(self, day: date | None = None, who: str = "") -> Desk:
        """Return who sits at which register, and when; whoever has signed in acts in their own name."""
        return Desk(self.sources().settings, day or self._today(), self._now(), WHO.get().name or who)

    def sources(self) -> Sources:
        """Return where stock and prices come from today."""
        return self._books.sources_of(self._today())

    def marks(self) -> object:
        """Return what tells whether stock list or rate book were written since."""
        return self._books.marks(self._today())

    def warm(self) -> None:
        """Read the books before the first one asks. Raises WrongInput where they cannot be used."""
        self._books.at(self._today())

    def close(self) -> None:
        """Let the thread end."""
        self._thread.shutdown(wait=False, cancel_futures=True)
        self._apart.close()
