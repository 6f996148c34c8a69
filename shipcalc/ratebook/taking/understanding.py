"""A mail and what is known → the rates in it, what is left out, what must be asked. The one door to this room."""

from collections.abc import Iterable, Sequence
from itertools import groupby

from shipcalc.ratebook.taking.answers import Answers
from shipcalc.ratebook.taking.around import Around, Known
from shipcalc.ratebook.taking.blocks import Block, blocks_of, zone_tables
from shipcalc.ratebook.taking.body import body_of
from shipcalc.ratebook.taking.charges import items_of_form, taken_charges
from shipcalc.ratebook.taking.crossing import taken_from_matrix
from shipcalc.ratebook.taking.days import Order, order_in
from shipcalc.ratebook.taking.figures import Mark, decimal_mark
from shipcalc.ratebook.taking.headers import is_header
from shipcalc.ratebook.taking.layers import facts_of_page, over
from shipcalc.ratebook.taking.letter import Facts, Line, facts_in, lines_of, sender_in
from shipcalc.ratebook.taking.lines import Taken, taken_from
from shipcalc.ratebook.taking.matrix import Matrix, matrices_of
from shipcalc.ratebook.taking.meanings import PLACES
from shipcalc.ratebook.taking.notes import told_beside
from shipcalc.ratebook.taking.page import Mail, Page, turned
from shipcalc.ratebook.taking.prices import DEAREST
from shipcalc.ratebook.taking.questions import open_questions
from shipcalc.ratebook.taking.rate import LeftOut, Question, Rate
from shipcalc.ratebook.taking.sides import sides_of
from shipcalc.ratebook.taking.zones import zones_in
from shipcalc.records import dataclass, replace

Table = Block | Matrix
# A table whose rows are columns is short.
MOST_ACROSS = 40


@dataclass(frozen=True, slots=True)
class Understood:
    """What a mail says: its rates, what was left out or needs a look, what must be asked, who sent it and where that stands.

    `headers` and `head` are those by which the same sender's next mail is known again. `assumed_currency`: some prices name none.
    """

    rates: tuple[Rate, ...]
    left_out: tuple[LeftOut, ...]
    questions: tuple[Question, ...]
    sender: str
    sender_at: str
    headers: tuple[str, ...]
    head: tuple[str, ...]
    assumed_currency: bool = False


@dataclass(frozen=True, slots=True)
class _Tables:
    page: Page
    tables: tuple[Table, ...]
    ends: tuple[int, ...]
    beside: tuple[Line, ...] | None = None

    @property
    def lines(self) -> tuple[Line, ...]:
        """Return the rows of words outside of the tables; beside one whose rows are columns they were looked for before."""
        if self.beside is not None:
            return self.beside
        inside = {row for table, end in zip(self.tables, self.ends, strict=True) for row in range(_first(table), end)}
        return lines_of(self.page, [row for row in range(self.page.height) if row not in inside])


def understand(mail: Mail, answers: Answers, known: Known, *, carrier: str = "") -> Understood:
    """Return what a mail says. `carrier` is who sent it, where somebody says so."""
    left: list[LeftOut] = []
    first = _whole_mail(mail, answers, known, left)
    order = first.order
    found = [_turned_tables(page, first) or _tables(page, first) for page in mail.pages]
    named, named_at = sender_in(line for one in found for line in one.lines[:6])
    sender = carrier or answers.get("carrier") or named
    sender = {name.casefold(): name for name in known.carriers}.get(sender.casefold(), sender)
    letters = [line for one in found if not one.tables for line in one.lines]
    head = facts_in(found[0].lines, order)
    head = replace(head, traits=replace(head.traits, trailer="", mode=""), start="", pol="", pod="")
    taken: list[Taken] = []
    for one in found:
        layers = _facts_of(one, letters, order)
        if not one.lines:  # a further sheet without a word: the head of the first one speaks of it
            layers = tuple(over(facts, head) for facts in layers)
        for table, facts in zip(one.tables, layers, strict=True):
            around = replace(first, facts=facts, sender=sender)
            taken.append(taken_from(table, around) if isinstance(table, Block) else taken_from_matrix(table, around))
        if not one.tables and len(mail.pages) == 1:
            around = replace(first, facts=facts_in(one.lines, order), sender=sender)
            taken.append(_taken_from_form(one.page, [line.row for line in one.lines], around))
    left += [item for one in taken for item in one.left_out]
    cells = (*(rate.where for one in taken for rate in one.rates), *(item.where for item in left))
    read = {_row_of(where) for where in cells}
    for one in found:
        left += (item for item in told_beside(one.lines, order) if _row_of(item.where) not in read)
    left += [LeftOut(where, "", why) for where, why in mail.unseen]
    left += _contradictions([line for one in found for line in one.lines], order)
    read_rates = [rate for one in taken for rate in one.rates]
    common = _common_currency(read_rates, known.currency, may_assume=mail.shows_signs and first.mark != ",")
    own = [_in_currency(rate, common) for rate in read_rates]
    rates, doubled = without_doubles(own, dearest=answers.get("which") == DEAREST)
    questions = [
        *(question for one in taken for question in one.questions),
        *open_questions(rates, answers, sender, found_facts(found, order), known, " ".join(item.why for item in left)),
    ]
    distinct = tuple({question.key: question for question in questions if not answers.answer(question.key)}.values())
    return Understood(
        rates,
        tuple({item.where or item.why: item for item in (*reversed(left), *reversed(doubled))}.values())[::-1],
        distinct,
        sender,
        "" if carrier or answers.get("carrier") else named_at,
        tuple(header for one in found for table in one.tables for header in _headers(table)),
        tuple(line.text for one in found for line in one.lines[:4]),
        assumed_currency=any(not rate.currency and rate.percent is None for rate in read_rates) and bool(common),
    )


