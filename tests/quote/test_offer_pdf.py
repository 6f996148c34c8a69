"""The buyer's PDF of every kind of way, read by Poppler and held to its Quote: all of it there, on two pages, nothing of the office's."""

import re
import unicodedata
from collections.abc import Callable, Iterator
from datetime import date
from decimal import Decimal
from io import BytesIO

import numpy as np
import pytest
from PIL import Image

from shipcalc.documents.buyer.pdf import quote_pdf
from shipcalc.documents.notes import notes
from shipcalc.documents.offer.acceptance import BANK_CAUTION
from shipcalc.documents.offer.plain_words import TERMS, WORDS
from shipcalc.documents.offer.route import stretches
from shipcalc.documents.stationery import paper_for
from shipcalc.places.sea.geometry import unit_vectors
from shipcalc.quote.buyer import UNNAMED_CARRIER
from shipcalc.quote.model import Option, Quote
from shipcalc.quote.price.terms import CODES, find_term
from shipcalc.records import replace
from tests.quote.every_way import WAYS

BUYER = "Perpetua Lindqvist"
MANY = 3  # vehicles: more may take a third page


@pytest.fixture(scope="module")
def asked(dealer_quote: Callable[..., Quote]) -> Callable[[str], Quote]:
    """Return what asks for one of the ways; the same question is asked once."""
    known: dict[str, Quote] = {}

    def ask(name: str) -> Quote:
        way = WAYS[name]
        if name not in known:
            known[name] = replace(dealer_quote(*way.vehicles, to=way.to, **way.order), buyer=BUYER)
        return known[name]

    return ask


# Of every kind of table that there is: lines alone and by stage, a second currency, vehicles, duty, days, what is kept or fetched.
# Poppler takes two seconds to say what words stand in the cells of one paper.
TABLES = ("at home", "at home, in another currency", "at home, two by ferry", "at home, collected", "Canada, two by road", "RoRo",
          "a shared container", "duty paid", "overseas, kept in the yard")  # fmt: skip


@pytest.fixture(scope="module", params=WAYS)
def quote(request: pytest.FixtureRequest, asked: Callable[[str], Quote]) -> Quote:
    return asked(request.param)


@pytest.fixture(scope="module")
def pdf(quote: Quote) -> bytes:
    """Return the paper of a way, set once for all that is asked of it."""
    return quote_pdf(quote)


def said(pdf: bytes, read_pdf: Callable[..., str]) -> str:
    """Return the text of a PDF in one line, in the order in which it is written: column after column, without the pages' feet.

    A word with a hyphen may be broken there.
    """
    written = unicodedata.normalize("NFC", read_pdf(pdf, "pdftotext", "-raw"))
    without_feet = re.sub(r"\n[^\n]*page \d of \d\s*\f", "\n", written)
    return " ".join(without_feet.replace("-\n", "-").split())


def pages(pdf: bytes, read_pdf: Callable[..., str]) -> int:
    found = re.search(r"Pages: +(\d+)", read_pdf(pdf, "pdfinfo"))
    assert found
    return int(found[1])


def said_of_pictures(pdf: bytes) -> list[str]:
    """Return what is said in place of each picture, as it stands in the file: ISO 32000-1, 14.9.3 and, for strings, 7.3.4."""
    plain, hexadecimal = rb"\(((?:\\.|[^\\()]|\((?:\\.|[^\\()])*\))*)\)", rb"<FEFF([0-9A-F]*)>"
    found = re.findall(rb"/Alt ?(?:%b|%b)" % (plain, hexadecimal), pdf)
    assert len(found) == pdf.count(b"/Alt")
    return [bytes.fromhex(code.decode()).decode("utf-16-be") or text.decode("latin-1") for text, code in found]


def figures(amount: Decimal) -> str:
    """Return an amount as papers write it: 1,045.00. An independent way to write it than the program's."""
    sign, digits, exponent = amount.as_tuple()
    whole = f"{int(abs(amount)):,}"
    assert isinstance(exponent, int)
    return f"{'-' * sign}{whole}" + (f".{''.join(map(str, digits)).zfill(-exponent)[exponent:]}" if exponent else "")


