"""How the terminal's answers look: quiet text, one bold figure, cautions in a warm colour and with their own sign.

A terminal gets wrapped text and aligned tables; a pipe gets one line a thing and tabs between columns, which sort, cut and
spreadsheets read. Made by hand, for a reason: importing a library for tables takes about 60 ms here, a quarter of all the
time that a quote may take from a cold start, and what it is needed for fits on this page.
"""

import io
import os
import re
import shutil
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from typing import Literal, TypeVar

from shipcalc.records import dataclass

WIDEST = 100
NARROWEST = 40
GAP = "  "

# Control characters but tab and line break (ISO/IEC 6429, both sets), those that turn the direction of writing (UAX 9), and an
# escape that is not one of ours below.
_STEERS = re.compile("[\x00-\x08\x0b-\x1a\x1c-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]|\x1b(?!\\[(?:0|1|2|33)m)")

T = TypeVar("T")
Align = Literal["left", "right"]
Row = Sequence[str] | str


@dataclass(frozen=True, slots=True)
class Look:
    """What the output can show. `width` is None in a pipe; `whole` is said where nothing may be cut."""

    width: int | None = None
    colour: bool = False
    whole: bool = False

    def strong(self, text: str) -> str:
        """Return the text in bold."""
        return self._styled("1", text)

    def faint(self, text: str) -> str:
        """Return the text set back."""
        return self._styled("2", text)

    def warm(self, text: str) -> str:
        """Return the text in the colour of cautions."""
        return self._styled("33", text)

    def _styled(self, code: str, text: str) -> str:
        return f"\x1b[{code}m{text}\x1b[0m" if self.colour and text else text


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table. The column that may wrap is the one that gives way on a narrow terminal."""

    title: str
    align: Align = "left"
    wraps: bool = False


def look_of_stdout() -> Look:
    """Return what standard output can show; NO_COLOR (no-color.org) and TERM=dumb are heeded."""
    if not sys.stdout.isatty():
        return Look()
    width = shutil.get_terminal_size((80, 24)).columns
    plain = os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb"
    return Look(width=max(NARROWEST, min(WIDEST, width)), colour=not plain)


def show(lines: Sequence[str]) -> None:
    """Print lines of text; a reader that goes away in the middle has read what it wanted."""
    _print(tame("\n".join(lines).lstrip("\n")))


def _print(text: str) -> None:
    try:
        print(text, flush=True)
    except BrokenPipeError:
        let_go_of_output()


def tame(text: str) -> str:
    """Return text without the signs that steer a terminal, but our own: a name may hold one that clears the screen, or types."""
    return _STEERS.sub("", text)


def show_json(answer: str) -> None:
    """Print an answer as JSON, which is UTF-8 whatever the terminal's letters are."""
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(encoding="utf-8")
    _print(answer.lstrip("\n"))


def show_found(found: T, json: Callable[[T], str], lines: Callable[[T, Look], list[str]], *, as_json: bool) -> None:
    """Print what was found, as JSON or for people."""
    if as_json:
        show_json(json(found))
    else:
        show(lines(found, look_of_stdout()))


