"""One page for the yard and the driver: state of the vehicle at pickup and at delivery, marks, photographs, signatures."""

from collections.abc import Sequence

from shipcalc.documents import wording
from shipcalc.documents.checklist.vehicle_outlines import END_CELLS, SIDE_CELLS, Mask, outline_for
from shipcalc.documents.handover import (
    BY_TRUCK,
    MARKS,
    NEW_MARKS,
    PHOTOGRAPHS,
    READINGS,
    SIGNATURES,
    TIED_DOWN,
    course,
)
from shipcalc.documents.securing import is_tied_down
from shipcalc.quote.model import Option, Quote
from shipcalc.sheets import look
from shipcalc.sheets.reading import letter
from shipcalc.sheets.writing import Book, Margins, Page
from shipcalc.vehicles.vehicle import Vehicle

# The page is a fine grid, so that a drawing and tables of different columns stand on it; columns are counted from 0.
_GRID = 42
_CELL_UNITS = 3.0
_CELL_POINTS = 14.0
_END_AT = SIDE_CELLS + 4

_GROUNDS = {"#": "DDE2E4", "g": "EFF2F3", "w": "8C959B"}
_DRAWN = {sign: look.Style(f"Drawing {sign}", ground=ground) for sign, ground in _GROUNDS.items()}
_CAPTION = look.Style("Caption", size=8, ink=look.GREY)
_SMALL = look.Style("Sheet text", size=9)
_WRAPPED = look.Style("Sheet text, wrapped", size=8, ink=look.GREY, wrap=True, upright="top")
_HEAD = look.Style("Sheet header", size=9, ink=look.GREY, upright="bottom", below="thin")
_WRITE = look.Style("Writing line", size=9, below="thin")
_REFERENCE = look.Style("Sheet reference", size=9, ink=look.GREY, align="right")

_MARK_LINES = 5


def put_handover(book: Book, quote: Quote, option: Option, vehicle: Vehicle) -> Page:
    """Write the handover sheet of one vehicle, one printed page."""
    several = len(quote.vehicles) > 1
    page = book.page(f"Handover {vehicle.stock_number}" if several else "Handover", widths=(_CELL_UNITS,) * _GRID)
    page.print_on(book.paper, margins=Margins(left=0.6, right=0.6, top=0.5, bottom=0.6), pages_high=1)
    row = _put_head(page, quote, option, vehicle)
    row = _put_readings(page, row + 1)
    row = _put_drawing(page, row + 1, vehicle)
    row = _put_marks(page, row + 1)
    tied_down = is_tied_down(option)
    row = _put_photographs(page, row + 1, (*PHOTOGRAPHS, TIED_DOWN) if tied_down else PHOTOGRAPHS)
    row = _put_signatures(page, row + 1, tied_down=tied_down)
    page.print_area(f"A1:{letter(_GRID - 1)}{row}")
    page.footer(f"{quote.dealer.name}  ·  {wording.reference(quote)}  ·  one copy each for yard, driver, receiver")
    return page


def _put(page: Page, row: int, first: int, last: int, text: str, style: look.Style = _SMALL) -> None:
    """Write text across grid columns `first` to `last`. It runs over the empty cells beside it; only what wraps is merged."""
    cells = f"{letter(first)}{row}:{letter(last)}{row}"
    page.fill_style(cells, style)
    if style.wrap:
        page.merge(cells)
    page.put(f"{letter(first)}{row}", text, style)


def _heading(page: Page, row: int, text: str) -> int:
    _put(page, row, 0, _GRID - 1, text, look.HEADING)
    page.height(row, 18)
    return row + 1


def _put_head(page: Page, quote: Quote, option: Option, vehicle: Vehicle) -> int:
    _put(page, 1, 0, 20, quote.dealer.name.upper(), look.LETTERHEAD)
    page.put(f"{letter(_GRID - 1)}1", wording.reference(quote), _REFERENCE)
    _put(page, 2, 0, _GRID - 1, f"Handover: {vehicle.name}", look.SUBTITLE)
    page.height(2, 22)
    start, to, carriers = course(quote, option, vehicle)
    facts = (
        ("Stock number", vehicle.stock_number, "From", wording.place(start)),
        ("Serial number", vehicle.serial or "read it off the vehicle:", "To", wording.place(to)),
        ("Body, color", f"{vehicle.body or ''}, " if vehicle.body else "", "Carrier", carriers),
    )
    for row, (label, text, other_label, other) in enumerate(facts, 3):
        _put(page, row, 0, 6, label, _CAPTION)
        _put(page, row, 7, 20, text, _WRITE)
        _put(page, row, 22, 25, other_label, _CAPTION)
        _put(page, row, 26, _GRID - 1, other, _WRITE)
        page.height(row, 15)
    return 5


