"""Steps against days: a bar for each window, a diamond for a day that may not be missed, months or weeks above."""

import unicodedata
from collections.abc import Callable, Iterator, Sequence
from datetime import date, timedelta

from shipcalc.pictures.scene import Area, Boxes, Line, Part, Scene, Text
from shipcalc.records import dataclass

INK, GREY, RULE, ACCENT, WARM = "22282E", "5A636C", "C7CCD1", "1B4B52", "8A3F0C"
SIZE, TICK_SIZE = 8.5, 7.5
ROW, HEAD, BAR = 12.0, 14.0, 5.6
LETTER_WIDTH = 0.5  # of a letter's size, on the average
LEAST_SHARE, MOST_SHARE, DATES = 0.22, 0.42, 112.0  # of the width for the names of steps; points for their days
IN_WEEKS_UP_TO = 50  # days that are ruled by weeks; more by months
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")

Say = Callable[[str], str]


@dataclass(frozen=True, slots=True)
class Row:
    """A step: what it is, its days in words, its first and last day; `limit`: what comes later misses it."""

    what: str
    when: str
    first: date
    last: date
    limit: bool = False


@dataclass(frozen=True, slots=True)
class _Axis:
    first: date
    last: date
    left: float
    right: float

    def x(self, day: date) -> float:
        """Return where a day begins."""
        days = (self.last - self.first).days + 1
        return self.left + (self.right - self.left) * (day - self.first).days / days


def time_line(rows: Sequence[Row], *, width: float, title: str, description: str, say: Say = str) -> Scene:
    """Return the picture of at least one step, `width` points wide; its days are told as `say` does."""
    longest = max(_wide(row.what, SIZE) for row in rows) + 8
    dates = max(DATES, *(_wide(row.when, SIZE) for row in rows))
    left = min(max(longest, width * LEAST_SHARE), width * MOST_SHARE)
    axis = _Axis(min(row.first for row in rows), max(row.last for row in rows), left, width - dates)
    height = HEAD + ROW * len(rows) + 2
    parts = [
        *_ticks(axis, height, say),
        *(part for number, row in enumerate(rows) for part in _step(axis, number, row, width)),
    ]
    return Scene(width, height, title, description, tuple(parts))


def _wide(text: str, size: float) -> float:
    """Return about how wide a text is, in points; a letter of Chinese or Japanese is twice as wide as a Latin one."""
    letters = sum(2 if unicodedata.east_asian_width(letter) in "WF" else 1 for letter in text)
    return letters * size * LETTER_WIDTH


def _ticks(axis: _Axis, height: float, say: Say) -> Iterator[Part]:
    """Yield the first of each month, or each Monday of a few weeks, as a thin rule with its day."""
    days = (axis.last - axis.first).days
    last_at = axis.left - 100
    for number in range(days + 1):
        day = axis.first + timedelta(days=number)
        by_weeks = days <= IN_WEEKS_UP_TO
        if number and not (day.weekday() == 0 if by_weeks else day.day == 1):
            continue
        x = axis.x(day)
        name = say(f"{day.day} {_MONTHS[day.month - 1]}")
        if not number or x - last_at > _wide(name, TICK_SIZE) + 8:
            yield Line([(x, HEAD - 3), (x, height)], RULE, 0.4)
            yield Text(x, HEAD - 6, name, TICK_SIZE, GREY)
            last_at = x


def _step(axis: _Axis, number: int, row: Row, width: float) -> Iterator[Part]:
    top = HEAD + ROW * number
    base, middle = top + ROW * 0.7, top + ROW / 2
    start, end = axis.x(row.first), axis.x(row.last + timedelta(days=1))
    yield Text(0, base, row.what, SIZE, INK)
    if row.limit:
        x, size = (start + end) / 2, BAR * 0.75
        yield Area(([(x, middle - size), (x + size, middle), (x, middle + size), (x - size, middle)],), WARM)
    else:
        yield Boxes(((start, middle - BAR / 2, max(end - start, 1.5), BAR),), ACCENT)
    yield Text(width, base, row.when, SIZE, INK, anchor="end")
