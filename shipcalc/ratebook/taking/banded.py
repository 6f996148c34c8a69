"""The prices a mile of a table by distance: one rate for each band and line."""

import re
from collections.abc import Iterator
from decimal import Decimal

from shipcalc.ratebook.taking.answers import EVERY
from shipcalc.ratebook.taking.around import Around
from shipcalc.ratebook.taking.bands import Band, BandTable
from shipcalc.ratebook.taking.figures import Figure, NoFigure, figure_in, looks_like_price
from shipcalc.ratebook.taking.meanings import meaning_of
from shipcalc.ratebook.taking.page import Page
from shipcalc.ratebook.taking.priced import KM_IN_A_MILE, LEAST_FLAT, MOST_PER_MILE
from shipcalc.ratebook.taking.rate import LeftOut, Question, Rate, Taken
from shipcalc.ratebook.taking.row import currency_of
from shipcalc.ratebook.taking.spans import span_said
from shipcalc.ratebook.taking.trait_words import STANDARD
from shipcalc.ratebook.taking.traits import NO_TRAITS, Traits, bare_words, traits_in
from shipcalc.records import dataclass, replace
from shipcalc.trade import TRAILERS

CENTS = "cents a mile"
KILOMETRES, MILES = "kilometre", "mile"
A_SUM = "is a sum for a trip of so many miles, for which the rate book has no column: Per mile takes prices a mile"
MINIMUM = "is a least sum, which goes into the column Minimum of the sheet Carriers by hand"
FUEL = {
    True: "is in these prices: the carrier's row on the sheet Carriers must name no fuel scheme",
    False: "comes on top of these prices: the carrier's row on the sheet Carriers must name its fuel scheme",
    None: "",
}
_QUIET = re.compile(
    r"\b(?:rates?|prices?|per|mile|miles|mi|carriers?|transport|trailers?|trucks?|service|single|vehicles?|cars?|units?|type|a|in|"
    r"all|any|standard|price|our|dealer|equipment|loaded|shipping|auto|each|distance|km|line haul|linehaul)\b"
)


@dataclass(frozen=True, slots=True)
class _Line:
    """A row or a column of prices: what is said of it, whose prices they are, why they are not taken."""

    traits: Traits
    carrier: str = ""
    why: str = ""


def taken_from_bands(table: BandTable, around: Around) -> Taken:
    """Return the rates of a table by distance; lines for some places or vehicles alone are named."""
    left: list[LeftOut] = []
    rates: list[Rate] = []
    for line in table.lines:
        said = _line(table, line, around)
        where = table.page.short(*table.spot(table.bands[0], line))
        told = " ".join(dict.fromkeys((*_labels(table, line).values(), *_prices_told(table, line)))).strip()
        if said.why:
            left.append(LeftOut(where, told, said.why))
            continue
        for band in table.bands:
            made = _rate(table, band, line, said, around)
            if isinstance(made, LeftOut):
                left.append(made)
            elif made is not None:
                rates += _by_trailer(made, around)
    left += _beside(table)
    left += _said_of_all(table, rates)
    asked = _asked_unit(table, around) if table.unit == "km" and not _unit_said(table, around) else ()
    return Taken(tuple(rates) if not asked else (), tuple(left), asked)


def _prices_told(table: BandTable, line: int) -> list[str]:
    return [table.page.text(*table.spot(band, line)) for band in table.bands][:3]


def _by_trailer(rate: Rate, around: Around) -> Iterator[Rate]:
    if not rate.trailer and around.answers.get("trailer") == EVERY:
        yield from (replace(rate, trailer=trailer) for trailer in TRAILERS[:2])
    else:
        yield replace(rate, trailer=rate.trailer or around.answers.get("trailer"))


def _line(table: BandTable, line: int, around: Around) -> _Line:
    """Return what the words at a line say: trailer and unit, whose it is, or that it is for some alone."""
    traits, carrier = NO_TRAITS, ""
    for header, text in _labels(table, line).items():
        field = meaning_of(bare_words(header)).field
        if field == "carrier":
            carrier = text
            continue
        if field in ("skip", "remark", "distance"):
            continue
        if meaning_of(text).field == "minimum":
            return _Line(traits, carrier, MINIMUM)
        own, rest = traits_in(text)
        beside, _ = traits_in(header) if field not in ("trailer",) else (NO_TRAITS, "")
        traits = own.over(beside).over(traits)
        others = _QUIET.sub(" ", bare_words(rest)).strip()
        known = {name.casefold(): name for name in around.known.carriers}
        if text.casefold() in known:
            carrier = known[text.casefold()]
        elif others and not own.variant:
            return _Line(traits, carrier, f"holds for “{text}” alone, and the sheet Per mile has no column for that")
    some = " ".join((*([traits.variant] if traits.variant not in ("", STANDARD) else []), *traits.limits))
    if some:
        return _Line(traits, carrier, f"holds for “{some}” alone, and the sheet Per mile has no column for that")
    return _Line(
        _titled(table, line).over(NO_TRAITS) if traits == NO_TRAITS else traits.over(_titled(table, line)), carrier
    )


