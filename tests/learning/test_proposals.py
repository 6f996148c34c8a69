"""Rates proposed from the bills of quotes, from quote to marked copy: the bills are drawn from a tariff that the test knows."""

from collections.abc import Sequence
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import numpy as np
import pytest
from openpyxl import load_workbook

from shipcalc.actions.bills import learn
from shipcalc.actions.kept_quotes import Desk
from shipcalc.actions.quoting import Made, Order, made_quote, open_books
from shipcalc.actions.sources import invented_folder, invented_sources
from shipcalc.errors import NoAnswer
from shipcalc.learning.bill import Bill, kind_of
from shipcalc.register.bills import keep_bills
from shipcalc.register.quotes import keep_quote
from shipcalc.settings import Settings

AT = "2026-12-01T16:20:05Z"
DAY = date(2026, 12, 1)
LONG_MI = 1800
CARRIER = "Three Puffins Haulage"  # it has a rate for each of four bands of distances, and a base fee
DEARER = Decimal("1.12")  # what a mile of its longest trips costs more than the rate book says


@pytest.fixture(scope="module")
def quotes() -> tuple[Made, ...]:
    """Quotes with one vehicle to places near and far, by one carrier."""
    sources = invented_sources()
    books = open_books(sources)
    places = (
        "97201 97401 97501 98801 99201 83702 83201 59101 84101 95814 93701 75201 73101 66101 50301 55401 60601".split()
    )
    orders = [Order(vehicles=("HV-1042",), to=place, trailer="open") for place in places]
    made = [made_quote(order, sources, as_of=DAY, books=books) for order in orders]
    return tuple(one for one in made if one.quote.options[one.quote.recommended].legs[0].carrier == CARRIER)


def desk_with(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, quotes: Sequence[Made], count: int) -> Desk:
    """A register with bills for the linehaul of `count` quotes: 1 % noise, one in twenty ten times too high."""
    monkeypatch.setenv("SHIPCALC_REGISTER", str(tmp_path / "r.sqlite"))
    desk = Desk(Settings(), DAY, AT)
    rng = np.random.default_rng(11)
    with desk.register() as register:
        found = []
        for number in range(count):
            made = quotes[number % len(quotes)]
            quote = keep_quote(register, made.quote, made.request, made.rates, at=AT)
            lines = [
                (line, line.cost)
                for line in quote.options[quote.recommended].charges
                if line.cost is not None and kind_of(line.code) == "linehaul"
            ]
            true = sum(cost.amount * (DEARER if cost.quantity > LONG_MI else 1) for line, cost in lines)
            noisy = float(true) * (1 + rng.normal(0, 0.01)) * (10 if number % 20 == 7 else 1)
            found.append(
                Bill(
                    number=quote.number or "",
                    carrier=CARRIER,
                    kind="linehaul",
                    amount_minor=round(noisy * 100),
                    currency="USD",
                    day=DAY + timedelta(days=number % 30),
                )
            )
        keep_bills(register, found, at=AT)
    return desk


def test_a_rate_that_has_risen_is_proposed_in_a_marked_copy_and_others_stay(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, quotes: tuple[Made, ...]
) -> None:
    desk = desk_with(tmp_path, monkeypatch, quotes, 120)
    book, copy = invented_folder("rates"), tmp_path / "next"
    before = (book / "trucking.xlsx").read_bytes()
    made = learn(desk, book, since=None, into=copy)
    (risen,) = [one for one in made.learnt.proposals if one.rate > one.now * Decimal("1.05")]
    assert risen.differs
    assert risen.low <= risen.now * DEARER <= risen.high
    assert risen.what.startswith(CARRIER)
    assert all(one.cell.startswith("trucking.xlsx › ") for one in made.learnt.proposals)
    assert len(made.learnt.wild) >= 5
    assert (book / "trucking.xlsx").read_bytes() == before
    written = load_workbook(copy / "trucking.xlsx")
    for one in made.learnt.proposals:
        sheet, _, cell = one.cell.partition(" › ")[2].partition("!")
        there = written[sheet][cell]
        if one.differs:
            assert Decimal(str(there.value)) == one.rate
            assert there.comment is not None
            assert f"learnt from {one.bills} bills" in there.comment.text
        else:
            assert Decimal(str(there.value)) == one.now
            assert there.comment is None


def express_bills(made: Made, number: str, rng: np.random.Generator, slip: int) -> list[Bill]:
    """Linehaul a fifth dearer than reckoned; express pickup at 15 % of it, all other extras as reckoned; 2 % noise."""
    cost = {"linehaul": Decimal(0), "express": Decimal(0), "extras": Decimal(0)}
    for line in made.quote.options[made.quote.recommended].charges:
        kind = "express" if line.code == "extra.express" else kind_of(line.code)
        if line.cost is not None and kind in cost:
            cost[kind] += line.cost.amount
    assert cost["express"] > 0
    linehaul = float(cost["linehaul"]) * 1.2 * (1 + rng.normal(0, 0.02))
    extras = linehaul * 0.15 * (1 + rng.normal(0, 0.02)) + float(cost["extras"])
    return [
        Bill(number=number, carrier="any", kind=kind, amount_minor=round(paid * 100 * slip), currency="USD", day=DAY)
        for kind, paid in (("linehaul", linehaul), ("extras", extras))
    ]


def test_an_extra_in_percent_is_held_to_the_linehaul_that_was_billed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """15 % of the dearer linehaul is found where the book says 12, and not the 18 % that it is of the reckoned one."""
    sources = invented_sources()
    books = open_books(sources)
    places = "97201 97401 98801 99201 83702 59101 84101 95814 93701 75201 66101 55401".split()
    orders = [Order(vehicles=("HV-1042",), to=place, trailer="open", express=True) for place in places]
    quotes = [made_quote(order, sources, as_of=DAY, books=books) for order in orders]
    monkeypatch.setenv("SHIPCALC_REGISTER", str(tmp_path / "r.sqlite"))
    desk = Desk(Settings(), DAY, AT)
    rng = np.random.default_rng(3)
    with desk.register() as register:
        found: list[Bill] = []
        for count in range(96):
            made = quotes[count % len(quotes)]
            number = keep_quote(register, made.quote, made.request, made.rates, at=AT).number or ""
            found += express_bills(made, number, rng, slip=10 if count % 24 == 7 else 1)
        keep_bills(register, found, at=AT)
    proposals = learn(desk, invented_folder("rates"), since=None, into=tmp_path / "next").learnt.proposals
    (express,) = [one for one in proposals if one.percent]
    assert (express.now, express.differs) == (Decimal(12), True)
    assert express.low <= 15 <= express.high
    sheet, _, cell = express.cell.partition(" › ")[2].partition("!")
    there = load_workbook(tmp_path / "next" / "trucking.xlsx")[sheet][cell]
    assert Decimal(str(there.value)) == express.rate / 100


def test_too_few_bills_propose_nothing_and_say_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, quotes: tuple[Made, ...]
) -> None:
    desk = desk_with(tmp_path, monkeypatch, quotes, 24)
    book = invented_folder("rates")
    made = learn(desk, book, since=None)
    assert made.learnt.proposals == ()
    assert any("too few, it takes 60" in told for told in made.learnt.said)
    with pytest.raises(NoAnswer, match="propose nothing"):
        learn(desk, book, since=None, into=tmp_path / "next")
    assert not (tmp_path / "next").exists()
