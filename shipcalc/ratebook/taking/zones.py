"""Zones that a mail explains: in a table (zone, states) or in lines ("Zone A: WA, OR"); at home they become areas of the book."""

import re
from collections.abc import Iterable, Iterator, Sequence

from shipcalc.ratebook.taking.around import Around, Zone
from shipcalc.ratebook.taking.blocks import Block, zone_tables
from shipcalc.ratebook.taking.body import body_of
from shipcalc.ratebook.taking.ends import End, Unclear
from shipcalc.ratebook.taking.excepted import without
from shipcalc.ratebook.taking.figures import looks_like_price
from shipcalc.ratebook.taking.notes import ZONE_LINE
from shipcalc.ratebook.taking.page import Page
from shipcalc.ratebook.taking.rate import LeftOut, Rate
from shipcalc.ratebook.taking.row_ends import area_of, ends_at
from shipcalc.ratebook.taking.sides import Side
from shipcalc.ratebook.taking.spots import ends_in
from shipcalc.ratebook.taking.stated import states
from shipcalc.ratebook.taking.traits import bare_words
from shipcalc.ratebook.taking.vocabulary import EXCEPTING
from shipcalc.records import replace

PARTS = ("state", "zip", "zip_low", "zip_high", "city", "place", "country")
_LABEL = re.compile(r"zone\s+([a-z]|\d{1,2}|[ivx]{1,4})\s*:?", re.IGNORECASE)
_SHORT = re.compile(r"([a-z]|\d{1,2}|[ivx]{1,4})\s*[:=.)]?", re.IGNORECASE)
_TITLE = re.compile(r"\b(?:zones?|zonen|zonas)\b", re.IGNORECASE)
Said = tuple[str, str, int, str, "tuple[End, ...] | str"]


def zones_in(pages: Iterable[Page], blocks: Iterable[Block], around: Around, left: list[LeftOut]) -> dict[str, Zone]:
    """Return the zones by their names in small letters; one that is not understood has no pieces and is put to `left`."""
    found: dict[str, list[tuple[End, str, int]]] = {}
    unclear: set[str] = set()
    blocks = tuple(blocks)
    said = [*_rows(blocks, around), *(one for page in pages for one in _lines(page, around))]
    for name, where, row, text, ends in said:
        if isinstance(ends, str):
            unclear.add(name)
            left.append(LeftOut(where, text, f"{ends}, so that the prices of zone {name.upper()} are not taken"))
        else:
            found.setdefault(name, []).extend((end, where, row) for end in ends)
    zones = {name: Zone(name, tuple(dict.fromkeys(pieces))) for name, pieces in found.items()}
    return zones | {name: Zone(name) for name in unclear}


def area_rates(rates: Sequence[Rate], around: Around, sender: str) -> Iterator[Rate]:
    """Yield the pieces of the zones that lanes are taken for, as rows of the sheet Areas."""
    used = {end.text for rate in rates for end in (rate.start, rate.end) if end is not None and end.kind == "zone"}
    for zone in around.zones.values():
        name = area_of(zone, sender)
        if name in used:
            for end, where, row in zone.pieces:
                yield Rate(target="Areas", where=where, row=row, carrier=sender, end=end, label=name)


def _rows(blocks: Iterable[Block], around: Around) -> Iterator[Said]:
    for block in blocks:
        zone = block.of("zone")[0].at
        side = Side({part: columns for part in PARTS if (columns := block.of(part))})
        block = replace(block, rows=range(block.rows.start, _end(block)))
        body = body_of(block, (zone, *side.ats), ())
        for one in body.rows:
            name = block.page.text(one.row, zone)
            at = next((at for at in side.ats if (one.row, at) in block.page.values), side.ats[0])
            where, text = block.page.short(one.row, at), block.page.text(one.row, at)
            if not name:
                continue
            row = block.page.sheet_row(one.row, at)
            but = [column.at for column in block.columns if bare_words(column.header) in EXCEPTING]
            if more := _said_beside(block, one.row, (zone, *side.ats, *but)):
                yield name.casefold(), where, row, text, f"has “{more}” beside its places"
                continue
            try:
                ends = ends_at(side, block.page, one.row, body, around)
                for out in (block.page.text(one.row, at) for at in but):
                    ends = without(ends, ends_in(out, around.known.names)) if out else ends
                yield name.casefold(), where, row, text, ends
            except Unclear as why:
                yield name.casefold(), where, row, text, why.why


def _said_beside(block: Block, row: int, read: Sequence[int]) -> str:
    """Return what a row says in columns that are not read and may be an exception: figures or words of conditions."""
    ats = [
        column.at
        for column in block.columns
        if column.at not in read and column.meaning.field not in ("distance", "skip")
    ]
    return next((text for at in ats if states(text := block.page.text(row, at))), "")


def legend_rows(page: Page) -> frozenset[int]:
    """Return the rows below a line about zones that hold a short name and words: "A | WA, OR", down to another kind of row."""
    found: set[int] = set()
    own: set[int] = set()
    for row in range(page.height):
        cells = page.row(row)
        texts = list(cells.values())
        if len(set(texts)) == 1 and _TITLE.search(texts[0]):
            own = {row}
        elif (
            own
            and len(texts) == 2
            and _SHORT.fullmatch(texts[0])
            and not looks_like_price(page.values[row, max(cells)])
        ):
            own.add(row)
            found |= own
        elif cells or len(own) > 1:
            own = set()
    return frozenset(found)


def rows_of_zones(page: Page, around: Around) -> frozenset[int]:
    """Return the rows of the tables that explain zones: no line of a letter."""
    blocks = zone_tables(page, around.answers.columns)
    return legend_rows(page) | {row for block in blocks for row in range(block.first_row, _end(block))}


def _end(block: Block) -> int:
    """Return the row after the last zone: a blank row ends the table."""
    columns = [column.at for column in block.columns]
    across = range(columns[0], columns[-1] + 1)
    first = next((row for row in block.rows if block.page.row(row, across)), block.rows.stop)
    return next((row for row in range(first, block.rows.stop) if not block.page.row(row, across)), block.rows.stop)


def _lines(page: Page, around: Around) -> Iterator[Said]:
    """Yield the zones that lines explain, in one cell or in two."""
    legend = legend_rows(page)
    for row in range(page.height):
        cells = list(page.row(row).items())
        if not cells or len(cells) > 2:
            continue
        one, label = ZONE_LINE.fullmatch(cells[0][1]), _LABEL.fullmatch(cells[0][1])
        at, text = cells[-1]
        label = label or (_SHORT.fullmatch(cells[0][1]) if row in legend else None)
        name = one[1] if one and len(cells) == 1 else label[1] if label and len(cells) == 2 else ""
        places = one[2] if one and len(cells) == 1 else text
        if not name or _LABEL.fullmatch(places) or looks_like_price(page.values[row, at]):
            continue
        where, number = page.short(row, at), page.sheet_row(row, at)
        try:
            yield name.casefold(), where, number, text, ends_in(places, around.known.names)
        except Unclear as why:
            yield name.casefold(), where, number, text, why.why
