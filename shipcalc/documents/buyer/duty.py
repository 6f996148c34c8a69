"""What the customs of the buyer's country may ask: as an ordinary vehicle, as a collector's piece, with proof of origin."""

from collections.abc import Iterator, Mapping, Sequence

from shipcalc.documents import wording
from shipcalc.documents.buyer.printed import choices_in_order, printed_told, prints_recommended_alone
from shipcalc.documents.offer.landing import criteria_told, less_as, treatment_name, treatment_rows
from shipcalc.documents.pages.letterhead import put_opening
from shipcalc.money import decimals
from shipcalc.quote.model import Charge, Option, Quote
from shipcalc.sheets import look
from shipcalc.sheets.paging import Block, flow
from shipcalc.sheets.writing import Book, Page
from shipcalc.trade import Treatment

_FIRST_WIDTH, _WIDTHS = 30, (13, 7, 14)
_COLUMNS = ("BCD", "EFG", "HIJ")  # of the base, the percentage and the amount under each treatment
_AT_LEAST = 2  # treatments that there is room for
_CAUTION = (
    "All of it is an estimate: customs in that country decide what the vehicle is and what is due. Ask a licensed customs "
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
    savings: dict[int, str | None] = {}
    if not any(option.imports for option in quote.options):
        return [None] * len(quote.options)
    count = max(_AT_LEAST, *(len(option.imports) for option in quote.options))
    last = _COLUMNS[count - 1][-1]
    page = book.page("Duty and tax", widths=(_FIRST_WIDTH, *_WIDTHS * count))
    across = f"A:{last}"
    told = f"Amounts in {wording.currency_name(quote.currency)}. {printed_told(quote)}".rstrip()
    row = put_opening(page, quote, last, "Duty and tax where you live", told, foot="Duty and tax")
    row = page.paragraph(row, across, _CAUTION, look.CAUTION)
    asked = (criteria_told(one) for option in quote.options for one in option.imports)
    for told in dict.fromkeys(told for told in asked if told):
        row = page.paragraph(row, across, told, look.TEXT)
    sections: list[list[Block]] = [[(1, row - 1)]]
    printed, order = len(quote.options), choices_in_order(quote)
    if prints_recommended_alone(quote):
        printed = 1
    for index in order[:printed]:
        first = row
        row, savings[index] = _put_section(page, quote, index, row, last)
        sections.append([(first, row - 1)])
    first = row
    row = _put_sources(page, quote, row, across)
    if row > first:
        sections.append([(first, row - 1)])
    flow(page, across, sections)
    for index in order[printed:]:
        row, savings[index] = _put_section(page, quote, index, row, last)
    return [savings[index] for index in range(len(quote.options))]


def _put_section(page: Page, quote: Quote, index: int, row: int, last: str) -> tuple[int, str | None]:
    """Write one choice; return the first free row, and the full address of what is less to pay as a collector's piece."""
    option = quote.options[index]
    row = _put_choice(page, quote, index, option, row, last)
    saving = _saving_cell(option, row)
    return row, page.address(saving) if saving else None


def _put_choice(page: Page, quote: Quote, index: int, option: Option, row: int, last: str) -> int:
    """Write one choice: every duty and tax under each treatment, their sums, and what the others save."""
    page.height(row, 10)
    name = f"{wording.choice_name(index)}  ·  " if len(quote.options) > 1 else ""
    page.paragraph(row + 1, f"A:{last}", f"{name}{option.title}", _CHOICE, least_height=20)
    row = _put_head(page, option, row + 2)
    first = row
    for label, lines in treatment_rows(quote, option):
        page.paragraph(row, "A", label, _WHAT, least_height=15)
        for columns, line in zip(_COLUMNS, lines, strict=False):
            _put_line(page, quote, columns, line, row)
        row += 1
    page.band(row, f"A:{last}", "Together", look.SUM_LABEL)
    amounts = look.money_format(decimals(quote.currency))
    for columns, estimate in zip(_COLUMNS, option.imports, strict=False):
        column = columns[2]
        formula = f"SUM({column}{first}:{column}{row - 1})"
        page.put_formula(f"{column}{row}", formula, look.SUM, amounts, shows=estimate.amount)
    page.height(row, 20)
    together, counted = row, _COLUMNS[0][2]
    for treatment, label in _LESS.items():
        own, shows = _column_of(option, treatment), less_as(option, treatment)
        if shows is not None and own is not None:
            row += 1
            page.paragraph(row, "A", label, _WHAT, least_height=15)
            page.put_formula(f"{own}{row}", f"{counted}{together}-{own}{together}", look.FIGURE, amounts, shows=shows)
    return row + 1


_LESS: Mapping[Treatment, str] = {
    "preference": "To pay less with proof of origin",
    "collector": "To pay less as a collector's piece",
}


def _column_of(option: Option, treatment: Treatment) -> str | None:
    """Return the column of the amounts under a treatment, if there is one beside what is counted."""
    names = [one.treatment for one in option.imports]
    return _COLUMNS[names.index(treatment)][2] if treatment in names[1:] else None


def _saving_cell(option: Option, after: int) -> str | None:
    """Return where it stands what a collector's piece saves: in the last row of the choice, before row `after`."""
    column = _column_of(option, "collector")
    return f"{column}{after - 1}" if column and less_as(option, "collector") is not None else None


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


def _put_sources(page: Page, quote: Quote, row: int, across: str) -> int:
    """Write where the figures are from, each once."""
    told = list(dict.fromkeys(_sources(quote.options)))
    if not told:
        return row
    page.height(row, 10)
    page.band(row + 1, f"A:{across[2:]}", "Where the figures are from", look.HEADING)
    row += 2
    for sentence in told:
        row = page.paragraph(row, across, sentence, look.SMALL)
    return row


def _sources(options: Sequence[Option]) -> Iterator[str]:
    for option in options:
        for estimate in option.imports:
            for line in estimate.lines:
                if line.note:
                    yield f"{line.label}: {wording.lower_first(line.note)}"
