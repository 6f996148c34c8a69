"""The sheets to tick off: everything that is to be done, and the papers among it."""

import re
from collections.abc import Mapping, Sequence
from datetime import date
from decimal import Decimal

from shipcalc.checklist.columns import FOR_THE_PROGRAM, HEADERS, ON_SCREEN_ONLY, SHEET
from shipcalc.checklist.items import STATES, Item, item_id
from shipcalc.documents.checklist.last_version_sheet import Added
from shipcalc.documents.pages.letterhead import put_letterhead
from shipcalc.quote.model import Document, Option, Quote
from shipcalc.sheets import look
from shipcalc.sheets.reading import letter
from shipcalc.sheets.writing import Book, Page, Value, serial_day

_WIDTHS = {
    "when": 11,
    "state": 11,
    "due": 14,
    "title": 50,
    "owner": 12,
    "critical": 8,
    "slack_days": 8,
    "wanted": 27,
    "done_on": 12,
    "done_by": 10,
    "remark": 24,
    "note": 110,
    "source": 80,
    "id": 20,
}
LETTERS: Mapping[str, str] = {key: letter(place) for place, key in enumerate(HEADERS)}
FIRST_ROW = 6
_HEADER_ROW = FIRST_ROW - 1
_LAST_PRINTED = [LETTERS[key] for key in HEADERS if key not in (*ON_SCREEN_ONLY, *FOR_THE_PROGRAM)][-1]

_LINE = look.Style("Line", size=9, wrap=True, upright="top", below="hair")
_LINE_STRONG = look.Style("Line, strong", size=9, bold=True, wrap=True, upright="top", below="hair")
_LINE_GREY = look.Style("Line, grey", size=9, ink=look.GREY, wrap=True, upright="top", below="hair")
_LINE_FIGURE = look.Style("Line, figure", size=9, ink=look.GREY, upright="top", align="center", below="hair")
_LINE_DAY = look.Style("Line, day", size=9, upright="top", below="hair", number_format="ddd d mmm yy")
_LINE_ENTRY = look.Style(
    "Line, to be filled in", size=9, wrap=True, upright="top", below="hair", ground=look.ENTRY_WASH
)
_LINE_ENTRY_DAY = look.Style(
    "Line, day to be filled in", size=9, upright="top", below="hair", ground=look.ENTRY_WASH, number_format="d mmm yyyy"
)
_LINE_QUIET = look.Style("Line, for the program", size=8, ink=look.GREY, upright="top", below="hair")
_STYLES = {
    "when": _LINE_STRONG,
    "state": _LINE_ENTRY,
    "due": _LINE_DAY,
    "owner": _LINE.set_in(),
    "critical": _LINE_STRONG,
    "slack_days": _LINE_FIGURE,
    "done_on": _LINE_ENTRY_DAY,
    "done_by": _LINE_ENTRY,
    "remark": _LINE_ENTRY,
    "wanted": _LINE_GREY,
    "note": _LINE_GREY,
    "source": _LINE_GREY,
    "id": _LINE_QUIET,
}
_SPARE_ROWS = 8
_ADDED_WIDTH = 18
_NUMBER = re.compile(r"-?(?:0|[1-9]\d{0,13})(?:\.\d{1,6})?")


def last_row(items: Sequence[Item]) -> int:
    """Return the last row of the checklist, the spare rows at its foot among them."""
    return FIRST_ROW + len(items) + _SPARE_ROWS - 1


def column(key: str, items: Sequence[Item]) -> str:
    """Return the address of a column of the checklist for formulas on any sheet."""
    return f"{SHEET}!${LETTERS[key]}${FIRST_ROW}:${LETTERS[key]}${last_row(items)}"


