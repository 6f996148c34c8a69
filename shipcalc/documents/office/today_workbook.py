"""The office's day as a workbook: all shipments on one page, then what is late, due, waited for and missing."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from shipcalc.checklist.office_day import Entry, OfficeDay, Standing
from shipcalc.records import replace
from shipcalc.sheets import look
from shipcalc.sheets.reading import letter
from shipcalc.sheets.writing import Book, Page, Paper, Value

SHIPMENTS = ("Shipment", "Buyer", "Vehicles", "To", "Late", "Due", "Waiting for", "Papers missing", "Next", "on")
ENTRIES = ("Due", "Shipment", "What is to be done", "Who", "Vehicle", "Buyer", "What shows it")
FIGURE = replace(look.FIGURE, name="Figure, on top", upright="top")
ENDING = ("Quote", "Buyer", "Vehicles", "Holds until")


def write_day(
    day: OfficeDay, ending: Sequence[tuple[str, str, str, date]], path: Path, *, creator: str, paper: Paper
) -> None:
    """Write the workbook of a day; `ending` are quotes that end this week: number, buyer, vehicles, last day."""
    title = f"{day.today.isoformat()}{f', {day.person}' if day.person else ''}"
    book = Book(title=f"The day {title}", creator=creator, made=day.today, paper=paper)
    rows = [_standing(one) for one in day.shipments]
    _page(book, "Shipments", title, SHIPMENTS, (14, 22, 32, 20, 7, 7, 24, 9, 28, 12), rows)
    for name, entries in (
        ("Late", day.late),
        ("Due", day.due),
        ("Waiting", day.waiting),
        ("Papers missing", day.papers),
        ("Next", day.next),
    ):
        _page(book, name, title, ENTRIES, (12, 14, 48, 20, 30, 22, 34), [_row(entry) for entry in entries])
    _page(book, "Quotes that end", title, ENDING, (14, 26, 44, 14), [list(one) for one in ending])
    book.save(path)


def _standing(one: Standing) -> list[Value]:
    coming = one.next
    return [
        one.shipment,
        one.buyer,
        one.vehicles,
        one.to,
        one.late,
        one.due,
        ", ".join(one.waiting),
        one.papers,
        _told(coming) if coming else "",
        coming.due if coming else None,
    ]


def _told(entry: Entry) -> str:
    return f"{'* ' if entry.critical else ''}{entry.task}{', overdue' if entry.overdue else ''}"


def _row(entry: Entry) -> list[Value]:
    return [entry.due, entry.shipment, _told(entry), entry.owner, entry.vehicle, entry.buyer, entry.wanted]


def _page(
    book: Book, name: str, title: str, headers: Sequence[str], widths: Sequence[float], rows: Sequence[Sequence[Value]]
) -> Page:
    page = book.page(name, widths=widths, landscape=True)
    last = letter(len(headers) - 1)
    page.band(1, f"A:{last}", f"{name}: {title}", look.TITLE)
    page.height(1, 30)
    figures = {place for place, value in enumerate(rows[0]) if isinstance(value, int)} if rows else set()
    for place, header in enumerate(headers):
        style = look.HEADER.set_in() if place - 1 in figures else look.HEADER
        page.put(f"{letter(place)}3", header, look.HEADER_FIGURE if place in figures else style)
    for number, row in enumerate(rows, 4):
        for place, value in enumerate(row):
            text = look.TEXT.set_in() if place - 1 in figures else look.TEXT
            style = FIGURE if place in figures else text
            page.put(f"{letter(place)}{number}", value or None, style, look.DAY if isinstance(value, date) else "")
            if isinstance(value, str):
                page.fit_height(number, letter(place), value, look.TEXT)
    if not rows:
        page.put("A4", "nothing", look.TEXT)
    page.freeze("A4")
    page.repeat_rows(1, 3)
    return page
