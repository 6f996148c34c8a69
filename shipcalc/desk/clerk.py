"""Who does what the desk is asked: one thread, one thing after the other, so that no engine meets itself."""

import asyncio
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from datetime import date
from typing import TypeVar

from shipcalc.actions.kept_quotes import Desk, keep
from shipcalc.actions.quoting import Made, made_quote
from shipcalc.actions.sources import Sources
from shipcalc.desk.books import OpenBooks, SourcesOf
from shipcalc.desk.orders import AskedQuote
from shipcalc.quote.model import Quote

T = TypeVar("T")


class Clerk:
    """Answers with the books as they are now. `today` and `now` are the clock: the day here, and this moment in UTC."""

    def __init__(self, sources_of: SourcesOf, *, today: Callable[[], date], now: Callable[[], str]) -> None:
        self._books = OpenBooks(sources_of)
        self._today, self._now = today, now
        self._thread = ThreadPoolExecutor(1, "clerk")

    async def do(self, work: Callable[[], T]) -> T:
        """Return what some work comes to, once it is its turn."""
        return await asyncio.get_running_loop().run_in_executor(self._thread, work)

    async def quote(self, asked: AskedQuote) -> Quote:
        """Return the quote for an order. Raises WrongInput and NoAnswer as the terminal would."""
        return (await self.do(lambda: self._made(asked))).quote

    async def kept(self, asked: AskedQuote) -> Quote:
        """Return the quote for an order, kept under its number."""
        return await self.do(lambda: self._kept(asked))

    def _kept(self, asked: AskedQuote) -> Quote:
        made = self._made(asked)
        return keep(made, self.desk(asked.day(self._today())))

    def _made(self, asked: AskedQuote) -> Made:
        today = self._today()
        day = asked.day(today)
        sources, books = self._books.at(day)
        return made_quote(asked.order(day), sources, as_of=day, books=books)

    def desk(self, day: date | None = None, who: str = "") -> Desk:
        """Return who sits at which register, and when."""
        return Desk(self.sources().settings, day or self._today(), self._now(), who)

    def sources(self) -> Sources:
        """Return where stock and prices come from today."""
        return self._books.sources_of(self._today())

    def warm(self) -> None:
        """Read the books before the first one asks. Raises WrongInput where they cannot be used."""
        self._books.at(self._today())

    def close(self) -> None:
        """Let the thread end."""
        self._thread.shutdown(wait=False, cancel_futures=True)
