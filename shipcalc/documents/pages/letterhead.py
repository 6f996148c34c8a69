"""The head of every page: whose paper it is, and which quote."""

from shipcalc.documents import wording
from shipcalc.documents.logo import size_within
from shipcalc.quote.model import Quote
from shipcalc.sheets import look
from shipcalc.sheets.writing import Page

_REFERENCE = look.Style("Reference", size=9, ink=look.GREY, align="right")
_LOGO_WIDTH, _LOGO_HEIGHT = 130.0, 28.0  # points, at the size on the screen
_POINTS_OF_INDENT = 6.75  # what one step of an indent moves a text by: 9 pixels
_ADDRESS = look.Style("Address", size=8, ink=look.GREY, upright="top", wrap=True, below="thin", rule_ink=look.ACCENT)


def put_opening(
    page: Page,
    quote: Quote,
    last: str,
    title: str,
    told: str,
    *,
    foot: str,
    office: bool = False,
    logo: bytes | None = None,
) -> int:
    """Write the letterhead, the page's title and what holds for all of it, and its `foot`; return the next row."""
    row = put_letterhead(page, quote, last, office=office)
    if logo is not None:
        _put_logo(page, quote, logo)
    row = page.paragraph(row, f"A:{last}", title, look.TITLE_WRAPPED)
    page.footer(f"{quote.dealer.name}  ·  {wording.reference(quote)}  ·  {foot}")
    return page.paragraph(row, f"A:{last}", told, look.SUBTITLE_WRAPPED)


def _put_logo(page: Page, quote: Quote, logo: bytes) -> None:
    """Lay the logo over the left end of the head, and let the name begin beside it."""
    width, height = size_within(logo, width=_LOGO_WIDTH, height=_LOGO_HEIGHT)
    page.place_picture("A1", logo, width=width, height=height)
    page.height(1, _LOGO_HEIGHT + 4)
    page.put("A1", quote.dealer.name.upper(), look.LETTERHEAD.set_in(round(width / _POINTS_OF_INDENT) + 1))


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
