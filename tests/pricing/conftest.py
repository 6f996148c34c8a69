"""A small rate book that a test changes in one place, and its prices for some vehicles over some trips."""

from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path

import numpy as np
import pytest

from shipcalc.places.place import Place
from shipcalc.places.road.miles import PlaceColumns
from shipcalc.pricing.areas import lane_columns
from shipcalc.pricing.columns import Asked, vehicle_columns
from shipcalc.pricing.line import NO_MARKUP, Markup
from shipcalc.pricing.tariff import compile_tariffs
from shipcalc.pricing.truck import TruckPrice, trip_of, truck_price
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.mile_bands import MileBand
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.workbook.columns import RowRef
from shipcalc.records import replace
from shipcalc.vehicles.vehicle import Vehicle

DAY = date(2026, 12, 1)
Band = tuple[int, int | None, int]

TEAPOT = Carrier(
    carrier="Teapot and Daughters", trailer="open", cover_minor=50_000_00, takes_inoperable=True, winch=True
)
COAST, CORNER = "Mukilteo, WA 98275", "Brunswick, GA 31520"


def a_place(text: str, *, country: str = "US") -> Place:
    """Return a place from "City, ST ZIP"; the ZIP may be missing."""
    city, _, rest = text.partition(", ")
    state, _, code = rest.partition(" ")
    return Place(
        name=city, kind="city", country=country, subdivision=state, postal_code=code, latitude=40, longitude=-100
    )


def a_book(*, bands: Sequence[Band] = ((0, None, 10_000),), carrier: Carrier = TEAPOT, **parts: object) -> RateBook:
    """Return a rate book of one carrier. A band is (over, up to, rate in ten-thousandths of a dollar)."""
    rows = tuple(
        MileBand(
            carrier=carrier.carrier,
            trailer=carrier.trailer,
            from_mi=low,
            to_mi=high,
            rate_e4=rate,
            at=RowRef("trucking.xlsx", "Per mile", number, {"rate_e4": "E"}),
        )
        for number, (low, high, rate) in enumerate(bands, start=2)
    )
    empty = dict.fromkeys(("extras", "areas", "seasons", "fuel", "road_factors", "sizes", "documents", "tasks"), ())
    book = RateBook(
        folder=Path("rates"), fingerprint="0", pricing=PricingRules(), carriers=(carrier,), bands=rows, **empty
    )
    return replace(book, **parts)


def the_price(
    book: RateBook,
    miles: Sequence[int],
    *,
    vehicles: Sequence[Vehicle] = (Vehicle(stock_number="HV-7"),),
    start: str = COAST,
    to: str = CORNER,
    country: str = "US",
    markup: Markup = NO_MARKUP,
    day: date = DAY,
    **asked: object,
) -> TruckPrice:
    """Return the price of the book's only carrier for every vehicle over every number of miles."""
    tariffs = compile_tariffs(book, day)
    ends = [PlaceColumns.of([place] * len(miles)) for place in (a_place(start), a_place(to, country=country))]
    lanes = lane_columns(*ends, np.array(miles, dtype=np.int64), book.areas)
    trip = trip_of(tariffs, vehicle_columns(vehicles), lanes, Asked(pickup_day=day, **asked))
    return truck_price(tariffs.services[0], trip, markup)


@pytest.fixture
def teapot() -> Carrier:
    return TEAPOT


@pytest.fixture
def make_book() -> Callable[..., RateBook]:
    return a_book


@pytest.fixture
def price() -> Callable[..., TruckPrice]:
    return the_price


@pytest.fixture
def place() -> Callable[..., Place]:
    return a_place


@pytest.fixture
def totals(price) -> Callable[..., list[int]]:
    """Return a function that prices one vehicle: the totals in cents, one for each number of miles."""
    return lambda book, miles, **more: price(book, miles, **more).total[0].tolist()
