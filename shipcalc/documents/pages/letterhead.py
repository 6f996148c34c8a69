"""The head of every page: whose paper it is, and which quote."""

from shipcalc.documents import wording
from shipcalc.quote.model import Quote
from shipcalc.sheets import look
from shipcalc.sheets.writing import Page

_REFERENCE = look.Style("Reference", size=9, ink=look.GREY, align="right")
_ADDRESS = look.Style("Address", size=8, ink=look.GREY, upright="top", wrap=True, below="thin", rule_ink=look.ACCENT)


def put_opening(page: Page, quote: Quote, last: str, title: str, told: str, *, foot: str, office: bool = False) -> int:
    """Write the letterhead, the page's title and what holds for all of it, and its `foot`; return the next row."""
    row = put_letterhead(page, quote, last, office=office)
    row = page.paragraph(row, f"A:{last}", title, look.TITLE_WRAPPED)
    page.footer(f"{quote.dealer.name}  ·  {wording.reference(quote)}  ·  {foot}")
    return page.paragraph(row, f"A:{last}", told, look.SUBTITLE_WRAPPED)


def put_letterhead(page: Page, quote: Quote, last: str, *, title: str = "", office: bool = False) -> int:
    """Write the dealer, the quote's number and date into rows 1 to 3, a short title into row 4; return the first free row."""
    page.put("A1", quote.dealer.name.upper(), look.LETTERHEAD)
    told = f"{wording.reference(quote)}  ·  {wording.day(quote.as_of)}" if quote.number else wording.reference(quote)
    page.put(f"{last}1", f"For the office only  ·  {told}" if office else told, _REFERENCE)
    page.height(1, 18)
    page.paragraph(2, f"A:{last}", wording.letterhead(quote.dealer), _ADDRESS, least_height=18)
    page.height(3, 12)
    if not title:
        return 4
    page.put("A4", title, look.SUBTITLE)
    page.height(4, 22)
    return 5
