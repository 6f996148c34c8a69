"""`message.eml`: the message with the offer attached, to be opened in a mail program, looked over, addressed and sent.

RFC 5322 and MIME by the standard library. Same quote, same bytes: the date is the quote's day, the dividing lines are ours.
"""

from datetime import UTC, datetime, time
from email.errors import HeaderParseError
from email.headerregistry import Address
from email.message import EmailMessage
from email.policy import SMTP

from shipcalc.documents.letter import Letter, as_html, as_text
from shipcalc.one_line import one_line
from shipcalc.quote.model import Dealer, Quote

MOST_SUBJECT = 150  # letters
# RFC 2045, section 6.7: `=_` occurs in no quoted-printable and in no base64 body, so no text can end a part.
_OUTER, _INNER, _BESIDE = "=_offer", "=_words", "=_page"
_LOGO = "logo@offer"  # RFC 2392; the same in every mail, within which alone it is looked for


def mail_bytes(letter: Letter, quote: Quote, *, pdf: bytes, logo: bytes | None = None) -> bytes:
    """Return a letter as a mail without an addressee: text and HTML as alternatives, the offer attached as quote.pdf.

    The `logo`, a PNG, lies beside the HTML (RFC 2387), for mail programs show no picture from within a page.
    """
    mail = EmailMessage(policy=SMTP)
    subject = one_line(letter.subject)
    mail["Subject"] = subject if len(subject) <= MOST_SUBJECT else f"{subject[: MOST_SUBJECT - 1]}…"
    sender = _sender(quote.dealer)
    if sender is not None:
        mail["From"] = sender
    mail["Date"] = datetime.combine(quote.as_of, time(12), tzinfo=UTC)
    mail["X-Unsent"] = "1"  # some mail programs then open it as a draft
    mail.set_content(as_text(letter), cte="quoted-printable")
    page = as_html(letter, logo=None if logo is None else f"cid:{_LOGO}")
    mail.add_alternative(page, subtype="html", cte="quoted-printable")
    mail.set_boundary(_INNER)
    if logo is not None:
        html = list(mail.iter_parts())[-1]
        assert isinstance(html, EmailMessage), "the policy's own kind of part"
        html.add_related(logo, maintype="image", subtype="png", cid=f"<{_LOGO}>", disposition="inline")
        html.set_boundary(_BESIDE)
    mail.add_attachment(pdf, maintype="application", subtype="pdf", filename="quote.pdf")
    mail.set_boundary(_OUTER)
    return mail.as_bytes()


def _sender(dealer: Dealer) -> Address | None:
    """Return the dealer's name and address; None where the settings hold no address that a mail may have."""
    try:
        return Address(one_line(dealer.name), addr_spec=one_line(dealer.email)) if dealer.email else None
    except (ValueError, IndexError, HeaderParseError):
        return None
