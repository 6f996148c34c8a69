"""The cells of prices in one row of a table: each read with everything that is said of it, or named as left out."""

import re
from collections.abc import Iterator, Sequence
from decimal import Decimal

from shipcalc.ratebook.taking.answers import EVERY, LEAVE_OUT, TAKE
from shipcalc.ratebook.taking.around import Around
from shipcalc.ratebook.taking.blocks import Block, BlockColumn
from shipcalc.ratebook.taking.charges import mode_of
from shipcalc.ratebook.taking.choosing import (
    FOR_A_MEASURE,
    HOLDS_FOR,
    PLAIN,
    Chosen,
    adds_up,
    is_way_back,
    kind_of_vehicles,
)
from shipcalc.ratebook.taking.ends import End, Unclear
from shipcalc.ratebook.taking.figures import Figure, NoFigure, figure_in
from shipcalc.ratebook.taking.meanings import SURCHARGE
from shipcalc.ratebook.taking.onward import ANY_PORT, onward_rates
from shipcalc.ratebook.taking.rate import LeftOut, Rate, Target
from shipcalc.ratebook.taking.row import (
    Doubt,
    Row,
    carrier_of,
    currency_of,
    days_of,
    fuel_of,
    row_told,
    text_in,
    whole_in,
)
from shipcalc.ratebook.taking.sides import is_from_port_by_road
from shipcalc.ratebook.taking.spots import port_in
from shipcalc.ratebook.taking.surcharges import surcharge_rates
from shipcalc.ratebook.taking.traits import BACK_HAUL, DOLLAR, MEASURE, SOME_ALONE, Traits, traits_in
from shipcalc.records import replace
from shipcalc.trade import TRAILERS

KM_IN_A_MILE = Decimal("1.609344")


# A whole trip costs more than this, and a mile less; what is on the wrong side is asked for or left out.
LEAST_FLAT, MOST_PER_MILE = Decimal(25), Decimal(25)


HALF_A_CENT = Decimal("0.005")
OCEAN_BASES = ("per W/M", "per m³", "per 20′", "per 40′", "per 40′HC", "per container")


DEAREST = "the dearest"


def rates_of_row(row: Row, chosen: Chosen, left: list[LeftOut]) -> Iterator[Rate]:
    """Yield the rates of all prices in a row; what is left out is put to `left`."""
    block, page = row.block, row.block.page
    seen = False
    found: list[Rate] = []
    for column in chosen.prices:
        spot = (row.body.row, column.at)
        where = page.short(*spot)
        if spot not in page.values:
            continue
        seen = True
        if spot in page.struck:
            left.append(LeftOut(where, page.text(*spot), "is struck out"))
            continue
        rates = rates_of_cell(row, column, chosen, left)
        found += rates
    yield from _without_quotients(row, found, left)
    if not seen and not any((row.body.row, column.at) in page.values for column in block.of(LEAVE_OUT)):
        least = next((c for c in block.of("minimum") if (row.body.row, c.at) in page.values), None)
        at = chosen.prices[0].at if chosen.prices else (least.at if least else block.columns[0].at)
        told = " ".join(list(page.row(row.body.row).values())[:4])
        left.append(
            LeftOut(page.short(row.body.row, at), told, "has no price" + (": a minimum alone is none" if least else ""))
        )


def _without_quotients(row: Row, rates: Sequence[Rate], left: list[LeftOut]) -> Iterator[Rate]:
    """Yield the rates of a row without those a mile that are its sum divided by its miles: the sum is the price."""
    miles = next(
        (figure_in(row.block.page.values.get((row.body.row, c.at)), "", ".") for c in row.block.of("distance")), None
    )
    for rate in rates:
        sums = [one.flat for one in rates if one.flat is not None and one.trailer == rate.trailer]
        if (
            isinstance(miles, Figure)
            and rate.per_mile is not None
            and any(abs(rate.per_mile * miles.number - flat) <= 1 + miles.number * HALF_A_CENT for flat in sums)
        ):
            left.append(LeftOut(rate.where, f"{rate.per_mile:f}", "is the price of its row divided by its miles"))
        else:
            yield rate


