"""The front sheet: page one of the offer in the same order and words, its sums taken from the sheets of the choices."""

from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal
from pathlib import Path

from shipcalc.documents import wording
from shipcalc.documents.buyer.choice_sheet import ChoiceCells
from shipcalc.documents.buyer.sheet import PERCENT
from shipcalc.documents.notes import notes
from shipcalc.documents.offer.acceptance import WINDOWS, payment_told, sent_back_told
from shipcalc.documents.offer.differences import Difference, differences
from shipcalc.documents.offer.first_answer import answers, rounded, worth
from shipcalc.documents.offer.opening import marks, reason, under_title
from shipcalc.documents.offer.route import route_scene
from shipcalc.documents.offer.timeline import time_scene
from shipcalc.documents.pages.letterhead import put_opening
from shipcalc.documents.photographs import photograph
from shipcalc.money import decimals
from shipcalc.pictures.png import to_png
from shipcalc.quote.model import Quote
from shipcalc.sheets import look
from shipcalc.sheets.paging import between, flow, page_room
from shipcalc.sheets.writing import Book, Page

_WIDTHS = (5, 15, 37, 14, 15, 13, 13)  # together as wide as the other sheets
_ACROSS, _LABEL, _ANSWER = "A:G", "A:B", "C:G"
_MAP, _BESIDE_MAP = (286.0, 141.0), "D:G"  # points; the map stands over A to C
_LINE_WIDTH = 580.0
_PHOTO_HEIGHT = 78.0
_MORE = "+#,##0;−#,##0;0"
_ABOUT = '"about "#,##0'

_NAME = look.Style("Vehicle, name", bold=True, wrap=True, upright="top")
_DECISIVE = look.Style(
    "What to know first", ink=look.CAUTION_INK, ground=look.CAUTION_WASH, wrap=True, upright="top", indent=1
)
_DECISIVE_TITLE = look.Style(
    "What to know first, title", size=9, bold=True, ink=look.CAUTION_INK, ground=look.CAUTION_WASH, indent=1
)
_ANSWER_LABEL = look.Style(
    "Answer, label", size=9, bold=True, ink=look.ACCENT, ground=look.WASH, upright="top", indent=1
)
_ANSWER_TEXT = look.Style("Answer", ground=look.WASH, wrap=True, upright="top")
_PRICE = look.Style("Answer, price", size=13, bold=True, ink=look.ACCENT, ground=look.WASH, wrap=True, upright="top")
_NUMBER = look.Style("Choice, number", bold=True, upright="top")
_WORDS = look.Style("Choice, in words", wrap=True, upright="top")
_FIGURE = look.Style("Choice, figure", align="right", upright="top")


def new_front(book: Book) -> Page:
    """Add the still empty front, so that it is the first sheet."""
    return book.page("Offer", widths=_WIDTHS)


def fill_front(
    page: Page, quote: Quote, cells: Mapping[int, ChoiceCells], photos: Path | None, logo: bytes | None = None
) -> None:
    """Write the front; `cells` are the sums of the choices that have a sheet, `logo` is a PNG."""
    row = put_opening(page, quote, "G", wording.headline(quote), under_title(quote), foot="Offer", logo=logo)
    row = _vehicles(page, quote, row, photos)
    row = _answers(page, quote, _decisive(page, quote, row))
    starts = [1]
    writers: tuple[Callable[[int], int], ...] = (
        lambda row: _choices(page, quote, cells, row),
        lambda row: _route(page, quote, row),
        lambda row: _line_of_time(page, quote, row),
        lambda row: _accept(page, quote, row),
    )
    for write in writers:
        starts.append(row)
        row = write(row)
    flow(page, _ACROSS, [[block] for block in between(starts, row)], percent=PERCENT)