def _whole_mail(mail: Mail, answers: Answers, known: Known, left: list[LeftOut]) -> Around:
    """Return how all of a mail writes days and amounts, and its zones; what of them is not understood goes to `left`."""
    texts = [value for page in mail.pages for value in page.values.values() if isinstance(value, str) and value]
    order: Order = answers.get("dates") or order_in(texts)  # type: ignore[assignment]
    mark: Mark = {"point": ".", "comma": ","}.get(answers.get("decimals")) or decimal_mark(texts) or ""  # type: ignore[assignment]
    first = Around(facts=Facts(), answers=answers, known=known, order=order, mark=mark)
    tables_of_zones = [block for page in mail.pages for block in zone_tables(page, answers.columns)]
    return replace(first, zones=zones_in(tables_of_zones, first, left))


def _facts_of(one: _Tables, letters: Sequence[Line], order: Order) -> tuple[Facts, ...]:
    if one.beside is not None:
        return (facts_in((*one.beside, *letters), order),) * len(one.tables)
    spans = [(_first(table), end) for table, end in zip(one.tables, one.ends, strict=True)]
    return facts_of_page(one.page, spans, one.lines, letters, order)


def _taken_from_form(page: Page, rows: Sequence[int], around: Around) -> Taken:
    rates, left = taken_charges(page, list(items_of_form(page, rows)), around)
    return Taken(rates, left)


def found_facts(found: Iterable[_Tables], order: Order) -> Facts:
    """Return what all lines of a mail say together, for the days that are not clear."""
    return facts_in([line for one in found for line in one.lines], order)


def _contradictions(lines: Sequence[Line], order: Order) -> Iterable[LeftOut]:
    """Yield what two lines of a mail tell differently, of which none is taken."""
    facts = facts_in(lines, order)
    for name in facts.clash:
        where = dict(facts.where).get(name, "")
        what = name.removeprefix("traits.").replace("_", " ")
        if name.startswith(("valid", "traits.currency", "traits.fuel", "reference", "free")):
            yield LeftOut(
                where,
                what,
                "is said in two ways outside of the tables; see which lines speak of which prices",
                is_taken=True,
            )


def _common_currency(rates: Sequence[Rate], book: str, *, may_assume: bool) -> str:
    """Return the currency of prices that name none: that of all others, or the rate book's where nothing speaks against it."""
    named = {rate.currency for rate in rates if rate.currency and not rate.label}
    return named.pop() if len(named) == 1 else book if not named and may_assume else ""


def _in_currency(rate: Rate, common: str) -> Rate:
    return rate if rate.currency or rate.percent is not None else replace(rate, currency=common)


