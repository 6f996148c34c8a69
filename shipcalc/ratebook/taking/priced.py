"""A price that was read → rates with both ends, sums and days: a lane, a freight by sea with its surcharges, or a road abroad."""

import re
from collections.abc import Iterator, Sequence
from decimal import Decimal

from shipcalc.ratebook.taking.answers import EVERY
from shipcalc.ratebook.taking.blocks import Block, BlockColumn
from shipcalc.ratebook.taking.charges import mode_of
from shipcalc.ratebook.taking.choosing import (
    PLAIN,
    Chosen,
    is_way_back,
)
from shipcalc.ratebook.taking.ends import End, Unclear
from shipcalc.ratebook.taking.figures import Figure, NoFigure, figure_in
from shipcalc.ratebook.taking.meanings import SURCHARGE, with_traits
from shipcalc.ratebook.taking.onward import ANY_PORT, onward_rates
from shipcalc.ratebook.taking.port_names import port_in
from shipcalc.ratebook.taking.rate import Rate, Target
from shipcalc.ratebook.taking.row import Row, carrier_of, currency_of, days_of, fuel_of, row_told, text_in, whole_in
from shipcalc.ratebook.taking.row_traits import Doubt, traits_beside
from shipcalc.ratebook.taking.sides import is_from_port_by_road
from shipcalc.ratebook.taking.surcharges import surcharge_rates
from shipcalc.ratebook.taking.trait_words import BACK_HAUL
from shipcalc.ratebook.taking.traits import Traits
from shipcalc.records import replace
from shipcalc.trade import TRAILERS

KM_IN_A_MILE = Decimal("1.609344")
# A whole trip costs more than this, and a mile less; what is on the wrong side is asked for or left out.
LEAST_FLAT, MOST_PER_MILE = Decimal(25), Decimal(25)
OCEAN_BASES = ("per W/M", "per m³", "per 20′", "per 40′", "per 40′HC", "per container")


def kinds_in(row: Row) -> list[str]:
    """Return what a row says of its vehicles in columns of kinds and of limits; a bare number with its header."""
    columns = row.block.of("condition", "limit")
    told = [(column.header, row.block.page.text(row.body.row, column.at)) for column in columns]
    return [text if re.search(r"[^\W\d_]", text) else f"{header}: {text}" for header, text in told if text]


def condition_of(row: Row, column: BlockColumn, traits: Traits) -> str:
    """Return for which vehicles alone a price holds, which no column of a sheet says: it is kept as the row's note."""
    variant = traits.variant if traits.variant not in (*PLAIN, BACK_HAUL) else ""
    texts = [*kinds_in(row), variant, *traits.limits]
    return "; ".join(dict.fromkeys(text for text in texts if text))


def made(row: Row, column: BlockColumn, figure: Figure, traits: Traits, where: str, chosen: Chosen) -> Iterator[Rate]:
    """Yield the rates of one price: one for each pair of ends. Raises Doubt."""
    facts, answers, block = row.around.facts, row.around.answers, row.block
    target = target_of(block, traits, row)
    base = Rate(
        target=target,
        where=where,
        row=row.block.page.sheet_row(row.body.row, column.at),
        carrier=carrier_of(row),
        trailer=traits.trailer or ("" if answers.get("trailer") == EVERY else answers.get("trailer")),
        mode=mode_of(traits) or answers.get("mode"),
        currency=currency_of(traits.currency, row.around),
        fuel_included=True if _is_total_with_fuel(row, column, chosen) else fuel_of(traits, column, row.around),
        basis=traits.basis or (answers.get("basis") if target == "Ocean quotations" else ""),
        reference=text_in(row, "reference") or facts.reference or answers.get("reference"),
        remark=text_in(row, "remark"),
        condition=condition_of(row, column, traits),
        free_days=whole_in(text_in(row, "free_days")) or facts.free_days,
    )
    valid_from, valid_to = days_of(row)
    if column.meaning.valid_from is not None or column.meaning.valid_to is not None:
        valid_from, valid_to = column.meaning.valid_from, column.meaning.valid_to
    base = replace(base, valid_from=valid_from, valid_to=valid_to)
    base = _priced(base, figure, traits, row, column)
    starts, ends = (row.end, row.start) if is_way_back(column) else (row.start, row.end)
    if target == "Ocean quotations":
        starts, ends = _ports(row, starts, "from"), _ports(row, ends, "to")
    elif onward := _onward(row, base, starts, ends):
        yield from onward
        return
    for start in starts or (None,):
        for end in ends or (None,):
            yield replace(base, start=start, end=end)
            if target == "Ocean quotations" and column == chosen.prices[0]:
                yield from _surcharges(
                    row, replace(base, start=start, end=end, condition="; ".join(kinds_in(row))), column, traits
                )
            if row.both_ways:
                yield replace(base, start=end, end=start)


