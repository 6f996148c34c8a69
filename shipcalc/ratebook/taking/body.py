"""The rows below a table's headers: which hold prices, which are titles between them, which are sums, examples or notes."""

import re
from collections.abc import Sequence

from shipcalc.ratebook.taking.blocks import Block
from shipcalc.ratebook.taking.figures import looks_like_price
from shipcalc.ratebook.taking.letter import Line, lines_of
from shipcalc.ratebook.taking.rate import LeftOut
from shipcalc.ratebook.taking.traits import NO_TRAITS, Traits, trailer_in, traits_in
from shipcalc.records import dataclass, replace

LONGEST_TITLE = 70
_SUMS = re.compile(
    r"^(?:grand |sub ?-?)?(?:total|sum|average|avg|mean|median|summe|mittel|durchschnitt|totaal|"
    r"gemiddeld|moyenne|promedio|media)\b",
    re.IGNORECASE,
)
_CANCELLED = re.compile(
    r"\b(?:cancell?ed|discontinued|suspended|withdrawn|no longer|not (?:offered|served|valid)|"
    r"closed lane|expired|void|entfällt|vervallen|annulé|anulado)\b",
    re.IGNORECASE,
)
_ASIDE = re.compile(r"(?:#(?!\s?\d)|//|--|;|\*{2,}|={2,}|REM\b)")
_RULE = re.compile(r"[\s|:=_+*-]+")
_EXAMPLE = re.compile(r"^(?:example|sample|e\.g|illustration|beispiel|voorbeeld|exemple|ejemplo)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class BodyRow:
    """A row with prices; `traits` and `title` are what the titles above it say."""

    row: int
    traits: Traits = NO_TRAITS
    titles: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Body:
    """The rows of a table that hold prices, the lines of words below it, and what of it is none of both."""

    rows: tuple[BodyRow, ...]
    lines: tuple[Line, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    end: int = 0
    titles: tuple[tuple[int, str], ...] = ()

    @property
    def lines_inside(self) -> tuple[Line, ...]:
        """Return the lines between the rows of prices."""
        return tuple(line for line in self.lines if line.row < self.end)


def is_sum(text: str) -> bool:
    """Return whether a row's words head a sum or an average."""
    return _SUMS.search(text) is not None


def is_aside(text: str) -> bool:
    """Return whether a row's first words are marked as no part of the table: "# old", "// old", "---"."""
    return _ASIDE.match(text) is not None


def is_example(text: str) -> bool:
    """Return whether words head a worked example."""
    return _EXAMPLE.search(text) is not None


def body_of(block: Block, places: Sequence[int], prices: Sequence[int]) -> Body:
    """Return the rows of a table. `places` and `prices` are the columns that say where, and how much."""
    page = block.page
    columns = range(block.columns[0].at, block.columns[-1].at + 1)
    headers = [page.row(row, columns) for row in range(block.first_row, block.header_row + 1)]
    rows: list[BodyRow] = []
    notes: list[int] = []
    left: list[LeftOut] = []
    told: list[tuple[int, str]] = []
    traits = NO_TRAITS
    titles: tuple[str, ...] = ()
    was_blank = over = False
    for row in block.rows:
        cells = page.row(row, columns)
        if not cells:
            was_blank = True
            continue
        kind = _kind(block, row, cells, places, prices, headers)
        if kind == "title" and not over and not _EXAMPLE.search(next(iter(cells.values()))):
            text = next(iter(cells.values()))
            said = replace(traits_in(text)[0], trailer=trailer_in(text))
            # A title of limits or of a trailer ends the limits of the one above it.
            before = replace(traits, limits=()) if said.limits or said.trailer else traits
            traits, titles = said.over(before), (*titles[-1:], text)
            told.append((row, text))
        elif kind in ("words", "title") or (kind == "row" and over):
            over = over or kind == "title" or (was_blank and bool(rows))
            notes.append(row)
        elif kind == "row" and was_blank and rows and not any(c in cells for c in places):
            over = True
            notes.append(row)
        elif kind == "row":
            rows.append(BodyRow(row, traits, titles))
        elif kind:
            at = min(cells)
            left.append(LeftOut(page.short(row, at), " ".join(dict.fromkeys(cells.values())), kind))
        was_blank = False
    return Body(
        tuple(rows), lines_of(page, notes), tuple(left), rows[-1].row + 1 if rows else block.header_row + 1, tuple(told)
    )


def _kind(
    block: Block,
    row: int,
    cells: dict[int, str],
    places: Sequence[int],
    prices: Sequence[int],
    headers: Sequence[dict[int, str]],
) -> str:
    """Return what a row is: "row", "title", "words", "" for headers over again, or why it is to be left out."""
    texts = list(dict.fromkeys(cells.values()))
    if any(cells == header for header in headers):
        return ""
    if all(_RULE.fullmatch(text) for text in texts):
        return ""
    if is_aside(texts[0]) and len(texts) > 1:
        return "is marked as no part of the table"
    if any(_SUMS.search(text) for text in texts):
        return "a sum or an average is no price"
    priced = [at for at in prices if at in cells]
    if len(texts) == 1 and not looks_like_price(block.page.values[row, min(cells)]):
        is_merged = len(cells) > 1
        if len(texts[0]) <= LONGEST_TITLE and (is_merged or min(cells) <= min((*places, *prices), default=0)):
            return "title"
        return "words"
    if len(texts) == 1 and not priced:
        return "words"
    if any(_CANCELLED.search(text) for text in texts):
        return "it is no longer offered"
    if priced or any(at in cells for at in places):
        return "row"
    return "words"
