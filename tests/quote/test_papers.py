"""The papers of a shipment, read by Poppler and held to their Quote, to the UN Layout Key and to the lists of what each must hold."""

import re
import unicodedata
from collections.abc import Callable, Iterator
from decimal import Decimal
from io import BytesIO

import numpy as np
import pytest
import typst
from PIL import Image

from shipcalc.documents.handover import PHOTOGRAPHS, READINGS, SIGNATURES
from shipcalc.documents.papers.facts import Facts, Party
from shipcalc.documents.papers.invoices import commercial_invoice
from shipcalc.documents.papers.kinds import BY_CODE, KINDS, asked_for
from shipcalc.documents.papers.outlines import VIEWS, views
from shipcalc.documents.papers.paper import BY_HAND, Paper, paper_pdf
from shipcalc.quote.model import Quote
from shipcalc.records import replace
from tests.quote.every_way import WAYS

CASES = {
    "home": WAYS["at home"],
    "lien": WAYS["at home, with a lien"],
    "five vehicles": replace(WAYS["at home, from two yards"], vehicles=("HV-1042", "HV-1003", "HV-1187", "HV-1017", "HV-1069")),
    "RoRo": WAYS["RoRo"],
    "container": WAYS["a container of its own"],
    "two over the sea": WAYS["two over the sea"],
    "Canada": WAYS["Canada by road"],
    "Yen": WAYS["RoRo, cost, insurance and freight"],
    "ex works": WAYS["ex works"],
    "collected": WAYS["overseas, collected"],
}  # fmt: skip
BUYER = Party(name="Perpetua Lindqvist", address="Lerchenweg 7, 28203 Bremen, Germany", telephone="+49 421 5550100")
REFERENCES = {
    "carrier": "Kittiwake Autotransport", "driver": "Silvester Amberly", "forwarder": "Pelorus Forwarding", "booking": "PLR-88120",
    "container": "CSQU3054383", "seal": "UL-220914", "vessel": "Halcyon Strand", "voyage": "E041", "itn": "X20261209123456",
    "bill": "HSL-4471902", "agent": "Breakwater Agencies", "release": "RL-33", "broker": "Gneisenau Zoll", "title": "WA 8841207765",
    "commodity": "8703.23.01.90", "odometer": "61,204 miles, true distance", "notify": "Ottoline Quill",
}  # fmt: skip
TO_CARRIERS = ("transport-order", "pickup-authorisation", "handover")
# The boxes of UNECE Recommendation No. 1 (United Nations Layout Key for Trade Documents), top to bottom; left and right of a row.
LAYOUT = (
    ("Consignor", "number and date|reference and date|list for, date"),
    ("Consignee", "Buyer"),
    ("Notify", "Country of origin and of destination"),
    ("Transport details", "Terms of delivery and payment"),
)
INTERNATIONAL = ("commercial-invoice", "pro-forma-invoice", "packing-list", "shipper-instruction", "dock-receipt")


@pytest.fixture(scope="module")
def asked(dealer_quote: Callable[..., Quote]) -> Callable[..., Facts]:
    """Return what has the facts of one of the cases, its quote kept and accepted; the same question is asked once."""
    known: dict[str, Quote] = {}

    def ask(name: str, **more: object) -> Facts:
        way = CASES[name]
        if name not in known:
            quote = dealer_quote(*way.vehicles, to=way.to, **way.order)
            known[name] = replace(quote, buyer=BUYER.name, number="Q-2026-0041")
        quote = known[name]
        option = quote.options[quote.recommended]
        return replace(
            Facts(quote=quote, option=option, day=quote.as_of, accepted_on=quote.as_of, parties={"buyer": BUYER}),
            **more,
        )

    return ask


@pytest.fixture(scope="module", params=CASES)
def facts(request: pytest.FixtureRequest, asked: Callable[..., Facts]) -> Facts:
    return asked(request.param)


@pytest.fixture(scope="module")
def read(facts: Facts, read_pdf: Callable[..., str]) -> list[tuple[Paper, str]]:
    """Return the papers of a case, each with its text: set once for all that is asked of them."""
    return [(paper, said(paper, facts, read_pdf)) for paper in papers(facts)]


def papers(facts: Facts) -> Iterator[Paper]:
    for kind in asked_for(facts):
        yield from kind.papers(facts)


def said(paper: Paper, facts: Facts, read_pdf: Callable[..., str]) -> str:
    """Return the text of a paper in one line; a word with a hyphen may be broken there."""
    written = unicodedata.normalize("NFC", read_pdf(paper_pdf(paper, facts), "pdftotext", "-raw"))
    return " ".join(written.replace("-\n", "-").split())


