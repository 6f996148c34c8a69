"""What the list said when it was written, for the program that reads it back: dates of the shipment and every line."""

import json
from collections.abc import Mapping, Sequence
from datetime import date

from shipcalc.checklist.columns import ABOUT, LAST_VERSION, LINE_HEADERS, MOMENT_HEADERS, SHIPMENT, VERSION, WRITTEN_ON
from shipcalc.checklist.items import Item
from shipcalc.quote.model import Window
from shipcalc.sheets import look
from shipcalc.sheets.reading import letter
from shipcalc.sheets.writing import Book, Page, Value

_FOR_PEOPLE = (
    "For the program, not for people: what this list said when it was last written. With it shipcalc checklist read tells "
    "what you have changed. Please leave this sheet as it is; it is not printed."
)
FIRST_MOMENT_ROW = 10
# What people wrote into columns of their own: (header, text).
Added = Sequence[tuple[str, str]]
_SMALL = look.Style("Small", size=8, ink=look.GREY, upright="top")
_SMALL_DAY = look.Style("Small, day", size=8, ink=look.GREY, upright="top", number_format="yyyy-mm-dd")
_WIDTHS = (26, 11, 11, 11, 12, 28, 13, 46, 14, 40, 9, 12, 20)


def put_last_version(
    book: Book,
    items: Sequence[Item],
    moments: Mapping[str, Window],
    free_days: Mapping[str, int],
    *,
    key: str,
    title: str,
    version: int,
    written_on: date,
    added: Mapping[str, Added] | None = None,
) -> Page:
    """Write the sheet; `key` tells the shipment, `title` what it is about, `free_days` how long ports ask no storage, `added`
    what stands in columns that people added, by id."""
    told: dict[str, Value] = {SHIPMENT: key, ABOUT: title, VERSION: version, WRITTEN_ON: written_on}
    page = book.page(LAST_VERSION, widths=_WIDTHS, landscape=True)
    page.print_on(book.paper, landscape=True, pages_high=1)
    page.hide()  # and no area of it is to be printed: LibreOffice prints the areas of sheets that are out of sight
    page.put("A1", LAST_VERSION, look.SUBTITLE)
    page.paragraph(2, "A:L", _FOR_PEOPLE, look.SMALL)
    for row, (label, value) in enumerate(told.items(), 4):
        page.put(f"A{row}", label, _SMALL)
        page.put(f"B{row}", value, _SMALL_DAY if isinstance(value, date) else _SMALL)
    page.put_row(FIRST_MOMENT_ROW - 1, MOMENT_HEADERS, look.HEADER)
    for row, (stage, days) in enumerate(moments.items(), FIRST_MOMENT_ROW):
        page.put(f"A{row}", stage, _SMALL)
        page.put_row(row, days, _SMALL_DAY, first="B")
        if stage in free_days:
            page.put(f"D{row}", free_days[stage], _SMALL)
    header = FIRST_MOMENT_ROW + len(moments) + 1
    page.put_row(header, LINE_HEADERS.values(), look.HEADER)
    for row, item in enumerate(items, header + 1):
        for place, value in enumerate(line_values(item).values()):
            page.put(f"{letter(place)}{row}", value, _SMALL_DAY if isinstance(value, date) else _SMALL)
        if own := dict((added or {}).get(item.id, ())):
            place = list(LINE_HEADERS).index("added")
            page.put(f"{letter(place)}{row}", json.dumps(own, ensure_ascii=False), _SMALL)
    return page


def line_values(item: Item) -> dict[str, Value]:
    """Return what the sheet says of a line, by field."""
    return {
        "id": item.id,
        "state": item.state,
        "due": item.due,
        "done_on": item.done_on,
        "done_by": item.done_by,
        "remark": item.remark,
        "owner": item.owner,
        "title": item.title,
        "stage": item.stage,
        "after": "; ".join(item.after),
        "critical": "critical" if item.critical else "",
        "due_by_hand": "by hand" if item.due_by_hand else "",
    }


def moment_cell(moments: Mapping[str, Window], stage: str, *, last: bool) -> str:
    """Return the address of a moment's first or last day, for formulas on other sheets."""
    row = FIRST_MOMENT_ROW + list(moments).index(stage)
    return f"'{LAST_VERSION}'!${'C' if last else 'B'}${row}"
