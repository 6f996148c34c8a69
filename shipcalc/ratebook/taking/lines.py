"""One table → its rates: each cell of a price read with everything that is said of it, or named as left out."""

from collections.abc import Iterator, Sequence
from datetime import date
from decimal import Decimal
from functools import lru_cache

from shipcalc.ratebook.taking.answers import EVERY, INCLUDED, LEAVE_OUT, NOT_INCLUDED, TAKE
from shipcalc.ratebook.taking.around import Around
from shipcalc.ratebook.taking.blocks import Block, BlockColumn
from shipcalc.ratebook.taking.body import Body, BodyRow, body_of
from shipcalc.ratebook.taking.charges import items_of, mode_of, surcharge_rates, taken_charges
from shipcalc.ratebook.taking.choosing import Chosen, adds_up, chosen_prices
from shipcalc.ratebook.taking.days import day_in, days_in
from shipcalc.ratebook.taking.figures import Figure, NoFigure, figure_in
from shipcalc.ratebook.taking.meanings import SURCHARGE, Meaning, meaning_of
from shipcalc.ratebook.taking.notes import says_sum, told_beside
from shipcalc.ratebook.taking.rate import LeftOut, Question, Rate, Target
from shipcalc.ratebook.taking.sides import Sides, end_in_title, ends_at, ends_of_lane, sides_of
from shipcalc.ratebook.taking.spots import End, Unclear, ends_in, port_in
from shipcalc.ratebook.taking.traits import DOLLAR, NO_TRAITS, Traits, traits_in
from shipcalc.records import dataclass, replace

KM_IN_A_MILE = Decimal("1.609344")
# A whole trip costs more than this, and a mile less; what is on the wrong side is asked for or left out.
LEAST_FLAT, MOST_PER_MILE = Decimal(25), Decimal(25)
OCEAN_BASES = ("per W/M", "per m³", "per 20′", "per 40′", "per 40′HC", "per container")


