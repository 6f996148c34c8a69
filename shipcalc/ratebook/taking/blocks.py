"""The tables on a page: where their headers stand, what each column is, which rows belong to them.

A page may hold several, one below the other or side by side, headers in two rows, titles between the rows ("ENCLOSED").
"""

from collections.abc import Iterator, Mapping

from shipcalc.ratebook.taking.answers import LEAVE_OUT
from shipcalc.ratebook.taking.figures import looks_like_price
from shipcalc.ratebook.taking.headers import bands_of_headers, meaning_at
from shipcalc.ratebook.taking.meanings import PLACES, PRICES, SURCHARGE, UNNAMED, Meaning, is_price_with_a_letter
from shipcalc.ratebook.taking.page import Page
from shipcalc.ratebook.taking.stated import heads_limits, limits_in
from shipcalc.ratebook.taking.traits import Traits, bare_words, traits_in
from shipcalc.records import dataclass, replace

# Fields that may stand in one table more than once; another one that comes again begins a second table beside the first.
_MANY = PRICES | {
    "minimum",
    "fuel",
    "skip",
    "remark",
    "",
    "surcharge",
    "distance",
    "to_place",
    "from_place",
    "pol",
    "pod",
    "valid_from",
    "valid_to",
    "currency",
    "basis",
}


@dataclass(frozen=True, slots=True)
class BlockColumn:
    """One column of a table: where it stands, its header with what stands above it, and what that means."""

    at: int
    header: str
    meaning: Meaning


@dataclass(frozen=True, slots=True, eq=False)
class Block:
    """One table: its rows of headers (the last is `header_row`), its columns, the rows below them up to where it ends."""

    page: Page
    first_row: int
    header_row: int
    columns: tuple[BlockColumn, ...]
    rows: range

    def of(self, *fields: str) -> tuple[BlockColumn, ...]:
        """Return the columns of some fields, from left to right."""
        return tuple(column for column in self.columns if column.meaning.field in fields)

    @property
    def prices(self) -> tuple[BlockColumn, ...]:
        """Return the columns that hold prices of a carriage."""
        return tuple(column for column in self.columns if column.meaning.is_price)

    @property
    def filled_by_price(self) -> tuple[int, ...]:
        """Return where the columns stand of which a cell makes a row one of prices, those left out on request included."""
        return tuple(column.at for column in (*self.prices, *self.of("minimum", LEAVE_OUT)))


def blocks_of(page: Page, told: Mapping[str, str]) -> tuple[Block, ...]:
    """Return the tables of prices on a page. `told` maps a header to the words that somebody said it should have been."""
    found = [_with_vehicles(block) for block in _all_blocks(page, told)]
    return tuple(
        block
        for block in found
        if block.prices or block.of("charge", "surcharge", "minimum", LEAVE_OUT) or _may_be_prices(block)
    )


def zone_tables(page: Page, told: Mapping[str, str]) -> tuple[Block, ...]:
    """Return the tables on a page that say which places a zone is made of."""
    return tuple(
        block
        for block in _all_blocks(page, told)
        if block.of("zone")
        and block.of("state", "zip", "zip_low", "city", "place")
        and not (block.prices or block.of(LEAVE_OUT))
    )


def _all_blocks(page: Page, told: Mapping[str, str]) -> list[Block]:
    bands = list(bands_of_headers(page, told))
    found: list[Block] = []
    for number, (first, last) in enumerate(bands):
        end = bands[number + 1][0] if number + 1 < len(bands) else page.height
        found += _with_places(_side_by_side(page, first, last, range(last + 1, end), told))
    return found


def _with_vehicles(block: Block) -> Block:
    """Return a table in which "Pickup" and "Van" over figures are vehicles, where another column says where from."""
    starts = [column for column in block.columns if column.meaning.field.startswith(("from_", "lane", "pol"))]
    columns = tuple(
        replace(column, meaning=Meaning(header=column.header, field="rate", traits=Traits(variant="large vehicle")))
        if len(starts) > 1
        and bare_words(column.header) in ("pickup", "pick up", "van")
        and _holds_figures(block, column.at)
        else column
        for column in block.columns
    )
    columns = tuple(replace(column, meaning=_as_variant(block, column)) for column in columns)
    columns = _with_only_price(block, columns)
    columns = tuple(replace(column, meaning=_as_limit(block, column)) for column in columns)
    columns = tuple(replace(column, meaning=_as_label(block, column, columns)) for column in columns)
    return replace(block, columns=columns)


def _as_variant(block: Block, column: BlockColumn) -> Meaning:
    """Return the meaning of a column: "Running" over figures is a price for what runs, over words what a row is for."""
    traits = traits_in(column.header)[0]
    if column.meaning.field == "condition" and traits.variant and _holds_figures(block, column.at):
        return Meaning(header=column.header, field="rate", traits=traits)
    return column.meaning