def _vehicles(page: Page, quote: Quote, row: int, photos: Path | None) -> int:
    """Write the vehicles with what tells them from their like, two side by side, and a lone one's photograph beside it."""
    alone = len(quote.vehicles) == 1
    for first in range(0, len(quote.vehicles), 2):
        pair = quote.vehicles[first : first + 2]
        for columns, vehicle in zip(("A:E" if alone else "A:C", "D:G"), pair, strict=False):
            page.paragraph(row, columns, vehicle.name, _NAME)
            page.paragraph(row + 1, columns, marks(vehicle), look.SMALL)
        row += 2
    photo = photograph(quote.vehicles[0], photos) if alone else None
    if photo is not None:
        _photo(page, photo, row - 2)
        page.height(row - 1, _PHOTO_HEIGHT + 6 - page.row_height(row - 2))
    page.height(row, 6)
    return row + 1


def _photo(page: Page, photo: bytes, row: int) -> None:
    """Lay a photograph over the right edge of the page, no wider than the columns F and G are."""
    from io import BytesIO

    from PIL import Image

    with Image.open(BytesIO(photo)) as opened:
        wide, high = opened.size
    height = min(_PHOTO_HEIGHT, page.room_px("F:G") * 0.75 * high / wide)
    page.place_picture(f"F{row}", photo, width=height * wide / high, height=height)


def _decisive(page: Page, quote: Quote, row: int) -> int:
    """Write what may change the buyer's mind, above the price."""
    told = notes("decisive", quote, quote.options[quote.recommended])
    if not told.sentences:
        return row
    row = page.paragraph(row, _ACROSS, told.title, _DECISIVE_TITLE, least_height=17)
    for sentence in told.sentences:
        row = page.paragraph(row, _ACROSS, sentence, _DECISIVE)
    page.height(row, 6)
    return row + 1


def _answers(page: Page, quote: Quote, row: int) -> int:
    """Write the answer in one breath, as every face gives it: how much, by when, what else, what is not included."""
    for answer in answers(quote, quote.recommended, wording.money_told):
        page.paragraph(row, _LABEL, answer.label, _ANSWER_LABEL)
        style = _PRICE if answer.what == "price" else _ANSWER_TEXT
        row = page.paragraph(row, _ANSWER, wording.sentence_case(answer.text), style, least_height=16)
    return row


def _choices(page: Page, quote: Quote, cells: Mapping[int, ChoiceCells], row: int) -> int:
    """Write the choices side by side, and what we recommend; what is an estimate is rounded to what it is worth."""
    if len(quote.options) > 1:
        row = page.heading(row, _ACROSS, "Your choices", above=8)
        to_others = any(option.buyer_pays_locally for option in quote.options)
        words = "B:C" if to_others else "B:D"
        _head(page, quote, row, to_others=to_others)
        row += 1
        for one in differences(quote):
            _choice(page, quote, one, cells.get(one.number - 1), row, words)
            row += 1
    page.height(row, 5)
    return page.paragraph(row + 1, _ACROSS, reason(quote), look.TEXT)


def _head(page: Page, quote: Quote, row: int, *, to_others: bool) -> None:
    page.fill_style(f"A{row}:G{row}", look.HEADER)
    for column, word in (("A", "No."), ("B", "What it is, and how it differs")):
        page.put(f"{column}{row}", word, look.Style("Column header, unbroken", size=9, ink=look.GREY, upright="bottom",
                                                    below="thin"))  # fmt: skip
    price, altogether = f"Price, {quote.currency}", "Altogether"
    figures = (("D", price), ("E", altogether)) if to_others else (("E", price),)
    for column, word in (*figures, ("F", "More"), ("G", "There by")):
        page.put(f"{column}{row}", word, look.HEADER_FIGURE)
    page.height(row, 16)


