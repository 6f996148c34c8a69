"""The message as HTML and as a mail: held to its quote, read back by the standard library's own parsers, nothing slips in."""

import email
import re
from collections.abc import Sequence
from datetime import UTC, datetime
from email.message import EmailMessage
from email.policy import default
from html.parser import HTMLParser

import pytest

from shipcalc.documents import wording
from shipcalc.documents.buyer.mail import MOST_SUBJECT, mail_bytes
from shipcalc.documents.buyer.message import buyer_message, buyer_message_html, message_letter
from shipcalc.documents.letter import as_html
from shipcalc.documents.offer.landing import altogether
from shipcalc.documents.offer.sentences import in_one_style, phone_script
from shipcalc.quote.model import Quote
from shipcalc.records import replace

PDF = b"%PDF-1.7\n\x00=_offer\n--=_words\n"
# HTML that mail programs show and that fetches and runs nothing.
TAGS = {"html", "head", "meta", "title", "body", "div", "p", "h2", "ul", "li", "table", "thead", "tbody", "tr", "th", "td",
        "span", "strong", "br"}  # fmt: skip
ATTRIBUTES = {"lang", "charset", "name", "content", "style", "scope", "aria-label"}
WICKED = (
    "<script>alert(1)</script>",
    "Quill\r\nBcc: everybody@example.com",
    "Quill\n\n<img src=x onerror=alert(1)>",
    "Q" * 500,
    '"><b>&amp;{{7*7}}',
    "=cmd|' /C calc'!A0 # $x$ *y* @z",
    "عائشة · 佐藤花子 · Nguyễn Thị Hương",
)


