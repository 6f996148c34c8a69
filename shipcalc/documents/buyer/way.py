"""How a choice travels, leg by leg, and who pays for which stage of it."""

from collections.abc import Sequence
from decimal import Decimal

from shipcalc.documents import wording
from shipcalc.documents.buyer.cover import lies
from shipcalc.documents.buyer.lines import ChoiceCells
from shipcalc.documents.offer.first_answer import term_told
from shipcalc.documents.offer.landing import altogether
from shipcalc.documents.pages.letterhead import put_opening
from shipcalc.money import decimals
from shipcalc.quote.explain.stages import STAGES_IN_WORDS, covered_in_words, has_stages, stage_title
from shipcalc.quote.model import Leg, Option, Quote
from shipcalc.sheets import look
from shipcalc.sheets.paging import Block, flow
from shipcalc.sheets.reading import letter
from shipcalc.sheets.writing import Book, Page
from shipcalc.trade import Payer

_LEG_WIDTHS = (28, 28, 19, 24)
_UNITS, _LABEL_UNITS = 90, {1: 60, 2: 48, 3: 36, 4: 30}
_LYING_UNITS, _LYING_LABEL_UNITS = 124, 34
_PARTIES: tuple[tuple[str, Payer], ...] = (("In our total", "seller"), ("You pay to others (estimate)", "buyer"))

_PLACE = look.Style("Leg, place", wrap=True, upright="top")
_FAR = look.Style("Leg, distance", align="right", upright="top", wrap=True)
_HOW = look.Style("Leg, how", wrap=True, upright="top", indent=1)
_HOW_HEADER = look.Style("Leg, header", size=9, ink=look.GREY, upright="bottom", below="thin", indent=1)
_CHOICE = look.Style("Choice, heading", size=12, bold=True, ink=look.ACCENT, wrap=True, upright="bottom")
_STAGE = look.Style("Stage", wrap=True, upright="top")
_FIGURE = look.Style("Stage, figure", align="right", upright="top")
_NAME = look.Style("Stage, choice", size=9, ink=look.GREY, align="right", upright="bottom", below="thin")
_PARTY = look.Style("Party", size=9, bold=True, ink=look.ACCENT, upright="bottom")


def put_ways(book: Book, quote: Quote) -> None:
    """Add the sheet with the legs of every choice: from where, to where, how far, how, by which passages.

    Not where every way is one leg and nothing is agreed on where the risk passes: the cover says it all.
    """
    if not any(len(option.legs) > 1 or option.risk_passes for option in quote.options):
        return
    page = book.page("How it travels", widths=_LEG_WIDTHS)
    told = "Miles by road are the shortest sensible way; sea miles (1,852 m) follow the lanes that ships use. Not for navigation."
    row = put_opening(page, quote, "D", "How it travels", told, foot="How it travels")
    sections: list[list[Block]] = [[(1, row - 1)]]
    for index, option in enumerate(quote.options):
        first = row
        row = _put_legs(page, quote, index, option, row)
        sections.append([(first, row - 1)])
    flow(page, "A:D", sections)


def _put_legs(page: Page, quote: Quote, index: int, option: Option, row: int) -> int:
    """Write the legs of one choice; return the first free row."""
    page.height(row, 10)
    name = f"{wording.choice_name(index)}  ·  " if len(quote.options) > 1 else ""
    page.paragraph(row + 1, "A:D", f"{name}{option.title}", _CHOICE, least_height=20)
    row += 2
    for column, word, style in (("A", "From", look.HEADER), ("B", "To", look.HEADER),
                                ("C", "How far", look.HEADER_FIGURE), ("D", "How", _HOW_HEADER)):  # fmt: skip
        page.put(f"{column}{row}", word, style)
    page.height(row, 18)
    row += 1
    for leg in option.legs:
        row = _put_leg(page, leg, option, row)
    told = [f"Covered: {covered_in_words(option, quote.currency)}."]
    if option.risk_passes:
        told.insert(0, f"{wording.sentence_case(term_told(option))}.")
    page.paragraph(row, "A:D", " ".join(told), look.TEXT)
    return row + 1