def let_go_of_output() -> None:
    """Turn standard output away from a reader that is gone, or the interpreter would complain when it ends."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def has_output() -> bool:
    """Return whether there is a standard output, giving the other two somewhere to read from and write to where they are closed.

    Python has None in the place of one that was closed, and the next file that is opened would take its number.
    """
    if sys.stdin is None:
        sys.stdin = open(os.devnull, encoding="utf-8")  # noqa: SIM115, PTH123 - for as long as the program runs
    if sys.stderr is None:
        sys.stderr = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115, PTH123
    return sys.stdout is not None


def note(text: str) -> None:
    """Print a remark that is not a part of the answer; where it cannot be told, the answer stands all the same."""
    with suppress(OSError):
        print(tame(text), file=sys.stderr, flush=True)


def heading(look: Look, text: str) -> list[str]:
    """Return a heading with the white space above it."""
    return ["", look.strong(text)]


def paragraph(look: Look, text: str, *, first: str = "", rest: str | None = None) -> list[str]:
    """Return a text as lines; `first` stands before the first one, `rest` (blanks of the same width) before the others."""
    later = " " * len(first) if rest is None else rest
    if look.width is None:
        return [first + text]
    lines = list(_wrapped(text, look.width - max(len(first), len(later))))
    return [(later if number else first) + line for number, line in enumerate(lines or [""])]


def pairs(look: Look, entries: Sequence[tuple[str, str]]) -> list[str]:
    """Return `label  text` lines, the texts below each other; entries without a text are left out."""
    told = [(label, text) for label, text in entries if text]
    if look.width is None:
        return [f"{label}\t{text}" for label, text in told]
    widest = max((len(label) for label, _ in told), default=0)
    lines: list[str] = []
    for label, text in told:
        # The label is set back only once the text is wrapped: the colour's own letters have no width.
        shown = paragraph(look, text, first=f"  {label:<{widest}}  ")
        lines += [shown[0].replace(label, look.faint(label), 1), *shown[1:]]
    return lines


def bullets(look: Look, texts: Sequence[str], sign: str = "·") -> list[str]:
    """Return one entry a text; cautions carry the sign `!` and the warm colour."""
    lines: list[str] = []
    for text in texts:
        entry = paragraph(look, text, first=f"  {sign} " if look.width else f"{sign} ")
        lines += [look.warm(line) for line in entry] if sign == "!" else entry
    return lines


def section(look: Look, title: str, texts: Sequence[str], sign: str = "·") -> list[str]:
    """Return the entries under a heading, where there are any."""
    return [*heading(look, title), *bullets(look, texts, sign)] if texts else []


def clipped(lines: Sequence[str], most: int) -> list[str]:
    """Return at most so many lines of unstyled text, the last one ending in an ellipsis where something is left out."""
    if len(lines) <= most:
        return list(lines)
    return [*lines[: most - 1], f"{lines[most - 1][:-2].rstrip(' ,;')} …"]


def table(
    look: Look, columns: Sequence[Column], rows: Sequence[Row], *, total: bool = False, most_lines: int | None = None
) -> list[str]:
    """Return a table; with `total` its last row is a sum and gets a rule above its figures.

    No cell takes more than `most_lines`. A row that is a mere text is a heading across the table; in a cell of a column that does
    not wrap, a line break is kept.
    """
    if look.width is None:
        told = ([row] if isinstance(row, str) else row for row in rows)
        return ["\t".join(column.title for column in columns), *("\t".join(row) for row in told)]
    widths = _widths(look.width, columns, rows)
    head = _row([column.title for column in columns], columns, widths)
    lines = [look.faint(line) for line in head] if any(column.title for column in columns) else []
    for number, row in enumerate(rows):
        if isinstance(row, str):
            lines += [look.strong(line) for line in paragraph(look, row, first=GAP)]
            continue
        is_sum = total and number == len(rows) - 1
        if is_sum:
            figures = [
                "─" * width if column.align == "right" else "" for column, width in zip(columns, widths, strict=True)
            ]
            lines.append(look.faint(_row(figures, columns, widths)[0]))
        body = _row(row, columns, widths, most_lines)
        lines += [look.strong(line) for line in body] if is_sum else body
    return lines


def _widths(room: int, columns: Sequence[Column], rows: Sequence[Row]) -> list[int]:
    """Return the columns' widths; what is too much for the terminal is taken from the columns that wrap, widest first."""
    full = [row for row in rows if not isinstance(row, str)]
    cells = [[column.title, *(row[place] for row in full)] for place, column in enumerate(columns)]
    widths = [max(len(line) for cell in column for line in cell.split("\n")) for column in cells]
    free = room - len(GAP) * len(columns)
    wrapping = [place for place, column in enumerate(columns) if column.wraps]
    while sum(widths) > free and wrapping:
        widest = max(wrapping, key=lambda place: widths[place])
        if widths[widest] <= SMALLEST_COLUMN:
            break
        widths[widest] -= 1
    return widths


def _row(
    cells: Sequence[str], columns: Sequence[Column], widths: Sequence[int], most_lines: int | None = None
) -> list[str]:
    """Return one row as the lines it takes."""
    parts = [
        list(_wrapped(cell, width)) if column.wraps else cell.split("\n")
        for cell, column, width in zip(cells, columns, widths, strict=True)
    ]
    if most_lines is not None:
        parts = [clipped(part, most_lines) for part in parts]
    lines = []
    for number in range(max(len(part) for part in parts)):
        shown = [
            f"{part[number] if number < len(part) else '':{'>' if column.align == 'right' else '<'}{width}}"
            for part, column, width in zip(parts, columns, widths, strict=True)
        ]
        lines.append((GAP + GAP.join(shown)).rstrip())
    return lines


def _wrapped(text: str, width: int) -> Iterator[str]:
    """Yield the text in lines of at most `width`, broken at blanks; a longer word is broken where it must."""
    line = ""
    for word in text.split():
        while len(word) > width:
            if line:
                yield line
                line = ""
            yield word[:width]
            word = word[width:]
        if not line:
            line = word
        elif len(line) + 1 + len(word) <= width:
            line += " " + word
        else:
            yield line
            line = word
    if line:
        yield line


SMALLEST_COLUMN = 12