def day(when: date) -> str:
    """Return `8 Dec 2026`."""
    return f"{when.day} {when:%b %Y}"


def amounts(quote: Quote, best: Option) -> Iterator[Decimal]:
    """Yield every amount that the paper must show: lines, sums, what is paid when, what each choice costs."""
    duty = {"duty and tax"} if best.imports else set()
    yield from (one.amount for one in best.charges if one.payer == "seller" or one.stage not in duty)
    yield from (line.amount for estimate in best.imports for line in estimate.lines)
    yield from (estimate.amount for estimate in best.imports)
    yield from (option.total for option in quote.options)
    yield best.deposit or best.total
    yield best.total - best.deposit
    if best.buyer_pays_locally:
        yield best.buyer_pays_locally
        yield best.total + best.buyer_pays_locally
    if best.landed is not None:
        yield best.landed


def test_every_amount_date_and_name_of_the_quote_is_on_the_paper(
    quote: Quote, pdf: bytes, read_pdf: Callable[..., str]
) -> None:
    told, best = said(pdf, read_pdf), quote.options[quote.recommended]
    assert [one for one in amounts(quote, best) if figures(one).lstrip("-") not in told] == []
    days = [quote.valid_until, *(option.dates.delivery[1] for option in quote.options if option.legs)]
    days += [step.latest for step in best.dates.timeline]
    months = {f"{one:%B}": f"{one:%b}" for one in days}
    short = re.sub("|".join(months), lambda found: months[found[0]], told)
    assert [one for one in days if day(one) not in short] == []
    names = [BUYER, quote.dealer.name, quote.to.name, *(one.name for one in quote.vehicles)]
    names += [one.serial for one in quote.vehicles if one.serial] + [one.stock_number for one in quote.vehicles]
    names += [end.name for leg in best.legs for end in (leg.from_, leg.to)]
    assert [one for one in names if one not in told] == []


def test_every_line_and_sentence_of_the_choice_is_on_the_paper(
    quote: Quote, pdf: bytes, read_pdf: Callable[..., str]
) -> None:
    told, best = said(pdf, read_pdf).casefold(), quote.options[quote.recommended]
    labels = [one.label for one in best.charges if one.stage != "duty and tax"]
    assert [one for one in labels if one.casefold() not in told] == []
    sentences = [*best.before_price, *notes("cautions", quote).sentences]
    sentences += [one for subject in ("noted", "needed", "missing") for one in notes(subject, quote, best).sentences]
    beside = "what you pay to others"  # which stands in figures
    left = [one for one in sentences if " ".join(one.casefold().split()) not in told and beside not in one.casefold()]
    assert left == []


def test_nothing_of_the_office_is_on_the_paper(quote: Quote, pdf: bytes, read_pdf: Callable[..., str]) -> None:
    pictures = said_of_pictures(pdf)
    assert len(pictures) >= any(option.legs for option in quote.options)
    told = " ".join((said(pdf, read_pdf), read_pdf(pdf, "pdfinfo"), *pictures))
    best = quote.options[quote.recommended]
    private = {leg.carrier for option in quote.options for leg in option.legs if not leg.carrier_named} - {
        UNNAMED_CARRIER
    }
    private |= {one.carrier for one in quote.left_out if one.carrier} - {
        leg.carrier for o in quote.options for leg in o.legs if leg.carrier_named
    }
    ports = {end.name for option in quote.options for leg in option.legs for end in (leg.from_, leg.to)}
    assert [one for one in private - ports if re.search(rf"\b{re.escape(one)}\b", told)] == []
    assert re.search(r"›|\.xlsx|\bmargin\b|mark-?up|\bour cost|\bat cost\b", told, re.I) is None
    assert quote.rate_book.fingerprint not in told
    shown = {one.amount for one in best.charges} | {one.quantity for one in best.charges} | set(amounts(quote, best))
    costs = {one.cost.amount for one in best.charges if one.cost and one.cost.amount >= 100} | {
        option.total_cost for option in quote.options if option.total_cost
    }
    hidden = {figures(one) for one in costs} - {figures(one) for one in shown}
    assert [one for one in hidden if re.search(rf"(?<![\d,]){re.escape(one)}(?!\d)", told)] == []
    notes_of_office = {
        step.office_note for option in quote.options for step in option.dates.timeline if step.office_note
    }
    assert [one for one in notes_of_office if one in told] == []


