"""The timeline: the windows of all choices, drawn, and every step side by side."""

from collections.abc import Sequence

from shipcalc.documents import wording
from shipcalc.documents.buyer.cover import lies
from shipcalc.documents.offer.timeline import step_notes, steps
from shipcalc.documents.pages.letterhead import put_opening
from shipcalc.quote.model import Option, Quote
from shipcalc.records import replace
from shipcalc.sheets import look
from shipcalc.sheets.charts import put_spans
from shipcalc.sheets.paging import Block, flow
from shipcalc.sheets.reading import letter
from shipcalc.sheets.writing import Book, Page

_ALL_UNITS = 90
_LABEL_UNITS = {3: 33, 4: 26}
_MANY_UNITS, _MANY_LABEL_UNITS = 99, 24  # for more choices, printed a little smaller
_FEWEST_COLUMNS = 3  # earliest, latest, days
_CHART_CM = 16.6
_CM_PER_BAR, _CM_BESIDE = 0.62, 1.4

_WHAT = look.Style("Step", wrap=True, upright="top")
_DATE = look.Style("Date", align="right", upright="top", wrap=True)
_STEP_DATE = look.Style("Date, step", align="right", upright="top", wrap=True, indent=1)  # set off its neighbour
_COLUMN = look.Style("Steps, column", size=9, ink=look.GREY, align="right", upright="bottom", below="thin",
                     rule_ink=look.ACCENT)  # fmt: skip

_STEP_COLUMN = replace(_COLUMN, name="Steps, column set off", indent=1)


def put_dates(book: Book, quote: Quote) -> None:
    """Add the sheet with the timeline."""
    columns = max(len(quote.options), _FEWEST_COLUMNS)
    last = letter(columns)
    units, label = (_MANY_UNITS, _MANY_LABEL_UNITS) if lies(quote) else (_ALL_UNITS, _LABEL_UNITS[columns])
    page = book.page("Timeline", widths=(label, *[(units - label) / columns] * columns))
    told = (
        f"Counted from the vehicle being ready on {wording.long_day(quote.ready)}. A window is the earliest and the latest day; "
        "the carrier names the day itself shortly before."
    )
    row = put_opening(page, quote, last, "When it happens", told, foot="Timeline")
    middle = _windows(page, quote, row, last)
    end = _steps(page, quote.options, middle, last)
    sections: list[list[Block]] = [[(1, middle - 1)], [(middle, end - 1)]]
    flow(page, f"A:{last}", sections)


def _windows(page: Page, quote: Quote, row: int, last: str) -> int:
    """Write the windows of all choices, drawn beneath; return the first free row."""
    shown_as = look.DAY if lies(quote) else look.DATE
    first = row = _heading(page, row, "Pickup and delivery", ("Earliest", "Latest", "Days"), last)
    for index, option in enumerate(quote.options):
        name = f"{wording.choice_name(index)}, " if len(quote.options) > 1 else ""
        for what, days in (("pickup", option.dates.pickup), ("delivery", option.dates.delivery)):
            page.put(f"A{row}", wording.sentence_case(f"{name}{what}"), _WHAT)
            page.put(f"B{row}", days[0], _DATE, shown_as)
            page.put(f"C{row}", days[1], _DATE, shown_as)
            page.put_formula(f"D{row}", f"C{row}-B{row}+1", _DATE, look.WHOLE, shows=(days[1] - days[0]).days + 1)
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


def _steps(page: Page, options: Sequence[Option], row: int, last: str) -> int:
    """Write the steps of all choices side by side, and their notes beneath; return the first free row."""
    names = [wording.choice_name(index) for index in range(len(options))] if len(options) > 1 else ["When"]
    row = _heading(page, row, "Step by step", names, last, _STEP_COLUMN)
    for step in steps(options):
        page.paragraph(row, "A", step.what, _WHAT, least_height=15)
        for index, windows in enumerate(step.windows):
            said = wording.listed([wording.window(window) for window in windows]) or "–"
            column = letter(index + 1) if len(options) > 1 else f"B:{last}"
            page.paragraph(row, column, said, _STEP_DATE, least_height=15)
        row += 1
    for note in step_notes(options):
        row = page.paragraph(row, f"A:{last}", note, look.SMALL)
    return row


def _heading(page: Page, row: int, title: str, columns: Sequence[str], last: str, style: look.Style = _COLUMN) -> int:
    """Write a heading with the names of columns; return the first row under it."""
    under = page.heading(row, f"A:{last}", title, above=12)
    for number, word in enumerate(columns, 1):
        where = last if len(columns) == 1 else letter(number)
        page.put(f"{where}{row + 1}", word, style)
    return under
