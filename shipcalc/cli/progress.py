"""A line on the terminal that says how far a long piece of work is, how quickly it goes and when it will be done."""

import sys
import time

BAR = 24
BETWEEN_S = 0.1
AFTER_S = 0.5


class Progress:
    """Draws on standard error, and only where that is a terminal; nothing for work that is done in half a second."""

    def __init__(self) -> None:
        self._shows = sys.stderr.isatty()
        self._what = ""
        self._began = self._drawn = 0.0
        self._at_first = 0
        self._on_screen = False

    def __call__(self, what: str, done: int, in_all: int) -> None:
        """Say that of `in_all` rows `done` are done."""
        if not self._shows:
            return
        now = time.monotonic()
        if what != self._what:
            self._what, self._began, self._at_first = what, now, 0 if self._began == 0.0 else done
        finished = done >= in_all
        if now - self._began < AFTER_S or (now - self._drawn < BETWEEN_S and not finished):
            return
        self._drawn, self._on_screen = now, True
        sys.stderr.write(f"\r\x1b[K{line(what, done, in_all, done - self._at_first, now - self._began)}")
        sys.stderr.flush()

    def end(self) -> None:
        """Remove the line."""
        if self._on_screen:
            sys.stderr.write("\r\x1b[K")
            sys.stderr.flush()
            self._on_screen = False


def line(what: str, done: int, in_all: int, of_now: int, seconds: float) -> str:
    """Return the line: `priced ██████··· 42 %  5,480,000 of 13,049,448 rows  4.1 million a second  2 s left`."""
    share = done / in_all if in_all else 1.0
    full = int(share * BAR)
    rate = of_now / seconds if seconds > 0 else 0.0
    told = [f"{what} {'█' * full}{'·' * (BAR - full)} {share:4.0%}", f"{done:,} of {in_all:,} rows"]
    if rate > 0:
        told += [_rate(rate), f"{_time((in_all - done) / rate)} left"]
    return "  ".join(told)


def _rate(rate: float) -> str:
    if rate >= 1e6:
        return f"{rate / 1e6:.1f} million a second"
    return f"{rate:,.0f} a second" if rate >= 1 else f"{rate * 60:.0f} a minute"


def _time(seconds: float) -> str:
    if seconds < 60:
        return f"{seconds:.0f} s"
    minutes = round(seconds / 60)
    return f"{minutes} min" if minutes < 60 else f"{minutes // 60} h {minutes % 60} min"
