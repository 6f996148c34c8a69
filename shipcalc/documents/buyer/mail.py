"""A letter as a mail to be opened in a mail program, looked over, addressed and sent: `message.eml` with the offer attached.

RFC 5322 and MIME by the standard library. Same quote, same bytes: the date is the quote's day, the dividing lines are ours.
"""

from datetime import UTC, date, datetime, time
from email.errors import HeaderParseError
from email.headerregistry import Address
from email.message import EmailMessage
from email.policy import SMTP

from shipcalc.documents.letter import Letter, as_html, as_text
from shipcalc.one_line import one_line
from shipcalc.quote.model import Dealer

MOST_SUBJECT = 150  # letters
# RFC 2045, section 6.7: `=_` occurs in no quoted-printable and in no base64 body, so no text can end a part.
_OUTER, _INNER, _BESIDE = "=_offer", "=_words", "=_page"
_LOGO = "logo@offer"  # RFC 2392; the same in every mail, within which alone it is looked for


def mail_bytes(
    letter: Letter,
    dealer: Dealer,
    on: date,
    *,
    to: str = "",
    pdf: bytes | None = None,
    logo: bytes | None = None,
) -> bytes:
    """Return a letter as a mail: text and HTML as alternatives, `pdf` attached as quote.pdf.

    It is addressed `to` a mail address, where one is known. The `logo`, a PNG, lies beside the HTML (RFC 2387), for mail
    programs show no picture from within a page.
    """
    mail = EmailMessage(policy=SMTP)
    subject = one_line(letter.subject)
    mail["Subject"] = subject if len(subject) <= MOST_SUBJECT else f"{subject[: MOST_SUBJECT - 1]}…"
    sender = _address(dealer.name, dealer.email)
    if sender is not None:
        mail["From"] = sender
    addressee = _address("", to)
    if addressee is not None:
        mail["To"] = addressee
    mail["Date"] = datetime.combine(on, time(12), tzinfo=UTC)
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
    if pdf is not None:
        mail.add_attachment(pdf, maintype="application", subtype="pdf", filename="quote.pdf")
        mail.set_boundary(_OUTER)
    return mail.as_bytes()


def _address(name: str, mail: str) -> Address | None:
    """Return somebody's name and address; None where there is no address that a mail may have."""
    try:
        return Address(one_line(name), addr_spec=one_line(mail)) if mail else None
    except (ValueError, IndexError, HeaderParseError):
        return None
