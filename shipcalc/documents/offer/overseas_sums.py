"""Below the lines of a choice abroad: all that the buyer pays, the landed sum, and both in the buyer's currency, as formulas."""

from collections.abc import Mapping
from decimal import Decimal

from shipcalc.documents import wording
from shipcalc.documents.offer.itemised import Itemised, LinesWriter, ranges
from shipcalc.documents.offer.landing import altogether, landed_label
from shipcalc.money import decimals
from shipcalc.quote.model import Exchange, Option, Quote
from shipcalc.quote.price.exchange import converted
from shipcalc.records import dataclass
from shipcalc.sheets import look
from shipcalc.sheets.writing import Page
from shipcalc.trade import Payer

_NOTE = look.Style("Exchange", size=9, ink=look.GREY)
_NOTE_FIGURE = look.Style("Exchange, figure", size=9, ink=look.GREY, align="right")


@dataclass(frozen=True, slots=True)
class AbroadCells:
    """Full addresses of a choice's further sums; those of `theirs` are in the buyer's currency, where the quote has one.

    `stages` are the terms that make up what each party pays for each stage.
    """

    altogether: str
    landed: str | None
    altogether_theirs: str | None
    landed_theirs: str | None
    stages: Mapping[tuple[str, Payer], str]


def put_exchange(page: Page, quote: Quote, row: int) -> int:
    """Write the rate and the buffer of the buyer's currency into F, in two rows; return the first free row."""
    exchange = quote.exchange
    if exchange is None:
        return row
    told = (
        f"{wording.currency_name(exchange.currency)} for 1 {quote.currency}, the rate of {wording.day(exchange.as_of)}"
    )
    page.put(f"B{row}", wording.sentence_case(told), _NOTE)
    page.put(f"F{row}", exchange.rate, _NOTE_FIGURE, look.plain_format(exchange.rate))
    page.put(f"B{row + 1}", "Added to it against movements until payment", _NOTE)
    page.put(f"F{row + 1}", exchange.buffer.scaleb(-2), _NOTE_FIGURE, look.percent_format(exchange.buffer))
    return row + 2


def put_altogether(
    writer: LinesWriter, option: Option, lines: Itemised, local_row: int | None, rate_row: int
) -> AbroadCells:
    """Write all that the buyer pays, with the vehicles too; `rate_row` is where `put_exchange` began. Return the cells."""
    page, quote = writer.page, writer.quote
    total, both = f"F{lines.total}", altogether(option)
    writer.gap(6)
    addends = f"{total}+F{local_row}" if local_row else total
    writer.sum_row("Altogether: our total and what others ask", addends, both, look.SUM_LABEL, look.SUM, 20)
    altogether_at, landed_at = f"F{writer.row - 1}", None
    if option.landed is not None:
        words = "Price of the vehicle" if len(quote.vehicles) == 1 else "Price of the vehicles"
        page.put(f"B{writer.row}", words)
        page.put(f"F{writer.row}", option.landed - both, look.FIGURE, writer.amounts)
        writer.row += 1
        label = f"Landed: {landed_label(quote, option)}"
        formula = f"{altogether_at}+F{writer.row - 1}"
        writer.sum_row(label, formula, option.landed, look.SUM_LABEL, look.SUM, 20)
        landed_at = f"F{writer.row - 1}"
    theirs: list[str | None] = [None, None]
    if quote.exchange is not None:
        for place, (what, cell, amount) in enumerate(
            (("Altogether", altogether_at, both), ("Landed", landed_at, option.landed))
        ):
            if cell is not None and amount is not None:
                theirs[place] = page.address(_converted(writer, quote.exchange, what, cell, amount, rate_row))
    return AbroadCells(
        altogether=page.address(altogether_at),
        landed=page.address(landed_at) if landed_at else None,
        altogether_theirs=theirs[0],
        landed_theirs=theirs[1],
        stages=_stage_terms(writer, option),
    )


def put_total_in_theirs(writer: LinesWriter, option: Option, total_row: int, rate_row: int) -> str | None:
    """Write the total in the buyer's currency and return its address; None where the quote has none."""
    exchange = writer.quote.exchange
    if exchange is None:
        return None
    return writer.page.address(_converted(writer, exchange, "Total", f"F{total_row}", option.total, rate_row))


def _converted(writer: LinesWriter, exchange: Exchange, what: str, cell: str, amount: Decimal, rate_row: int) -> str:
    """Write a sum in the buyer's currency and return its cell."""
    page, row, places = writer.page, writer.row, decimals(exchange.currency)
    page.put(f"B{row}", f"{what} in {wording.currency_name(exchange.currency)}", _NOTE)
    formula = f"ROUND({cell}*F${rate_row}*(1+F${rate_row + 1}),{places})"
    page.put_formula(f"F{row}", formula, _NOTE_FIGURE, look.money_format(places), shows=converted(amount, exchange))
    writer.row += 1
    return f"F{row}"


def _stage_terms(writer: LinesWriter, option: Option) -> Mapping[tuple[str, Payer], str]:
    rows: dict[tuple[str, Payer], list[int]] = {}
    for charge in option.charges:
        rows.setdefault((charge.stage, charge.payer), []).append(writer.rows[charge.line])
    return {key: ",".join(writer.page.address(cells) for cells in ranges("F", own)) for key, own in rows.items()}