def one(code: str, facts: Facts) -> Paper:
    return next(iter(BY_CODE[code].papers(facts)))


def figures(amount: Decimal) -> str:
    """Return an amount as papers write it: 1,045.00. An independent way to write it than the program's."""
    _, digits, exponent = amount.as_tuple()
    assert isinstance(exponent, int)
    return f"{int(abs(amount)):,}" + (f".{''.join(map(str, digits)).zfill(-exponent)[exponent:]}" if exponent else "")


def test_every_paper_says_whose_it_is_and_all_that_is_in_its_boxes(facts: Facts, read: list[tuple[Paper, str]]) -> None:
    assert read
    for paper, told in read:
        expected = [
            facts.quote.dealer.name,
            paper.title,
            paper.draft.split(":")[0],
            facts.number,
            *paper.sentences,
            *paper.cautions,
        ]
        expected += [paper.after, *paper.opening, *(field.told for field in paper.fields())]
        lines = [" ".join(line.split()) for text in expected for line in text.splitlines()]
        assert [line for line in lines if line not in told] == [], paper.code
        assert told.count("to be filled in") >= len(paper.missing()), paper.code


def test_the_vehicles_stand_on_every_paper_of_their_own(facts: Facts, read: list[tuple[Paper, str]]) -> None:
    for paper, told in read:
        meant = [one for one in facts.quote.vehicles if paper.vehicle in ("", one.stock_number)]
        assert meant, paper.code
        assert [one.name for one in meant if one.name not in told] == [], paper.code
        assert [one.serial for one in meant if one.serial and one.serial not in told] == [], paper.code


def test_an_invoice_adds_up_to_vehicles_and_the_total_of_the_choice(facts: Facts, read_pdf: Callable[..., str]) -> None:
    """trade.gov, “Pro Forma Invoice”, “Commercial Invoice”: unit and total value, currency, freight and insurance apart."""
    paper = commercial_invoice(facts)
    quote, option = facts.quote, facts.option
    assert paper.table is not None
    sums = {row[0]: Decimal(row[-1].split()[0].replace(",", "")) for row in paper.table.sums}
    if any(one.currency != quote.currency for one in quote.vehicles):
        assert not sums  # nothing is added up in two currencies
        return
    goods = sum(Decimal(one.value_minor or 0).scaleb(-2) for one in quote.vehicles)
    total = next(amount for what, amount in sums.items() if what.startswith("Total"))
    assert total == goods + option.total
    assert total == sum(amount for what, amount in sums.items() if not what.startswith("Total"))
    freight = sum((o.amount for o in option.charges if o.stage == "main carriage" and o.payer == "seller"), Decimal(0))
    assert sums.get("Freight", Decimal(0)) == freight
    told = said(paper, facts, read_pdf)
    assert [amount for amount in sums.values() if f"{figures(amount)} {quote.currency}" not in told] == []


def test_papers_of_trade_have_the_boxes_of_the_layout_key_where_it_puts_them(
    facts: Facts, read_pdf: Callable[..., str]
) -> None:
    for code in INTERNATIONAL:
        lines = read_pdf(paper_pdf(one(code, facts), facts), "pdftotext", "-layout").splitlines()
        found = []
        for left, right in LAYOUT:
            at, line = next((n, line) for n, line in enumerate(lines) if re.match(rf"\s*{left}", line))
            other = re.search(right, line)
            assert other, (code, left, line)
            assert other.start() > len(line) / 3, (code, left)
            found.append(at)
        assert found == sorted(found), code


