"""A mail and what is known → the rates in it, what is left out, what must be asked. The one door to this room."""

from collections.abc import Iterable, Iterator, Sequence
from typing import TypeGuard

from shipcalc.ratebook.taking.absurd import within_reason
from shipcalc.ratebook.taking.answers import DEAREST, Answers
from shipcalc.ratebook.taking.around import Around, Known
from shipcalc.ratebook.taking.banded import taken_from_bands
from shipcalc.ratebook.taking.bands import BandTable
from shipcalc.ratebook.taking.blocks import Block, zone_tables
from shipcalc.ratebook.taking.crossing import taken_from_matrix
from shipcalc.ratebook.taking.currencies import DOLLAR, currencies_in
from shipcalc.ratebook.taking.days import Order, order_in
from shipcalc.ratebook.taking.doubles import currency_question, which_question, without_doubles
from shipcalc.ratebook.taking.figures import Mark, decimal_mark
from shipcalc.ratebook.taking.formed import taken_from_form
from shipcalc.ratebook.taking.lasting import day_questions, ended, told_ends
from shipcalc.ratebook.taking.layers import over
from shipcalc.ratebook.taking.letter import Facts, Line, facts_in
from shipcalc.ratebook.taking.lines import taken_from, taken_on_all
from shipcalc.ratebook.taking.meanings import PLACES, meaning_of
from shipcalc.ratebook.taking.notes import told_beside
from shipcalc.ratebook.taking.page import Mail
from shipcalc.ratebook.taking.port_tariff import is_tariff, taken_from_tariff
from shipcalc.ratebook.taking.questions import open_questions
from shipcalc.ratebook.taking.quotings import facts_of_form
from shipcalc.ratebook.taking.rate import LeftOut, Question, Rate, Taken
from shipcalc.ratebook.taking.senders import sender_in
from shipcalc.ratebook.taking.tables import (
    Table,
    Tables,
    facts_of_tables,
    tables_of,
    turned_tables,
)
from shipcalc.ratebook.taking.unread import unread_cells
from shipcalc.ratebook.taking.zones import area_rates, zones_in
from shipcalc.records import dataclass, replace


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


def understand(mail: Mail, answers: Answers, known: Known, *, carrier: str = "") -> Understood:
    """Return what a mail says. `carrier` is who sent it, where somebody says so."""
    left: list[LeftOut] = []
    first = _whole_mail(mail, answers, known, left)
    order = first.order
    found = [turned_tables(page, first) or tables_of(page, first) for page in mail.pages]
    named, named_at = sender_in(line for one in found for line in one.lines[:6])
    sender = carrier or answers.get("carrier") or named
    sender = {name.casefold(): name for name in known.carriers}.get(sender.casefold(), sender)
    letters = [line for one in found if not one.tables and one.form is None for line in one.lines]
    said: list[Facts] = []
    taken = list(_taken_of_all(found, letters, replace(first, sender=sender), said))
    left += [item for one in taken for item in one.left_out]
    cells = (*(rate.where for one in taken for rate in one.rates), *(item.where for item in left))
    read = {_row_of(where) for where in cells}
    for one in found:
        left += (item for item in told_beside(one.lines, order) if _row_of(item.where) not in read)
    told = frozenset((*(rate.where for one in taken for rate in one.rates), *(item.where for item in left)))
    for one in found:
        left += unread_cells(one, told, order)
    left += [LeftOut(where, "", why) for where, why in mail.unseen]
    left += _contradictions([line for one in found for line in one.lines], order)
    read_rates = [rate for one in taken for rate in one.rates]
    common = _common_currency(read_rates, known.currency, may_assume=_may_assume(mail, first, known.currency))
    own = [_in_currency(rate, common) for rate in read_rates]
    rates, doubled = without_doubles(own, dearest=answers.get("which") == DEAREST, currency=answers.get("currency"))
    questions = [
        *(question for one in taken for question in one.questions),
        *open_questions(
            rates, answers, sender, found_facts(found, said, order), known, " ".join(item.why for item in left)
        ),
        *day_questions(said, rates),
        *currency_question(doubled, own, answers),
        *which_question(doubled, own, answers),
    ]
    left += told_ends(said, rates)
    left += (LeftOut(rate.where, "", rate.reading, is_taken=True) for rate in rates if rate.reading)
    distinct = tuple({question.key: question for question in questions if not answers.answer(question.key)}.values())
    areas, _ = without_doubles(tuple(area_rates(rates, first, sender)))
    return Understood(
        (*areas, *rates),
        tuple(dict.fromkeys((*doubled, *left))),
        distinct,
        sender,
        "" if carrier or answers.get("carrier") else named_at,
        tuple(header for one in found for header in one.headers),
        tuple(line.text for one in found for line in one.lines[:4]),
        assumed_currency=any(not rate.currency and rate.percent is None for rate in read_rates) and bool(common),
    )


