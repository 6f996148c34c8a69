"""One row of a table: where it goes from and to, and what its own cells say."""

import re
from datetime import date
from functools import lru_cache

from shipcalc.ratebook.taking.answers import INCLUDED, NOT_INCLUDED
from shipcalc.ratebook.taking.around import Around
from shipcalc.ratebook.taking.blocks import Block, BlockColumn
from shipcalc.ratebook.taking.body import Body, BodyRow
from shipcalc.ratebook.taking.currencies import DOLLAR
from shipcalc.ratebook.taking.days import day_in, days_in
from shipcalc.ratebook.taking.ends import End, Unclear
from shipcalc.ratebook.taking.lane_text import end_in_title, ends_of_lane, ends_of_ports
from shipcalc.ratebook.taking.port_names import port_in
from shipcalc.ratebook.taking.row_ends import ends_at
from shipcalc.ratebook.taking.row_traits import Doubt, traits_of_columns
from shipcalc.ratebook.taking.sides import Sides
from shipcalc.ratebook.taking.spots import ends_in
from shipcalc.ratebook.taking.traits import Traits
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a table with what is known of it before its prices are read."""

    block: Block
    body: BodyRow
    around: Around
    traits: Traits
    start: tuple[End, ...]
    end: tuple[End, ...]
    both_ways: bool = False


def row_told(block: Block, row: int) -> str:
    """Return a row's cells as one text."""
    return " ".join(dict.fromkeys(block.page.row(row).values()))


STRUCK = "is struck out, and with it the row"


NOT_SAVED = "has no saved result: open the file in Excel and save it"


def row_of(block: Block, one: BodyRow, sides: Sides, body: Body, around: Around) -> Row:
    """Return a row with its ends and traits. Raises Doubt with the cell that is not understood."""
    for column in block.columns:
        if block.page.is_lost(one.row, column.at):
            raise Doubt(block.page.short(one.row, column.at), "a formula", NOT_SAVED)
        if (one.row, column.at) in block.page.struck and not column.meaning.is_price:
            raise Doubt(block.page.short(one.row, column.at), block.page.text(one.row, column.at), STRUCK)
    traits = traits_of_columns(block, one.row).over(one.traits)
    if sides.lane is not None:
        text = block.page.text(one.row, sides.lane.at)
        try:
            start, end, both = (
                ends_of_ports(text) if _is_between_ports(sides.lane, traits, around) else ends_of_lane(text, around)
            )
        except Unclear as why:
            raise Doubt(block.page.short(one.row, sides.lane.at), text, why.why) from None
        return Row(block, one, around, traits, start, end, both)
    start = _ends(block, one, sides, "start", body, around)
    end = _ends(block, one, sides, "end", body, around)
    return Row(block, one, around, traits, start, end)


def _is_between_ports(lane: BlockColumn, traits: Traits, around: Around) -> bool:
    """Return whether lanes in one cell are from port to port: their header says so, or the mail that they go by ship."""
    says_port = re.search(r"\b(?:pol|pod|ports?)\b", lane.header, re.IGNORECASE) is not None
    return says_port or bool(traits.mode or around.facts.traits.mode)


def _ends(block: Block, one: BodyRow, sides: Sides, which: str, body: Body, around: Around) -> tuple[End, ...]:
    side = sides.start if which == "start" else sides.end
    if side:
        at = next((at for at in side.ats if (one.row, at) in block.page.values), side.ats[0])
        try:
            return ends_at(side, block.page, one.row, body, around)
        except Unclear as why:
            raise Doubt(block.page.short(one.row, at), block.page.text(one.row, at), why.why) from None
    for title in reversed(one.titles):
        named, ends = end_in_title(title, around)
        if ends and named in ("", "from" if which == "start" else "to"):
            return ends
    return _told_end(around, which, is_port=bool(block.of("pol", "pod")))


