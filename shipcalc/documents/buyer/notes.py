"""What is included and what is not, the papers, what the buyer is asked to do, assumptions and cautions."""

from collections import Counter
from collections.abc import Callable, Sequence
from functools import partial

from shipcalc.documents import wording
from shipcalc.documents.pages.letterhead import put_letterhead
from shipcalc.documents.wording import by_choice
from shipcalc.quote.model import Document, Quote, Task
from shipcalc.sheets import look
from shipcalc.sheets.paging import flow
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
    row = put_letterhead(page, quote, "D")
    page.paragraph(row, "A:D", "What belongs to the price, and what does not", look.TITLE_WRAPPED)
    page.paragraph(row + 1, "A:D", _validity(quote), look.SUBTITLE_WRAPPED)
    best = quote.options[quote.recommended]
    noted = [*quote.cautions, *by_choice([option.warnings for option in quote.options])]
    starts = [1]
    row += 2
    writers: tuple[Callable[[int], int], ...] = (
        partial(_list, page, title="Included", sentences=by_choice([o.included for o in quote.options]), sign="+"),
        partial(
            _list, page, title="Not included", sentences=by_choice([o.not_included for o in quote.options]), sign="–"
        ),
        partial(_papers, page, documents=best.documents),
        partial(_requests, page, tasks=[task for task in best.tasks if task.owner == "buyer"]),
        partial(_list, page, title="What we assumed", sentences=quote.assumptions, sign="–"),
        partial(_cautions, page, sentences=noted),
    )
    for write in writers:
        starts.append(row)
        row = write(row)
    ends = [*(start - 1 for start in starts[1:]), row - 1]
    flow(page, "A:D", [[block] for block in zip(starts, ends, strict=True) if block[0] <= block[1]])
    page.footer(f"{quote.dealer.name}  ·  {wording.reference(quote)}  ·  Good to know")


def _validity(quote: Quote) -> str:
    reach = [way for way in (quote.dealer.phone, quote.dealer.email) if way]
    ask = f" Questions: {', '.join(reach)}." if reach else ""
    terms = {f"{option.term} {option.term_place}" for option in quote.options}
    term = f" Delivery term: {', '.join(sorted(terms))} (Incoterms 2020)." if all(terms) else ""
    return f"These prices are good until {wording.long_day(quote.valid_until)}.{term}{ask}"


def _heading(page: Page, row: int, title: str, more: Sequence[str] = ()) -> int:
    page.height(row, 8)
    page.fill_style(f"A{row + 1}:D{row + 1}", look.HEADING)
    page.put(f"A{row + 1}", title, look.HEADING)
    for column, word in zip("CD", more, strict=False):
        style = look.Style("Section, word", size=9, ink=look.GREY, upright="bottom", below="thin", rule_ink=look.ACCENT)
        page.put(f"{column}{row + 1}", word, style.aligned("right") if column == "D" else style.set_in())
    page.height(row + 1, 20)
    page.height(row + 2, 3)
    return row + 3


def _list(page: Page, row: int, title: str, sentences: Sequence[str], sign: str) -> int:
    """Write a list of sentences under a heading; return the first free row."""
    return _signed(page, row, title, sentences, sign, _BULLET, look.TEXT)


def _cautions(page: Page, row: int, sentences: Sequence[str]) -> int:
    """Write the cautions; return the first free row."""
    return _signed(page, row, "Cautions", sentences, "!", _CAUTION_BULLET, look.CAUTION)


def _signed(
    page: Page, row: int, title: str, sentences: Sequence[str], sign: str, bullet: look.Style, style: look.Style
) -> int:
    if not sentences:
        return row
    row = _heading(page, row, title)
    for sentence in sentences:
        page.put(f"A{row}", sign, bullet)
        page.paragraph(row, _ACROSS, sentence, style)
        row += 1
    return row


def _papers(page: Page, row: int, documents: Sequence[Document]) -> int:
    """Write the papers that come to the buyer or that the buyer gives."""
    own = [document for document in documents if "buyer" in (document.prepared_by, document.given_to)]
    if not own:
        return row
    row = _heading(page, row, "Papers", ("Who prepares it", "By"))
    alike = Counter((_paper_title(document), document.prepared_by, document.due) for document in own)
    for (paper, prepared_by, due), count in alike.items():
        title = f"{paper}, for each vehicle" if count > 1 else paper
        page.put(f"B{row}", title, look.TEXT)
        page.put(f"C{row}", _WHO.get(prepared_by, prepared_by), look.TEXT.set_in())
        page.put(f"D{row}", due, _DATE, look.DAY)
        page.fit_height(row, "B", title, look.TEXT)
        row += 1
    return row


def _paper_title(document: Document) -> str:
    return f"{document.title} ({document.copies})" if document.copies else document.title


def _requests(page: Page, row: int, tasks: Sequence[Task]) -> int:
    """Write what the buyer is asked to do."""
    if not tasks:
        return row
    row = _heading(page, row, "What we ask of you", ("", "By"))
    for (asked, due), count in Counter((task.title, task.due) for task in tasks).items():
        page.paragraph(row, "B:C", f"{asked}, for each vehicle" if count > 1 else asked, look.TEXT)
        page.put(f"D{row}", due, _DATE, look.DAY)
        row += 1
    return row