def test_it_is_two_pages_of_the_size_that_the_country_prints_on(
    quote: Quote, pdf: bytes, read_pdf: Callable[..., str]
) -> None:
    assert pages(pdf, read_pdf) <= (2 if len(quote.vehicles) == 1 or not quote.options[quote.recommended].ocean else 3)
    size = "letter" if paper_for(quote.to.country) == "letter" else "A4"
    assert re.search(rf"Page size: .*\({size}\)", read_pdf(pdf, "pdfinfo"))


def test_every_table_has_headers(pdf: bytes, read_pdf: Callable[..., str]) -> None:
    """ISO 14289-1 (PDF/UA-1), 7.5."""
    tables = re.split(r"\n *Table\b", read_pdf(pdf, "pdfinfo", "-struct"))[1:]
    assert tables
    assert all(re.search(r"\n *TH\b", table) for table in tables)


@pytest.mark.parametrize("quote", TABLES, indirect=True, scope="module")
def test_every_table_says_what_its_columns_are(pdf: bytes, read_pdf: Callable[..., str]) -> None:
    """A header of nothing tells nothing (WCAG 2.1, 1.3.1)."""
    told = read_pdf(pdf, "pdfinfo", "-struct-text")
    tables = re.split(r"\n *Table\b", told)[1:]
    assert tables
    for table in tables:
        heads = re.findall(r"\n( *)TH\b.*?\n((?:\1 +.*\n)*)", table)
        assert heads
        assert all('"' in inside for _, inside in heads)


def test_no_word_lies_over_another_or_leaves_the_page(pdf: bytes, read_pdf: Callable[..., str]) -> None:
    """By the boxes that Poppler finds, each without the upper and lower third, in which neighbouring lines may meet."""
    for page in read_pdf(pdf, "pdftotext", "-bbox").split("<page ")[1:]:
        width, height = map(float, re.findall(r'="([\d.]+)"', page)[:2])
        found = re.findall(r'xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">', page)
        left, top, right, bottom = np.array(found, dtype=float).T
        assert left.min() > 20
        assert right.max() < width - 20
        assert top.min() > 20
        assert bottom.max() < height - 20
        third = (bottom - top) / 3
        top, bottom, left, right = top + third, bottom - third, left + 0.5, right - 0.5
        meets = (left[:, None] < right) & (left < right[:, None]) & (top[:, None] < bottom) & (top < bottom[:, None])
        np.fill_diagonal(meets, False)
        assert not meets.any(), np.argwhere(meets)[:4]


def test_what_is_signed_stands_below_all_else_and_nothing_runs_into_it(
    quote: Quote, pdf: bytes, read_pdf: Callable[..., str]
) -> None:
    """By where each word stands on the page, and not by the order in which it is written."""
    last = read_pdf(pdf, "pdftotext", "-bbox").split("<page ")[-1]
    words = re.findall(r'yMin="([\d.]+)".*?>(.*?)</word>', last)
    top = next(float(y) for number, (y, word) in enumerate(words)
               if [one for _, one in words[number : number + 4]] == ["Yes,", "please", "book", "it"])  # fmt: skip
    below = " ".join(word for y, word in words if float(y) >= top - 1)
    boxes = sum(word == "Choice" for word in below.split())
    assert boxes == (len(quote.options) if len(quote.options) > 1 else 0)
    assert below.startswith("Yes, please book it")
    assert len(below) < 420 + 45 * boxes