class Page(HTMLParser):
    """What a page is made of, as the standard library reads it."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str | None]] = []
        self.texts: list[str] = []

    def handle_starttag(self, tag: str, attrs: Sequence[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += attrs

    def handle_data(self, data: str) -> None:
        self.texts.append(data)


def page_of(html: str) -> Page:
    page = Page()
    page.feed(html)
    page.close()
    return page


def mail_of(quote: Quote) -> EmailMessage:
    return email.message_from_bytes(
        mail_bytes(message_letter(quote), quote.dealer, quote.as_of, pdf=PDF), policy=default
    )  # type: ignore[return-value]


def test_text_and_html_say_the_same_sentences(any_quote: Quote) -> None:
    letter, text = message_letter(any_quote), buyer_message(any_quote)
    html = " ".join(" ".join(page_of(as_html(letter)).texts).split())
    for part in letter.parts:
        for sentence in (*part.sentences, *part.points, *part.after):
            assert " ".join(sentence.split()) in html
            assert " ".join(sentence.split()) in text
        for row in part.rows:
            assert row.head in html
            assert all(figure in html and figure in text for figure in row.figures)


def test_every_choice_stands_in_the_page_with_its_price_and_day(any_quote: Quote) -> None:
    html = " ".join(page_of(buyer_message_html(any_quote)).texts)
    for option in any_quote.options:
        assert wording.money(option.total, any_quote.currency) in html
        if len(any_quote.options) > 1:
            assert wording.day(option.dates.delivery[1]) in html
    assert wording.day(any_quote.valid_until) in html


def test_every_sum_of_the_message_is_one_of_the_quote_or_rounded_from_it(two_choices: Quote) -> None:
    exact = {one.total for one in two_choices.options} | {one.cover for one in two_choices.options}
    exact |= {one.deposit for one in two_choices.options} | {one.total - one.deposit for one in two_choices.options}
    exact |= {abs(altogether(a) - altogether(b)) for a in two_choices.options for b in two_choices.options}
    known = {f"{amount:,.{places}f}" for amount in exact for places in (0, 2)}
    known |= set(re.findall(r"[\d,]+\.?\d*", f"{two_choices.reason} {[o.before_price for o in two_choices.options]}"))
    told = re.findall(r"\$([\d,]+(?:\.\d+)?)", buyer_message(two_choices))
    assert len(told) > 4
    assert set(told) <= known


def test_a_page_fetches_nothing_and_runs_nothing(any_quote: Quote) -> None:
    page = page_of(buyer_message_html(any_quote))
    assert set(page.tags) <= TAGS
    assert {name for name, _ in page.attributes} <= ATTRIBUTES
    assert not any("url(" in (value or "") for name, value in page.attributes if name == "style")


def test_a_table_has_heads_of_columns_and_of_rows(two_choices: Quote) -> None:
    """HTML Living Standard, 4.9.10 (the `th` element): `scope` says what a head belongs to."""
    scopes = [value for name, value in page_of(buyer_message_html(two_choices)).attributes if name == "scope"]
    assert scopes == ["col"] * 3 + ["row"] * len(two_choices.options)


@pytest.mark.parametrize("name", WICKED)
def test_whatever_a_buyer_is_called_comes_out_as_text(two_choices: Quote, name: str) -> None:
    vehicle = replace(two_choices.vehicles[0], model=name)
    quote = replace(two_choices, buyer=name, vehicles=(vehicle,), dealer=replace(two_choices.dealer, name=name))
    page = page_of(buyer_message_html(quote))
    plain = " ".join(name.split())
    assert set(page.tags) <= TAGS
    assert f"Dear {plain}," in page.texts
    assert buyer_message(quote).splitlines()[0] == f"Dear {plain},"
    mail = mail_of(quote)
    assert set(mail.keys()) == {"Subject", "From", "Date", "X-Unsent", "MIME-Version", "Content-Type"}
    assert mail["Bcc"] is None
    assert len(mail["Subject"]) <= MOST_SUBJECT
    assert mail["From"].addresses[0].addr_spec == two_choices.dealer.email
    assert mail["From"].addresses[0].display_name == plain


@pytest.mark.parametrize("address", ["", "nobody", "a@b\r\nBcc: c@d", "a b@c", "@", "<script>@x"])
def test_an_address_that_is_none_is_left_out_of_the_mail(two_choices: Quote, address: str) -> None:
    mail = mail_of(replace(two_choices, dealer=replace(two_choices.dealer, email=address)))
    assert mail["Bcc"] is None
    assert mail["From"] is None


def test_a_mail_holds_text_page_and_offer(any_quote: Quote) -> None:
    """RFC 2046, 5.1.4: alternatives from the plainest to the richest; RFC 2183: what is attached says its name."""
    mail = mail_of(any_quote)
    assert mail.get_content_type() == "multipart/mixed"
    said, offer = mail.iter_parts()
    assert [part.get_content_type() for part in said.iter_parts()] == ["text/plain", "text/html"]
    text, page = (part.get_content().replace("\r\n", "\n") for part in said.iter_parts())
    assert text == buyer_message(any_quote)
    assert page == buyer_message_html(any_quote)
    assert offer.get_filename() == "quote.pdf"
    assert offer.get_content() == PDF
    assert mail["To"] is None
    assert not mail.defects
    assert mail["Date"].datetime == datetime(
        any_quote.as_of.year, any_quote.as_of.month, any_quote.as_of.day, 12, tzinfo=UTC
    )


def test_the_same_quote_gives_the_same_bytes_in_lines_that_mail_may_have(any_quote: Quote) -> None:
    """RFC 5322, 2.1.1: no line longer than 998, all of them ended by CR and LF."""
    once, again = (mail_bytes(message_letter(any_quote), any_quote.dealer, any_quote.as_of, pdf=PDF) for _ in range(2))
    assert once == again
    assert once.isascii()
    assert max(map(len, once.split(b"\r\n"))) <= 998
    assert b"\n" not in once.replace(b"\r\n", b"")


def test_nothing_of_the_office_reaches_the_mail(any_quote: Quote) -> None:
    for told in (
        buyer_message_html(any_quote),
        buyer_message(any_quote),
        *phone_script(any_quote, any_quote.recommended),
    ):
        assert not re.search(r"\.xlsx|\bmargin\b(?!:)|\bcost price\b", re.sub(r'style="[^"]*"', "", told))
        for option in any_quote.options:
            assert not any(leg.carrier in told for leg in option.legs if not leg.carrier_named)
            assert f"{option.total_cost:,}" not in told


def test_three_sentences_are_said_on_the_telephone(any_quote: Quote) -> None:
    for index, option in enumerate(any_quote.options):
        said = phone_script(any_quote, index)
        assert len(said) == 3
        assert wording.money(option.total, any_quote.currency) in said[0]
        assert wording.day(option.dates.delivery[1]) in said[0]
        assert "to others" in said[1] or "nothing further" in said[1]
        assert wording.day(any_quote.valid_until) in said[2]
        assert all(one[-1] in ".?" and one[0].isupper() for one in said)


def test_what_may_change_the_buyers_mind_is_said_on_the_telephone_too(two_choices: Quote) -> None:
    barred = tuple(
        replace(option, before_price=("It cannot leave: the title is not here.",)) for option in two_choices.options
    )
    first, *_ = phone_script(replace(two_choices, options=barred), 0)
    assert first.startswith("First you should know that it cannot leave")


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("Worth 35,000 USD.", "Worth $35,000."),
        ("About 1,234.50 USD more", "About $1,234.50 more"),
        ("5 EUR", "5 EUR"),
        ("HV-1129 USD", "HV-1129 USD"),
        ("A model called , USD", "A model called , USD"),
    ],
)
def test_sums_are_written_in_one_style(two_choices: Quote, said: str, told: str) -> None:
    assert in_one_style(said, two_choices) == told
