"""One table → its rates, what of it was left out, and what must be asked first."""

from collections.abc import Iterator, Sequence

from shipcalc.ratebook.taking.answers import DEAREST, LEAVE_OUT, TAKE
from shipcalc.ratebook.taking.around import Around
from shipcalc.ratebook.taking.blocks import Block
from shipcalc.ratebook.taking.body import Body, body_of
from shipcalc.ratebook.taking.charges import items_of, taken_charges
from shipcalc.ratebook.taking.choosing import chosen_prices
from shipcalc.ratebook.taking.meanings import SURCHARGE
from shipcalc.ratebook.taking.notes import LIMIT, says_sum, told_beside, unread_in
from shipcalc.ratebook.taking.prices import rates_of_row
from shipcalc.ratebook.taking.rate import LeftOut, Question, Rate, Taken
from shipcalc.ratebook.taking.row import Row, row_of, row_told
from shipcalc.ratebook.taking.row_ends import is_without_zero
from shipcalc.ratebook.taking.row_traits import Doubt
from shipcalc.ratebook.taking.sides import Sides, sides_of
from shipcalc.ratebook.taking.surcharges import rates_for_all, settled, surcharge_for_all
from shipcalc.ratebook.taking.traits import traits_in
from shipcalc.records import replace


def taken_on_all(block: Block, around: Around) -> Taken:
    """Return the surcharges of a table of charges that stands on a page with the freights that they are on."""
    body = body_of(block, (), block.filled_by_price)
    taken = taken_charges(block.page, list(items_of(block, body)), around, on_all=True)
    return replace(taken, left_out=(*body.left_out, *taken.left_out))


def taken_from(block: Block, around: Around) -> Taken:
    """Return the rates of a table, what was left out and what must be asked first."""
    sides = sides_of(block, around)
    places = (*sides.start.ats, *sides.end.ats, *([sides.lane.at] if sides.lane else []))
    body = body_of(block, places, block.filled_by_price)
    rows = [one.row for one in body.rows]
    block, shares = settled(block, rows, around.mark)
    chosen = chosen_prices(block, rows)
    left = [*chosen.left_out, *body.left_out, *_unread(block, sides, rows)]
    left += told_beside(body.lines_inside, around.order)
    left += (
        LeftOut(block.page.short(row, block.columns[0].at), text, LIMIT if traits_in(text)[0].limits else BETWEEN)
        for row, text in body.titles
        if says_sum(text) or unread_in(text, around.order)
    )
    left += _left_on_request(block, rows)
    asked = [*chosen.questions, *shares, *_questions_of_places(block, sides, around), *_conditions(block, rows, left)]
    questions = [question for question in asked if not around.answers.answer(question.key)]
    if block.of("charge") and not places:
        charged = taken_charges(block.page, list(items_of(block, body)), around)
        return replace(charged, left_out=(*body.left_out, *charged.left_out))
    if questions and any(question.key.startswith("columns") for question in questions):
        return Taken((), tuple(left), tuple(questions))
    if not places and block.of("distance") and not around.answers.get("from"):
        told = _few([row_told(block, row) for row in rows])
        left += (LeftOut(block.page.short(row, block.columns[0].at), told, BY_DISTANCE) for row in rows[:1])
        return Taken((), tuple(left), ())
    rates: list[Rate] = []
    for one in body.rows:
        if surcharge := surcharge_for_all(block, one, sides, around):
            rates += rates_for_all(block, one, surcharge, chosen, around, left, questions)
            continue
        try:
            row = row_of(block, one, sides, body, around)
        except Doubt as doubt:
            left.append(LeftOut(doubt.where, doubt.what, doubt.why))
            continue
        rates += rates_of_row(row, chosen, left)
        left += _remarks(block, one.row)
        left += _areas(row)
    nowhere = [rate for rate in rates if rate.target == "Lanes" and rate.start is None and rate.end is None]
    left += (LeftOut(rate.where, f"{rate.flat or rate.per_mile:f}", NOWHERE) for rate in nowhere)
    rates = [rate for rate in rates if rate not in nowhere]
    left += _zeros(block, sides, body)
    marked = [item for item in left if item.why.startswith("has a mark")]
    if marked and 2 * len(marked) >= len(rates) and not around.answers.get("marked"):
        refers = marked[0].why.removeprefix("has a mark that ")
        text = f"Many prices carry a mark ({marked[0].where}), which {refers}. Are they to be taken?"
        questions.append(Question("marked", text, (TAKE, LEAVE_OUT), marked[0].where))
    return Taken(tuple(rates), tuple(left), tuple(questions))


MOST_CONDITIONS = 9
NOWHERE = "is said neither from where nor to where"
BY_LIMIT = "is a limit of its row, for which the sheet has no column: it is kept as the row's note"


def _conditions(block: Block, rows: Sequence[int], left: list[LeftOut]) -> Iterator[Question]:
    """Yield the question which of the prices by length or kind of vehicle count; one kind alone is named."""
    for column in block.of("limit"):
        texts = list(dict.fromkeys(text for row in rows if (text := block.page.text(row, column.at))))
        told = f"{column.header}: {_few(texts)}"
        left += [LeftOut(block.page.short(block.header_row, column.at), told, BY_LIMIT, is_taken=True)] if texts else []
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


BY_DISTANCE = "are prices by distance, down to the end of the table, which go into the sheet Per mile by hand"
BETWEEN = "is said between the prices and is in none of them"


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


def _left_on_request(block: Block, rows: Sequence[int]) -> Iterator[LeftOut]:
    """Yield the cells of the columns that somebody answered to be left out."""
    for column in block.of(LEAVE_OUT):
        for spot in ((row, column.at) for row in rows):
            if spot in block.page.values:
                why = f"stands under “{column.header}”, which is left out by an answer"
                yield LeftOut(block.page.short(*spot), block.page.text(*spot), why)


def _zeros(block: Block, sides: Sides, body: Body) -> Iterator[LeftOut]:
    """Yield for each column of ZIPs the number cells that were read with the zeros that a spreadsheet has dropped."""
    page = block.page
    for side, at in ((one, at) for one in (sides.start, sides.end) for at in one.ats):
        if not next(c for c in block.columns if c.at == at).meaning.field.endswith(("zip", "zip_low", "zip_high")):
            continue
        filled = [one.row for one in body.rows if (one.row, at) in page.values]
        rows = [row for row in filled if is_without_zero(side, page, row, at, body)]
        if rows:
            texts = [page.text(row, at) for row in rows]
            yield LeftOut(page.short(rows[0], at), _few(texts), WITHOUT_ZERO, is_taken=True)


WITHOUT_ZERO = "is a number that has lost its first zero, and is read as a ZIP with it"
REMARK_SUM = "is said beside the price and is not in it"


def _questions_of_places(block: Block, sides: Sides, around: Around) -> Iterator[Question]:
    where = block.page.short(block.header_row, block.columns[0].at)
    if sides.zips_unclear:
        yield Question(
            "zips", "Are the two columns of ZIPs a range, or where from and where to?", ("range", "from and to"), where
        )


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