# What each list of particulars names, and what stands for it on our paper. Their words first, ours (a label) second.
# trade.gov, “Common Export Documents” and “Pro Forma Invoice”; the certification is a sentence of the paper.
INVOICE = {
    "seller": "Consignor", "buyer": "Buyer", "consignee": "Consignee", "invoice number and date": "number and date",
    "terms of sale and of payment": "Terms of delivery and payment", "description": "Goods", "quantity": "Pieces",
    "unit value": "Price", "harmonized code": "Commodity code", "country of origin": "Country of origin",
}  # fmt: skip
# export.gov, “Export packing list”: seller, buyer, shipper, invoice number, date of shipment, mode of transport, carrier,
# quantity, description, number of packages, net and gross weight in kilograms, package marks, dimensions.
PACKING = {
    "seller and shipper": "Consignor", "buyer": "Buyer", "invoice number": "list for, date", "mode, date of shipment": "Transport details",
    "description, marks": "Goods", "number of packages": "Pieces", "net weight": "Net kg", "gross weight": "Gross kg",
    "dimensions": "Sizes|L × W", "cube": "m³",
}  # fmt: skip
# 15 CFR 30.6(a), mandatory data elements: (1) USPPI and its tax number and address where the goods begin their way, (3) ultimate
# consignee, (5) country of destination, (6) method of transportation, (9) port of export, (11) origin, (12) commodity
# classification number, (13) description, (15) quantity, (16) shipping weight, (17) value, (18) export information code and
# licence, (22) vehicle's number, title number and state. From memory as to the numbers of the paragraphs.
INSTRUCTION = {
    "USPPI": "Consignor", "tax number": r"\(EIN\)", "where goods begin": "begin their way", "ultimate consignee": "Consignee",
    "destination, origin": "Country of origin and of destination", "transport, ports": "Transport details",
    "commodity": "Commodity code", "description, vehicle's number": "Serial number", "quantity": "Pieces",
    "weight": "Weight", "value": "Value", "licence": "Export control number", "title number and state": "Title: number and state",
    "forwarder": "Forwarder",
}  # fmt: skip
# 49 CFR 580.5(c): odometer reading, date, names and addresses of both, identity of the vehicle, true distance or not.
SALE = {
    "odometer": "Odometer, and whether it is the true distance", "day": "Day of the sale", "transferor": "Seller",
    "transferee": "Buyer", "make, model, year, body, VIN": "Vehicle", "title": "Title", "price": "Price",
}  # fmt: skip
LISTS = {
    "commercial-invoice": INVOICE, "pro-forma-invoice": INVOICE, "packing-list": PACKING, "shipper-instruction": INSTRUCTION,
    "bill-of-sale": SALE,
}  # fmt: skip


@pytest.mark.parametrize("code", LISTS)
def test_a_paper_has_a_field_for_each_particular_of_its_list(code: str, asked: Callable[..., Facts]) -> None:
    labels = [field.label for field in one(code, asked("RoRo")).fields()]
    lacking = [what for what, ours in LISTS[code].items() if not any(re.search(ours, label) for label in labels)]
    assert lacking == []


def test_a_serial_number_engine_and_state_describe_a_vehicle(asked: Callable[..., Facts]) -> None:
    """trade.gov: year, make, model, serial number, engine, new or used."""
    facts = asked("RoRo")
    vehicle = facts.quote.vehicles[0]
    told = next(field.told for field in commercial_invoice(facts).fields() if field.label == "Goods")
    assert "Used" in told
    assert [part for part in (str(vehicle.year), vehicle.name, vehicle.serial or "?") if part not in told] == []


def test_nothing_of_the_office_is_on_a_paper(facts: Facts, read: list[tuple[Paper, str]]) -> None:
    quote, option = facts.quote, facts.option
    unnamed = {leg.carrier for leg in option.legs if not leg.carrier_named}
    unnamed |= {left.carrier for left in quote.left_out if left.carrier}
    places = {end.name for leg in option.legs for end in (leg.from_, leg.to)}
    costs = {figures(o.cost.amount) for o in option.charges if o.cost and o.cost.amount >= 100}
    costs |= {figures(option.total_cost)} if option.total_cost else set()
    shown = {figures(o.amount) for o in option.charges} | {figures(option.total), figures(option.deposit)}
    for paper, told in read:
        assert re.search(r"›|\.xlsx|\bmargin\b|mark-?up|\bour cost", told, re.I) is None, paper.code
        assert quote.rate_book.fingerprint not in told
        hidden = [one for one in costs - shown if re.search(rf"(?<![\d,]){re.escape(one)}(?!\d)", told)]
        assert hidden == [], paper.code
        if paper.code not in TO_CARRIERS:  # which go to the carrier itself, and to the yard that is to know it
            assert [one for one in unnamed - places if re.search(rf"\b{re.escape(one)}\b", told)] == [], paper.code


def test_what_is_missing_is_gone_once_it_is_filled_in(facts: Facts) -> None:
    """Left is only what is written by hand, what the forwarder names, and what the stock list does not know."""
    known = {
        name: Party(name=value, address="1 Quay")
        for name, value in REFERENCES.items()
        if name in ("forwarder", "agent", "broker")
    }
    full = replace(facts, references=REFERENCES, parties={"buyer": BUYER, **known})
    for before, after in zip(papers(facts), papers(full), strict=True):
        left = {field.where for field in after.missing()}
        assert [where for where in left if "shipments set" in where or "contacts" in where or "toml" in where] == []
        assert {field.wanted for field in after.missing()} <= {field.wanted for field in before.missing()}