def rates_of_cell(row: Row, column: BlockColumn, chosen: Chosen, left: list[LeftOut]) -> tuple[Rate, ...]:
    """Return the rates of one cell of a price, one for each pair of ends; () with the reason put to `left`."""
    page, spot, around = row.block.page, (row.body.row, column.at), row.around
    where, text = page.short(*spot), page.text(*spot)
    heard = column.meaning.traits.over(row.traits).over(around.facts.traits)
    finer = bool(heard.unit) or heard.basis in ("per W/M", "per m³")
    figure = figure_in(page.values[spot], page.formats.get(spot, ""), around.mark, finer=finer)
    if isinstance(figure, NoFigure):
        if figure.why:
            left.append(LeftOut(where, text, figure.why))
        return ()
    why = _against(figure, row, column, heard, chosen)
    if why:
        left.append(LeftOut(where, text, why))
        return ()
    if figure.mark:
        note = _note_of(figure.mark, around) or "nothing that was found"
        is_taken = around.answers.get("marked") == TAKE
        left.append(LeftOut(where, text, f"has a mark that refers to: {note}", is_taken))
        if not is_taken:
            return ()
    if figure.traits.limits:
        left.append(LeftOut(where, text, HOLDS_FOR.format(", ".join(figure.traits.limits)), is_taken=True))
    traits = figure.traits.over(heard)
    if not traits.currency and _others_name_currency(row):
        left.append(LeftOut(where, text, "names no currency, which other rows of the table do"))
        return ()
    try:
        return tuple(_made(row, column, figure, traits, where, chosen))
    except Doubt as doubt:
        left.append(LeftOut(doubt.where, doubt.what, doubt.why))
        if doubt.where != where and page.short(*spot) not in {item.where for item in left}:
            left.append(LeftOut(where, text, f"is not taken without {doubt.where}"))
        return ()


def _others_name_currency(row: Row) -> bool:
    """Return whether the table has a column that names currencies, where this row's is blank."""
    page = row.block.page
    return any((one, column.at) in page.values for column in row.block.of("currency") for one in row.block.rows)


def _against(figure: Figure, row: Row, column: BlockColumn, heard: Traits, chosen: Chosen) -> str:
    """Return what speaks against taking a figure as the price that its column is; "" for nothing."""
    own, head, body = figure.traits, column.meaning.traits, row.traits
    if figure.percent:
        return "is a percentage, not a price"
    if figure.number == 0:
        return "is nothing: no price"
    for name in ("trailer", "currency", "basis", "mode"):
        told = {value for traits in (own, head, body) if (value := getattr(traits, name))}
        if (
            name == "currency"
            and DOLLAR in told
            and len(told) == 2
            and any(code.endswith("D") for code in told - {DOLLAR})
        ):
            continue
        if len(told) > 1:
            return f"two readings of its {name}: {' and '.join(sorted(told))}"
    if MEASURE in (own.unit, heard.unit, *(traits_in(text)[0].unit for text in kinds_in(row))):
        return FOR_A_MEASURE
    if set(body.variant.split(" and ")) & SOME_ALONE and body.variant != head.variant:
        return f"holds for {body.variant} alone, for which the sheet has no column"
    which, condition = row.around.answers.get("which"), condition_of(row, column, own.over(heard))
    kinds = (condition, text_in(row, "condition"), kind_of_vehicles(column))
    is_meant = which in (DEAREST, *kinds) or set(which.split("; ")) <= set(condition.split("; "))
    if which and any(kinds) and not is_meant:
        return f"holds for {condition or ' '.join(kinds).strip()}"
    if (
        column.meaning.field == "total"
        and chosen.parts
        and not adds_up(row.block, row.body.row, figure.number, chosen.parts)
    ):
        return "is not what its parts add up to"
    return ""


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


def _note_of(mark: str, around: Around) -> str:
    """Return the line of the letter that a mark at a price refers to, "" where there is none."""
    return next((text for sign, text in around.facts.where if sign == f"note {mark}"), "")


def _made(row: Row, column: BlockColumn, figure: Figure, traits: Traits, where: str, chosen: Chosen) -> Iterator[Rate]:
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
        try:
            yield from surcharge_rates(page, spot, column.meaning, like, row.around.mark)
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