def _put_leg(page: Page, leg: Leg, option: Option, row: int) -> int:
    called = wording.called_on(option)
    cells = (
        ("A", wording.sentence_case(wording.stop(leg.from_, called)), _PLACE),
        ("B", wording.sentence_case(wording.stop(leg.to, called)), _PLACE),
        ("C", wording.distance(leg), _FAR),
        ("D", wording.carried(leg, option.trailer), _HOW),
    )
    for column, text, style in cells:
        page.paragraph(row, column, text, style, least_height=15)
    if wording.passages(leg):
        page.paragraph(row + 1, "A:D", wording.sentence_case(wording.passages(leg)), look.SMALL)
        return row + 2
    return row + 1


def put_stages(book: Book, quote: Quote, cells: Sequence[ChoiceCells]) -> None:
    """Add the sheet that says who pays what for each stage, its sums taken from the lines, where there are stages."""
    if not any(has_stages(option) for option in quote.options):
        return
    choices, lying = len(quote.options), lies(quote)
    units, label = (_LYING_UNITS, _LYING_LABEL_UNITS) if lying else (_UNITS, _LABEL_UNITS[choices])
    page = book.page("Who pays what", widths=(label, *[(units - label) / choices] * choices), landscape=lying)
    last = letter(choices)
    title = "Who pays what, stage by stage"
    row = put_opening(page, quote, last, title, _term_told(quote), foot="Who pays what")
    for index in range(choices):
        page.put(f"{letter(index + 1)}{row}", wording.choice_name(index), _NAME)
    page.put(f"A{row}", wording.currency_name(quote.currency), look.HEADER)
    page.height(row, 22)
    row += 1
    sums: list[int] = []
    for title, payer in _PARTIES:
        row, sum_row = _put_party(page, quote, cells, title, payer, row)
        sums += [sum_row] if sum_row else []
    shows = [altogether(option) for option in quote.options]
    _put_sum(
        page, quote, "Altogether, without the vehicle", ["+".join(f"{{0}}{at}" for at in sums)] * choices, shows, row
    )
    flow(page, f"A:{last}", [[(1, row)]], landscape=lying)


def _term_told(quote: Quote) -> str:
    terms = ", ".join(dict.fromkeys(wording.term(option) for option in quote.options))
    risk = "; ".join(dict.fromkeys(option.risk_passes for option in quote.options))
    return f"Delivery term: {terms} (Incoterms 2020). The risk passes to you {risk}."


def _put_party(
    page: Page, quote: Quote, cells: Sequence[ChoiceCells], title: str, payer: Payer, row: int
) -> tuple[int, int | None]:
    """Write the stages that one party pays and their sum; return the first free row, and the sum's, if there is one."""
    stages = [stage for stage in STAGES_IN_WORDS if any(_sum(option, stage, payer) for option in quote.options)]
    if not stages:
        return row, None
    page.put(f"A{row}", title, _PARTY)
    page.height(row, 24)
    first = row = row + 1
    amounts = look.money_format(decimals(quote.currency))
    for stage in stages:
        told = stage_title(stage, quote.options[0])
        page.paragraph(row, "A", told, _STAGE, least_height=15)
        for index, (option, at) in enumerate(zip(quote.options, cells, strict=True)):
            terms = at.stages.get((stage, payer))
            cell = f"{letter(index + 1)}{row}"
            if terms:
                page.put_formula(cell, f"SUM({terms})", _FIGURE, amounts, shows=_sum(option, stage, payer))
            else:
                page.put(cell, "–", _FIGURE)
        row += 1
    shows = [option.total if payer == "seller" else option.buyer_pays_locally for option in quote.options]
    _put_sum(page, quote, "Total" if payer == "seller" else "Together, paid to others",
             [f"SUM({{0}}{first}:{{0}}{row - 1})"] * len(shows), shows, row)  # fmt: skip
    return row + 1, row


def _put_sum(page: Page, quote: Quote, label: str, formulas: Sequence[str], shows: Sequence[Decimal], row: int) -> None:
    """Write one sum of every choice; {0} in a formula stands for the choice's own column."""
    page.put(f"A{row}", label, look.SUM_LABEL)
    page.height(row, 20)
    for index, (formula, amount) in enumerate(zip(formulas, shows, strict=True)):
        column = letter(index + 1)
        amounts = look.money_format(decimals(quote.currency))
        page.put_formula(f"{column}{row}", formula.format(column), look.SUM, amounts, shows=amount)


def _sum(option: Option, stage: str, payer: Payer) -> Decimal:
    return sum((c.amount for c in option.charges if c.stage == stage and c.payer == payer), Decimal(0))