def test_every_missing_field_says_where_it_is_filled_in(facts: Facts) -> None:
    bare = replace(facts, parties={}, quote=replace(facts.quote, buyer=""))
    known = (
        "shipcalc shipments set Q-2026-0041 ",
        "shipcalc contacts add ",
        "the stock list, column ",
        "shipcalc.toml, ",
        BY_HAND,
    )
    for paper in papers(bare):
        for field in paper.missing():
            assert any(way in field.where for way in known) or field.where == "the forwarder names it", field


@pytest.mark.parametrize("code", ["commercial-invoice", "shipper-instruction", "bill-of-sale"])
def test_a_known_name_without_an_address_is_shown_and_the_address_marked(
    code: str, asked: Callable[..., Facts], read_pdf: Callable[..., str]
) -> None:
    facts = asked("RoRo", parties={"buyer": Party(name="Perpetua Lindqvist")})
    told = said(one(code, facts), facts, read_pdf)
    assert "Perpetua Lindqvist address to be filled in" in told
    wanted = [field for field in one(code, facts).missing() if field.lacks == "address"]
    assert [field.where for field in wanted] == ['shipcalc contacts add buyer "Perpetua Lindqvist" --address "…"']


def test_one_thing_that_is_missing_is_told_in_one_sentence(asked: Callable[..., Facts]) -> None:
    facts = asked("RoRo")
    ways: dict[str, set[str]] = {}
    for paper in papers(facts):
        for field in paper.missing():
            ways.setdefault(field.wanted, set()).add(field.where)
    assert {label: where for label, where in ways.items() if len(where) > 1} == {}


def test_no_box_stands_empty_without_a_mark(facts: Facts) -> None:
    """Only what is written by hand beside a vehicle, its keys, may."""
    for kind in KINDS:
        for paper in kind.papers(facts):
            empty = [
                field.label for row in paper.boxes for field in row if not field.told.strip() and not field.is_missing
            ]
            assert empty == [], paper.code


NASTY = (
    "#panic[x] $1+1$ *bold* _it_ @ref <script>alert(1)</script> \\ `raw` //no",
    "=1+1; [link](http://example.com) ~~ -- ---",
    "فاطمة الزهراء بنت محمد",
    "山田 太郎",
    "Nguyễn Thị Minh Khai",
    "Wolfeschlegelsteinhausenbergerdorff " * 14,
    "X" * 500,
)


@pytest.mark.parametrize("name", NASTY, ids=lambda name: name[:8])
def test_whatever_a_name_holds_comes_out_as_text(
    name: str, asked: Callable[..., Facts], read_pdf: Callable[..., str]
) -> None:
    party = Party(name=name, address="Line one\nLine #two")
    facts = asked("RoRo", parties={"buyer": party}, references={**REFERENCES, "title": name, "commodity": name})
    plain = lambda text: sorted(unicodedata.normalize("NFKC", "".join(text.split())))  # noqa: E731
    for code in ("commercial-invoice", "bill-of-sale", "shipper-instruction"):
        told = read_pdf(paper_pdf(one(code, facts), facts), "pdftotext", "-raw")
        if name.isascii():
            assert "".join(name.split()) in "".join(told.split()), code
        else:  # letters that are joined or written from the right come in another order
            lacking = set(plain(name)) - set(plain(told))
            assert lacking == set(), code


def test_nothing_runs_over_the_edge_of_the_page(asked: Callable[..., Facts], read_pdf: Callable[..., str]) -> None:
    for name in ("X" * 500, "Wolfeschlegelsteinhausenbergerdorff " * 14, "Nguyễn Thị Minh Khai"):
        for case in ("five vehicles", "container"):
            facts = asked(case, parties={"buyer": Party(name=name, address=name)}, references=REFERENCES)
            for paper in papers(facts):
                boxes = read_pdf(paper_pdf(paper, facts), "pdftotext", "-bbox")
                width = float(re.search(r'<page width="([\d.]+)"', boxes)[1])  # type: ignore[index]
                words = re.findall(
                    r'<word xMin="([\d.-]+)" yMin="[\d.-]+" xMax="([\d.]+)" yMax="[\d.]+">([^<]*)', boxes
                )
                upright = [(float(x), float(to), word) for x, to, word in words if word != "Draft"]
                assert [word for x, to, word in upright if x < 0 or to > width] == [], (paper.code, case)


