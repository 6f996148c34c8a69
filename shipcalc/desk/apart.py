"""Work that takes seconds, in a process of its own: quotes do not wait for it, and however the desk ends, it ends too."""

import asyncio
import os
import threading
from collections.abc import Callable
from concurrent.futures import BrokenExecutor, ProcessPoolExecutor
from functools import partial
from multiprocessing import get_context, parent_process
from typing import TypeVar

T = TypeVar("T")


class Apart:
    """One process, begun when it is first needed. What it is told and what it returns or raises is copied."""

    def __init__(self) -> None:
        self._process: ProcessPoolExecutor | None = None

    async def do(self, work: Callable[..., T], *told: object) -> T:
        """Return what a function of a module comes to, and raise what it raises."""
        if self._process is None:
            self._process = ProcessPoolExecutor(1, get_context("spawn"), initializer=end_with_the_desk)
        try:
            return await asyncio.get_running_loop().run_in_executor(self._process, partial(work, *told))
        except BrokenExecutor:  # somebody or the system ended it: the next question is for another one
            self._process = None
            raise

    def close(self) -> None:
        """Let it end."""
        if self._process is not None:
            self._process.shutdown(wait=False, cancel_futures=True)


def end_with_the_desk() -> None:
    """End this process when its parent is gone: one that was killed tells nobody, and this one would wait for ever."""
    desk = parent_process()
    assert desk is not None

    def wait() -> None:
        desk.join()
        os._exit(0)

    threading.Thread(target=wait, daemon=True).start()
