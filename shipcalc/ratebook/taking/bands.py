"""Tables of prices by the length of the trip: bands of miles across the top, or one below the other at the side.

Down the side they may stand in one column ("0-500") or in two (from, to), or only where each ends ("up to", 500).
"""

import re
from collections.abc import Iterator, Sequence

from shipcalc.ratebook.taking.figures import looks_like_price
from shipcalc.ratebook.taking.page import Page, Spot
from shipcalc.ratebook.taking.spans import Said, Span, in_miles, span_said, spans_of
from shipcalc.ratebook.taking.traits import bare_words
from shipcalc.records import dataclass

MOST_BANDS = 40
MOST_IN_A_TITLE = 2
# Bands up to less than this may be of vehicles, of days or of feet.
SURELY_MILES = 200
_OF_DISTANCE = re.compile(r"\b(?:mi|miles?|mileage|distance|km|kms|kilomet\w+|band|entfernung|afstand|distanz)\b")
_ENDS = re.compile(r"\b(?:up to|to|thru|through|max|maximum|high|end|bis|tot|until)\b")
_BEGINS = re.compile(r"\b(?:from|over|above|min|minimum|low|start|begin|von|ab|van|vanaf)\b")


@dataclass(frozen=True, slots=True)
class Band:
    """One band: its miles, the row or column that its prices stand in, and the cell that says it."""

    span: Span
    at: int
    spot: Spot


@dataclass(frozen=True, slots=True, eq=False)
class BandTable:
    """A table by distance. `is_across`: the bands are columns, and `lines` the rows of prices below; else the other way round.

    `header_row` is the row above the first price; `unit` what the bands count.
    """

    page: Page
    header_row: int
    bands: tuple[Band, ...]
    lines: tuple[int, ...]
    is_across: bool
    unit: str
    rows: range

    @property
    def end(self) -> int:
        """Return the row after the last price."""
        return (max(self.lines) if self.is_across else max(band.at for band in self.bands)) + 1

    @property
    def columns(self) -> tuple[int, ...]:
        """Return the columns that bands or prices stand in."""
        own = [band.spot[1] for band in self.bands]
        return tuple(sorted({*own, *(() if self.is_across else self.lines)}))

    def spot(self, band: Band, line: int) -> Spot:
        """Return the cell of a band's price in a line."""
        return (line, band.at) if self.is_across else (band.at, line)


def band_tables(page: Page) -> Iterator[BandTable]:
    """Yield the tables by distance on a page, from top to bottom."""
    found = [*_across(page), *_down(page)]
    yield from sorted(found, key=lambda table: (table.header_row, table.columns[0]))


def _across(page: Page) -> Iterator[BandTable]:
    for row in range(page.height):
        cells = [(at, said) for at, text in page.row(row).items() if (said := span_said(text))]
        for run in _runs(cells):
            unit = _unit(run, _words_near(page, row, run[0][0]))
            bands = [Band(span, at, (row, at)) for (at, _), span in zip(run, _spans(run, unit), strict=True)]
            ats = [band.at for band in bands]
            lines = _rows_below(page, row, ats)
            if lines and _is_of_distance(run, _words_near(page, row, run[0][0])):
                yield BandTable(page, row, tuple(bands), lines, True, unit, range(row + 1, lines[-1] + 1))


def _down(page: Page) -> Iterator[BandTable]:
    taken: set[Spot] = set()
    for at in range(page.width):
        for said in (_told_in_one, _told_in_two, _told_by_ends):
            cells = said(page, at)
            for run in _runs([(row, one) for row, one in cells if (row, at) not in taken]):
                table = _table_down(page, at, run, is_pair=said is _told_in_two)
                if table is not None:
                    taken |= {(row, column) for row in table.rows for column in (at, at + (said is _told_in_two))}
                    yield table


def _table_down(page: Page, at: int, run: Sequence[tuple[int, Said]], *, is_pair: bool) -> BandTable | None:
    rows = [row for row, _ in run]
    head = next((row for row in range(rows[0] - 1, max(rows[0] - 3, -1), -1) if page.row(row)), None)
    if head is None or rows != list(range(rows[0], rows[0] + len(rows))):
        return None
    unit = _unit(run, f"{_words_near(page, head, at)} {page.text(head, at)}")
    bands = [Band(span, row, (row, at)) for (row, _), span in zip(run, _spans(run, unit), strict=True)]
    first = at + 1 + is_pair
    other = next(
        (c for c in range(first, page.width) if (head, c) in page.values and _is_of_miles(page.text(head, c))), None
    )
    lines = _columns_beside(page, range(first, other or page.width), rows)
    if not lines or not _is_of_distance(run, f"{_words_near(page, head, at)} {page.text(head, at)}"):
        return None
    return BandTable(page, head, tuple(bands), lines, False, unit, range(rows[0], rows[-1] + 1))