def _choice(page: Page, quote: Quote, one: Difference, at: ChoiceCells | None, row: int, words: str) -> None:
    """Write one choice: where it has a sheet, its sums are taken from there."""
    best = one.number == quote.recommended + 1

    def tinted(style: look.Style) -> look.Style:
        return style.on(look.WASH) if best else style

    good_for = f"  ·  {', '.join(one.good_for)}" if one.good_for else ""
    page.put(f"A{row}", str(one.number), tinted(_NUMBER))
    page.paragraph(row, words, f"{wording.sentence_case(one.told)}{good_for}", tinted(_WORDS), least_height=15)
    amounts = look.money_format(decimals(quote.currency))
    price = "D" if words == "B:C" else "E"
    _sum(page, f"{price}{row}", at.total if at else None, one.price, tinted(_FIGURE), amounts)
    if price == "D":
        about, step = rounded(one.altogether), worth(one.altogether)
        formula = f"ROUND({at.altogether}/{step},0)*{step}" if at else None
        _sum(page, f"E{row}", formula, about, tinted(_FIGURE), _ABOUT)
    shown_as = f"+{amounts};−{amounts};0" if one.more and one.more % 1 else _MORE
    page.put(f"F{row}", "" if one.more is None else one.more, tinted(_FIGURE), shown_as)
    page.put(f"G{row}", one.there_by, tinted(_FIGURE), look.DAY)


def _sum(page: Page, cell: str, formula: str | None, amount: Decimal, style: look.Style, shown_as: str) -> None:
    if formula:
        page.put_formula(cell, formula, style, shown_as, shows=amount)
    else:
        page.put(cell, amount, style, shown_as)


def _route(page: Page, quote: Quote, row: int) -> int:
    """Draw the way on a map, smaller where the page is full, its legs in words beside it."""
    best = quote.options[quote.recommended]
    wide, high = _map_size(page, quote, row)
    scene = route_scene(quote, best, width=wide, height=high)
    if scene is None:
        return row
    row = first = page.heading(row, _ACROSS, "How it travels", above=8)
    page.place_picture(f"A{first}", to_png(scene), width=wide, height=high)
    for number, leg in enumerate(best.legs, 1):
        row = page.paragraph(row, _BESIDE_MAP, f"{number}.  {wording.sentence_case(wording.way(leg, best))}", look.TEXT)
    if any(leg.unit == "nmi" for leg in best.legs):
        row = page.paragraph(row, _BESIDE_MAP, SEA_KEY, look.SMALL)
    beside = sum(page.row_height(one) for one in range(first, row))
    page.height(row, max(high + 6 - beside, 3))
    return row + 1


def _map_size(page: Page, quote: Quote, row: int) -> tuple[float, float]:
    """Return how wide and high the map is, in points, so that it and how to accept stand on the page with all above."""
    wide, high = _MAP
    room = _room_left(page, quote, row) - _HEADING - 6
    least = 0.6 * high
    return wide * max(least, min(room, high)) / high, max(least, min(room, high))


def _room_left(page: Page, quote: Quote, row: int) -> float:
    """Return how many points there are between `row` and how to accept, were that at the foot of the first page."""
    above = sum(page.row_height(one) for one in range(1, row))
    below = _HEADING + sum(page.text_height(_ACROSS, told, look.TEXT) for told in _accept_told(quote))
    return page_room(page.book.paper, percent=PERCENT).high_points - above - below


SEA_KEY = "Whole lines go by road and are drawn straight, dashed lines by sea."


def _line_of_time(page: Page, quote: Quote, row: int) -> int:
    """Draw the days where they and how to accept fit on the page with all above; the days stand in cells behind it."""
    scene = time_scene(quote, quote.options[quote.recommended], width=_LINE_WIDTH)
    if scene is None:
        return row
    if _HEADING + scene.height + 6 > _room_left(page, quote, row):
        return row
    row = page.heading(row, _ACROSS, "When it happens", above=8)
    page.place_picture(f"A{row}", to_png(scene), width=scene.width, height=scene.height)
    page.height(row, scene.height + 6)
    return row + 1


_HEADING = 31.0  # points of `Page.heading` with 8 above it


def _accept(page: Page, quote: Quote, row: int) -> int:
    """Write how the offer is accepted and paid."""
    row = page.heading(row, _ACROSS, "How to accept", above=8)
    for told in _accept_told(quote):
        row = page.paragraph(row, _ACROSS, told, look.TEXT)
    return row


def _accept_told(quote: Quote) -> Sequence[str]:
    best = quote.options[quote.recommended]
    return sent_back_told(quote, paper=" of quote.pdf"), payment_told(quote, best), WINDOWS
