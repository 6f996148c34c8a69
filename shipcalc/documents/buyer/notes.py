"""What belongs to the price in words: the days, what the buyer is asked for, the papers, terms, cautions."""

from collections.abc import Callable, Sequence
from datetime import date
from functools import partial

from shipcalc.documents import wording
from shipcalc.documents.buyer.sheet import PERCENT, WIDTHS
from shipcalc.documents.notes import Notes, notes, papers, requests
from shipcalc.documents.offer.acceptance import bank_told
from shipcalc.documents.offer.small_print import assumed, missing, noted, terms
from shipcalc.documents.offer.timeline import step_notes, steps
from shipcalc.documents.pages.letterhead import put_opening
from shipcalc.quote.model import Option, Quote
from shipcalc.sheets import look
from shipcalc.sheets.paging import Block, between, flow
from shipcalc.sheets.writing import Book, Page

_ACROSS, _TEXT = "A:F", "B:F"
_WHO = {"buyer": "you", "sales": "we", "office": "we", "yard": "we", "carrier": "the carrier", "forwarder": "the forwarder",
        "customs broker": "the customs broker"}  # fmt: skip
_DATE = look.Style("Paper, date", align="right", upright="top")
_BULLET = look.Style("Bullet", ink=look.GREY, upright="top")
_CAUTION_BULLET = look.Style("Caution bullet", bold=True, ink=look.CAUTION_INK, upright="top")
_SMALL_CAUTION = look.Style("Caution, small", size=9, ink=look.CAUTION_INK, wrap=True, upright="top")
_WORD = look.Style("Section, word", size=9, ink=look.GREY, upright="bottom", below="thin", rule_ink=look.ACCENT)


def put_notes(book: Book, quote: Quote) -> None:
    """Add the sheet of everything that belongs to the price of the recommended choice in words."""
    page, best = book.page("Good to know", widths=WIDTHS), quote.options[quote.recommended]
    title = "What belongs to the price, and what does not"
    row = put_opening(page, quote, "F", title, _validity(quote, best), foot="Good to know")
    blocks = choice_notes(page, quote, best, row)
    cautions = notes("cautions", quote).sentences
    told = (
        ("Where the money goes", bank_told(quote), look.TEXT),
        (notes("assumed", quote).title, assumed(quote), look.SMALL),
        ("Cautions", cautions, _SMALL_CAUTION),
    )
    for heading, sentences, style in told:
        first = blocks[-1][1] + 1 if blocks else row
        blocks += between([first], _run_in(page, first, heading, sentences, style))
    sections = [[(1, row - 1)], *([block] for block in blocks)]
    flow(page, _ACROSS, sections, percent=PERCENT)


def choice_notes(page: Page, quote: Quote, option: Option, row: int) -> list[Block]:
    """Write all that is said of one choice from `row` on; return the blocks of it."""
    writers: tuple[Callable[[int], int], ...] = (
        partial(_days, page, option=option),
        partial(_requests, page, option=option),
        partial(_papers, page, told=papers(option)),
        partial(_run_in, page, title="The terms in plain words", sentences=terms(quote, option)),
        partial(_list, page, told=missing(quote, option), sign="–"),
        partial(_list, page, told=Notes("Please note", tuple(noted(quote, option))), sign="!", bullet=_CAUTION_BULLET,
                style=look.CAUTION),
    )  # fmt: skip
    starts: list[int] = []
    for write in writers:
        starts.append(row)
        row = write(row)
    return between(starts, row)


def _validity(quote: Quote, option: Option) -> str:
    term = f" Delivery term: {wording.term(option)} (Incoterms 2020)." if option.term else ""
    of = f"Of {wording.lower_first(wording.choice_name(quote.recommended))}. " if len(quote.options) > 1 else ""
    return f"{of}Prices are good until {wording.long_day(quote.valid_until)}.{term}"


def _heading(page: Page, row: int, title: str, more: Sequence[tuple[str, str]] = ()) -> int:
    """Write a heading with words over some columns; return the first row under it."""
    under = page.heading(row, _ACROSS, title, above=6)
    for column, word in more:
        page.put(f"{column}{row + 1}", word, _WORD.set_in() if column == "D" else _WORD.aligned("right"))
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
        row = page.paragraph(row, _TEXT, sentence, style)
    return row


def _run_in(page: Page, row: int, title: str, sentences: Sequence[str], style: look.Style = look.TEXT) -> int:
    """Write sentences of the small print one after the other in a paragraph; return the first free row."""
    if not sentences:
        return row
    return page.paragraph(_heading(page, row, title), _ACROSS, " ".join(sentences), style)


def _days(page: Page, row: int, option: Option) -> int:
    """Write the steps with their earliest and latest days, and what is noted of them."""
    found = steps([option])
    if not found:
        return row
    row = _heading(page, row, "When it happens", (("E", "Earliest"), ("F", "Latest")))
    for step in found:
        page.paragraph(row, "B:D", step.what, look.TEXT, least_height=15)
        for window in step.windows[0][:1]:
            for column, day in zip("EF", window, strict=True):
                page.put(f"{column}{row}", day, _DATE, look.DAY)
        row += 1
    for note in step_notes([option]):
        row = page.paragraph(row, _TEXT, note, look.SMALL)
    return row


def _papers(page: Page, row: int, told: Sequence[tuple[str, str, date]]) -> int:
    """Write the papers that come to the buyer or that the buyer gives."""
    if not told:
        return row
    row = _heading(page, row, "Papers", (("D", "Who prepares it"), ("F", "By")))
    for title, prepared_by, due in told:
        page.paragraph(row, "B:C", title, look.TEXT)
        page.paragraph(row, "D:E", _WHO.get(prepared_by, prepared_by), look.TEXT.set_in())
        page.put(f"F{row}", due, _DATE, look.DAY)
        row += 1
    return row


def _requests(page: Page, row: int, option: Option) -> int:
    """Write what the buyer must bring, and what the buyer is asked to do by which day."""
    asked, needed = requests(option), option.needed_from_buyer
    if not asked and not needed:
        return row
    row = _heading(page, row, "What we need from you", (("F", "By"),) if asked else ())
    for title, due in asked:
        page.put(f"A{row}", "–", _BULLET)
        page.paragraph(row, "B:E", title, look.TEXT)
        page.put(f"F{row}", due, _DATE, look.DAY)
        row += 1
    for sentence in needed:
        page.put(f"A{row}", "–", _BULLET)
        row = page.paragraph(row, _TEXT, sentence, look.TEXT)
    return row