def test_every_abbreviation_is_explained_or_spelt_out_beside_it(
    quote: Quote, pdf: bytes, read_pdf: Callable[..., str]
) -> None:
    """Where it stands in brackets, what it means stands before it; the others are explained, or nobody needs that."""
    told = said(pdf, read_pdf)
    words = "\n".join(f"{one.word} {one.found}" for one in WORDS)
    own = " ".join([*(one.name for one in quote.vehicles), *(one.serial for one in quote.vehicles), *(one.stock_number for one in quote.vehicles),
                    quote.dealer.name, *quote.dealer.address.split(), quote.dealer.licence])  # fmt: skip
    everyday = {
        "ZIP",
        "UN",
        "HV",
        "AS",
        "CFR",
        "USD",
        "VIN",
        "APO",
        "TV",
        "PO",
        "US",
        "OK",
        "ID",
        "EU",
        "GB",
        "UKFTT",
        "UKVAT",
    }  # the last two: courts, in the names of their judgments
    codes = {quote.currency, *CODES, *(one.exchange.currency for one in (quote,) if one.exchange)}
    places = {end.subdivision for option in quote.options for leg in option.legs for end in (leg.from_, leg.to)}
    places |= {quote.to.subdivision, quote.from_.subdivision}
    found = set(re.findall(r"(?<![\w(§])[A-Z]{2,6}(?![\w)])", told)) - everyday - codes - places
    assert {
        one for one in found if one not in words and one not in own and not re.search(rf"\([^)]*{one}", told)
    } == set()


def test_what_is_drawn_is_as_long_as_what_was_measured(quote: Quote) -> None:
    """At sea along the lanes, which begin and end some miles off a port; a road is longer than the straight line drawn."""
    for option in quote.options:
        for leg, drawn in zip(option.legs, stretches(option), strict=True):
            line = unit_vectors(latitude=drawn.points[:, 0], longitude=drawn.points[:, 1])
            nmi = float(np.arccos(np.clip((line[:-1] * line[1:]).sum(axis=1), -1, 1)).sum()) * 3440.065
            if leg.unit == "nmi" and leg.method == "network":
                assert leg.distance * 0.96 - 60 < nmi < leg.distance * 1.04 + 60, (leg.from_.name, leg.to.name)
            elif leg.unit == "mi":
                assert nmi * 1.15078 <= leg.distance * 1.02 + 5


@pytest.mark.parametrize("code", CODES)
def test_a_term_is_told_as_the_table_of_terms_has_it(code: str) -> None:
    """The table is held to a published chart in `tests/published/test_delivery_terms.py`."""
    term, told = find_term(code), TERMS[code]
    assert term is not None
    pays = term.seller_pays
    assert ("duty and tax paid" in told) == ("duty and tax" in pays)
    assert ("unload it at our expense" in told) == ("unloading" in pays)
    assert ("marine cover for you" in told) == (term.must_insure is not None)
    assert ("the risk is yours" in told) == (term.at_the_buyers_risk and "main carriage" in pays)
    assert ("on board the ship" in told) == (term.sea_only and code != "FAS")
    assert ("clear the vehicle for export" in told) == ("export clearance" in pays and "main carriage" not in pays)
    assert ("its export" in told) == ("export clearance" not in pays)


HOSTILE = ("#eval(1) $x$ *b* _i_ @ref", "= <script>alert(1)</script> &amp;", "A" * 500, "Nguyễn Thị Thanh Hằng", "山田 太郎",
           "two\nlines", "=HYPERLINK(1)")  # fmt: skip


