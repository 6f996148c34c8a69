"""One choice line by line, as the buyer sees it: what each line is for, how much of it, at which rate, and the sums.

Beneath the lines stands how customs may treat it; beneath those of a choice that is not the recommended one, its days and notes.
"""

from shipcalc.documents import wording
from shipcalc.documents.buyer.customs_rows import put_customs
from shipcalc.documents.buyer.notes import choice_notes
from shipcalc.documents.buyer.sheet import PERCENT, WIDTHS
from shipcalc.documents.offer.itemised import local_charges
from shipcalc.documents.offer.landing import deposit_percent
from shipcalc.documents.pages.further_sums import put_altogether, put_exchange, put_in_theirs
from shipcalc.documents.pages.letterhead import put_opening
from shipcalc.documents.pages.lines import LinesWriter, paragraphs, sum_of
from shipcalc.money import decimals
from shipcalc.quote.model import Option, Quote
from shipcalc.records import dataclass
from shipcalc.sheets import look
from shipcalc.sheets.paging import Block, flow
from shipcalc.sheets.writing import Book

IMPORT_CODES = "import."  # their sources stand under the treatments by the customs
_ACROSS = "A:F"


@dataclass(frozen=True, slots=True)
class ChoiceCells:
    """Where a choice's sums stand, as full addresses for the front; `altogether` is the total where nothing comes beside it."""

    total: str
    altogether: str


def put_choice(book: Book, quote: Quote, index: int) -> ChoiceCells:
    """Add the sheet of one choice; return where its sums stand."""
    option, best = quote.options[index], index == quote.recommended
    several = len(quote.options) > 1
    page = book.page("Line by line" if best else wording.choice_name(index), widths=WIDTHS)
    title = f"{wording.choice_name(index)}, line by line" if several else "Line by line"
    told = f"{option.title}. {_how_to_read(quote, option)}"
    rate_row = put_opening(page, quote, "F", title, told, foot=title)
    row = put_exchange(page, quote, rate_row)
    page.height(row, 8)
    writer = LinesWriter(page, quote, row + 1, unsaid=(IMPORT_CODES,))
    writer.header()
    head = writer.row - 1
    page.freeze(f"A{writer.row}")
    cells, blocks = _put_lines(writer, option, rate_row)
    customs = put_customs(page, quote, option, writer)
    sections: list[list[Block]] = [[(1, head), *blocks]]
    sections += [customs] if customs else []
    sections += [] if best else [[block] for block in choice_notes(page, quote, option, writer.row)]
    flow(page, _ACROSS, sections, percent=PERCENT, repeated=head)
    return cells


def _how_to_read(quote: Quote, option: Option) -> str:
    told = [
        f"Amounts in {wording.currency_name(quote.currency)}. Each line is rounded once; a total is the sum of its lines."
    ]
    if any(charge.unit == "%" for charge in option.charges):
        told.append("A percentage is taken of the amounts of the lines it names.")
    if any(charge.estimate for charge in option.charges):
        told.append("An estimate is no promise: what the authority or the depot asks is what counts.")
    return " ".join(told)


def _put_lines(writer: LinesWriter, option: Option, rate_row: int) -> tuple[ChoiceCells, list[Block]]:
    """Write the lines and all sums; return where these stand, and the blocks that should not be torn apart."""
    page, first = writer.page, writer.row
    lines = writer.all_groups(option, total_label="Total")
    _deposit_and_balance(writer, option, lines.total)
    put_in_theirs(writer, "Total", option.total, lines.total, rate_row)
    blocks = paragraphs(lines.groups, first, writer.row - 1)
    local, local_blocks = _at_home(writer, option)
    blocks += local_blocks
    end = writer.row
    both = put_altogether(writer, option, lines.total, local, rate_row)
    if both:
        blocks.append((end, writer.row - 1))
    total = page.address(f"F{lines.total}")
    return ChoiceCells(total, page.address(f"F{both}") if both else total), blocks


def _deposit_and_balance(writer: LinesWriter, option: Option, total_row: int) -> None:
    """Write deposit and balance."""
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


_AT_HOME = look.Style("At home, heading", bold=True, wrap=True, upright="bottom")