def put_checklist(
    book: Book, quote: Quote, items: Sequence[Item], *, title: str, today: date, added: Mapping[str, Added]
) -> Page:
    """Write the checklist; `title` says what it is about, `today` when it is written. What people wrote into columns of their own
    stands behind the program's."""
    page = book.page(SHEET, landscape=True)
    page.widths({LETTERS[name]: width for name, width in _WIDTHS.items()})
    put_letterhead(page, quote, _LAST_PRINTED, title=f"What is to be done: {title}")
    page.put_row(_HEADER_ROW, HEADERS.values(), look.HEADER)
    page.put(f"{LETTERS['owner']}{_HEADER_ROW}", HEADERS["owner"], look.HEADER.set_in())
    page.height(_HEADER_ROW, 26)
    for row, item in enumerate(items, FIRST_ROW):
        _put_item(page, row, item, today)
    own = _put_added(page, items, added)
    for row in range(FIRST_ROW + len(items), last_row(items) + 1):
        _put_cells(page, row, dict.fromkeys(HEADERS))
        _put_when(page, row, "")
    _make_usable(page, items, last_column=letter(len(HEADERS) + own - 1))
    return page


def _put_added(page: Page, items: Sequence[Item], added: Mapping[str, Added]) -> int:
    """Write the columns that people added, and return how many there are."""
    headers = dict.fromkeys(header for item in items for header, _ in added.get(item.id, ()))
    letters = {header: letter(len(HEADERS) + place) for place, header in enumerate(headers)}
    page.widths(dict.fromkeys(letters.values(), _ADDED_WIDTH))
    for header, at in letters.items():
        page.put(f"{at}{_HEADER_ROW}", header, look.HEADER)
        for row, item in enumerate(items, FIRST_ROW):
            text = dict(added.get(item.id, ())).get(header, "")
            page.put(f"{at}{row}", _figure_or_text(text), _LINE_ENTRY)
    return len(letters)


def _figure_or_text(text: str) -> Value:
    """Return a number as one, so that sums go on: not `007`, nor what is too long for a spreadsheet."""
    if not _NUMBER.fullmatch(text):
        return text or None
    return Decimal(text) if "." in text else int(text)


def _put_item(page: Page, row: int, item: Item, today: date) -> None:
    cells: dict[str, Value] = {
        "when": None,
        "state": item.state,
        "due": item.due,
        "title": item.title,
        "owner": item.owner,
        "critical": "critical" if item.critical else "",
        "slack_days": item.slack_days,
        "wanted": item.wanted,
        "done_on": item.done_on,
        "done_by": item.done_by,
        "remark": item.remark,
        "note": item.note,
        "source": item.source,
        "id": item.id,
    }
    _put_cells(page, row, cells)
    _put_when(page, row, told_when(item, today))
    for name in ("title", "wanted", "note", "source"):
        page.fit_height(row, LETTERS[name], str(cells[name]), _STYLES.get(name, _LINE), least_height=17)


def _put_cells(page: Page, row: int, cells: Mapping[str, Value]) -> None:
    for name, value in cells.items():
        page.put(f"{LETTERS[name]}{row}", value, _STYLES.get(name, _LINE))


def _put_when(page: Page, row: int, shows: str) -> None:
    """Write how the due date stands to today: the formula says what `told_when` says."""
    state, due = f"{LETTERS['state']}{row}", f"{LETTERS['due']}{row}"
    page.put_formula(
        f"{LETTERS['when']}{row}",
        f'IF(OR({state}="done",{state}="not needed",{due}=""),"",IF({due}<TODAY(),"overdue",IF({due}=TODAY(),"today",'
        f'IF({due}=TODAY()+1,"tomorrow",IF({due}<=TODAY()+14,"in "&({due}-TODAY())&" days","")))))',
        _STYLES["when"],
        shows=shows,
    )


def told_when(item: Item, today: date) -> str:
    """Return how the due date stands to a day: overdue, today, tomorrow, in 5 days; nothing when closed or far off."""
    days = (item.due - today).days
    if not item.is_open or days > 14:
        return ""
    return "overdue" if days < 0 else {0: "today", 1: "tomorrow"}.get(days, f"in {days} days")