def test_the_same_facts_give_the_same_bytes(asked: Callable[..., Facts]) -> None:
    facts = asked("container")
    for paper in papers(facts):
        assert paper_pdf(paper, facts) == paper_pdf(paper, facts)


def test_a_quote_before_the_yes_has_only_what_serves_before_it(asked: Callable[..., Facts]) -> None:
    assert [kind.code for kind in asked_for(asked("RoRo", accepted_on=None))] == ["pro-forma-invoice"]
    assert asked_for(asked("home", accepted_on=None)) == ()


def test_which_papers_a_way_asks_for(asked: Callable[..., Facts]) -> None:
    """Common practice, no source: at home no customs and no ship; a lien asks for its release."""
    codes = {case: {kind.code for kind in asked_for(asked(case))} for case in CASES}
    assert codes["home"].isdisjoint({*INTERNATIONAL, "dangerous-goods", "power-of-attorney", "lien-letter"})
    assert {"transport-order", "bill-of-sale"} <= codes["home"]
    assert "lien-letter" in codes["lien"]
    assert {"commercial-invoice", "dock-receipt", "dangerous-goods", "delivery-order-request"} <= codes["RoRo"]
    assert {"packing-list", "dangerous-goods"} <= codes["container"]
    assert "commercial-invoice" in codes["Canada"]
    assert codes["Canada"].isdisjoint({"dock-receipt", "dangerous-goods", "delivery-order-request"})


BODIES = (
    "roadster",
    "coupe",
    "saloon",
    "estate",
    "off-roader",
    "van",
    "camper",
    "pick-up",
    "motorcycle",
    "something odd",
    "",
)


@pytest.mark.parametrize("body", BODIES)
def test_every_body_is_drawn_from_its_sides_within_its_frame(body: str) -> None:
    """Held to another drawer of SVG (typst's own), by what is inked: nothing touches an edge, so nothing is cut off."""
    for name, drawn in views(body).items():
        shown = inked(drawn)
        assert 0.02 < shown.mean() < 0.8, name
        edges = [shown[0], shown[-1], shown[:, 0], shown[:, -1]]
        assert [bool(edge.any()) for edge in edges] == [False] * 4, name


def test_the_right_side_is_the_left_one_seen_from_there() -> None:
    for body in BODIES:
        drawn = views(body)
        left, right = inked(drawn["left side"]), inked(drawn["right side"])
        assert (left != right[:, ::-1]).mean() < 0.01, body


def test_bodies_look_different() -> None:
    sides = {
        views(body)["left side"]
        for body in ("roadster", "coupe", "saloon", "estate", "off-roader", "van", "pick-up", "motorcycle")
    }
    assert len(sides) == 8


def inked(svg: str) -> np.ndarray:
    """Return where a picture is not white: rows × columns of booleans."""
    page = "#set page(width: auto, height: auto, margin: 0pt)\n#image(bytes(sys.inputs.drawn), width: 300pt)"
    png = typst.compile(page.encode(), format="png", ppi=72, sys_inputs={"drawn": svg})
    return np.asarray(Image.open(BytesIO(png)).convert("L")) < 250


@pytest.mark.parametrize("size", ["letter", "a4"])
def test_the_hand_over_sheet_is_one_page_with_all_that_is_looked_at(
    size: str, asked: Callable[..., Facts], read_pdf: Callable[..., str]
) -> None:
    for case in ("home", "five vehicles", "RoRo", "collected"):
        facts = asked(case, size=size)
        for paper in BY_CODE["handover"].papers(facts):
            assert re.search(r"Pages: +1\n", read_pdf(paper_pdf(paper, facts), "pdfinfo"))
            told = said(paper, facts, read_pdf)
            wanted = [*PHOTOGRAPHS, *VIEWS, *(label for label, _ in READINGS), *(f"{who}: name" for who in SIGNATURES)]
            assert [one for one in wanted if one not in told] == []


def test_half_the_weight_must_be_held(asked: Callable[..., Facts]) -> None:
    """49 CFR 393.106(d): the limits together are at least half the weight. The pound is 0.45359237 kg (NIST SP 811, B.8)."""
    facts = asked("home")
    boxes = {field.label: field.told for field in one("securing", facts).fields()}
    grams = facts.quote.vehicles[0].mass_grams
    assert grams is not None
    half = Decimal(grams) / Decimal("453.59237") / 2
    told = next(text for label, text in boxes.items() if label.startswith("Half"))
    assert abs(Decimal(told.removesuffix(" lb").replace(",", "")) - half) <= 1
