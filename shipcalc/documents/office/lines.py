"""The choices line by line, as the office sees them: price, cost, margin, carrier, and the cell where the rate stands."""

from decimal import Decimal

from shipcalc.documents import wording
from shipcalc.documents.offer.first_answer import ship
from shipcalc.documents.offer.itemised import local_charges
from shipcalc.documents.pages.letterhead import put_opening
from shipcalc.documents.pages.lines import (
    Itemised,
    LinesWriter,
    paragraphs,
    product,
    put_rate,
    sum_of,
)
from shipcalc.money import decimals
from shipcalc.quote.explain.stages import has_stages
from shipcalc.quote.model import Charge, Cost, Leg, Option, Quote
from shipcalc.records import dataclass
from shipcalc.sheets import look
from shipcalc.sheets.paging import Block, flow
from shipcalc.sheets.writing import Book

PERCENT = 70  # in print, of every sheet of the office's workbook
_WIDTHS = (4, 33, 10, 13, 11, 12, 10, 11, 11, 10.5, 7.5, 26)
_CARRIER_UNITS = 19  # of a further column, where a choice has more than one carrier
_HEADER = look.Style(
    "Column header, indented", size=9, ink=look.GREY, wrap=True, upright="bottom", below="thin", indent=1
)
_COST_COLUMNS = (
    ("Cost: quantity", look.HEADER_FIGURE),
    ("Cost: rate", look.HEADER_FIGURE),
    ("Cost", look.HEADER_FIGURE),
    ("Margin", look.HEADER_FIGURE),
    ("of price", look.HEADER_FIGURE),
    ("Where the rate stands", _HEADER),
)
_FIGURE = look.Style("Line, cost", align="right", upright="top")
_WORDS = look.Style("Line, carrier", wrap=True, upright="top", indent=1)
_CELL = look.Style("Line, cell", size=9, ink=look.GREY, wrap=True, upright="top", indent=1)
_CHOICE = look.Style("Choice, heading", size=12, bold=True, ink=look.ACCENT, wrap=True, upright="bottom")
_BUYERS = look.Style("Paid by the buyer, heading", bold=True, wrap=True, upright="bottom")


@dataclass(frozen=True, slots=True)
class OfficeCells:
    """Where a choice's sums stand, as full addresses."""

    total: str
    cost: str
    margin: str
    share: str


def put_office_lines(book: Book, quote: Quote) -> list[OfficeCells]:
    """Add the sheet with price, cost and margin of every line of every choice.

    The recommended choice comes first and is alone printed: the others are looked up on the screen.
    """
    several = any(len(carriers(option)) > 1 for option in quote.options)
    page = book.page("Line by line", widths=(*_WIDTHS, _CARRIER_UNITS) if several else _WIDTHS)
    last = "M" if several else "L"
    across = f"A:{last}"
    title = "Line by line: price, cost, margin"
    told = (
        f"Amounts in {wording.currency_name(quote.currency)}. Margin is price less cost, and its share is of the price. "
        "A percentage is taken of the lines it names, on the side of the price and on the side of the cost alike."
        f"{_printed_told(quote)}"
    )
    row = put_opening(page, quote, last, title, told, foot="For the office only", office=True)
    page.height(row, 8)
    writer = LinesWriter(page, quote, row + 1, last_column=last)
    writer.header("Buyer pays", (*_COST_COLUMNS, ("Carrier", _HEADER)) if several else _COST_COLUMNS)
    head = writer.row - 1
    page.freeze(f"C{writer.row}")
    cells: dict[int, OfficeCells] = {}
    sections: list[list[Block]] = []
    for index in sorted(range(len(quote.options)), key=lambda index: index != quote.recommended):
        option, first = quote.options[index], writer.row
        writer.rows.clear()
        writer.gap(8)
        title = f"{wording.choice_name(index)}  ·  {option.title}  ·  {wording.listed(carriers(option))}"
        writer.row = page.paragraph(writer.row, across, title, _CHOICE, least_height=20)
        writer.gap(3)
        lines = writer.all_groups(option, total_label="Total")
        cells[index] = _put_costs(writer, option, lines)
        blocks = paragraphs(lines.groups, first, writer.row - 1)
        blocks += _put_paid_by_buyer(writer, option)
        sections.append(blocks if sections else [(1, head), *blocks])
    flow(page, across, sections[:1], percent=PERCENT, repeated=head, landscape=True)
    return [cells[index] for index in range(len(quote.options))]


def _printed_told(quote: Quote) -> str:
    if len(quote.options) == 1:
        return ""
    name = wording.lower_first(wording.choice_name(quote.recommended))
    return f" On paper this is {name}, which we recommend; the others stand beneath it in the file."


def _put_costs(writer: LinesWriter, option: Option, lines: Itemised) -> OfficeCells:
    """Write the columns beside the buyer's, line by line, and their sums."""
    total_price, total_cost = Decimal(0), Decimal(0)
    for group in lines.groups:
        for charge in group.charges:
            _put_cost(writer, charge, lines.rows[charge.line], option, lines)
        price = sum((charge.amount for charge in group.charges), Decimal(0))
        cost = sum((cost_of(charge, writer.quote).amount for charge in group.charges), Decimal(0))
        if group.subtotal:
            _put_sums(writer, group.subtotal, sum_of("I", group.rows), price, cost, _SUBTOTAL)
        total_price, total_cost = total_price + price, total_cost + cost
    summands = [row for group in lines.groups for row in group.summands]
    _put_sums(writer, lines.total, sum_of("I", summands), total_price, total_cost, look.SUM)
    address = writer.page.address
    return OfficeCells(*(address(f"{column}{lines.total}") for column in "FIJK"))


