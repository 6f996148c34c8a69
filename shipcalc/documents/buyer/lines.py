"""The choices line by line, as the buyer sees them: what each line is for, how much of it, at which rate, and the sums."""

from collections.abc import Mapping
from decimal import Decimal

from shipcalc.documents import wording
from shipcalc.documents.buyer.printed import choices_in_order, printed_told, prints_recommended_alone
from shipcalc.documents.offer.itemised import local_charges
from shipcalc.documents.offer.landing import deposit_percent
from shipcalc.documents.pages.further_sums import Sum, put_altogether, put_exchange, put_in_theirs, stage_terms
from shipcalc.documents.pages.letterhead import put_opening
from shipcalc.documents.pages.lines import LinesWriter, paragraphs, ranges, sum_of
from shipcalc.documents.parts import part_of
from shipcalc.money import decimals
from shipcalc.quote.model import Option, Quote
from shipcalc.records import dataclass
from shipcalc.sheets import look
from shipcalc.sheets.paging import Block, flow
from shipcalc.sheets.writing import Book
from shipcalc.trade import Payer

IMPORT_CODES = "import."  # their sources stand on the page of duty and tax
_WIDTHS = (5, 33, 12, 14, 12.5, 13.5)
_ACROSS = "A:F"


@dataclass(frozen=True, slots=True)
class ChoiceCells:
    """Where a choice's sums stand, as full addresses for the cover. `parts` are the terms that make up each part of the price.

    `altogether` is the total where nothing comes beside it, `landed` None where that is not known. `stages` are the terms that
    make up what each party pays for each stage.
    """

    total: Sum
    altogether: Sum
    landed: Sum | None
    deposit: str
    balance: str
    local: str | None
    parts: Mapping[str, str]
    stages: Mapping[tuple[str, Payer], str]


def put_lines(book: Book, quote: Quote) -> list[ChoiceCells]:
    """Add the sheet with the lines of every choice; return where the sums of each stand.

    Where every choice's stages stand side by side on another sheet, the recommended choice comes first and is alone printed.
    """
    order = choices_in_order(quote)
    page = book.page("Line by line", widths=_WIDTHS)
    rate_row = put_opening(page, quote, "F", "Line by line", _how_to_read(quote), foot="Line by line")
    row = put_exchange(page, quote, rate_row)
    page.height(row, 8)
    writer = LinesWriter(page, quote, row + 1, unsaid=(IMPORT_CODES,))
    writer.header()
    head = writer.row - 1
    page.freeze(f"A{writer.row}")
    cells: dict[int, ChoiceCells] = {}
    sections: list[list[Block]] = []
    for index in order:
        cells[index], blocks = _put_choice(writer, index, rate_row)
        sections.append(blocks if sections else [(1, head), *blocks])
    flow(page, _ACROSS, sections[:1] if prints_recommended_alone(quote) else sections, repeated=head)
    return [cells[index] for index in range(len(quote.options))]


def part_sums(option: Option) -> dict[str, Decimal]:
    """Return what each part of the price comes to."""
    sums: dict[str, Decimal] = {}
    for charge in option.charges:
        sums[part_of(charge)] = sums.get(part_of(charge), Decimal(0)) + charge.amount
    return sums


def _how_to_read(quote: Quote) -> str:
    charges = [charge for option in quote.options for charge in option.charges]
    told = [
        f"Amounts in {wording.currency_name(quote.currency)}. Each line is rounded once; a total is the sum of its lines."
    ]
    if any(charge.unit == "%" for charge in charges):
        told.append("A percentage is taken of the amounts of the lines it names.")
    if any(charge.estimate for charge in charges):
        told.append("An estimate is no promise: what the authority or the depot asks is what counts.")
    if alone := printed_told(quote):
        told.append(alone)
    return " ".join(told)


def _put_choice(writer: LinesWriter, index: int, rate_row: int) -> tuple[ChoiceCells, list[Block]]:
    """Write one choice; return where its sums stand, and the blocks that should not be torn apart."""
    page, option, first = writer.page, writer.quote.options[index], writer.row
    writer.rows.clear()
    writer.gap(8)
    title = f"{wording.choice_name(index)}  ·  {option.title}"
    writer.row = page.paragraph(writer.row, _ACROSS, title, _CHOICE, least_height=20)
    writer.gap(3)
    lines = writer.all_groups(option, total_label="Total")
    deposit, balance = _deposit_and_balance(writer, option, lines.total)
    total = put_in_theirs(writer, "Total", option.total, lines.total, rate_row)
    end = writer.row - 1
    local, local_blocks = _at_home(writer, option)
    blocks = paragraphs(lines.groups, first, end)
    blocks += local_blocks
    end = writer.row - 1
    both, landed = put_altogether(writer, option, lines.total, local, rate_row)
    if both:
        blocks.append((end + 1, writer.row - 1))
    found = ChoiceCells(
        total=total,
        altogether=both or total,
        landed=landed,
        deposit=page.address(f"F{deposit}"),
        balance=page.address(f"F{balance}"),
        local=page.address(f"F{local}") if local else None,
        parts={
            part: ",".join(page.address(cells) for cells in ranges("F", rows)) for part, rows in _parts(writer, option)
        },
        stages=stage_terms(writer, option),
    )
    return found, blocks


def _deposit_and_balance(writer: LinesWriter, option: Option, total_row: int) -> tuple[int, int]:
    """Write deposit and balance; return their rows."""
    page, currency, row = writer.page, writer.quote.currency, writer.row
    percent = deposit_percent(option, currency)
    page.put(f"B{row}", "Deposit, when you accept")
    if percent is None:
        page.put(f"F{row}", option.deposit, look.FIGURE, writer.amounts)
    else:
        page.put(f"E{row}", percent.scaleb(-2), look.FIGURE, look.percent_format(percent))
        formula = f"ROUND(F{total_row}*E{row},{decimals(currency)})"
        page.put_formula(f"F{row}", formula, look.FIGURE, writer.amounts, shows=option.deposit)
    page.put(f"B{row + 1}", f"Balance, {option.balance_due}")
    balance = option.total - option.deposit
    page.put_formula(f"F{row + 1}", f"F{total_row}-F{row}", look.FIGURE, writer.amounts, shows=balance)
    writer.row += 2
    return row, row + 1


def _at_home(writer: LinesWriter, option: Option) -> tuple[int | None, list[Block]]:
    """Write what the buyer pays to others; return the row of its sum, or None where there is nothing, and its blocks."""
    charges, first = local_charges(option), writer.row
    if not charges:
        return None, []
    writer.gap(6)
    writer.page.paragraph(
        writer.row, _ACROSS, "What you pay to others, in addition to the total (estimate)", _AT_HOME, least_height=18
    )
    writer.row += 1
    groups = writer.groups(option, charges)
    formula = sum_of("F", [writer.rows[charge.line] for charge in charges])
    writer.sum_row("Together, paid to others", formula, option.buyer_pays_locally, look.SUM_LABEL, look.SUM, 20)
    return writer.row - 1, paragraphs(groups, first, writer.row - 1)


def _parts(writer: LinesWriter, option: Option) -> list[tuple[str, list[int]]]:
    """Return the rows that make up each part of the price."""
    by_part: dict[str, list[int]] = {}
    for charge in option.charges:
        by_part.setdefault(part_of(charge), []).append(writer.rows[charge.line])
    return list(by_part.items())


_CHOICE = look.Style("Choice, heading", size=12, bold=True, ink=look.ACCENT, wrap=True, upright="bottom")
_AT_HOME = look.Style("At home, heading", bold=True, wrap=True, upright="bottom")
