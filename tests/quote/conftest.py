"""Quotes of two kinds: of the invented dealer that comes with shipcalc, and of small rate books, for home and sea, that a test changes."""

from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path

import pytest

from shipcalc.actions.quoting import Books, Order, open_books, quote
from shipcalc.actions.sources import invented_sources
from shipcalc.places.place import Place
from shipcalc.quote.assemble import make_quote
from shipcalc.quote.model import Dealer, Quote, Wishes
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.mile_bands import MileBand
from shipcalc.ratebook.rows.ports import Port
from shipcalc.ratebook.rows.road_factors import RoadFactor
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.workbook.columns import RowRef
from shipcalc.records import replace
from shipcalc.vehicles.vehicle import Vehicle
from tests.quote.sea_book import DAY, MINNOW, YARD, a_port, a_sea_book, sea_quote

DEALER = Dealer(name="Heron & Vale Motors (invented)")
DOOR = Place(
    name="Walla Walla", kind="city", country="US", subdivision="WA", postal_code="99362", latitude=46.06, longitude=-118.34
)  # fmt: skip
ROADS = (
    RoadFactor(from_place="98225", to_place="99362", road_mi=331),
    RoadFactor(from_place="US", to_place="US", factor=1.2),
)


def a_carrier(name: str, trailer: str = "open", *, cover: int = 100_000, **more: object) -> Carrier:
    """Return a carrier's row; `cover` is in whole dollars."""
    at = RowRef("trucking.xlsx", "Carriers", 2, {})
    return Carrier(carrier=name, trailer=trailer, cover_minor=cover * 100, at=at, **more)


def a_book(prices: Sequence[tuple[Carrier, int]], *, rules: PricingRules | None = None, **parts: object) -> RateBook:
    """Return a rate book of carriers, each with one rate a mile in ten-thousandths of a dollar."""
    empty = dict.fromkeys(("extras", "areas", "seasons", "fuel", "sizes", "documents", "tasks"), ())
    bands = tuple(
        MileBand(carrier=row.carrier, trailer=row.trailer, from_mi=0, rate_e4=rate,
                 at=RowRef("trucking.xlsx", "Per mile", number, {"rate_e4": "E"}))
        for number, (row, rate) in enumerate(prices, start=2)
    )  # fmt: skip
    carriers = tuple(row for row, _ in prices)
    return RateBook(
        folder=Path("rates"), fingerprint="0", pricing=rules or PricingRules(), carriers=carriers, bands=bands,
        road_factors=ROADS,         **(empty | parts),
    )  # fmt: skip


def a_quote(
    book: RateBook, *vehicles: Vehicle, to: Place = DOOR, day: date = DAY, ready: date | None = None, **wishes: object
) -> Quote:
    """Return the quote of the small rate book for vehicles that stand in Bellingham."""
    cars = vehicles or (MINNOW,)
    request = Request(
        vehicles=cars, starts=(YARD,) * len(cars), to=to, ready=ready or day, wishes=Wishes(**wishes)
    )  # fmt: skip
    return make_quote(request, book, as_of=day, dealer=DEALER)


@pytest.fixture
def minnow() -> Vehicle:
    return MINNOW


@pytest.fixture
def yard() -> Place:
    return YARD


@pytest.fixture
def door() -> Place:
    return DOOR


@pytest.fixture
def carrier() -> Callable[..., Carrier]:
    return a_carrier


@pytest.fixture
def make_book() -> Callable[..., RateBook]:
    return a_book


@pytest.fixture
def small_quote() -> Callable[..., Quote]:
    return a_quote


@pytest.fixture
def sea_book() -> Callable[..., RateBook]:
    return a_sea_book


@pytest.fixture
def quoted() -> Callable[..., Quote]:
    """Return what quotes by the small rate book for the sea."""
    return sea_quote


@pytest.fixture
def port_of() -> Callable[..., Port]:
    return a_port


@pytest.fixture(scope="session")
def shipped() -> Books:
    """The stock list and the rate book that come with shipcalc."""
    return open_books(invented_sources())


@pytest.fixture(scope="session")
def dealer_quote(shipped: Books) -> Callable[..., Quote]:
    """Return a function that quotes the invented dealer's vehicles: `dealer_quote("HV-1042", to="59715")`."""
    sources = invented_sources()

    def quoted(*vehicles: str, to: str, day: date = DAY, rates: RateBook | None = None, **order: object) -> Quote:
        books = replace(shipped, rates=rates) if rates is not None else shipped
        return quote(Order(vehicles=vehicles, to=to, **order), sources, as_of=day, books=books)

    return quoted


@pytest.fixture(scope="session")
def some_quotes(dealer_quote) -> tuple[Quote, ...]:
    """Quotes that differ in vehicle, direction, wishes and number of vehicles."""
    return (
        dealer_quote("HV-1042", to="59715"),
        dealer_quote("HV-1069", to="33040", express=True),
        dealer_quote("HV-1075", to="04609", lift_gate=True),
        dealer_quote("HV-1017", to="Taos, NM", limited_access=True, trailer="enclosed"),
        dealer_quote("HV-1042", "HV-1003", "HV-1187", to="79843", buyer="Perpetua Lindqvist"),
        dealer_quote("HV-1129", to="98273"),
        dealer_quote("HV-1041", to="14850", ready=date(2027, 4, 1)),
    )
