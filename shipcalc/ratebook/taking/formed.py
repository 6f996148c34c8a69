"""The rates of quotations that are forms: the freight of each, and what is asked on top of it."""

import re
from collections.abc import Iterator, Sequence

from shipcalc.ratebook.taking.answers import LEAVE_OUT
from shipcalc.ratebook.taking.around import Around
from shipcalc.ratebook.taking.blocks import Block, BlockColumn
from shipcalc.ratebook.taking.body import BodyRow
from shipcalc.ratebook.taking.choosing import Chosen
from shipcalc.ratebook.taking.figures import is_included, looks_like_price
from shipcalc.ratebook.taking.forms import Form
from shipcalc.ratebook.taking.letter import Facts
from shipcalc.ratebook.taking.meanings import SURCHARGE, Meaning, says_percent
from shipcalc.ratebook.taking.page import Page
from shipcalc.ratebook.taking.pairs import Pair, Part
from shipcalc.ratebook.taking.prices import rates_of_cell
from shipcalc.ratebook.taking.quotings import SIZES, Quoted, not_understood, quotations_of, with_values
from shipcalc.ratebook.taking.rate import LeftOut, Question, Rate, Taken
from shipcalc.ratebook.taking.row import Row
from shipcalc.ratebook.taking.surcharges import MAY_BE, MOST_ASKED, share_question, surcharge_rates
from shipcalc.ratebook.taking.traits import Traits, bare_words, traits_in
from shipcalc.records import replace

NO_FREIGHT = "is a surcharge, and no freight that it is on is understood"
ON_ALL = "is a surcharge on all of the quotations"
OF_SEVERAL = "stands below several freights, and which of them it is on is not plain"
_ALL = re.compile(r"\b(?:all|both|each|every|alle|beide|tous|todos)\b", re.IGNORECASE)
_QUIET = frozenset("of on per freight the ocean sea incl included inclusive percent only net flat".split())
ON_ROAD = "is not in the prices and is not taken"


def taken_from_form(form: Form, around: Around) -> Taken:
    """Return the rates of a form, what was left out and what must be asked."""
    page = with_values(form)
    quoted = list(quotations_of(form, page, around))
    left: list[LeftOut] = []
    asked: list[Question] = []
    rates: list[Rate] = []
    freights: list[Rate] = []
    for one in quoted:
        own = [rate for pair in one.part.pairs if pair.is_freight for rate in _freight(page, pair, one, around, left)]
        rates += own
        freights += own
        for pair in one.part.pairs:
            if pair.field.startswith(SURCHARGE):
                rates += _surcharge(page, pair, own, one, around, left, asked)
    for part in form.parts:
        if not part.has_freight:
            on = _on_which(form.parts, part, quoted)
            rates += _on_several(page, part, on, freights, around, left, asked)
    left += (_named(page, pair) for part in form.parts for pair in part.pairs if _says_more(page, pair))
    left += (item for part in form.parts for item in not_understood(page, part, around))
    questions = [question for question in asked if not around.answers.answer(question.key)]
    return Taken(tuple(dict.fromkeys(rates)), tuple(left), tuple(questions[:MOST_ASKED]))


def _words(page: Page, pair: Pair) -> str:
    """Return what stands beside the figure of a pair."""
    texts = [
        page.text(pair.row, at) for at in pair.cells if not any(sign.isdigit() for sign in page.text(pair.row, at))
    ]
    return " ".join(texts)


def _sized(traits: Traits, facts: Facts) -> Traits:
    """Return traits in which a container is one of the size that the quotation is for."""
    of_size = traits.basis == "per container" and facts.traits.basis in SIZES
    return replace(traits, basis=facts.traits.basis) if of_size else traits


def _spot(page: Page, pair: Pair) -> tuple[int, int] | None:
    """Return the one cell of a pair that has a figure, or says that there is none to pay."""
    cells = [at for at in pair.cells if any(sign.isdigit() for sign in page.text(pair.row, at))] or list(pair.cells[:1])
    return (pair.row, cells[0]) if len(cells) == 1 else None


def _freight(page: Page, pair: Pair, one: Quoted, around: Around, left: list[LeftOut]) -> Iterator[Rate]:
    where = page.short(pair.row, pair.cells[0])
    spot = _spot(page, pair)
    if one.why or spot is None or not all(one.ends):
        why = one.why or (
            "holds more than one figure" if spot is None else "is a price, and not said from where to where"
        )
        left.append(LeftOut(where, f"{pair.label} {pair.text}", why))
        return
    said = traits_in(_words(page, pair))[0]
    meaning = replace(pair.meaning, field="rate" if pair.field == "total" else pair.field)
    column = BlockColumn(spot[1], pair.label, replace(meaning, traits=_sized(meaning.traits, one.facts)))
    ports = tuple(
        BlockColumn(-1, name, Meaning(header=name, field=name)) for name in (("pol", "pod") if one.is_sea else ())
    )
    block = Block(page, pair.row, pair.row, (column, *ports), range(pair.row, pair.row + 1))
    row = Row(
        block, BodyRow(pair.row), replace(around, facts=one.facts), _sized(said, one.facts), one.ends[0], one.ends[1]
    )
    for rate in rates_of_cell(row, column, Chosen((column,)), left):
        is_one_size = rate.basis == "per container" and one.facts.traits.basis in SIZES
        yield replace(rate, basis=one.facts.traits.basis) if is_one_size else rate


