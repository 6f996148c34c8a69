"""The timeline: every choice's steps with their earliest and latest day, and the windows drawn."""

from shipcalc.documents import wording
from shipcalc.documents.letterhead import put_letterhead
from shipcalc.quote.model import Milestone, Option, Quote
from shipcalc.sheets import look
from shipcalc.sheets.charts import put_spans
from shipcalc.sheets.paging import Block, flow
from shipcalc.sheets.writing import Book, Page

_WIDTHS = (47, 18, 18, 7)
_CHART_CM = 16.6
_CM_PER_BAR, _CM_BESIDE = 0.62, 1.4


def put_dates(book: Book, quote: Quote) -> None:
    """Add the sheet with the timeline."""
    page = book.page("Timeline", widths=_WIDTHS)
    row = put_letterhead(page, quote, "D")
    page.paragraph(row, "A:D", "When it happens", look.TITLE_WRAPPED)
    told = (
        f"Counted from the vehicle being ready on {wording.long_day(quote.ready)}. A window is the earliest and the latest day; "
        "the carrier names the day itself shortly before."
    )
    page.paragraph(row + 1, "A:D", told, look.SUBTITLE_WRAPPED)
    after = _windows(page, quote, row + 2)
    sections: list[list[Block]] = [[(1, after - 1)]]
    for index, option in enumerate(quote.options):
        first, after = after, _steps(page, after, wording.choice_name(index), option)
        sections.append([(first, after - 1)])
    flow(page, "A:D", sections)
    page.footer(f"{quote.dealer.name}  ·  {wording.reference(quote)}  ·  Timeline")


def _windows(page: Page, quote: Quote, row: int) -> int:
    """Write the windows of all choices, drawn beneath; return the first free row."""
    first = row = _heading(page, row, "Pickup and delivery")
    for index, option in enumerate(quote.options):
        name = wording.choice_name(index)
        for what, days in (("pickup", option.dates.pickup), ("delivery", option.dates.delivery)):
            _step(page, row, Milestone(what=f"{name}, {what}", earliest=days[0], latest=days[1]))
            row += 1
    height_cm = _CM_BESIDE + _CM_PER_BAR * (row - first)
    put_spans(
        page,
        f"A{row}",
        labels=f"A{first}:A{row - 1}",
        starts=f"B{first}:B{row - 1}",
        days=f"D{first}:D{row - 1}",
        earliest=min(option.dates.pickup[0] for option in quote.options),
        latest=max(option.dates.delivery[1] for option in quote.options),
        width_cm=_CHART_CM,
        height_cm=height_cm,
    )
    page.height(row, height_cm * 72 / 2.54 + 4)
    return row + 1


def _steps(page: Page, row: int, name: str, option: Option) -> int:
    """Write one choice's steps; return the first free row."""
    row = _heading(page, row, f"{name}  ·  {option.title}")
    for step in option.dates.timeline:
        _step(page, row, step)
        row += 1
        if step.note:
            page.paragraph(row, "A:C", step.note, look.SMALL)
            row += 1
    return row


def _heading(page: Page, row: int, title: str) -> int:
    """Write a heading with the columns' names; return the first row under it."""
    page.height(row, 12)
    page.fill_style(f"A{row + 1}:D{row + 1}", _HEADING)
    page.put(f"A{row + 1}", title, _HEADING)
    for column, word in zip("BCD", ("Earliest", "Latest", "Days"), strict=True):
        page.put(f"{column}{row + 1}", word, _COLUMN)
    page.fit_height(row + 1, "A", title, _HEADING, least_height=20)
    page.height(row + 2, 3)
    return row + 3


def _step(page: Page, row: int, step: Milestone) -> None:
    page.put(f"A{row}", step.what, _WHAT)
    page.put(f"B{row}", step.earliest, _DATE, look.DATE)
    page.put(f"C{row}", step.latest, _DATE, look.DATE)
    days = (step.latest - step.earliest).days + 1
    page.put_formula(f"D{row}", f"C{row}-B{row}+1", _DATE, look.WHOLE, shows=days)
    page.fit_height(row, "A", step.what, _WHAT, least_height=15)


_HEADING = look.Style("Choice, steps", size=11, bold=True, ink=look.ACCENT, wrap=True, upright="bottom", below="thin",
                      rule_ink=look.ACCENT)  # fmt: skip
_COLUMN = look.Style("Steps, column", size=9, ink=look.GREY, align="right", upright="bottom", below="thin",
                     rule_ink=look.ACCENT)  # fmt: skip
_DATE = look.Style("Date", align="right", upright="top")
_WHAT = look.Style("Step", wrap=True, upright="top")
