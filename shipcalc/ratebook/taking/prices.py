"""The cells of prices in one row of a table: each read with everything that is said of it, or named as left out."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from shipcalc.ratebook.taking.answers import DEAREST, LEAVE_OUT, TAKE
from shipcalc.ratebook.taking.around import Around
from shipcalc.ratebook.taking.blocks import BlockColumn
from shipcalc.ratebook.taking.choosing import (
    FOR_A_MEASURE,
    HOLDS_FOR,
    Chosen,
    adds_up,
    kind_of_vehicles,
)
from shipcalc.ratebook.taking.currencies import DOLLAR
from shipcalc.ratebook.taking.figures import Figure, NoFigure, figure_in
from shipcalc.ratebook.taking.priced import condition_of, kinds_in, made
from shipcalc.ratebook.taking.rate import LeftOut, Rate
from shipcalc.ratebook.taking.row import Row, text_in
from shipcalc.ratebook.taking.row_traits import Doubt, traits_beside
from shipcalc.ratebook.taking.trait_words import MEASURE, SOME_ALONE
from shipcalc.ratebook.taking.traits import Traits, traits_in

HALF_A_CENT = Decimal("0.005")


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
    beside = traits_beside(row.block, row.body.row, column.at)
    heard = column.meaning.traits.over(beside).over(row.traits).over(around.facts.traits)
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
        return tuple(made(row, column, figure, traits, where, chosen))
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


def _note_of(mark: str, around: Around) -> str:
    """Return the line of the letter that a mark at a price refers to, "" where there is none."""
    return next((text for sign, text in around.facts.where if sign == f"note {mark}"), "")