@pytest.mark.parametrize("name", HOSTILE)
@pytest.mark.parametrize("way", ["at home", "RoRo"])
def test_whatever_a_name_holds_comes_out_as_text(
    name: str, way: str, asked: Callable[[str], Quote], read_pdf: Callable[..., str]
) -> None:
    quote = asked(way)
    vehicle = replace(quote.vehicles[0], model=name, body="")
    dealer = replace(quote.dealer, name=name)
    pdf = quote_pdf(replace(quote, buyer=name, dealer=dealer, vehicles=(vehicle,)))
    told = "".join(unicodedata.normalize("NFC", read_pdf(pdf, "pdftotext", "-raw")).split())
    assert told.count("".join(name.split())) >= 3
    boxes = re.findall(r'xMin="([-\d.]+)" .*?xMax="([\d.]+)"', read_pdf(pdf, "pdftotext", "-bbox"))
    assert all(float(left) > 0 and float(right) < 612 for left, right in boxes)
    assert pages(pdf, read_pdf) <= (3 if len(name) < 100 else 4)


def test_many_vehicles_take_three_pages_at_the_most(
    dealer_quote: Callable[..., Quote], read_pdf: Callable[..., str]
) -> None:
    five = dealer_quote("HV-1042", "HV-1003", "HV-1187", "HV-1008", "HV-1009", to="28801")
    assert pages(quote_pdf(five), read_pdf) <= 3
    over_the_sea = dealer_quote("HV-1042", "HV-1003", "HV-1187", "HV-1008", "HV-1009", to="Bremen, Germany")
    assert pages(quote_pdf(over_the_sea), read_pdf) <= 3


def test_no_dealer_and_ten_more_charges_still_make_a_paper(
    asked: Callable[[str], Quote], read_pdf: Callable[..., str]
) -> None:
    quote = asked("at home")
    option = quote.options[quote.recommended]
    more = tuple(
        replace(
            option.charges[0],
            line=str(100 + n),
            label=f"Charge number {n} for a service of some length",
            amount=Decimal("11.11"),
        )
        for n in range(10)
    )
    dear = replace(option, charges=option.charges + more, total=option.total + Decimal("111.10"))
    options = tuple(dear if one is option else one for one in quote.options)
    pdf = quote_pdf(
        replace(
            quote, options=options, dealer=replace(quote.dealer, address="", phone="", email="", website="", licence="")
        )
    )
    told = said(pdf, read_pdf)
    assert told.count("11.11") == 10
    assert pages(pdf, read_pdf) == 2


def test_the_same_quote_gives_the_same_bytes(asked: Callable[[str], Quote]) -> None:
    assert quote_pdf(asked("RoRo")) == quote_pdf(asked("RoRo"))


def test_terms_account_logo_and_colour_of_the_dealer_stand_in_the_offer(
    asked: Callable[[str], Quote], read_pdf: Callable[..., str]
) -> None:
    plain = asked("at home")
    bank = ("Heron & Vale Motors", "Bank of Nowhere", "IBAN GB82 WEST 1234 5698 7654 32")
    own = replace(plain.dealer, accent="#7A1F3D", terms=("We hold the vehicle for ten days.",), bank=bank)
    file = BytesIO()
    Image.new("RGB", (120, 40), "#7A1F3D").save(file, "PNG")
    pdf = quote_pdf(replace(plain, dealer=own), logo=file.getvalue())
    told = said(pdf, read_pdf)
    assert all(one in told for one in (*own.terms, *bank, BANK_CAUTION))
    assert told.index(bank[-1]) < told.index(BANK_CAUTION)  # the caution follows the account
    assert len(read_pdf(pdf, "pdfimages", "-list").splitlines()) == 2 + 1  # two lines of head
    assert pages(pdf, read_pdf) == 2
    assert "IBAN" not in said(quote_pdf(plain), read_pdf)


@pytest.mark.parametrize(("country", "paper"), [("US", "letter"), ("CA", "letter"), ("MX", "letter"), ("PH", "letter"),
                                                ("DE", "a4"), ("JP", "a4"), ("GB", "a4"), ("AU", "a4"), ("BR", "a4")])  # fmt: skip
def test_paper_is_the_countrys_own(country: str, paper: str) -> None:
    """Unicode CLDR 48, supplemental data, measurementData, paperSize."""
    assert paper_for(country) == paper
