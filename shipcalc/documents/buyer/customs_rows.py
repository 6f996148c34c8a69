"""What the customs of the buyer's country may ask: as an ordinary vehicle, as a collector's piece, with proof of origin."""

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal

from shipcalc.documents import wording
from shipcalc.documents.offer.itemised import reckoned
from shipcalc.documents.offer.landing import CUSTOMS_CAUTION, criteria_told, less_as, treatment_name, treatment_rows
from shipcalc.documents.pages.lines import LinesWriter
from shipcalc.money import decimals
from shipcalc.quote.model import Charge, Option, Quote
from shipcalc.sheets import look
from shipcalc.sheets.paging import Block
from shipcalc.sheets.writing import Page
from shipcalc.trade import Treatment

_ACROSS, _WORDS = "A:F", "A:C"
_COLUMNS = "DEF"  # of the treatments, the last one in F

_WHAT = look.Style("Duty, what", wrap=True, upright="top")
_FIGURE = look.Style("Duty, figure", align="right", upright="top")
_HOW = look.Style("Duty, how", size=8, ink=look.GREY, align="right", upright="top", wrap=True)
_TREATMENT = look.Style("Treatment", size=9, bold=True, ink=look.ACCENT, align="right", upright="bottom", wrap=True,
                        below="thin", rule_ink=look.ACCENT)  # fmt: skip
_LESS: Mapping[Treatment, str] = {
    "preference": "To pay less with proof of origin",
    "collector": "To pay less as a collector's piece",
}


def put_customs(page: Page, quote: Quote, option: Option, writer: LinesWriter) -> list[Block]:
    """Write every duty and tax under each treatment, their sums, and where the figures are from; return the blocks of it.

    What is counted stands among the lines of `writer` too, and is taken from there.
    """
    if not option.imports:
        return []
    first = writer.row
    row = page.heading(first, _ACROSS, "Duty and tax where you live", above=10)
    if len(option.imports) > 1:  # one treatment alone stands among the lines above
        row = _put_table(page, quote, option, writer, row)
        page.height(row, 4)
        row += 1
    told = [*(told for told in map(criteria_told, option.imports) if told), CUSTOMS_CAUTION]
    sources = list(dict.fromkeys(_sources(option)))
    told += [f"Where the figures are from: {'; '.join(sources)}."] if sources else []
    for sentence in told:
        row = page.paragraph(row, _ACROSS, sentence, look.SMALL)
    writer.row = row
    return [(first, row - 1)]


def _put_table(page: Page, quote: Quote, option: Option, writer: LinesWriter, row: int) -> int:
    columns = _COLUMNS[-len(option.imports) :]
    page.fill_style(f"A{row}:F{row}", _TREATMENT)
    for column, estimate in zip(columns, option.imports, strict=True):
        counted = ", counted" if estimate.counted else ""
        page.paragraph(row, column, f"{treatment_name(estimate)}{counted}", _TREATMENT, least_height=18)
    row = first = row + 1
    lines_above = {charge: f"F{writer.rows[charge.line]}" for charge in option.charges}
    for label, under in _rows(quote, option):
        page.paragraph(row, _WORDS, label, _WHAT, least_height=15)
        for column, lines in zip(columns, under, strict=True):
            _put_lines(page, quote, f"{column}{row}", lines, lines_above)
        if all(len(lines) < 2 for lines in under):
            row += 1
            for column, lines in zip(columns, under, strict=True):
                page.paragraph(row, column, reckoned(lines[0]) if lines else "", _HOW, least_height=12)
        row += 1
    amounts = look.money_format(decimals(quote.currency))
    page.band(row, _ACROSS, "Together", look.SUM_LABEL)
    for column, estimate in zip(columns, option.imports, strict=True):
        formula = f"SUM({column}{first}:{column}{row - 1})"
        page.put_formula(f"{column}{row}", formula, look.SUM, amounts, shows=estimate.amount)
    page.height(row, 20)
    return _put_less(page, quote, option, row, columns)


def _put_less(page: Page, quote: Quote, option: Option, together: int, columns: str) -> int:
    """Write what the other treatments save; return the first free row."""
    row = together + 1
    for treatment, label in _LESS.items():
        shows, names = less_as(option, treatment), [one.treatment for one in option.imports]
        if shows is not None:
            own = columns[names.index(treatment, 1)]
            page.paragraph(row, _WORDS, label, _WHAT, least_height=15)
            formula = f"{columns[0]}{together}-{own}{together}"
            amounts = look.money_format(decimals(quote.currency))
            page.put_formula(f"{own}{row}", formula, look.FIGURE, amounts, shows=shows)
            row += 1
    return row


def _rows(quote: Quote, option: Option) -> list[tuple[str, list[list[Charge]]]]:
    """Return (label, the lines under each treatment) of every duty and tax, those of several vehicles in one row."""
    found: dict[str, list[list[Charge]]] = {}
    for label, lines in treatment_rows(quote, option):
        named = next(line for line in lines if line is not None)
        under = found.setdefault(label if len(quote.vehicles) == 1 else named.label, [[] for _ in lines])
        for own, line in zip(under, lines, strict=True):
            own += [line] if line is not None else []
    return list(found.items())


def _put_lines(page: Page, quote: Quote, cell: str, lines: Sequence[Charge], counted: Mapping[Charge, str]) -> None:
    """Write the amount of one duty or tax under one treatment, of all vehicles; what is counted is taken from its lines."""
    places = decimals(quote.currency)
    if not lines:
        page.put(cell, "–", _FIGURE)
        return
    formula = "+".join(counted.get(line) or _product(line, places) for line in lines)
    shows = sum((line.amount for line in lines), Decimal(0))
    page.put_formula(cell, formula, _FIGURE, look.money_format(places), shows=shows)


def _product(line: Charge, places: int) -> str:
    return f"ROUND({line.quantity}*{line.rate}{'/100' if line.unit == '%' else ''},{places})"


def _sources(option: Option) -> Iterator[str]:
    for estimate in option.imports:
        for line in estimate.lines:
            if line.note:
                yield f"{wording.lower_first(line.label)}: {wording.lower_first(line.note.rstrip('.'))}"