def _put_paid_by_buyer(writer: LinesWriter, option: Option) -> list[Block]:
    """Write what the buyer pays to others: it is no cost of ours and has no margin. Return its blocks."""
    charges, first = local_charges(option), writer.row
    if not charges:
        return []
    writer.gap(6)
    title = "The buyer pays to others, at cost: no cost of ours and no margin"
    writer.row = writer.page.paragraph(writer.row, f"A:{writer.last_column}", title, _BUYERS, least_height=18)
    groups = writer.groups(option, charges)
    for charge in charges:
        row = writer.rows[charge.line]
        writer.page.paragraph(row, "L", _source(charge), _CELL)
    formula = sum_of("F", [writer.rows[charge.line] for charge in charges])
    writer.sum_row("Together, paid to others", formula, option.buyer_pays_locally, look.SUM_LABEL, look.SUM, 20)
    return paragraphs(groups, first, writer.row - 1)


def _source(charge: Charge) -> str:
    """Return the cell that a line's rate stands in, and who quoted it."""
    return ". ".join(part for part in (charge.source, charge.offer) if part)


def _put_cost(writer: LinesWriter, charge: Charge, row: int, option: Option, lines: Itemised) -> None:
    page, quote, cost = writer.page, writer.quote, cost_of(charge, writer.quote)
    _put_cost_quantity(writer, charge, cost, row, option, lines)
    put_rate(page, f"H{row}", cost.rate, charge.unit, quote.currency)
    page.put_formula(f"I{row}", product(f"G{row}", f"H{row}", quote), _FIGURE, writer.amounts, shows=cost.amount)
    _put_margin(writer, row, charge.amount, cost.amount, _FIGURE)
    page.paragraph(row, "L", _source(charge), _CELL)
    if writer.last_column == "M":
        carrier = wording.listed(carriers(option, charge))
        page.paragraph(row, "M", carrier, _WORDS)


def _put_cost_quantity(
    writer: LinesWriter, charge: Charge, cost: Cost, row: int, option: Option, lines: Itemised
) -> None:
    """Write the quantity of the cost: of a percentage, the cost of the lines it names, where these are what it was taken of."""
    named = [other for other in option.charges if other.line in charge.of]
    if charge.unit != "%":
        writer.page.put(f"G{row}", cost.quantity, _FIGURE, look.plain_format(cost.quantity))
    elif named and cost.quantity == sum((cost_of(other, writer.quote).amount for other in named), Decimal(0)):
        formula = sum_of("I", [lines.rows[other.line] for other in named])
        writer.page.put_formula(f"G{row}", formula, _FIGURE, writer.amounts, shows=cost.quantity)
    else:
        writer.page.put(f"G{row}", cost.quantity, _FIGURE, writer.amounts)


def _put_sums(writer: LinesWriter, row: int, formula: str, price: Decimal, cost: Decimal, style: look.Style) -> None:
    writer.page.put_formula(f"I{row}", formula, style, writer.amounts, shows=cost)
    _put_margin(writer, row, price, cost, style)


def _put_margin(writer: LinesWriter, row: int, price: Decimal, cost: Decimal, style: look.Style) -> None:
    writer.page.put_formula(f"J{row}", f"F{row}-I{row}", style, writer.amounts, shows=price - cost)
    share = (price - cost) / price if price else ""
    writer.page.put_formula(f"K{row}", f'IF(F{row}=0,"",J{row}/F{row})', style, look.PERCENT, shows=share)


def cost_of(charge: Charge, quote: Quote) -> Cost:
    """Return what a charge costs the dealer; nothing where the quote names no cost."""
    nothing = Decimal(0).scaleb(-decimals(quote.currency))
    return charge.cost or Cost(quantity=charge.quantity, rate=Decimal(0), amount=nothing)


def carriers(option: Option, charge: Charge | None = None) -> list[str]:
    """Return who carries a choice, or the vehicle that one of its charges is for; nobody for a charge of the whole shipment.

    Where there are cost stages, a charge of carriage is that of its stage's carrier, and other charges are no carrier's.
    """
    if charge is None:
        legs = option.legs
    elif has_stages(option):
        legs = tuple(leg for leg in option.legs if _stage_of(leg, option) == charge.stage)
    else:
        legs = tuple(leg for leg in option.legs if charge.vehicle in leg.vehicles)
    return list(dict.fromkeys(leg.carrier for leg in legs))


def _stage_of(leg: Leg, option: Option) -> str:
    """Return the stage of a leg: the truck before the ship, the ship, the truck after it; by road alone all is the main one."""
    sea = ship(option)
    if sea is None or leg is sea:
        return "main carriage"
    return "pre-carriage" if option.legs.index(leg) < option.legs.index(sea) else "on-carriage"


_SUBTOTAL = look.Style("Subtotal", align="right", above="hair", rule_ink=look.INK)