def _labels(table: BandTable, line: int) -> dict[str, str]:
    """Return the words at a line: of a row by the headers of their columns, of a column what stands over it."""
    page = table.page
    if table.is_across:
        first = min(band.at for band in table.bands)
        cells = {
            at: text for at, text in page.row(line, range(first)).items() if not looks_like_price(page.values[line, at])
        }
        return {page.text(table.header_row, at) or f"column {at}": text for at, text in cells.items()}
    texts = [_over(page, row, line, table) for row in range(table.header_row, max(table.header_row - 3, -1), -1)]
    filled = [text for text in texts if text]
    return {f"row {number}": text for number, text in enumerate(dict.fromkeys(filled))}


def _over(page: Page, row: int, line: int, table: BandTable) -> str:
    """Return what stands over a column in a row of headers; higher up not a line of words, which speaks of all."""
    if row == table.header_row:
        return page.text(row, line)
    cells = page.row(row, range(min(table.columns), line + 1))
    if not page.row(row) or min(page.row(row)) <= min(table.columns):
        return ""
    return cells[max(cells)] if cells else ""


def _titled(table: BandTable, line: int) -> Traits:
    """Return what the nearest title between the rows of prices says, or the one over the bands across."""
    if not table.is_across:
        return NO_TRAITS
    page = table.page
    for row in range(line - 1, table.header_row, -1):
        texts = list(dict.fromkeys(page.row(row).values()))
        if row not in table.lines and len(texts) == 1:
            return traits_in(texts[0])[0]
    first = min(band.at for band in table.bands)
    above = (
        page.row(table.header_row - 1, range(first, max(band.at for band in table.bands) + 1))
        if table.header_row
        else {}
    )
    return traits_in(next(iter(above.values())))[0] if len(set(above.values())) == 1 else NO_TRAITS


def _rate(table: BandTable, band: Band, line: int, said: _Line, around: Around) -> Rate | LeftOut | None:
    page, spot = table.page, table.spot(band, line)
    where, text = page.short(*spot), page.text(*spot)
    if spot not in page.values:
        told = page.text(*band.spot)
        return LeftOut(where, told, "has no price for this band")
    if spot in page.struck:
        return LeftOut(where, text, "is struck out")
    figure = figure_in(page.values[spot], page.formats.get(spot, ""), around.mark, finer=True)
    if isinstance(figure, NoFigure):
        return LeftOut(where, text, figure.why) if figure.why else None
    traits = figure.traits.over(said.traits).over(around.facts.traits)
    number = _per_mile(figure, traits, table, around)
    if number is None:
        return LeftOut(where, text, "is a percentage, not a price" if figure.percent else A_SUM)
    if number > MOST_PER_MILE or number == 0 or figure.mark or figure.minimum is not None:
        return LeftOut(where, text, "is no plain price a mile")
    facts = around.facts
    return Rate(
        target="Per mile",
        where=where,
        row=page.sheet_row(*spot),
        carrier=said.carrier or around.sender,
        trailer=traits.trailer,
        span=band.span,
        per_mile=number,
        currency=currency_of(traits.currency, around),
        fuel_included=traits.fuel,
        valid_from=facts.valid_from,
        valid_to=facts.valid_to,
        reference=facts.reference,
    )


def _per_mile(figure: Figure, traits: Traits, table: BandTable, around: Around) -> Decimal | None:
    """Return a price for one mile; None for a percentage and for a sum of a whole trip."""
    if figure.percent or (not traits.unit and figure.number >= LEAST_FLAT):
        return None
    number = figure.number / 100 if traits.unit == CENTS else figure.number
    unit = traits.unit or {KILOMETRES: "km", MILES: "mi"}.get(around.answers.get("unit"), "")
    return number * KM_IN_A_MILE if unit == "km" else number


def _unit_said(table: BandTable, around: Around) -> bool:
    heads = [_line(table, line, around).traits.unit for line in table.lines]
    return bool(all(heads) or around.facts.traits.unit or around.answers.get("unit"))


def _asked_unit(table: BandTable, around: Around) -> tuple[Question, ...]:
    where = table.page.short(*table.bands[0].spot)
    text = f"The bands at {where} count kilometres. Are their prices for a kilometre or for a mile?"
    return (Question("unit", text, (KILOMETRES, MILES), where),)


def _beside(table: BandTable) -> Iterator[LeftOut]:
    """Yield the figures in the rows of a table across that stand in no band: least sums, shares for fuel, miles."""
    page = table.page
    if not table.is_across:
        return
    own = {band.at for band in table.bands}
    for line in table.lines:
        for at, text in page.row(line).items():
            header = page.text(table.header_row, at)
            is_other = span_said(header) is None and (looks_like_price(page.values[line, at]) or at > max(own))
            if at not in own and is_other:
                is_least = meaning_of(header).field == "minimum"
                why = MINIMUM if is_least else f"stands under “{header}” and is in none of the prices a mile"
                yield LeftOut(page.short(line, at), text, why)


def _said_of_all(table: BandTable, rates: list[Rate]) -> Iterator[LeftOut]:
    """Yield what goes with prices by distance, and stands on another sheet: the fuel scheme; bounds that were kilometres."""
    where = table.page.short(*table.bands[0].spot)
    told = table.page.text(*table.bands[0].spot)
    fuel = {rate.fuel_included for rate in rates}
    if rates:
        why = FUEL.get(fuel.pop()) if len(fuel) == 1 else None
        why = why or "is in these prices or not: the mail does not say it of all"
        yield LeftOut(where, "fuel", why, is_taken=True)
    if rates and any(band.span.was_km for band in table.bands):
        yield LeftOut(where, told, "is in kilometres, and is written in whole miles", is_taken=True)
