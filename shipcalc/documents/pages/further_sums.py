"""Below the lines of a choice: all that the buyer pays, the landed sum, and both in the buyer's currency, as formulas."""

from decimal import Decimal

from shipcalc.documents import wording
from shipcalc.documents.offer.landing import altogether, has_more, landed_label
from shipcalc.documents.pages.lines import LinesWriter
from shipcalc.money import decimals
from shipcalc.quote.model import Option, Quote
from shipcalc.quote.price.exchange import converted
from shipcalc.sheets import look
from shipcalc.sheets.writing import Page

_NOTE = look.Style("Exchange", size=9, ink=look.GREY)
_NOTE_FIGURE = look.Style("Exchange, figure", size=9, ink=look.GREY, align="right")


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
    page.put(f"B{row + 1}", "Added to it as a buffer against exchange-rate movements until payment", _NOTE)
    page.put(f"F{row + 1}", exchange.buffer.scaleb(-2), _NOTE_FIGURE, look.percent_format(exchange.buffer))
    return row + 2


def put_altogether(
    writer: LinesWriter, option: Option, total_row: int, local_row: int | None, rate_row: int
) -> int | None:
    """Write all that the buyer pays, without and with the vehicles, where anything comes beside the total.

    `rate_row` is where `put_exchange` began. Return the row of all that the buyer pays, where it is written.
    """
    if not has_more(option):
        return None
    quote, both, landed_row = writer.quote, altogether(option), None
    writer.gap(6)
    addends = f"F{total_row}+F{local_row}" if local_row else f"F{total_row}"
    writer.sum_row("Altogether: our total and what others ask", addends, both, look.SUM_LABEL, look.SUM, 20)
    both_row = writer.row - 1
    if option.landed is not None:
        words = "Price of the vehicle" if len(quote.vehicles) == 1 else "Price of the vehicles"
        writer.page.put(f"B{writer.row}", words)
        writer.page.put(f"F{writer.row}", option.landed - both, look.FIGURE, writer.amounts)
        landed_row, formula = writer.row + 1, f"F{both_row}+F{writer.row}"
        writer.row += 1
        label = f"Landed: {landed_label(quote, option)}"
        writer.sum_row(label, formula, option.landed, look.SUM_LABEL, look.SUM, 20)
    put_in_theirs(writer, "Altogether", both, both_row, rate_row)
    if option.landed is not None and landed_row is not None:
        put_in_theirs(writer, "Landed", option.landed, landed_row, rate_row)
    return both_row


def put_in_theirs(writer: LinesWriter, what: str, amount: Decimal, row: int, rate_row: int) -> None:
    """Write the sum that stands in `row` in the buyer's currency too, where the quote has one."""
    page, exchange, at = writer.page, writer.quote.exchange, writer.row
    if exchange is None:
        return
    places = decimals(exchange.currency)
    page.put(f"B{at}", f"{what} in {wording.currency_name(exchange.currency)}", _NOTE)
    formula = f"ROUND(F{row}*F${rate_row}*(1+F${rate_row + 1}),{places})"
    page.put_formula(f"F{at}", formula, _NOTE_FIGURE, look.money_format(places), shows=converted(amount, exchange))
    writer.row += 1