def _with_only_price(block: Block, columns: tuple[BlockColumn, ...]) -> tuple[BlockColumn, ...]:
    """Return columns in which "Price A" is the price, where no other column may be one."""
    open_ones = [one for one in columns if not one.meaning.field and one.header and _holds_figures(block, one.at)]
    is_plain = len(open_ones) == 1 and not any(one.meaning.is_price for one in columns)
    if not is_plain or not is_price_with_a_letter(open_ones[0].header):
        return columns
    price = replace(open_ones[0], meaning=replace(open_ones[0].meaning, field="rate"))
    return tuple(price if one is open_ones[0] else one for one in columns)


def _as_limit(block: Block, column: BlockColumn) -> Meaning:
    """Return the meaning of a column: one of lengths or weights that vehicles may have is a limit of its rows."""
    texts = [block.page.text(row, column.at) for row in block.rows if (row, column.at) in block.page.values]
    is_open = column.meaning.field in ("", "condition") or column.meaning.like
    limits = sum(bool(limits_in(text)) for text in texts)
    if is_open and texts and (2 * limits > len(texts) or heads_limits(column.header)):
        return replace(column.meaning, field="limit")
    return column.meaning


def _as_label(block: Block, column: BlockColumn, columns: tuple[BlockColumn, ...]) -> Meaning:
    """Return the meaning of a column: "Charge" over words is what is charged, where another column has the amounts."""
    others = any(one.meaning.is_price and _holds_figures(block, one.at) for one in columns if one is not column)
    if bare_words(column.header) in ("service", "services") and others and not block.of(*PLACES):
        return replace(column.meaning, field="charge")
    if (
        column.meaning.field == "rate"
        and others
        and not _holds_figures(block, column.at)
        and not column.meaning.traits.trailer
    ):
        cells = [block.page.text(row, column.at) for row in block.rows if (row, column.at) in block.page.values]
        if cells and not any(looks_like_price(text) for text in cells):
            return replace(column.meaning, field="charge")
    if column.meaning.field == "charge" and others and _holds_figures(block, column.at):
        is_surcharge = bare_words(column.header).startswith(UNNAMED)
        return replace(column.meaning, field=f"{SURCHARGE}{UNNAMED}") if is_surcharge else column.meaning
    if column.meaning.field == "fuel" and any(one.meaning.field in ("pol", "pod") for one in columns):
        return replace(column.meaning, field=f"{SURCHARGE}bunker")
    return column.meaning


def _holds_figures(block: Block, at: int) -> bool:
    cells = [value for row in block.rows if (value := block.page.values.get((row, at))) is not None]
    return bool(cells) and 2 * sum(looks_like_price(value) for value in cells) > len(cells)


def _side_by_side(page: Page, first: int, last: int, body: range, told: Mapping[str, str]) -> Iterator[Block]:
    """Yield the tables below one band of headers: a blank column, or a field that comes again, divides them."""
    columns: list[BlockColumn] = []
    held: set[str] = set()
    for at in range(page.width):
        meaning = meaning_at(page, range(first, last + 1), at, told)
        if meaning is None:
            if columns and not any((row, at) in page.values for row in body):
                yield Block(page, first, last, tuple(columns), body)
                columns, held = [], set()
            elif any((row, at) in page.values for row in body):
                columns.append(BlockColumn(at, "", Meaning(header="")))
            continue
        field = meaning.field
        if (
            field in held
            and field not in _MANY
            and not field.startswith(SURCHARGE)
            and any(one.meaning.is_price for one in columns)
        ):
            yield Block(page, first, last, tuple(columns), body)
            columns, held = [], set()
        columns.append(BlockColumn(at, meaning.header, meaning))
        held.add(field)
    if columns:
        yield Block(page, first, last, tuple(columns), body)


def _with_places(blocks: Iterator[Block]) -> Iterator[Block]:
    """Yield tables of which each says where: columns behind a blank one that do not belong to the table before them."""
    before: Block | None = None
    for block in blocks:
        explains = before is not None and not before.prices and before.of("zone") and block.of("zone")
        if before is not None and not explains and (not block.of(*PLACES, "charge") or not before.prices):
            before = replace(before, columns=(*before.columns, *block.columns))
            continue
        if before is not None:
            yield before
        before = block
    if before is not None:
        yield before


def _may_be_prices(block: Block) -> bool:
    """Return whether a column that nothing is known of holds figures, so that it must be asked for."""
    return bool(block.of(*PLACES)) and any(
        not column.meaning.field
        and any(looks_like_price(block.page.values.get((row, column.at))) for row in block.rows)
        for column in block.columns
    )
