"""The tables on a page: where their headers stand, what each column is, which rows belong to them.

A page may hold several, one below the other or side by side, headers in two rows, titles between the rows ("ENCLOSED").
"""

from collections.abc import Iterator, Mapping
from datetime import date

from shipcalc.ratebook.taking.answers import LEAVE_OUT
from shipcalc.ratebook.taking.days import days_in, end_of_month
from shipcalc.ratebook.taking.figures import looks_like_price
from shipcalc.ratebook.taking.meanings import PLACES, PRICES, SURCHARGE, Meaning, meaning_of, with_traits
from shipcalc.ratebook.taking.page import Page
from shipcalc.ratebook.taking.traits import NO_TRAITS, Traits, bare_words, traits_in
from shipcalc.records import dataclass, replace

LONGEST_LABEL = 48
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
_TELLING = PLACES | PRICES | {"charge", "minimum"}


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
        if block.of("zone") and block.of("state", "zip", "city", "place") and not (block.prices or block.of(LEAVE_OUT))
    )


def _all_blocks(page: Page, told: Mapping[str, str]) -> list[Block]:
    bands = list(_bands(page, told))
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
    columns = tuple(replace(column, meaning=_as_label(block, column, columns)) for column in columns)
    return replace(block, columns=columns)


def _as_label(block: Block, column: BlockColumn, columns: tuple[BlockColumn, ...]) -> Meaning:
    """Return the meaning of a column: "Charge" over words is what is charged, where another column has the amounts."""
    others = any(one.meaning.is_price and _holds_figures(block, one.at) for one in columns if one is not column)
    if (
        column.meaning.field == "rate"
        and others
        and not _holds_figures(block, column.at)
        and not column.meaning.traits.trailer
    ):
        cells = [block.page.text(row, column.at) for row in block.rows if (row, column.at) in block.page.values]
        if cells and not any(any(sign.isdigit() for sign in text) and not meaning_of(text).field for text in cells):
            return replace(column.meaning, field="charge")
    return column.meaning


def _holds_figures(block: Block, at: int) -> bool:
    cells = [value for row in block.rows if (value := block.page.values.get((row, at))) is not None]
    return bool(cells) and 2 * sum(looks_like_price(value) for value in cells) > len(cells)


def is_header(page: Page, row: int, told: Mapping[str, str]) -> bool:
    """Return whether a row is one of headers: two known fields at least, one of them a place or a price, and no figures."""
    cells = page.row(row)
    labels = {
        column: text for column, text in cells.items() if page.merged.get((row, column), (row, column)) == (row, column)
    }
    if len(labels) < 2 or any(text.endswith(":") or _is_figure(page, row, at) for at, text in labels.items()):
        return False
    known = [field for text in labels.values() if (field := _meant(told.get(text, text)).field)]
    if set(known) & PLACES:
        known += [field for text in labels.values() if not meaning_of(text).field and (field := _dated_field(text))]
    return len(set(known)) >= 2 and bool(set(known) & _TELLING) and 2 * len(known) >= len(labels)


def _meant(words: str) -> Meaning:
    """Return what a header means; one that is answered so is left out."""
    return Meaning(header=words, field=LEAVE_OUT) if words == LEAVE_OUT else meaning_of(words)


def _dated_field(text: str) -> str:
    dated = _dated([text], text)
    return dated.field if dated is not None else ""


def _is_figure(page: Page, row: int, column: int) -> bool:
    value = page.values[row, column]
    if isinstance(value, date):
        return False
    if isinstance(value, str):
        return looks_like_price(value) and not meaning_of(page.text(row, column)).traits.basis
    return True


def _bands(page: Page, told: Mapping[str, str]) -> Iterator[tuple[int, int]]:
    """Yield the first and the last row of each run of rows of headers, groups above and units below included."""
    row = 0
    while row < page.height:
        if not is_header(page, row, told):
            row += 1
            continue
        first = last = row
        while first > 0 and _heads_groups(page, first - 1, page.row(row)):
            first -= 1
        while last + 1 < page.height and (is_header(page, last + 1, told) or _heads_units(page, last + 1, row)):
            last += 1
        yield first, last
        row = last + 1


def _heads_groups(page: Page, row: int, below: Mapping[int, str]) -> bool:
    """Return whether a row above the headers names groups of columns: "Open" over two of them, "Destination" over others."""
    cells = page.row(row)
    own = {page.merged.get((row, column), (row, column)) for column in cells}
    if not cells or any(
        not isinstance(page.values[row, c], str) or len(text) > LONGEST_LABEL for c, text in cells.items()
    ):
        return False
    over_all = len(own) == 1 and (len(cells) >= len(below) or (len(cells) == 1 and min(cells) <= min(below)))
    says = any(meaning_of(text).field or traits_in(text)[0] != NO_TRAITS for text in cells.values())
    return says and not over_all and not any(looks_like_price(page.values[row, c]) for c in cells)


def _heads_units(page: Page, row: int, headers: int) -> bool:
    """Return whether a row below the headers says units alone: "USD", "per vehicle", "$/mi"."""
    cells = page.row(row)
    if not cells or min(cells) <= min(page.row(headers)):
        return False
    return all(
        isinstance(page.values[row, c], str) and not any(sign.isdigit() for sign in text) and _says_traits_alone(text)
        for c, text in cells.items()
    )


