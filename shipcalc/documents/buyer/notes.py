"""What is included and what is not, the papers, what the buyer is asked to do, assumptions and cautions."""

from collections.abc import Callable, Sequence
from datetime import date
from functools import partial

from shipcalc.documents import wording
from shipcalc.documents.notes import Notes, notes, papers, requests
from shipcalc.documents.pages.letterhead import put_opening
from shipcalc.quote.model import Quote
from shipcalc.records import replace
from shipcalc.sheets import look
from shipcalc.sheets.paging import between, flow
from shipcalc.sheets.writing import Book, Page

_WIDTHS = (3, 51, 21, 15)
_ACROSS = "B:D"
_WHO = {"buyer": "you", "sales": "we", "office": "we", "yard": "we", "carrier": "the carrier", "forwarder": "the forwarder",
        "customs broker": "the customs broker"}  # fmt: skip
_DATE = look.Style("Paper, date", align="right", upright="top")
_BULLET = look.Style("Bullet", ink=look.GREY, upright="top")
_CAUTION_BULLET = look.Style("Caution bullet", bold=True, ink=look.CAUTION_INK, upright="top")


def put_notes(book: Book, quote: Quote) -> None:
    """Add the sheet of everything that belongs to the price in words."""
    page = book.page("Good to know", widths=_WIDTHS)
    title = "What belongs to the price, and what does not"
    row = put_opening(page, quote, "D", title, _validity(quote), foot="Good to know")
    best = quote.options[quote.recommended]
    cautions = notes("cautions", quote)
    cautions = replace(cautions, sentences=(*cautions.sentences, *notes("noted", quote).sentences))
    starts = [1]
    writers: tuple[Callable[[int], int], ...] = (
        partial(_list, page, told=notes("included", quote), sign="+"),
        partial(_list, page, told=notes("missing", quote), sign="–"),
        partial(_papers, page, told=papers(best)),
        partial(_requests, page, asked=requests(best)),
        partial(_list, page, told=notes("assumed", quote), sign="–"),
        partial(_list, page, told=cautions, sign="!", bullet=_CAUTION_BULLET, style=look.CAUTION),
    )
    for write in writers:
        starts.append(row)
        row = write(row)
    flow(page, "A:D", [[block] for block in between(starts, row)])


def _validity(quote: Quote) -> str:
    reach = [way for way in (quote.dealer.phone, quote.dealer.email) if way]
    ask = f" Questions: {', '.join(reach)}." if reach else ""
    terms = {f"{option.term} {option.term_place}" for option in quote.options}
    term = f" Delivery term: {', '.join(sorted(terms))} (Incoterms 2020)." if all(terms) else ""
    return f"These prices are good until {wording.long_day(quote.valid_until)}.{term}{ask}"


def _heading(page: Page, row: int, title: str, more: Sequence[str] = ()) -> int:
    under = page.heading(row, "A:D", title, above=8)
    for column, word in zip("CD", more, strict=False):
        style = look.Style("Section, word", size=9, ink=look.GREY, upright="bottom", below="thin", rule_ink=look.ACCENT)
        page.put(f"{column}{row + 1}", word, style.aligned("right") if column == "D" else style.set_in())
    return under


def _list(
    page: Page, row: int, told: Notes, sign: str, bullet: look.Style = _BULLET, style: look.Style = look.TEXT
) -> int:
    """Write a list of sentences under its heading; return the first free row."""
    if not told.sentences:
        return row
    row = _heading(page, row, told.title)
    for sentence in told.sentences:
        page.put(f"A{row}", sign, bullet)
        row = page.paragraph(row, _ACROSS, sentence, style)
    return row


def _papers(page: Page, row: int, told: Sequence[tuple[str, str, date]]) -> int:
    """Write the papers that come to the buyer or that the buyer gives."""
    if not told:
        return row
    row = _heading(page, row, "Papers", ("Who prepares it", "By"))
    for title, prepared_by, due in told:
        page.put(f"B{row}", title, look.TEXT)
        page.put(f"C{row}", _WHO.get(prepared_by, prepared_by), look.TEXT.set_in())
        page.put(f"D{row}", due, _DATE, look.DAY)
        page.fit_height(row, "B", title, look.TEXT)
        row += 1
    return row


def _requests(page: Page, row: int, asked: Sequence[tuple[str, date]]) -> int:
    """Write what the buyer is asked to do."""
    if not asked:
        return row
    row = _heading(page, row, "What we ask of you", ("", "By"))
    for title, due in asked:
        page.paragraph(row, "B:C", title, look.TEXT)
        page.put(f"D{row}", due, _DATE, look.DAY)
        row += 1
    return row