def without_doubles(rates: Sequence[Rate], *, dearest: bool = False) -> tuple[tuple[Rate, ...], tuple[LeftOut, ...]]:
    """Return the rates of which there is one, and what stands twice: the same price is taken once, of two prices none."""
    by_key: dict[tuple[object, ...], list[Rate]] = {}
    for rate in rates:
        by_key.setdefault(rate.key, []).append(rate)
    kept: list[Rate] = []
    left: list[LeftOut] = []
    for same in by_key.values():
        if dearest and len({rate.condition for rate in same}) == len(same):
            same.sort(key=lambda rate: -(rate.flat or rate.per_mile or 0))
            kept.append(same[0])
            left += [
                LeftOut(rate.where, _price(rate), f"is less than {same[0].where}, which is taken") for rate in same[1:]
            ]
        elif len({rate.price for rate in same}) == 1:
            kept.append(same[0])
            left += [
                LeftOut(rate.where, _price(rate), f"is the same as {same[0].where}", is_taken=True) for rate in same[1:]
            ]
        else:
            others = {rate.where: ", ".join(other.where for other in same if other is not rate) for rate in same}
            conditions = [rate.condition for rate in same]
            why = "has another price in {}" + (
                ": they differ by " + " / ".join(dict.fromkeys(conditions)) if len(set(conditions)) == len(same) else ""
            )
            left += [LeftOut(rate.where, _price(rate), why.format(others[rate.where])) for rate in same]
    kept.sort(key=lambda rate: rates.index(rate))
    return tuple(kept), tuple(left)


def _row_of(where: str) -> tuple[str, str]:
    """Return the sheet and the row of a cell's address."""
    sheet, _, cell = where.rpartition("!")
    return sheet, cell.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")


def _price(rate: Rate) -> str:
    number = rate.flat if rate.flat is not None else rate.per_mile
    return f"{number:f}" if number is not None else ""


def _tables(page: Page, around: Around) -> _Tables:
    """Return the tables of a page from top to bottom, each with the row after its last price; none reaches into the next."""
    matrices = list(matrices_of(page, around))
    across = {matrix.header_row for matrix in matrices}
    blocks = [block for block in blocks_of(page, around.answers.columns) if block.header_row not in across]
    tables: list[Table] = [*blocks, *matrices]
    tables.sort(
        key=lambda table: (_first(table), table.columns[0].at if isinstance(table, Block) else table.label_column)
    )
    firsts = sorted({_first(table) for table in tables})
    cut: list[Table] = []
    for table in tables:
        after = next((first for first in firsts if first > _first(table)), page.height)
        cut.append(replace(table, rows=range(table.rows.start, min(table.rows.stop, after))))
    return _Tables(page, tuple(cut), tuple(_end(table, around) for table in cut))


def _turned_tables(page: Page, around: Around) -> _Tables | None:
    """Return the tables of a page whose headers stand one below the other; None where they stand side by side."""
    if page.width > MOST_ACROSS or any(is_header(page, row, {}) for row in range(page.height)):
        return None
    found = _tables(turned(page), around)
    tables = [table for table in found.tables if isinstance(table, Block) and table.prices and _says_both_ends(table)]
    if len(tables) != 1 or len(found.tables) != 1 or not _has_rows(tables[0]):
        return None
    own = {column.at for column in tables[0].columns if column.meaning.field}
    return replace(found, beside=lines_of(page, [row for row in range(page.height) if row not in own]))


def _has_rows(block: Block) -> bool:
    return bool(body_of(block, [one.at for one in block.of(*PLACES)], [one.at for one in block.prices]).rows)


def _says_both_ends(block: Block) -> bool:
    fields = {column.meaning.field for column in block.columns}
    return {"pol", "pod"} <= fields or all(any(field.startswith(side) for field in fields) for side in ("from_", "to_"))


def _first(table: Table) -> int:
    return table.first_row if isinstance(table, Block) else table.header_row


def _end(table: Table, around: Around) -> int:
    if isinstance(table, Matrix):
        filled = [
            row
            for row in table.rows
            if (row, table.label_column) in table.page.values
            and any((row, c) in table.page.values for c in table.columns)
        ]
        runs = [list(run) for _, run in groupby(enumerate(filled), lambda pair: pair[1] - pair[0])]
        return runs[0][-1][1] + 1 if runs else table.header_row + 1
    sides = sides_of(table, around)
    places = (*sides.start.ats, *sides.end.ats, *([sides.lane.at] if sides.lane else []))
    return body_of(table, places, table.filled_by_price).end


def _headers(table: Table) -> tuple[str, ...]:
    return tuple(column.header for column in table.columns) if isinstance(table, Block) else (table.corner or "matrix",)