def _told_end(around: Around, which: str, *, is_port: bool) -> tuple[End, ...]:
    """Return an end that the letter or an answer says for all rows; () where none does."""
    text = around.answers.get("from" if which == "start" else "to") or (around.facts.start if which == "start" else "")
    if not text:
        return ()
    try:
        return (port_in(text),) if is_port else ends_in(text, around.known.names)
    except Unclear:
        return ()


def carrier_of(row: Row) -> str:
    """Return who asks a row's price: its own cell, where several senders share a table, else the mail's sender."""
    own = text_in(row, "carrier") or text_in(row, "forwarder")
    known = {carrier.casefold(): carrier for carrier in row.around.known.carriers}
    several = len(_senders(row.block)) > 1
    return known.get(own.casefold(), "") or ("" if several else row.around.sender) or own


@lru_cache(maxsize=64)
def _senders(block: Block) -> frozenset[str]:
    """Return all that the columns of carriers say, in small letters."""
    columns = block.of("carrier", "forwarder")
    return frozenset(text.casefold() for c in columns for row in block.rows if (text := block.page.text(row, c.at)))


def currency_of(said: str, around: Around) -> str:
    """Return the code of a currency; a bare dollar is the letter's, else the answered one, else the rate book's."""
    told = around.facts.traits.currency
    if said == DOLLAR:
        return (
            told
            if told and told != DOLLAR and told.endswith("D")
            else around.answers.get("currency")
            or (around.known.currency if around.known.currency.endswith("D") else "USD")
        )
    return said or around.answers.get("currency")


def fuel_of(traits: Traits, column: BlockColumn, around: Around) -> bool | None:
    """Return whether fuel is in a price, None where nothing says so."""
    if traits.fuel is not None:
        return traits.fuel
    if column.meaning.field == "linehaul":
        return False
    return {INCLUDED: True, NOT_INCLUDED: False}.get(around.answers.get("fuel"))


def text_in(row: Row, field: str) -> str:
    """Return what a row says in the columns of a field."""
    texts = [text for column in row.block.of(field) if (text := row.block.page.text(row.body.row, column.at))]
    return "; ".join(texts)


def whole_in(text: str) -> int | None:
    """Return the one whole number in a text: "7 days"; None where there are two, or it is too large."""
    numbers = re.findall(r"\d+", text)
    return int(numbers[0]) if len(numbers) == 1 and len(numbers[0]) <= 3 else None


def days_of(row: Row) -> tuple[date | None, date | None]:
    """Return the days of a row: its own cells, else what the letter says. Raises Doubt for a day that can be two."""
    found: dict[str, date | None] = {}
    for field in ("valid_from", "valid_to"):
        for column in row.block.of(field):
            value = row.block.page.values.get((row.body.row, column.at))
            day = day_in(value, row.around.order) if value is not None else None
            where = row.block.page.short(row.body.row, column.at)
            if isinstance(day, tuple):
                raise Doubt(where, row.block.page.text(row.body.row, column.at), f"can be {day[0]} or {day[1]}")
            if (
                value is not None
                and day is None
                and any(sign.isdigit() for sign in row.block.page.text(row.body.row, column.at))
            ):
                raise Doubt(where, row.block.page.text(row.body.row, column.at), "is no day")
            found[field] = day or found.get(field)
    for column in row.block.of("validity"):
        days = days_in(row.block.page.text(row.body.row, column.at), row.around.order)
        known = [one.day for one in days if one.day is not None]
        rest = row.block.page.text(row.body.row, column.at)
        for one in reversed(days):
            rest = f"{rest[: one.start]} {rest[one.end :]}"
        if len(known) != len(days) or len(days) > 2 or (days and any(sign.isdigit() for sign in rest)):
            raise Doubt(
                row.block.page.short(row.body.row, column.at),
                row.block.page.text(row.body.row, column.at),
                "does not say plainly from when to when",
            )
        found |= (
            dict(zip(("valid_from", "valid_to"), known, strict=True))
            if len(known) == 2
            else {"valid_to": known[0]}
            if known
            else {}
        )
    facts = row.around.facts
    return found.get("valid_from") or facts.valid_from, found.get("valid_to") or facts.valid_to
