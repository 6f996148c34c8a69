"""What the customs of the buyer's country may ask: as an ordinary vehicle and as a collector's piece, side by side."""

from collections.abc import Iterator, Sequence

from shipcalc.documents import wording
from shipcalc.documents.offer.landing import less_as_collector, treatment_name, treatment_rows
from shipcalc.documents.pages.letterhead import put_letterhead
from shipcalc.money import decimals
from shipcalc.quote.model import Charge, Option, Quote
from shipcalc.sheets import look
from shipcalc.sheets.paging import Block, flow
from shipcalc.sheets.writing import Book, Page

_WIDTHS = (30, 13, 7, 14, 13, 7, 14)
_COLUMNS = ("BCD", "EFG")  # of the base, the percentage and the amount under each treatment
_ACROSS = "A:G"
_CAUTION = (
    "All of it is an estimate: the customs of the country decide what the vehicle is and what is due. Ask a licensed customs "
    "broker there before you agree."
)

_WHAT = look.Style("Duty, what", wrap=True, upright="top")
_FIGURE = look.Style("Duty, figure", align="right", upright="top")
_GREY = look.Style("Duty, base", ink=look.GREY, align="right", upright="top")
_CHOICE = look.Style("Choice, heading", size=12, bold=True, ink=look.ACCENT, wrap=True, upright="bottom")
_TREATMENT = look.Style("Treatment", size=9, bold=True, ink=look.ACCENT, align="right", upright="bottom", wrap=True,
                        below="thin", rule_ink=look.ACCENT)  # fmt: skip


def put_duty(book: Book, quote: Quote) -> list[str | None]:
    """Add the sheet of duty and tax under every treatment, where anything of them is known.

    Return for each choice the full address of what is less to pay as a collector's piece, if it may be one.
    """
    savings: list[str | None] = []
    if not any(option.imports for option in quote.options):
        return [None] * len(quote.options)
    page = book.page("Duty and tax", widths=_WIDTHS)
    row = put_letterhead(page, quote, "G")
    page.paragraph(row, _ACROSS, "Duty and tax where you live", look.TITLE_WRAPPED)
    page.paragraph(row + 1, _ACROSS, f"Amounts in {wording.currency_name(quote.currency)}.", look.SUBTITLE_WRAPPED)
    page.paragraph(row + 2, _ACROSS, _CAUTION, look.CAUTION)
    row += 3
    for criteria in dict.fromkeys(one.criteria for option in quote.options for one in option.imports if one.criteria):
        told = f"To be taken as a collector's piece, the customs ask for: {wording.lower_first(criteria.rstrip('.'))}."
        page.paragraph(row, _ACROSS, told, look.TEXT)
        row += 1
    sections: list[list[Block]] = [[(1, row - 1)]]
    for index, option in enumerate(quote.options):
        first = row
        row = _put_choice(page, quote, index, option, row)
        is_told = less_as_collector(option) is not None
        savings.append(page.address(f"G{row - 1}") if is_told else None)
        sections.append([(first, row - 1)])
    first = row
    row = _put_sources(page, quote, row)
    if row > first:
        sections.append([(first, row - 1)])
    flow(page, _ACROSS, sections)
    page.footer(f"{quote.dealer.name}  ·  {wording.reference(quote)}  ·  Duty and tax")
    return savings


def _put_choice(page: Page, quote: Quote, index: int, option: Option, row: int) -> int:
    """Write one choice: every duty and tax under each treatment, their sums, and what the second saves."""
    page.height(row, 10)
    name = f"{wording.choice_name(index)}  ·  " if len(quote.options) > 1 else ""
    page.paragraph(row + 1, _ACROSS, f"{name}{option.title}", _CHOICE, least_height=20)
    row = _put_head(page, option, row + 2)
    first = row
    for label, lines in treatment_rows(quote, option):
        page.put(f"A{row}", label, _WHAT)
        page.fit_height(row, "A", label, _WHAT, least_height=15)
        for columns, line in zip(_COLUMNS, lines, strict=False):
            _put_line(page, quote, columns, line, row)
        row += 1
    page.fill_style(f"A{row}:G{row}", look.SUM_LABEL)
    page.put(f"A{row}", "Together", look.SUM_LABEL)
    amounts = look.money_format(decimals(quote.currency))
    for columns, estimate in zip(_COLUMNS, option.imports, strict=False):
        column = columns[2]
        formula = f"SUM({column}{first}:{column}{row - 1})"
        page.put_formula(f"{column}{row}", formula, look.SUM, amounts, shows=estimate.amount)
    page.height(row, 20)
    shows = less_as_collector(option)
    if shows is None:
        return row + 1
    page.put(f"A{row + 1}", "To pay less as a collector's piece")
    page.put_formula(f"G{row + 1}", f"D{row}-G{row}", look.FIGURE, amounts, shows=shows)
    return row + 2


def _put_head(page: Page, option: Option, row: int) -> int:
    page.put(f"A{row}", "", _TREATMENT)
    for columns, estimate in zip(_COLUMNS, option.imports, strict=False):
        counted = ", counted" if estimate.counted else ""
        across = f"{columns[0]}:{columns[2]}"
        page.paragraph(row, across, f"{treatment_name(estimate)}{counted}", _TREATMENT, least_height=18)
    return row + 1


def _put_line(page: Page, quote: Quote, columns: str, line: Charge | None, row: int) -> None:
    """Write one duty or tax under one treatment: of which sum, how much percent of it, the amount."""
    base, rate, amount = (f"{column}{row}" for column in columns)
    amounts = look.money_format(decimals(quote.currency))
    if line is None:
        page.put(amount, "–", _FIGURE)
    elif line.unit == "%":
        page.put(base, line.quantity, _GREY, amounts)
        page.put(rate, line.rate.scaleb(-2), _GREY, look.percent_format(line.rate))
        formula = f"ROUND({base}*{rate},{decimals(quote.currency)})"
        page.put_formula(amount, formula, _FIGURE, amounts, shows=line.amount)
    else:
        page.put(amount, line.amount, _FIGURE, amounts)


def _put_sources(page: Page, quote: Quote, row: int) -> int:
    """Write where the figures are from, each once."""
    told = list(dict.fromkeys(_sources(quote.options)))
    if not told:
        return row
    page.height(row, 10)
    page.fill_style(f"A{row + 1}:G{row + 1}", look.HEADING)
    page.put(f"A{row + 1}", "Where the figures are from", look.HEADING)
    row += 2
    for sentence in told:
        page.paragraph(row, _ACROSS, sentence, look.SMALL)
        row += 1
    return row


def _sources(options: Sequence[Option]) -> Iterator[str]:
    for option in options:
        for estimate in option.imports:
            for line in estimate.lines:
                if line.note:
                    yield f"{line.label}: {wording.lower_first(line.note)}"
