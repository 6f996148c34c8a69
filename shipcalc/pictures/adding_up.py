"""What a sum is made of: a bar for each part, each beginning where the one before it ends, and a bar for all of it."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import accumulate

from shipcalc.pictures.scene import Area, Boxes, Line, Part, Scene, Text
from shipcalc.records import dataclass

INK, RULE, ACCENT, WARM, WARM_PALE = "22282E", "C7CCD1", "1B4B52", "8A3F0C", "E9CDB4"
SIZE, ROW, BAR, TOP = 8.5, 13.0, 6.4, 2.0
LETTER_WIDTH = 0.5  # of a letter's size, on the average
MOST_SHARE = 0.46  # of the width for the names
CUT = "…"


@dataclass(frozen=True, slots=True)
class Bar:
    """A part of a sum, or with `is_sum` all of it so far; `told` is its amount in words, `to_others` is not paid to us."""

    what: str
    told: str
    amount: Decimal
    to_others: bool = False
    is_sum: bool = False


def adding_up(bars: Sequence[Bar], *, width: float, title: str, description: str) -> Scene:
    """Return the picture of at least one bar, `width` points wide."""
    names = min(max(_wide(bar.what) for bar in bars) + 8, width * MOST_SHARE)
    left, right = names, width - max(_wide(bar.told) for bar in bars) - 8
    ends = list(accumulate(Decimal(0) if bar.is_sum else bar.amount for bar in bars))
    most = max([*ends, *(bar.amount for bar in bars if bar.is_sum), Decimal(1)])
    parts: list[Part] = [Line([(left, TOP), (left, TOP + ROW * len(bars))], RULE, 0.6)]
    for number, (bar, end) in enumerate(zip(bars, ends, strict=True)):
        start = Decimal(0) if bar.is_sum else end - bar.amount
        low, high = sorted((start, bar.amount if bar.is_sum else end))
        x = [left + (right - left) * float(max(value, Decimal(0)) / most) for value in (low, high)]
        parts += _row(bar, x[0], max(x[1] - x[0], 0.8), TOP + ROW * number, names, width)
    return Scene(width, TOP * 2 + ROW * len(bars), title, description, tuple(parts))


def _row(bar: Bar, x: float, wide: float, top: float, names: float, width: float) -> Iterator[Part]:
    base, above = top + ROW * 0.7, top + (ROW - BAR) / 2
    if bar.is_sum:
        yield Line([(0, top), (width, top)], INK, 0.5)
    yield Text(0, base, _fitting(bar.what, names - 6), SIZE, INK, bold=bar.is_sum)
    if bar.to_others:
        corners = [(x, above), (x + wide, above), (x + wide, above + BAR), (x, above + BAR)]
        yield Area((corners,), WARM_PALE, edge=WARM, hatched=True)
    else:
        yield Boxes(((x, above, wide, BAR),), ACCENT)
    yield Text(width, base, bar.told, SIZE, INK, anchor="end", bold=bar.is_sum)


def _wide(text: str) -> float:
    return len(text) * SIZE * LETTER_WIDTH


def _fitting(text: str, room: float) -> str:
    letters = int(room / (SIZE * LETTER_WIDTH))
    return text if len(text) <= letters else f"{text[: letters - 1].rstrip(' ,')}{CUT}"