@dataclass(frozen=True, slots=True)
class Taken:
    """What came of one table."""

    rates: tuple[Rate, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    questions: tuple[Question, ...] = ()
    body: Body | None = None
    notes: tuple[str, ...] = ()


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


def taken_from(block: Block, around: Around) -> Taken:
    """Return the rates of a table, what was left out and what must be asked first."""
    sides = sides_of(block, around)
    places = (*sides.start.ats, *sides.end.ats, *([sides.lane.at] if sides.lane else []))
    prices = [column.at for column in (*block.prices, *block.of("minimum"))]
    body = body_of(block, places, prices)
    rows = [one.row for one in body.rows]
    chosen = chosen_prices(block, rows)
    left = [*chosen.left_out, *body.left_out, *_unread(block, sides, rows)]
    left += told_beside(body.lines_inside, around.order)
    left += (
        LeftOut(block.page.short(row, block.columns[0].at), text, BETWEEN)
        for row, text in body.titles
        if says_sum(text)
    )
    questions = [*chosen.questions, *_questions_of_places(block, sides, around), *_conditions(block, rows, left)]
    if block.of("charge") and not places:
        charged, named = taken_charges(block.page, list(items_of(block, body)), around)
        return Taken(charged, (*body.left_out, *named), (), body)
    if questions and any(question.key.startswith("columns") for question in questions):
        return Taken((), tuple(left), tuple(questions), body)
    if not places and block.of("distance") and not around.answers.get("from"):
        left += (
            LeftOut(block.page.short(row, block.columns[0].at), _row_told(block, row), BY_DISTANCE) for row in rows
        )
        return Taken((), tuple(left), (), body)
    rates: list[Rate] = []
    for one in body.rows:
        if surcharge := _surcharge_for_all(block, one, sides):
            rates += _of_all(block, one, surcharge, chosen, around, left)
            continue
        try:
            row = _row(block, one, sides, body, around)
        except _Doubt as doubt:
            left.append(LeftOut(doubt.where, doubt.what, doubt.why))
            continue
        rates += _rates_of(row, chosen, left)
        left += _remarks(block, one.row)
        left += _areas(row)
    marked = [item for item in left if item.why.startswith("has a mark")]
    if marked and 2 * len(marked) >= len(rates) and not around.answers.get("marked"):
        refers = marked[0].why.removeprefix("has a mark that ")
        text = f"Many prices carry a mark ({marked[0].where}), which {refers}. Are they to be taken?"
        questions.append(Question("marked", text, (TAKE, LEAVE_OUT), marked[0].where))
    return Taken(tuple(rates), tuple(left), tuple(questions), body)


def _row_told(block: Block, row: int) -> str:
    return " ".join(dict.fromkeys(block.page.row(row).values()))


MOST_CONDITIONS = 9
DEAREST = "the dearest"


def _conditions(block: Block, rows: Sequence[int], left: list[LeftOut]) -> Iterator[Question]:
    """Yield the question which of the prices by length or kind of vehicle count; one kind alone is named."""
    for column in block.of("condition"):
        texts = list(dict.fromkeys(text for row in rows if (text := block.page.text(row, column.at))))
        where = block.page.short(block.header_row, column.at)
        if len(texts) == 1:
            left.append(
                LeftOut(
                    where,
                    column.header,
                    f"the prices hold for {texts[0]}, and the sheet has no column for it",
                    is_taken=True,
                )
            )
        elif texts:
            choices = (*texts[:MOST_CONDITIONS], DEAREST, LEAVE_OUT)
            yield Question(
                "which",
                f"The prices differ by “{column.header}” ({where}), for which the sheet has no column. Which are to be taken?",
                choices,
                where,
            )


def _surcharge_for_all(block: Block, one: BodyRow, sides: Sides) -> Meaning | None:
    """Return what a row below the freights is that names a surcharge in the place of a port; None for another row."""
    at = next((at for at in (*sides.start.ats, *sides.end.ats) if (one.row, at) in block.page.values), None)
    if at is None or not block.of("pol", "pod"):
        return None
    meaning = meaning_of(block.page.text(one.row, at))
    return meaning if meaning.field.startswith(SURCHARGE) else None


def _of_all(
    block: Block, one: BodyRow, surcharge: Meaning, chosen: Chosen, around: Around, left: list[LeftOut]
) -> Iterator[Rate]:
    """Yield a surcharge on all freights of a table: one for each of its columns, or one share of all."""
    page = block.page
    said = " ".join(page.text(one.row, column.at) for column in block.of("currency", "basis"))
    currency = traits_in(said)[0].currency
    for column in chosen.prices:
        spot = (one.row, column.at)
        if spot not in page.values or column.meaning.field == "total":
            continue
        traits = surcharge.traits.over(column.meaning.traits).over(around.facts.traits)
        like = Rate(
            target="Ocean quotations",
            where=page.short(*spot),
            row=page.sheet_row(*spot),
            carrier=around.sender,
            mode="" if "%" in said else column.meaning.traits.mode,
            currency=currency,
            basis=traits.basis,
            valid_from=around.facts.valid_from,
            valid_to=around.facts.valid_to,
            reference=around.facts.reference,
        )
        meaning = replace(surcharge, header=f"{surcharge.header} %" if "%" in said else surcharge.header, traits=traits)
        try:
            yield from surcharge_rates(page, spot, meaning, like, around.mark)
        except ValueError as why:
            left.append(LeftOut(page.short(*spot), page.text(*spot), str(why)))
            continue
        left.append(
            LeftOut(page.short(one.row, min(page.row(one.row))), _row_told(block, one.row), FOR_ALL, is_taken=True)
        )


BY_DISTANCE = "is a price by distance, which goes into the sheet Per mile by hand"
NOT_SAVED = "has no saved result: open the file in Excel and save it"
BETWEEN = "is said between the prices and is in none of them"
FOR_ALL = "is a surcharge on all freights of the table"


def _remarks(block: Block, row: int) -> Iterator[LeftOut]:
    """Yield the remarks beside a price: what they say is kept as a note, and is not in the price."""
    for column in block.of("remark"):
        if text := block.page.text(row, column.at):
            why = REMARK_SUM if says_sum(text) else "is a remark, kept as the row's note"
            yield LeftOut(block.page.short(row, column.at), text, why, is_taken=True)


def _areas(row: Row) -> Iterator[LeftOut]:
    """Yield the ends that were taken for areas of the rate book, which the mail's sender may understand in another way."""
    where = row.block.page.short(row.body.row, row.block.columns[0].at)
    for end in (*row.start, *row.end):
        if end.kind == "name":
            yield LeftOut(where, end.text, "is taken as the area of that name in the rate book", is_taken=True)


REMARK_SUM = "is said beside the price and is not in it"


class _Doubt(Exception):
    def __init__(self, where: str, what: str, why: str) -> None:
        super().__init__(why)
        self.where, self.what, self.why = where, what, why


def _questions_of_places(block: Block, sides: Sides, around: Around) -> Iterator[Question]:
    where = block.page.short(block.header_row, block.columns[0].at)
    if sides.zips_unclear:
        yield Question(
            "zips", "Are the two columns of ZIPs a range, or where from and where to?", ("range", "from and to"), where
        )


def _row(block: Block, one: BodyRow, sides: Sides, body: Body, around: Around) -> Row:
    """Return a row with its ends and traits. Raises _Doubt with the cell that is not understood."""
    for column in block.columns:
        if block.page.is_lost(one.row, column.at):
            raise _Doubt(block.page.short(one.row, column.at), "a formula", NOT_SAVED)
    traits = _traits_of_columns(block, one.row).over(one.traits)
    if sides.lane is not None:
        text = block.page.text(one.row, sides.lane.at)
        try:
            start, end, both = ends_of_lane(text, around)
        except Unclear as why:
            raise _Doubt(block.page.short(one.row, sides.lane.at), text, why.why) from None
        return Row(block, one, around, traits, start, end, both)
    start = _ends(block, one, sides, "start", body, around)
    end = _ends(block, one, sides, "end", body, around)
    return Row(block, one, around, traits, start, end)


def _ends(block: Block, one: BodyRow, sides: Sides, which: str, body: Body, around: Around) -> tuple[End, ...]:
    side = sides.start if which == "start" else sides.end
    if side:
        at = next((at for at in side.ats if (one.row, at) in block.page.values), side.ats[0])
        try:
            return ends_at(side, block.page, one.row, body, around)
        except Unclear as why:
            raise _Doubt(block.page.short(one.row, at), block.page.text(one.row, at), why.why) from None
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


def _traits_of_columns(block: Block, row: int) -> Traits:
    """Return what a row's own cells say: trailer, currency, basis, container, fuel. Raises _Doubt for a trailer of no kind."""
    traits = NO_TRAITS
    for column in block.of("trailer", "mode", "basis", "container", "currency", "fuel_said", "fuel"):
        text = block.page.text(row, column.at)
        if not text:
            continue
        if column.meaning.field in ("fuel", "fuel_said"):
            said = _fuel_said(text)
            traits = replace(traits, fuel=said if traits.fuel is None else traits.fuel)
            continue
        said_here, _ = traits_in(
            text if column.meaning.field != "basis" or text.casefold().startswith("per") else f"per {text}"
        )
        traits = traits.over(said_here)
        if column.meaning.field == "currency" and not said_here.currency:
            raise _Doubt(block.page.short(row, column.at), text, "is the code of no currency")
    return traits


def _fuel_said(text: str) -> bool | None:
    """Return whether a cell of a column of fuel says that it is in the price."""
    lower = text.casefold().strip()
    if lower.startswith(
        ("incl", "yes", "y", "in rate", "in price", "included", "ja", "oui", "si", "all in")
    ) and not lower.startswith("not"):
        return True
    traits = traits_in(f"{text} fuel" if "fuel" not in lower and "fsc" not in lower else text)[0]
    return traits.fuel if traits.fuel is not None else False


def _rates_of(row: Row, chosen: Chosen, left: list[LeftOut]) -> Iterator[Rate]:
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
    if not seen:
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
            and any(abs(rate.per_mile * miles.number - flat) <= 1 for flat in sums)
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
    why = _against(figure, row, column, chosen)
    if why:
        left.append(LeftOut(where, text, why))
        return ()
    if figure.mark:
        note = _note_of(figure.mark, around) or "nothing that was found"
        is_taken = around.answers.get("marked") == TAKE
        left.append(LeftOut(where, text, f"has a mark that refers to: {note}", is_taken))
        if not is_taken:
            return ()
    traits = figure.traits.over(heard)
    try:
        return tuple(_made(row, column, figure, traits, where, chosen))
    except _Doubt as doubt:
        left.append(LeftOut(doubt.where, doubt.what, doubt.why))
        return ()


def _against(figure: Figure, row: Row, column: BlockColumn, chosen: Chosen) -> str:
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
    which = row.around.answers.get("which")
    condition = _text(row, "condition") or column.meaning.traits.variant
    if which and condition and which not in (DEAREST, condition):
        return f"holds for {condition}"
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


def _made(row: Row, column: BlockColumn, figure: Figure, traits: Traits, where: str, chosen: Chosen) -> Iterator[Rate]:
    """Yield the rates of one price: one for each pair of ends. Raises _Doubt."""
    facts, answers, block = row.around.facts, row.around.answers, row.block
    target = target_of(block, traits, row)
    base = Rate(
        target=target,
        where=where,
        row=row.block.page.sheet_row(row.body.row, column.at),
        carrier=_carrier(row),
        trailer=traits.trailer or ("" if answers.get("trailer") == EVERY else answers.get("trailer")),
        mode=mode_of(traits) or answers.get("mode"),
        currency=_currency(traits.currency, row.around),
        fuel_included=True if _is_total_with_fuel(row, column, chosen) else _fuel(traits, column, row.around),
        basis=traits.basis,
        reference=_text(row, "reference") or facts.reference or answers.get("reference"),
        remark=_text(row, "remark"),
        condition=_text(row, "condition"),
        free_days=_whole(_text(row, "free_days")) or facts.free_days,
    )
    valid_from, valid_to = _validity(row)
    if column.meaning.valid_from is not None or column.meaning.valid_to is not None:
        valid_from, valid_to = column.meaning.valid_from, column.meaning.valid_to
    base = replace(base, valid_from=valid_from, valid_to=valid_to)
    base = _priced(base, figure, traits, row, column)
    starts, ends = row.start, row.end
    if target == "Ocean quotations":
        starts, ends = _ports(row, starts, "from"), _ports(row, ends, "to")
    for start in starts or (None,):
        for end in ends or (None,):
            yield replace(base, start=start, end=end)
            if target == "Ocean quotations" and column == chosen.prices[0]:
                yield from _surcharges(row, replace(base, start=start, end=end), column, traits)
            if row.both_ways:
                yield replace(base, start=end, end=start)


def _surcharges(row: Row, like: Rate, price: BlockColumn, traits: Traits) -> Iterator[Rate]:
    """Yield what a row asks on top of its freight, in columns of their own; nothing on top of a total. Raises _Doubt."""
    page = row.block.page
    for column in row.block.columns:
        spot = (row.body.row, column.at)
        field = column.meaning.field
        if not field.startswith(SURCHARGE) or spot not in page.values or _holds_already(price, traits, field):
            continue
        try:
            yield from surcharge_rates(page, spot, column.meaning, like, row.around.mark)
        except ValueError as why:
            raise _Doubt(page.short(*spot), page.text(*spot), str(why)) from None


def _holds_already(price: BlockColumn, traits: Traits, field: str) -> bool:
    """Return whether a price has a surcharge in it: a total has all, a price with fuel that for bunkers."""
    return price.meaning.field == "total" or (traits.fuel is True and field == f"{SURCHARGE}bunker")


def _ports(row: Row, ends: Sequence[End], which: str) -> tuple[End, ...]:
    """Return the ports of a freight by sea. Raises _Doubt where one is none."""
    where = row.block.page.short(row.body.row, row.block.columns[0].at)
    if not ends:
        raise _Doubt(
            where, _row_told(row.block, row.body.row), f"is a freight by sea, and no port is said that it goes {which}"
        )
    try:
        return tuple(end if end.kind == "port" else port_in(end.text) for end in ends)
    except Unclear as why:
        raise _Doubt(where, ends[0].text, why.why) from None


def target_of(block: Block, traits: Traits, row: Row | None = None) -> Target:
    """Return the sheet that a table's prices belong to."""
    if block.of("pol", "pod") or traits.mode or traits.basis in OCEAN_BASES:
        return "Ocean quotations"
    return "Lanes"


def _priced(base: Rate, figure: Figure, traits: Traits, row: Row, column: BlockColumn) -> Rate:
    """Return a rate with its sums. Raises _Doubt where a sum cannot be for a whole trip, or for a mile."""
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
            raise _Doubt(where, str(figure.number), "is too much for a mile")
        return replace(base, per_mile=number, minimum=minimum)
    if number < LEAST_FLAT:
        why = "is too little for a whole trip: is it for a mile?"
        raise _Doubt(where, str(figure.number), why)
    return replace(base, flat=number, remark=base.remark, minimum=None)


def _minimum(row: Row, traits: Traits, where: str) -> Decimal | None:
    page = row.block.page
    for column in row.block.of("minimum"):
        if column.meaning.traits.trailer not in ("", traits.trailer) or (row.body.row, column.at) not in page.values:
            continue
        spot = (row.body.row, column.at)
        found = figure_in(page.values[spot], page.formats.get(spot, ""), row.around.mark)
        if isinstance(found, NoFigure):
            if found.why:
                raise _Doubt(page.short(*spot), page.text(*spot), f"as the minimum of {where} {found.why}")
            return None
        return found.number
    return None


def _carrier(row: Row) -> str:
    own = _text(row, "carrier") or _text(row, "forwarder")
    known = {carrier.casefold(): carrier for carrier in row.around.known.carriers}
    several = len(_senders(row.block)) > 1
    return known.get(own.casefold(), "") or ("" if several else row.around.sender) or own


@lru_cache(maxsize=64)
def _senders(block: Block) -> frozenset[str]:
    """Return all that the columns of carriers say, in small letters."""
    columns = block.of("carrier", "forwarder")
    return frozenset(text.casefold() for c in columns for row in block.rows if (text := block.page.text(row, c.at)))


def _currency(said: str, around: Around) -> str:
    told = around.facts.traits.currency
    if said == DOLLAR:
        return (
            told
            if told and told != DOLLAR and told.endswith("D")
            else around.answers.get("currency")
            or (around.known.currency if around.known.currency.endswith("D") else "USD")
        )
    return said or around.answers.get("currency")


def _fuel(traits: Traits, column: BlockColumn, around: Around) -> bool | None:
    if traits.fuel is not None:
        return traits.fuel
    if column.meaning.field == "linehaul":
        return False
    return {INCLUDED: True, NOT_INCLUDED: False}.get(around.answers.get("fuel"))


def _is_total_with_fuel(row: Row, column: BlockColumn, chosen: Chosen) -> bool:
    """Return whether a price is a total that adds up, with a sum for fuel among its parts."""
    spots = [(row.body.row, one.at) for one in row.block.of("fuel")]
    filled = [spot for spot in spots if isinstance(row.block.page.values.get(spot), (int, float, str))]
    return column.meaning.field == "total" and bool(chosen.parts) and bool(filled)


def _text(row: Row, field: str) -> str:
    texts = [text for column in row.block.of(field) if (text := row.block.page.text(row.body.row, column.at))]
    return "; ".join(texts)


def _whole(text: str) -> int | None:
    digits = "".join(sign for sign in text if sign.isdigit())
    return int(digits) if 0 < len(digits) <= 3 else None


def _validity(row: Row) -> tuple[date | None, date | None]:
    """Return the days of a row: its own cells, else what the letter says. Raises _Doubt for a day that can be two."""
    found: dict[str, date | None] = {}
    for field in ("valid_from", "valid_to"):
        for column in row.block.of(field):
            value = row.block.page.values.get((row.body.row, column.at))
            day = day_in(value, row.around.order) if value is not None else None
            where = row.block.page.short(row.body.row, column.at)
            if isinstance(day, tuple):
                raise _Doubt(where, row.block.page.text(row.body.row, column.at), f"can be {day[0]} or {day[1]}")
            if (
                value is not None
                and day is None
                and any(sign.isdigit() for sign in row.block.page.text(row.body.row, column.at))
            ):
                raise _Doubt(where, row.block.page.text(row.body.row, column.at), "is no day")
            found[field] = day or found.get(field)
    for column in row.block.of("validity"):
        days = days_in(row.block.page.text(row.body.row, column.at), row.around.order)
        known = [one.day for one in days if one.day is not None]
        if len(known) != len(days) or len(days) > 2:
            raise _Doubt(
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


def _unread(block: Block, sides: Sides, rows: Sequence[int]) -> Iterator[LeftOut]:
    """Yield the columns that were not read, so that nobody takes them for read."""
    used = {*sides.start.ats, *sides.end.ats, *([sides.lane.at] if sides.lane else [])}
    for column in block.columns:
        field = column.meaning.field
        where = block.page.short(block.header_row, column.at)
        if field in ("fuel", "base") or (field.startswith(SURCHARGE) and not block.of("pol", "pod")):
            cells = [block.page.text(row, column.at) for row in rows if (row, column.at) in block.page.values]
            if any(any(sign.isdigit() for sign in text) for text in cells):
                yield LeftOut(where, column.header, f"is not in the prices and is not taken: {_few(cells)}")
        elif not field and column.at not in used:
            cells = [block.page.text(row, column.at) for row in rows if (row, column.at) in block.page.values]
            if cells:
                yield LeftOut(
                    where,
                    column.header,
                    f"is a column that is not known and not read: {_few(cells)}"
                    if column.header
                    else f"is a column without a header and is not read: {_few(cells)}",
                )


def _few(texts: Sequence[str]) -> str:
    distinct = list(dict.fromkeys(texts))
    return ", ".join(distinct[:3]) + (" …" if len(distinct) > 3 else "")