def _says_traits_alone(text: str) -> bool:
    traits, rest = traits_in(text)
    return traits != NO_TRAITS and not bare_words(rest)


def _side_by_side(page: Page, first: int, last: int, body: range, told: Mapping[str, str]) -> Iterator[Block]:
    """Yield the tables below one band of headers: a blank column, or a field that comes again, divides them."""
    columns: list[BlockColumn] = []
    held: set[str] = set()
    for at in range(page.width):
        meaning = _meaning_at(page, range(first, last + 1), at, told)
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


def _meaning_at(page: Page, band: range, at: int, told: Mapping[str, str]) -> Meaning | None:
    """Return what a column means by its texts in the rows of headers: the lowest counts, what stands above it adds."""
    texts = list(dict.fromkeys(text for row in band if (text := _head_text(page, row, at, band))))
    if not texts:
        return None
    header = " / ".join(texts)
    if header not in told and (dated := _dated(texts, header)) is not None:
        return dated
    if header in told or texts[-1] in told:
        return replace(_meant(told.get(header) or told[texts[-1]]), header=header)
    together = meaning_of(" ".join(texts))
    meanings = [meaning_of(text) for text in texts]
    lowest = meanings[-1]
    traits = NO_TRAITS
    for text in texts[:-1]:
        traits = traits_in(text)[0].over(traits)
    if together.field and (not lowest.field or together.field not in PRICES):
        return replace(with_traits(together, traits), header=header)
    if not lowest.field:
        lowest = next((meaning for meaning in reversed(meanings) if meaning.field), lowest)
        if lowest.field in PLACES and bare_words(texts[-1]) not in _PARTS_OF_A_PLACE:
            lowest = replace(lowest, field="skip") if len(texts) > 1 and lowest.header != texts[-1] else lowest
    elif lowest.field in ("city", "state", "zip", "zone", "country", "port", "place") and len(meanings) > 1:
        side = next((m.field for m in meanings[:-1] if m.field in ("from_place", "to_place", "pol", "pod")), "")
        if side in ("from_place", "to_place"):
            lowest = replace(lowest, field=f"{side.partition('_')[0]}_{lowest.field}")
    return replace(with_traits(lowest, traits), header=header)


def _dated(texts: list[str], header: str) -> Meaning | None:
    """Return the meaning of a column that is headed by its month or by the day from which its prices hold; None for another."""
    days = [(text, said) for text in texts for said in days_in(text, "")]
    if len(days) != 1 or days[0][1].day is None or any(meaning_of(text).field in _DATED_FIELDS for text in texts):
        return None
    text, said = days[0]
    first = said.day
    others = bare_words(" ".join((*[one for one in texts if one != text], text[: said.start], text[said.end :])))
    meaning = meaning_of(others) if others else Meaning(header="", field="rate")
    if others in _UNTIL_WORDS:
        return Meaning(header=header, field="rate", valid_to=end_of_month(first) if said.is_month and first else first)
    if not meaning.is_price and others not in _FROM_WORDS:
        return None
    is_span = said.is_month and others not in _FROM_WORDS
    last = end_of_month(first) if is_span and first is not None else None
    return Meaning(header=header, field="rate", traits=meaning.traits, valid_from=first, valid_to=last)


_DATED_FIELDS = frozenset(("valid_from", "valid_to", "validity"))
_UNTIL_WORDS = frozenset(
    ("until", "till", "to", "thru", "through", "valid until", "valid to", "valid thru", "bis", "tot")
)
_FROM_WORDS = frozenset(
    (
        "from",
        "as of",
        "effective",
        "eff",
        "ab",
        "vanaf",
        "starting",
        "rates from",
        "prices from",
        "valid from",
        "rate from",
    )
)
_PARTS_OF_A_PLACE = frozenset(("code", "name", "un locode", "unlocode", "locode", "place", "city", "port"))


def _head_text(page: Page, row: int, at: int, band: range) -> str:
    """Return what stands over a column in a row of headers; a group's title reaches over columns without one."""
    if (row, at) in page.values:
        return page.text(row, at)
    if row == band[-1] or not any((below, at) in page.values for below in band if below > row):
        return ""
    left = at
    while left > 0 and (row, left) not in page.values:
        left -= 1
    text = page.text(row, left)
    above = _repeats(page, band[-1], left, at)
    return text if text and above and _says_traits(text) else ""


def _repeats(page: Page, row: int, left: int, at: int) -> bool:
    return all((row, column) in page.values for column in range(left, at + 1))


def _says_traits(text: str) -> bool:
    traits = traits_in(text)[0]
    return traits != NO_TRAITS


def _may_be_prices(block: Block) -> bool:
    """Return whether a column that nothing is known of holds figures, so that it must be asked for."""
    return bool(block.of(*PLACES)) and any(
        not column.meaning.field
        and any(looks_like_price(block.page.values.get((row, column.at))) for row in block.rows)
        for column in block.columns
    )


def title_traits(text: str) -> Traits:
    """Return what a title between the rows or above a table says: "ENCLOSED TRANSPORT", "Open trailers, USD"."""
    return traits_in(text)[0]