def _onward(row: Row, base: Rate, starts: Sequence[End], ends: Sequence[End]) -> tuple[Rate, ...]:
    """Return a price by road as rates of On-carriage, () where it is a lane. Raises Doubt."""
    try:
        rates = onward_rates(base, starts or _port_of_letter(row), ends)
    except Unclear as why:
        raise Doubt(base.where, row_told(row.block, row.body.row), why.why) from None
    is_for_every = not base.trailer and row.around.answers.get("trailer") == EVERY
    return (
        tuple(replace(rate, trailer=trailer) for rate in rates for trailer in TRAILERS[:2]) if is_for_every else rates
    )


def _port_of_letter(row: Row) -> tuple[End, ...]:
    """Return the port that the letter or an answer names as the start of roads abroad, () for any. Raises Unclear."""
    facts, told = row.around.facts, row.around.answers.get("from") or row.around.facts.start
    if told and told.casefold() != ANY_PORT:
        return (End(told, "city"),)
    return (End(facts.pod or facts.pol, "port"),) if facts.pod or facts.pol else ()


def _surcharges(row: Row, like: Rate, price: BlockColumn, traits: Traits) -> Iterator[Rate]:
    """Yield what a row asks on top of its freight, in columns of their own; nothing on top of a total. Raises Doubt."""
    page = row.block.page
    for column in row.block.columns:
        spot = (row.body.row, column.at)
        field = column.meaning.field
        if not field.startswith(SURCHARGE) or spot not in page.values or _holds_already(price, traits, field):
            continue
        meaning = with_traits(column.meaning, traits_beside(row.block, row.body.row, column.at))
        try:
            yield from surcharge_rates(page, spot, meaning, like, row.around.mark)
        except ValueError as why:
            raise Doubt(page.short(*spot), page.text(*spot), str(why)) from None


def _holds_already(price: BlockColumn, traits: Traits, field: str) -> bool:
    """Return whether a price has a surcharge in it: a total has all, a price with fuel that for bunkers."""
    return price.meaning.field == "total" or (traits.fuel is True and field == f"{SURCHARGE}bunker")


def _ports(row: Row, ends: Sequence[End], which: str) -> tuple[End, ...]:
    """Return the ports of a freight by sea. Raises Doubt where one is none."""
    where = row.block.page.short(row.body.row, row.block.columns[0].at)
    told = row.around.facts.pol if which == "from" else row.around.facts.pod
    if not ends and told:
        return (End(told, "port"),)
    if not ends:
        raise Doubt(
            where, row_told(row.block, row.body.row), f"is a freight by sea, and no port is said that it goes {which}"
        )
    try:
        return tuple(end if end.kind == "port" else port_in(end.text) for end in ends)
    except Unclear as why:
        raise Doubt(where, ends[0].text, why.why) from None


def target_of(block: Block, traits: Traits, row: Row | None = None) -> Target:
    """Return the sheet that a table's prices belong to."""
    if is_from_port_by_road(block) and not traits.mode:
        return "Lanes"
    if block.of("pol", "pod") or traits.mode or traits.basis in OCEAN_BASES:
        return "Ocean quotations"
    return "Lanes"


def _priced(base: Rate, figure: Figure, traits: Traits, row: Row, column: BlockColumn) -> Rate:
    """Return a rate with its sums. Raises Doubt where a sum cannot be for a whole trip, or for a mile."""
    number, where = figure.number, base.where
    minimum = figure.minimum if figure.minimum is not None else _minimum(row, traits, where)
    if base.target == "Ocean quotations":
        return replace(base, flat=number, minimum=minimum)
    unit = traits.unit or {"mile": "mi", "kilometre": "km"}.get(row.around.answers.get("unit"), "")
    if unit and not traits.unit and number >= MOST_PER_MILE:
        unit = ""
    if unit == "km":
        number = number * KM_IN_A_MILE
    if unit:
        if number > MOST_PER_MILE:
            raise Doubt(where, str(figure.number), "is too much for a mile")
        return replace(base, per_mile=number, minimum=minimum)
    if number < LEAST_FLAT:
        why = "is too little for a whole trip: is it for a mile?"
        raise Doubt(where, str(figure.number), why)
    return replace(base, flat=number, remark=base.remark, minimum=None)


def _minimum(row: Row, traits: Traits, where: str) -> Decimal | None:
    page = row.block.page
    for column in row.block.of("minimum"):
        if column.meaning.traits.trailer not in ("", traits.trailer) or (row.body.row, column.at) not in page.values:
            continue
        spot = (row.body.row, column.at)
        value = page.values[spot]
        bare = re.sub(r"^min(?:imum|\.)?\s*:?\s*", "", value, flags=re.IGNORECASE) if isinstance(value, str) else value
        found = figure_in(bare, page.formats.get(spot, ""), row.around.mark)
        if isinstance(found, NoFigure):
            if found.why:
                raise Doubt(page.short(*spot), page.text(*spot), f"as the minimum of {where} {found.why}")
            return None
        return found.number
    return None


def _is_total_with_fuel(row: Row, column: BlockColumn, chosen: Chosen) -> bool:
    """Return whether a price is a total that adds up, with a sum for fuel among its parts."""
    spots = [(row.body.row, one.at) for one in row.block.of("fuel")]
    filled = [spot for spot in spots if isinstance(row.block.page.values.get(spot), (int, float, str))]
    return column.meaning.field == "total" and bool(chosen.parts) and bool(filled)
