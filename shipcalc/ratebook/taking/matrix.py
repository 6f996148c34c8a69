"""Tables of from × to: places across the top, places down the side, a price where they cross."""

import re
from collections.abc import Iterator, Sequence

from shipcalc.ratebook.taking.around import Around
from shipcalc.ratebook.taking.blocks import Block, BlockColumn
from shipcalc.ratebook.taking.body import is_aside, is_sum
from shipcalc.ratebook.taking.days import days_in
from shipcalc.ratebook.taking.ends import Unclear
from shipcalc.ratebook.taking.figures import NoFigure, figure_in, looks_like_price
from shipcalc.ratebook.taking.headers import is_header
from shipcalc.ratebook.taking.meanings import Meaning
from shipcalc.ratebook.taking.page import Page
from shipcalc.ratebook.taking.port_names import port_in
from shipcalc.ratebook.taking.row_ends import is_zone
from shipcalc.ratebook.taking.spots import ends_in
from shipcalc.ratebook.taking.traits import bare_words
from shipcalc.records import dataclass

_FROM = re.compile(r"\b(?:from|origin|orig|pick ?up|load|pol|von|van|de|ab|start)\w*\b")
_TO = re.compile(r"\b(?:to|destination|dest|deliver\w*|drop|discharge|pod|nach|naar|ziel)\b")
_ZONE = re.compile(r"zone [a-z0-9]{1,3}")
ROWS_FROM, ROWS_TO = "rows are from", "rows are to"


@dataclass(frozen=True, slots=True)
class Matrix:
    """A table of from × to: the row of places across, the column of places down; `rows_are` "" where nothing says it."""

    page: Page
    header_row: int
    label_column: int
    columns: tuple[int, ...]
    rows: range
    rows_are: str = ""
    corner: str = ""
    is_ports: bool = False

    def as_block(self, column: int) -> Block:
        """Return one column of it as a table of a place and a price."""
        label = BlockColumn(self.label_column, "", Meaning(header="", field="to_place"))
        price = BlockColumn(column, self.page.text(self.header_row, column), Meaning(header="", field="rate"))
        return Block(self.page, self.header_row, self.header_row, (label, price), self.rows)


def matrices_of(page: Page, around: Around) -> Iterator[Matrix]:
    """Yield the tables of from × to on a page."""
    heads = [row for row in range(page.height) if _is_head(page, row, around)]
    for number, row in enumerate(heads):
        cells = page.row(row)
        below = next(r for r in range(row + 1, page.height) if page.row(r))
        label = min(page.row(below))
        columns = tuple(column for column in cells if column > label)
        end = heads[number + 1] if number + 1 < len(heads) else page.height
        corner = cells.get(label, "")
        says_port = re.search(r"\b(?:pol|pod|port)\b", bare_words(corner)) is not None
        ports = says_port or not _all_places(page, row, columns, around)
        yield Matrix(
            page, row, label, columns, range(row + 1, end), _rows_are(page, row, label, columns, corner), corner, ports
        )


def _is_head(page: Page, row: int, around: Around) -> bool:
    cells = page.row(row)
    if len(cells) < 2 or any(not isinstance(page.values[row, c], str) for c in cells):
        return False
    if is_header(page, row, {}) and not _heads_zones(list(cells.values())[1:], around):
        return False
    below = next((r for r in range(row + 1, min(row + 4, page.height)) if page.row(r)), None)
    if below is None:
        return False
    label = min(page.row(below))
    columns = [column for column in cells if column > label]
    if len(columns) < 2 or looks_like_price(page.values[below, label]) or any(c < label for c in cells):
        return False
    if any(is_sum(text) or is_aside(text) or days_in(text, "") for text in cells.values()) or not _are_of_one_kind(
        page, row, columns
    ):
        return False
    told = [page.values[below, c] for c in columns if (below, c) in page.values]
    figures = [looks_like_price(v) or (isinstance(figure_in(v, "", ""), NoFigure) and len(str(v)) < 8) for v in told]
    if not told or not all(figures) or not any(looks_like_price(v) for v in told):
        return False
    return _all_places(page, row, columns, around) or _all_places(page, row, columns, around, ports=True)


def _are_of_one_kind(page: Page, row: int, columns: Sequence[int]) -> bool:
    """Return whether all texts across are figures, as ZIPs are, or none is: a row of a table has places and a price."""
    figures = [looks_like_price(page.values[row, column]) for column in columns]
    return all(figures) or not any(figures)


def _heads_zones(texts: Sequence[str], around: Around) -> bool:
    """Return whether all texts across are zones, by their names or because the mail explains them."""
    return len(texts) > 1 and all(_is_zone(text, around) for text in texts)


def _is_zone(text: str, around: Around) -> bool:
    return is_zone(text, around) or _ZONE.fullmatch(bare_words(text)) is not None


def _all_places(
    page: Page, row: int, columns: "list[int] | tuple[int, ...]", around: Around, *, ports: bool = False
) -> bool:
    """Return whether nearly all texts across are places; one that is not is named when its column is read."""
    found = 0
    for column in columns:
        try:
            text = page.text(row, column)
            if ports:
                found += bool(port_in(text))
            else:
                found += _is_zone(text, around) or bool(ends_in(text, around.known.names))
        except Unclear:
            continue
    return found >= 2 and 3 * found >= 2 * len(columns)


def _rows_are(page: Page, row: int, label: int, columns: tuple[int, ...], corner: str) -> str:
    """Return whether the places down the side are from or to, as the corner or the title says; "" where nothing does."""
    words = bare_words(corner)
    first, second = _FROM.search(words), _TO.search(words)
    if first and second:
        down = re.search(
            r"(from|to|origin|destination|dest|orig)\W*[↓⬇]|[↓⬇]\W*(from|to|origin|destination|dest|orig)",
            corner,
            re.IGNORECASE,
        )
        if down:
            return ROWS_TO if (down[1] or down[2]).casefold().startswith(("to", "dest")) else ROWS_FROM
        return ROWS_FROM if first.start() < second.start() else ROWS_TO
    if first or second:
        return ROWS_FROM if first else ROWS_TO
    above = " ".join(page.text(row - 1, column) for column in columns) if row else ""
    words = bare_words(above)
    if _TO.search(words) and not _FROM.search(words):
        return ROWS_FROM
    if _FROM.search(words) and not _TO.search(words):
        return ROWS_TO
    return ""
