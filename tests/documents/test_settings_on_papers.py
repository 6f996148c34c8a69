"""What the dealer set stands on all that is printed and sent: logo, colour, account; and in which language it goes out."""

import email
import re
import zipfile
from datetime import date
from decimal import Decimal
from email.message import EmailMessage
from email.policy import default
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from shipcalc.documents.buyer.language import reader_of
from shipcalc.documents.buyer.mail import mail_bytes
from shipcalc.documents.buyer.message import message_letter
from shipcalc.documents.buyer.workbook import write_buyer_workbook
from shipcalc.documents.letter import as_html, as_text
from shipcalc.documents.letter_said import letter_said
from shipcalc.documents.logo import as_png, size_within
from shipcalc.documents.offer.alike import alike, told_together
from shipcalc.documents.offer.timeline import time_scene
from shipcalc.errors import WrongInput
from shipcalc.languages.countries import language_of
from shipcalc.languages.known import LANGUAGES
from shipcalc.quote.model import Quote
from shipcalc.records import replace

FIGURES = re.compile(r"\d[\d.,\u202f\u00a0]*\d|\d")
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="60" height="20"><rect width="60" height="20" fill="#7A2E3A"/></svg>'
)


def test_a_drawn_logo_is_a_picture_of_the_same_shape_and_colour_for_workbook_and_mail() -> None:
    png = as_png(SVG)
    with Image.open(BytesIO(png)) as picture:
        wide, high = picture.size
        assert wide == 3 * high
        assert picture.convert("RGB").getpixel((wide // 2, high // 2)) == (0x7A, 0x2E, 0x3A)
    assert size_within(png, width=100, height=100) == pytest.approx((100, 100 / 3))
    assert size_within(png, width=1000, height=20) == pytest.approx((60, 20))


def test_the_logo_stands_on_the_front_and_the_account_with_its_caution_in_the_workbook(
    two_choices: Quote, tmp_path: Path
) -> None:
    paid_to = replace(two_choices.dealer, bank=("Heron & Vale Motors", "IBAN GB82 WEST 1234 5698 7654 32"))
    quote = replace(two_choices, dealer=paid_to)
    counts = []
    for logo in (None, as_png(SVG)):
        file = tmp_path / f"quote-{len(counts)}.xlsx"
        write_buyer_workbook(quote, file, logo=logo)
        with zipfile.ZipFile(file) as parts:
            counts.append(sum(name.startswith("xl/media/") for name in parts.namelist()))
            texts = "".join(parts.read(name).decode() for name in parts.namelist() if name.endswith(".xml"))
        assert "IBAN GB82 WEST 1234 5698 7654 32" in texts
        assert "a changed account in a mail is the usual fraud" in texts
    assert counts[1] == counts[0] + 1


def test_the_logo_is_in_the_page_itself_and_lies_beside_the_page_in_a_mail(two_choices: Quote) -> None:
    png, letter = as_png(SVG), message_letter(two_choices)
    assert 'src="data:image/png;base64,' in as_html(letter, logo=png)
    assert "<img" not in as_html(letter)
    dealer, on = two_choices.dealer, two_choices.as_of
    sent = mail_bytes(letter, dealer, on, pdf=b"%PDF-", logo=png, to="carrier@tern.example")
    assert sent == mail_bytes(letter, dealer, on, pdf=b"%PDF-", logo=png, to="carrier@tern.example")
    mail = email.message_from_bytes(sent, policy=default)
    assert isinstance(mail, EmailMessage)
    assert mail["To"] == "carrier@tern.example"
    (picture,) = [part for part in mail.walk() if part.get_content_type() == "image/png"]
    assert picture.get_payload(decode=True) == png
    page = mail.get_body(("html",))
    assert page is not None
    assert f"cid:{picture['Content-ID'].strip('<>')}" in page.get_content()


def test_pictures_have_the_dealers_colour_where_one_is_set(two_choices: Quote) -> None:
    dealer = replace(two_choices.dealer, accent="#7A2E3A")
    for quote, ink in ((two_choices, "1B4B52"), (replace(two_choices, dealer=dealer), "7A2E3A")):
        drawn = time_scene(quote, quote.options[0], width=500)
        assert drawn is not None
        inks = {getattr(part, "fill", "") for part in drawn.parts}
        assert {"1B4B52", "7A2E3A"} & inks == {ink}


def test_lines_told_together_add_up_and_none_is_lost(five_vehicles: Quote) -> None:
    for option in five_vehicles.options:
        told = alike(option.charges)
        assert sorted(one.line for same in told for one in same) == sorted(one.line for one in option.charges)
        assert len(told) < len(option.charges)
        for same in told:
            line = told_together(same)
            total = sum(one.amount for one in same)
            assert Decimal(line["amount"].replace(",", "").replace("−", "-")) == total
            each = [Decimal(one["amount"].replace(",", "").replace("−", "-")) for one in line["each"]]
            assert not each or sum(each) == total


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_mail_in_another_language_keeps_every_amount_and_name_and_little_english(
    language: str, any_quote: Quote
) -> None:
    letter, reader = message_letter(any_quote), reader_of(any_quote, language)
    said = letter_said(letter, reader)
    assert said.language == language
    assert said.signature[1:-1] == letter.signature[1:-1]
    assert len(said.parts) == len(letter.parts)
    assert len(reader.missing) <= 4, reader.missing  # sentences of these quotes that are made up
    assert said.subject != letter.subject
    for told, english in zip(said.parts, letter.parts, strict=True):
        for row, was in zip(told.rows, english.rows, strict=True):
            if language != "ja" or "JPY" not in was.figures[0]:
                assert amounts(row.figures[0]) == amounts(was.figures[0])
    for vehicle in any_quote.vehicles:
        assert vehicle.name in as_text(said)


def amounts(text: str) -> list[str]:
    """Return the figures of a text without what stands between them."""
    return sorted(re.sub(r"\D", "", found) for found in FIGURES.findall(text))


@pytest.mark.parametrize(
    ("country", "offered", "language"),
    [
        ("DE", ("de", "fr"), "de"),
        ("AT", ("de",), "de"),
        ("MX", ("es",), "es"),
        ("JP", ("Japanese",), "ja"),
        ("FR", ("de",), "en"),  # not offered
        ("CH", ("de", "fr"), "en"),  # several languages: nobody is addressed in the wrong one
        ("BE", ("de", "fr"), "en"),
        ("CA", ("fr",), "en"),
        ("US", ("de", "es", "fr", "ja"), "en"),
        ("DE", (), "en"),
    ],
)
def test_an_offer_goes_out_in_the_language_of_a_country_only_where_the_house_offers_it(
    country: str, offered: tuple[str, ...], language: str
) -> None:
    """Official languages: Unicode CLDR, supplemental territory information, by babel."""
    assert language_of(country, offered) == language


def test_a_language_without_a_catalogue_is_no_language_to_offer() -> None:
    with pytest.raises(WrongInput, match="no catalogue"):
        language_of("DE", ("Klingon",))


def test_the_day_of_a_mail_is_the_one_given(two_choices: Quote) -> None:
    mail = email.message_from_bytes(mail_bytes(message_letter(two_choices), two_choices.dealer, date(2027, 2, 3)))
    assert mail["Date"].startswith("Wed, 03 Feb 2027")
