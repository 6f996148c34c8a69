"""The tables of a page, of every kind, from top to bottom: none reaches into the next; and the rows of words beside them."""

from collections.abc import Sequence
from itertools import groupby

from shipcalc.ratebook.taking.answers import LEAVE_OUT
from shipcalc.ratebook.taking.around import Around
from shipcalc.ratebook.taking.bands import BandTable, band_tables
from shipcalc.ratebook.taking.blocks import Block, blocks_of
from shipcalc.ratebook.taking.body import body_of
from shipcalc.ratebook.taking.days import Order
from shipcalc.ratebook.taking.forms import Form, form_of
from shipcalc.ratebook.taking.headers import is_header
from shipcalc.ratebook.taking.layers import facts_of_page
from shipcalc.ratebook.taking.letter import Facts, Line, facts_in, lines_of
from shipcalc.ratebook.taking.matrix import Matrix, matrices_of
from shipcalc.ratebook.taking.meanings import PLACES
from shipcalc.ratebook.taking.page import Page, turned
from shipcalc.ratebook.taking.sides import sides_of
from shipcalc.ratebook.taking.zones import legend_rows, rows_of_zones
from shipcalc.records import dataclass, replace

Table = Block | Matrix | BandTable
# A table whose rows are columns is short.
MOST_ACROSS = 40


@dataclass(frozen=True, slots=True)
class Tables:
    """The tables of a page, each with the row after its last price; `beside` are the lines beside one whose rows are columns,
    `explained` are the rows that explain zones, `form` is what of the page is labels with values behind them.
    """

    page: Page
    tables: tuple[Table, ...]
    ends: tuple[int, ...]
    beside: tuple[Line, ...] | None = None
    form: Form | None = None
    explained: frozenset[int] = frozenset()

    @property
    def lines(self) -> tuple[Line, ...]:
        """Return the rows of words outside of the tables; beside one whose rows are columns they were looked for before."""
        if self.beside is not None:
            return self.beside
        inside = {
            row for table, end in zip(self.tables, self.ends, strict=True) for row in range(first_row(table), end)
        }
        inside |= self.explained
        inside |= self.form.rows if self.form is not None else set()
        return lines_of(self.page, [row for row in range(self.page.height) if row not in inside])

    @property
    def headers(self) -> tuple[str, ...]:
        """Return the headers and the labels by which the page is known again."""
        labels = () if self.form is None else (pair.label for part in self.form.parts for pair in part.pairs)
        return (*(header for table in self.tables for header in headers_of(table)), *labels)


def tables_of(page: Page, around: Around) -> Tables:
    """Return the tables of a page from top to bottom, each with the row after its last price; none reaches into the next."""
    form = form_of(page)
    banded = list(band_tables(page))
    of_bands = {row for table in banded for row in range(table.header_row, table.end)}
    matrices = [matrix for matrix in matrices_of(page, around) if matrix.header_row not in of_bands]
    across = {matrix.header_row for matrix in matrices} | of_bands
    if form is not None:
        matrices = [matrix for matrix in matrices if matrix.header_row not in form.rows]
        across |= form.rows
    blocks = [block for block in blocks_of(page, around.answers.columns) if block.header_row not in across]
    blocks = [block for block in blocks if not _explains_zones(block)]
    tables: list[Table] = [*blocks, *matrices, *banded]
    tables.sort(key=lambda table: (first_row(table), _first_column(table)))
    firsts = sorted({first_row(table) for table in tables})
    cut: list[Table] = []
    for table in tables:
        after = next((first for first in firsts if first > first_row(table)), page.height)
        after = min([after, *(row for row in legend_rows(page) if row > first_row(table))])
        cut.append(replace(table, rows=range(table.rows.start, min(table.rows.stop, after))))
    return Tables(
        page, tuple(cut), tuple(end_of(table, around) for table in cut), None, form, rows_of_zones(page, around)
    )


def _explains_zones(block: Block) -> bool:
    """Return whether a table says what zones are made of, and no price."""
    return bool(block.of("zone") and block.of("city", "state", "zip", "zip_low")) and not _holds_prices(block)


def _holds_prices(block: Block) -> bool:
    return bool(block.prices or block.of("minimum", "charge", "surcharge", LEAVE_OUT)) or any(
        column.header and not column.meaning.field for column in block.columns
    )


def turned_tables(page: Page, around: Around) -> Tables | None:
    """Return the tables of a page whose headers stand one below the other; None where they stand side by side."""
    if (
        page.width > MOST_ACROSS
        or form_of(page) is not None
        or any(is_header(page, row, {}) for row in range(page.height))
    ):
        return None
    found = tables_of(turned(page), around)
    tables = [table for table in found.tables if isinstance(table, Block) and table.prices and _says_both_ends(table)]
    if len(tables) != 1 or len(found.tables) != 1 or not _has_rows(tables[0]):
        return None
    own = {column.at for column in tables[0].columns if column.meaning.field}
    return replace(found, beside=lines_of(page, [row for row in range(page.height) if row not in own]))


def _has_rows(block: Block) -> bool:
    return bool(body_of(block, [one.at for one in block.of(*PLACES)], [one.at for one in block.prices]).rows)


def _says_both_ends(block: Block) -> bool:
    fields = {column.meaning.field for column in block.columns}
    return {"pol", "pod"} <= fields or all(any(field.startswith(side) for field in fields) for side in ("from_", "to_"))


def first_row(table: Table) -> int:
    """Return the row that a table begins with."""
    return table.first_row if isinstance(table, Block) else table.header_row


def _first_column(table: Table) -> int:
    if isinstance(table, Matrix):
        return table.label_column
    return table.columns[0].at if isinstance(table, Block) else table.columns[0]


def end_of(table: Table, around: Around) -> int:
    """Return the row after a table's last price."""
    if isinstance(table, BandTable):
        return table.end
    if isinstance(table, Matrix):
        filled = [
            row
            for row in table.rows
            if (row, table.label_column) in table.page.values
            and any((row, c) in table.page.values for c in table.columns)
        ]
        runs = [list(run) for _, run in groupby(enumerate(filled), lambda pair: pair[1] - pair[0])]
        return runs[0][-1][1] + 1 if runs else table.header_row + 1
    sides = sides_of(table, around)
    places = (*sides.start.ats, *sides.end.ats, *([sides.lane.at] if sides.lane else []))
    return body_of(table, places, table.filled_by_price).end


def headers_of(table: Table) -> tuple[str, ...]:
    """Return the headers by which a table is known again."""
    if isinstance(table, BandTable):
        return tuple(table.page.text(*band.spot) for band in table.bands)
    return tuple(column.header for column in table.columns) if isinstance(table, Block) else (table.corner or "matrix",)


def facts_of_tables(one: Tables, letters: Sequence[Line], order: Order) -> tuple[Facts, ...]:
    """Return what is said of each table of a page. `letters` are the lines of pages without tables."""
    if one.beside is not None:
        return (facts_in((*one.beside, *letters), order),) * len(one.tables)
    spans = [(first_row(table), end) for table, end in zip(one.tables, one.ends, strict=True)]
    return facts_of_page(one.page, spans, one.lines, letters, order)