def _make_usable(page: Page, items: Sequence[Item], *, last_column: str) -> None:
    last = last_row(items)
    lines = f"A{FIRST_ROW}:{LETTERS['source']}{last}"
    when, state = f"$A{FIRST_ROW}", f"${LETTERS['state']}{FIRST_ROW}"
    page.highlight(lines, f'{when}="overdue"', ink=look.CAUTION_INK, ground=look.CAUTION_WASH)
    page.highlight(lines, f'{when}="today"', ink=look.ACCENT, ground=look.WASH, bold=True)
    page.highlight(lines, f'OR({state}="done",{state}="not needed")', ink=look.GREY)
    page.drop_down(
        f"{LETTERS['state']}{FIRST_ROW}:{LETTERS['state']}{last}", STATES, message="Choose open, done or not needed."
    )
    page.note(
        f"{LETTERS['slack_days']}{_HEADER_ROW}",
        "How many days it may slip before something that waits for it, or the pickup or delivery itself, is late.",
    )
    page.filter(f"A{_HEADER_ROW}:{last_column}{last}")
    page.freeze(f"{LETTERS['owner']}{FIRST_ROW}")
    page.print_area(f"A1:{_LAST_PRINTED}{last}")
    page.repeat_rows(_HEADER_ROW, _HEADER_ROW)
    page.footer("Windows and due dates are estimates; the carrier's confirmation and the law of the place come first.")


def put_papers(book: Book, quote: Quote, option: Option, items: Sequence[Item], *, title: str) -> Page:
    """Write the papers; their state comes from the checklist, so that each is ticked in one place only."""
    page = book.page("Papers", widths=(11, 38, 11, 11, 22, 14, 58), landscape=True)
    put_letterhead(page, quote, "G", title=f"Papers: {title}")
    headers = ("State", "Paper", "Prepared by", "Given to", "Copies", "Due", "Good to know, and source")
    page.put_row(_HEADER_ROW, headers, look.HEADER)
    due = {item.id: item.due for item in items}
    papers = sorted(option.documents, key=lambda paper: due[item_id(paper.code, paper.vehicle)])
    for row, paper in enumerate(papers, FIRST_ROW):
        _put_paper(page, row, paper, due[item_id(paper.code, paper.vehicle)], items, several=len(quote.vehicles) > 1)
    page.highlight(f"A{FIRST_ROW}:G{FIRST_ROW + len(papers)}", f'$A{FIRST_ROW}="done"', ink=look.GREY)
    page.freeze(f"C{FIRST_ROW}")
    page.repeat_rows(_HEADER_ROW, _HEADER_ROW)
    page.footer("Not legal advice. Rules differ by state and change: ask the authority of the place.")
    return page


def _put_paper(page: Page, row: int, paper: Document, due: date, items: Sequence[Item], *, several: bool) -> None:
    key = item_id(paper.code, paper.vehicle).replace('"', '""')
    page.put_formula(
        f"A{row}",
        f'IFERROR(INDEX({column("state", items)},MATCH("{key}",{column("id", items)},0)),"")',
        _LINE_STRONG,
        shows=next(item.state for item in items if item.id == item_id(paper.code, paper.vehicle)),
    )
    fee = f"Costs about {paper.fee:,.2f} to get." if paper.fee else ""
    note = " ".join(part for part in (paper.note, fee, f"({paper.source})" if paper.source else "") if part)
    title = f"{paper.vehicle}: {paper.title}" if several and paper.vehicle else paper.title
    page.put_row(row, (title, paper.prepared_by, paper.given_to, paper.copies), _LINE, first="B")
    page.put_formula(
        f"F{row}",
        f'IFERROR(INDEX({column("due", items)},MATCH("{key}",{column("id", items)},0)),"")',
        _LINE_DAY,
        shows=serial_day(due),
    )
    page.put(f"G{row}", note, _LINE_GREY)
    for at, text in (("B", title), ("E", paper.copies), ("G", note)):
        page.fit_height(row, at, text, _LINE, least_height=17)