def _surcharge(
    page: Page,
    pair: Pair,
    freights: Sequence[Rate],
    one: Quoted,
    around: Around,
    left: list[LeftOut],
    asked: list[Question],
) -> Iterator[Rate]:
    spot = _spot(page, pair)
    where, what = page.short(pair.row, pair.cells[0]), f"{pair.label} {pair.text}"
    answer = around.answers.columns.get(pair.label, "")
    if freights and not one.is_sea:
        if not is_included(page.text(pair.row, pair.cells[0])):
            left.append(LeftOut(where, what, ON_ROAD))
        return
    if not freights or spot is None or answer == LEAVE_OUT:
        why = (
            NO_FREIGHT if not freights else "holds more than one figure" if spot is None else "is left out by an answer"
        )
        left.append(LeftOut(where, what, why))
        return
    words = _words(page, pair)
    said = traits_in(words)[0].over(pair.meaning.traits)
    bases = {rate.basis for rate in freights}
    basis = "per shipment" if pair.field.endswith("bill of lading") else bases.pop() if len(bases) == 1 else ""
    traits = replace(said, basis=said.basis or basis)
    like = replace(freights[0], basis=basis, currency=said.currency)
    header = f"{pair.meaning.header} {words if says_percent(words) else ''}".strip()
    meaning = replace(pair.meaning, header=header, traits=traits, said=answer)
    try:
        rates = surcharge_rates(page, spot, meaning, like, around.mark, said=said)
    except ValueError as why:
        if str(why) == MAY_BE and len(asked) < MOST_ASKED:
            asked.append(share_question(pair.label, where, page.text(*spot)))
        else:
            left.append(LeftOut(where, what, str(why)))
        return
    size = one.facts.traits.basis if one.facts.traits.basis in SIZES else ""
    for rate in rates:
        yield replace(rate, basis=size if rate.basis == "per container" and size else rate.basis or size)


def _on_which(parts: Sequence[Part], part: Part, quoted: Sequence[Quoted]) -> Sequence[Quoted]:
    """Return the quotations that charges below them are on: the only one, all where the heading says so, each its own."""
    if len(quoted) == 1 or any(_ALL.search(text) for _, text in part.headings):
        return quoted
    own: dict[int, int] = {}
    number = -1
    for other in parts:
        number += other.has_freight
        if not other.has_freight and any(pair.is_sum for pair in other.pairs):
            own[id(other)] = number
    each_has = {at for at in own.values() if at >= 0} == set(range(len(quoted)))
    at = own.get(id(part), -1)
    return (quoted[at],) if each_has and at >= 0 else ()


def _on_several(
    page: Page,
    part: Part,
    quoted: Sequence[Quoted],
    freights: Sequence[Rate],
    around: Around,
    left: list[LeftOut],
    asked: list[Question],
) -> Iterator[Rate]:
    """Yield the surcharges of a part without a freight, on the quotations that they are on; none is where that is not plain."""
    for pair in part.pairs:
        if not pair.field.startswith(SURCHARGE):
            continue
        if not quoted:
            left.append(LeftOut(page.short(pair.row, pair.cells[0]), f"{pair.label} {pair.text}", OF_SEVERAL))
            continue
        if len(quoted) > 1:
            left.append(LeftOut(page.short(pair.row, pair.at), f"{pair.label} {pair.text}", ON_ALL, is_taken=True))
        for one in quoted:
            own = [rate for rate in freights if rate.start in one.ends[0] and rate.end in one.ends[1]]
            yield from _surcharge(page, pair, own, one, around, left, asked)


def _says_more(page: Page, pair: Pair) -> bool:
    """Return whether words beside a sum say a condition or another sum."""
    rest = set(bare_words(traits_in(_words(page, pair))[1]).split()) - _QUIET
    return pair.is_sum and len(pair.cells) > 1 and (bool(rest) or len(_others(page, pair)) > 1)


def _others(page: Page, pair: Pair) -> list[int]:
    return [at for at in pair.cells if looks_like_price(page.values.get((pair.row, at)))]


def _named(page: Page, pair: Pair) -> LeftOut:
    where = page.short(pair.row, pair.cells[0])
    return LeftOut(where, pair.text, "has words beside its sum that are in none of the rates", is_taken=True)