def _rows_below(page: Page, head: int, ats: Sequence[int]) -> tuple[int, ...]:
    """Return the rows of prices below bands, up to a blank row or the next headers; titles stand between them."""
    found: list[int] = []
    for row in range(head + 1, page.height):
        cells = page.row(row)
        if (not cells and found) or any(span_said(page.text(row, at)) for at in ats):
            break
        if any(looks_like_price(page.values.get((row, at))) for at in ats):
            found.append(row)
        elif len(set(cells.values())) > MOST_IN_A_TITLE:
            break
    return tuple(found)


def _columns_beside(page: Page, columns: range, rows: Sequence[int]) -> tuple[int, ...]:
    """Return the columns of prices beside bands, up to two blank ones."""
    found: list[int] = []
    blank = 0
    for at in columns:
        blank = 0 if any((row, at) in page.values for row in rows) else blank + 1
        if blank > 1:
            break
        if any(looks_like_price(page.values.get((row, at))) for row in rows):
            found.append(at)
    return tuple(found)


def _is_of_distance(run: Sequence[tuple[int, Said]], words: str) -> bool:
    """Return whether bands are of miles and not of vehicles, days or feet: they say so, or what stands near, or they are long."""
    numbers = [number for _, said in run for number in (said.low, said.high) if number is not None]
    says = any(said.unit for _, said in run) or _OF_DISTANCE.search(bare_words(words)) is not None
    return says or max(numbers) >= SURELY_MILES


def _told_in_one(page: Page, at: int) -> list[tuple[int, Said]]:
    texts = ((row, page.text(row, at)) for row in range(page.height) if isinstance(page.values.get((row, at)), str))
    return [(row, said) for row, text in texts if (said := span_said(text))]


def _told_in_two(page: Page, at: int) -> list[tuple[int, Said]]:
    """Return the bands of two columns of numbers, the second of which may be blank or say "and over" in the last row."""
    heads = [row for row in range(page.height - 1) if _BEGINS.search(bare_words(page.text(row, at)))]
    found: list[tuple[int, Said]] = []
    for head in heads:
        if not _ENDS.search(bare_words(page.text(head, at + 1))) or isinstance(page.values[head, at], (int, float)):
            continue
        is_open = re.search(r"\b(?:over|above)\b", bare_words(page.text(head, at))) is not None
        row = head + 1
        while (low := _whole(page, row, at)) is not None:
            high = _whole(page, row, at + 1)
            found.append((row, Said(low, high, is_open and low > 0)))
            row += 1
            if high is None:
                break
    return found


def _told_by_ends(page: Page, at: int) -> list[tuple[int, Said]]:
    """Return the bands of a column of numbers headed by words that say each is where a band ends."""
    found: list[tuple[int, Said]] = []
    for head in range(page.height - 1):
        words = bare_words(page.text(head, at))
        if isinstance(page.values.get((head, at)), str) and _ENDS.search(words) and _OF_DISTANCE.search(words):
            row = head + 1
            while (high := _whole(page, row, at)) is not None:
                found.append((row, Said(None, high)))
                row += 1
            if span := span_said(page.text(row, at)):
                found.append((row, span))
    return found


def _whole(page: Page, row: int, at: int) -> int | None:
    text = page.text(row, at).replace(",", "").replace(" ", "")
    return int(text) if text.isdecimal() else None


def _runs(cells: Sequence[tuple[int, Said]]) -> Iterator[Sequence[tuple[int, Said]]]:
    """Yield the longest runs of cells whose bands follow on each other."""
    first = 0
    while first < len(cells):
        last = next(
            (n for n in range(min(len(cells), first + MOST_BANDS), first + 1, -1) if _follow(cells[first:n])), None
        )
        if last is not None:
            yield cells[first:last]
        first = last or first + 1


def _follow(cells: Sequence[tuple[int, Said]]) -> bool:
    return spans_of([said for _, said in cells]) is not None


def _spans(run: Sequence[tuple[int, Said]], unit: str) -> tuple[Span, ...]:
    spans = spans_of([said for _, said in run])
    assert spans is not None, "only runs are asked for"
    return tuple(in_miles(span, unit) for span in spans)


def _unit(run: Sequence[tuple[int, Said]], words: str) -> str:
    own = {said.unit for _, said in run} - {""}
    if own:
        return "km" if own == {"km"} else "mi" if own == {"mi"} else ""
    plain = bare_words(words)
    is_km = re.search(r"\b(?:km|kms|kilomet\w+)\b", plain) is not None
    return "km" if is_km and not re.search(r"\b(?:mi|miles?|mileage)\b", plain) else "mi"


def _words_near(page: Page, row: int, at: int) -> str:
    """Return the words above bands and beside them."""
    beside = [text for column, text in page.row(row).items() if column <= at]
    above = [text for line in range(max(row - 2, 0), row) for text in page.row(line).values()]
    return " ".join((*beside, *above))


def _is_of_miles(text: str) -> bool:
    return span_said(text) is None and _OF_DISTANCE.search(bare_words(text)) is not None and not _per(text)


def _per(text: str) -> bool:
    """Return whether a header says prices a mile, not miles."""
    return re.search(r"(?:/|per|a) ?(?:mi|mile|km)\b|\bcpm\b|\brpm\b|[$€£]", text.casefold()) is not None