def _put_readings(page: Page, row: int) -> int:
    row = _heading(page, row, "Readings")
    for first, last, text in ((0, 9, ""), (10, 25, "at pickup"), (26, _GRID - 1, "at delivery")):
        _put(page, row, first, last, text, _HEAD)
    for label, offered in READINGS:
        row += 1
        _put(page, row, 0, 9, label, _CAPTION)
        _put(page, row, 10, 24, offered, _WRITE)
        _put(page, row, 26, _GRID - 1, offered, _WRITE)
        page.height(row, 16)
    return row


def _put_drawing(page: Page, row: int, vehicle: Vehicle) -> int:
    row = _heading(page, row, "Condition: mark the place with a letter and a number, P at pickup, D at delivery")
    _put(page, row, 0, _GRID - 1, MARKS, _CAPTION)
    outline = outline_for(vehicle.body)
    views = (
        ("left side", outline.side, "front", outline.front),
        ("from above, nose to the left", outline.above, "rear", outline.rear),
        ("right side", outline.other_side, "", ()),
    )
    row += 1
    for caption, mask, end_caption, end_mask in views:
        _put(page, row, 0, SIDE_CELLS - 1, caption, _CAPTION)
        if end_caption:
            _put(page, row, _END_AT, _END_AT + END_CELLS - 1, end_caption, _CAPTION)
        _draw(page, row + 1, 0, mask)
        _draw(page, row + 1, _END_AT, end_mask)
        for line in range(row, row + 1 + len(mask)):
            page.height(line, _CELL_POINTS)
        row += 1 + len(mask)
    return row - 1


def _draw(page: Page, row: int, first: int, mask: Mask) -> None:
    for down, line in enumerate(mask):
        for along, sign in enumerate(line):
            if sign in _DRAWN:
                page.put(f"{letter(first + along)}{row + down}", None, _DRAWN[sign])


def _put_marks(page: Page, row: int) -> int:
    columns = ((0, 2, "No."), (3, 6, "Letter"), (7, 33, "Where, how large"), (34, 37, "P"), (38, _GRID - 1, "D"))
    for first, last, text in columns:
        _put(page, row, first, last, text, _HEAD)
    for number in range(1, _MARK_LINES + 1):
        row += 1
        for first, last, _ in columns:
            _put(page, row, first, last, str(number) if first == 0 else "", _WRITE)
        page.height(row, 16)
    return row


def _put_photographs(page: Page, row: int, wanted: Sequence[str]) -> int:
    row = _heading(page, row, f"Photographs, dated, at least 20 (this list has {len(wanted)})")
    in_a_row, width = 4, _GRID // 4
    for start in range(0, len(wanted), in_a_row):
        for place, what in enumerate(wanted[start : start + in_a_row]):
            _put(page, row, place * width, place * width + width - 1, f"{look.TICK_BOX} {what}", _SMALL)
        page.height(row, 13)
        row += 1
    return row - 1


def _put_signatures(page: Page, row: int, *, tied_down: bool) -> int:
    row = _heading(page, row, "Signatures")
    receipt = "the carrier's delivery receipt" if tied_down else "both copies"
    text = f"{NEW_MARKS.format(receipt=receipt)} {BY_TRUCK}" if tied_down else NEW_MARKS.format(receipt=receipt)
    _put(page, row, 0, _GRID - 1, text, _WRAPPED)
    page.height(row, 24)
    half = _GRID // 2
    for pair in (SIGNATURES[:2], SIGNATURES[2:]):
        row += 1
        page.height(row, 26)
        for place, who in enumerate(pair):
            _put(page, row, place * half, place * half + half - 2, "", _WRITE)
            _put(page, row + 1, place * half, place * half + half - 2, f"{who}: name, signature, day, time", _CAPTION)
        row += 1
    return row
