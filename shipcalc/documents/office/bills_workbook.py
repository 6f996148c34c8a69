"""The workbook of what bills say of quotes: a page of figures and charts, for the manager alone."""

from collections.abc import Sequence
from itertools import groupby
from pathlib import Path

from shipcalc.errors import how_many
from shipcalc.learning.accuracy import Accuracy
from shipcalc.learning.buffer import Buffer
from shipcalc.learning.report import Report
from shipcalc.money import decimals, to_decimal
from shipcalc.sheets import look
from shipcalc.sheets.charts import put_bars
from shipcalc.sheets.writing import Book, Page, Paper

WIDTHS = (30, 9, 14, 14, 14, 10, 10, 11)
HEADERS = ("", "Quotes", "Reckoned", "Sold for", "Paid", "Bias", "Spread", "Under cost")
CHARTED = ("billed for", "distance", "carrier", "lane")
MOST_BARS = 12
LEAST_BARS = 2
# A row of the page with the charts, and how many of them a page has room for.
ROW_CM, ROWS_A_PAGE = 0.53, 32
EXPLAINED = (
    "Bias: the median of what was paid above what was reckoned with. Spread: how far single quotes lie from it (a standard "
    "deviation that a few wild bills do not move). Under cost: the share that was sold for less than was paid. Only what was "
    "billed counts on either side."
)


def write_bills_report(report: Report, path: Path, *, creator: str, paper: Paper) -> None:
    """Write the workbook of a report."""
    book = Book(title="What bills say of quotes", creator=creator, made=report.as_of, paper=paper)
    _figures(book, "Quotes and bills", report.groups, report)
    if report.in_hand:
        _figures(book, "Prices in hand", report.in_hand, report)
    _charts(book, report)
    book.save(path)


def headline(report: Report) -> str:
    """Return in a sentence what the report is of."""
    since = f" since {report.since.isoformat()}" if report.since else ""
    return f"{how_many(report.bills, 'bill')}{since} for {how_many(report.quotes, 'quote')}, in {report.currency}"


def buffer_told(report: Report) -> tuple[str, ...]:
    """Return what is said of the buffer, a sentence each."""
    buffer = report.buffer
    if not isinstance(buffer, Buffer):
        return (buffer.told,)
    covered = f"{buffer.held} of the {buffer.held_out} latest ({buffer.held / buffer.held_out:.0%})"
    told = (
        f"With {buffer.buffer:.1%} on top of what is reckoned, {buffer.share:.0%} of quotes are not under cost. A buffer from "
        f"the earlier quotes alone would have covered {covered}."
    )
    return (told, *((f"But {buffer.doubt}.",) if buffer.doubt else ()))


def _figures(book: Book, name: str, groups: Sequence[Accuracy], report: Report) -> None:
    page = book.page(name, widths=WIDTHS, landscape=True)
    page.band(1, "A:H", name, look.TITLE)
    page.height(1, 30)
    page.band(2, "A:H", headline(report), look.SUBTITLE)
    row = page.paragraph(4, "A:H", EXPLAINED, look.SMALL)
    if groups is report.groups:
        for told in (*buffer_told(report), *report.said):
            row = page.paragraph(row, "A:H", told)
    for by, members in groupby(groups, key=lambda one: one.by):
        row = page.heading(row, "A:H", by.capitalize(), above=10)
        row = _table(page, row, tuple(members), report.currency)


def _table(page: Page, row: int, members: Sequence[Accuracy], currency: str) -> int:
    for place, header in enumerate(HEADERS):
        page.put(f"{'ABCDEFGH'[place]}{row}", header, look.HEADER_FIGURE if place else look.HEADER)
    money = look.money_format(decimals(currency))
    for one in members:
        row += 1
        page.put(f"A{row}", one.name)
        page.put(f"B{row}", one.count, look.FIGURE, look.WHOLE)
        for column, minor in zip("CDE", (one.reckoned_minor, one.sold_minor, one.paid_minor), strict=True):
            page.put(f"{column}{row}", to_decimal(minor, currency), look.FIGURE, money)
        for column, share in zip("FGH", (one.bias, one.spread, one.under_cost), strict=True):
            page.put(f"{column}{row}", None if share is None else round(share, 6), look.FIGURE, look.PERCENT)
    return row + 1


def _charts(book: Book, report: Report) -> None:
    """Draw the share of quotes under cost for each kind of group of which there are several, none over two pages."""
    drawn = [(by, [one for one in report.groups if one.by == by][:MOST_BARS]) for by in CHARTED]
    drawn = [(by, members) for by, members in drawn if len(members) >= LEAST_BARS]
    if not drawn:
        return
    page = book.page("Charts", widths=(30, 14, 4, 12, 12, 12, 12, 12, 12), landscape=True)
    page.band(1, "A:I", "Share of quotes under cost", look.TITLE)
    page.height(1, 30)
    row, first = 3, 1
    for by, members in drawn:
        height = max(3.0, 0.75 * len(members) + 1.5)
        rows = max(len(members) + 2, int(height / ROW_CM) + 1)
        if row > first and row + rows - first > ROWS_A_PAGE:
            page.page_break(row - 1)
            first = row
        row = page.heading(row, "A:I", f"By {by}" if by != "billed for" else "By what was billed", above=6)
        for offset, one in enumerate(members):
            page.put(f"A{row + offset}", one.name)
            page.put(f"B{row + offset}", round(one.under_cost, 6), look.FIGURE, look.PERCENT)
        last = row + len(members) - 1
        labels, cells = f"A{row}:A{last}", f"B{row}:B{last}"
        put_bars(
            page,
            f"D{row}",
            labels=labels,
            series=[("under cost", cells)],
            width_cm=15,
            height_cm=height,
            shown_as="0%",
            most=1,
        )
        row += rows