def _taken_of_all(
    found: Sequence[Tables], letters: Sequence[Line], first: Around, said: list[Facts]
) -> Iterator[Taken]:
    """Yield what came of each table and form; what is said of them is put to `said`."""
    order = first.order
    head = facts_in(found[0].lines, order)
    head = replace(head, traits=replace(head.traits, trailer="", mode=""), start="", pol="", pod="")
    for one in found:
        layers = facts_of_tables(one, letters, order)
        if not one.lines:  # a further sheet without a word: the head of the first one speaks of it
            layers = tuple(over(facts, head) for facts in layers)
        for table, facts in zip(one.tables, layers, strict=True):
            around = replace(first, facts=ended(facts, first.answers, order))
            around, named = within_reason(table, around)
            said.append(around.facts)
            if named:
                yield Taken(left_out=named)
            if _is_on_others(table, one, around):
                yield taken_on_all(table, around)
            else:
                yield _taken(table, (*one.lines, *letters), around)
        if one.form is not None:
            around = replace(first, facts=over(facts_in([*one.lines, *letters], order), head))
            said += facts_of_form(one.form, around)
            yield taken_from_form(one.form, around)


def _is_on_others(table: Table, one: Tables, around: Around) -> TypeGuard[Block]:
    """Return whether a table of charges without places of its own stands on a page with freights between ports."""
    freights = [
        other
        for other in one.tables
        if isinstance(other, Block) and other is not table and other.of("pol") and other.of("pod") and other.prices
    ]
    if not isinstance(table, Block) or not table.of("charge") or _says_ports(table, around):
        return False
    labels = [table.page.text(row, column.at) for column in table.of("charge") for row in table.rows]
    return bool(freights) and not any(meaning_of(text).is_price for text in labels)


def _taken(table: Table, lines: Sequence[Line], around: Around) -> Taken:
    if isinstance(table, BandTable):
        return taken_from_bands(table, around)
    if isinstance(table, Block) and table.of("charge") and not _says_ports(table, around) and is_tariff(table, lines):
        return taken_from_tariff(table, lines, around)
    return taken_from(table, around) if isinstance(table, Block) else taken_from_matrix(table, around)


def _says_ports(block: Block, around: Around) -> bool:
    """Return whether a table of charges is of a way from port to port, or has places of its own."""
    return bool(block.of(*PLACES)) or bool(around.facts.pol and around.facts.pod)


def _whole_mail(mail: Mail, answers: Answers, known: Known, left: list[LeftOut]) -> Around:
    """Return how all of a mail writes days and amounts, and its zones; what of them is not understood goes to `left`."""
    texts = [value for page in mail.pages for value in page.values.values() if isinstance(value, str) and value]
    order: Order = answers.get("dates") or order_in(texts)  # type: ignore[assignment]
    mark: Mark = {"point": ".", "comma": ","}.get(answers.get("decimals")) or decimal_mark(texts) or ""  # type: ignore[assignment]
    first = Around(facts=Facts(), answers=answers, known=known, order=order, mark=mark)
    tables_of_zones = [block for page in mail.pages for block in zone_tables(page, answers.columns)]
    return replace(first, zones=zones_in(mail.pages, tables_of_zones, first, left))


def found_facts(found: Sequence[Tables], said: Sequence[Facts], order: Order) -> Facts:
    """Return what all lines of a mail say together, for the days that are not clear."""
    told = facts_in([line for one in found for line in one.lines], order)
    unclear = (*told.unclear_days, *(day for facts in said for day in facts.unclear_days))
    return replace(told, unclear_days=tuple(dict.fromkeys(unclear)))


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


def _may_assume(mail: Mail, first: Around, book: str) -> bool:
    """Return whether prices without a currency may be in the rate book's: decimals, signs and words do not speak of another."""
    texts = (text for page in mail.pages for text in page.texts.values() if not text.isdecimal())
    named = {currency for text in dict.fromkeys(texts) for currency in currencies_in(text)}
    return mail.shows_signs and first.mark != "," and not named - {DOLLAR, book}


def _in_currency(rate: Rate, common: str) -> Rate:
    return rate if rate.currency or rate.percent is not None else replace(rate, currency=common)


def _row_of(where: str) -> tuple[str, str]:
    """Return the sheet and the row of a cell's address."""
    sheet, _, cell = where.rpartition("!")
    return sheet, cell.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
