"""A ferry's fare held to a slow reading: the carrier's own row where it has one, else the row for all, marked up in Decimal."""

from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.places.gazetteer.postal_codes import zip_place
from shipcalc.places.road.miles import PlaceColumns
from shipcalc.pricing.areas import lane_columns
from shipcalc.pricing.columns import Asked, vehicle_columns
from shipcalc.pricing.line import Line, Markup
from shipcalc.pricing.tariff import compile_tariffs
from shipcalc.pricing.truck import trip_of, truck_prices
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.ferries import Ferry
from shipcalc.ratebook.rows.mile_bands import MileBand
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.vehicles.vehicle import Vehicle

DAY = date(2026, 12, 1)
CARRIERS = ("Plover", "Heron", "Dunlin")
CAR = Vehicle(stock_number="HV-1")
ROUTES = (("98221", "98250"), ("02601", "02554"))
fares = st.integers(1, 2_000_00)


@st.composite
def books(draw: st.DrawFn) -> RateBook:
    """Carriers over two ferries; some have fares of their own, written from either terminal to the other and in any case."""
    rows = [Ferry(ferry=f"Ferry to {to}", from_zip=start, to_zip=to, amount_minor=draw(fares)) for start, to in ROUTES]
    for carrier in CARRIERS[:2]:
        for ends in draw(st.sets(st.sampled_from(ROUTES))):
            start, to = draw(st.permutations(ends))
            own = Ferry(
                ferry="Its own",
                from_zip=start,
                to_zip=to,
                carrier=draw(st.sampled_from([carrier, carrier.upper()])),
                amount_minor=draw(fares),
            )
            rows.insert(draw(st.integers(0, len(rows))), own)
    return RateBook(
        folder=Path("rates"),
        fingerprint="0",
        pricing=PricingRules(currency="USD"),
        carriers=tuple(Carrier(carrier=name, trailer="open", cover_minor=0) for name in CARRIERS),
        bands=tuple(MileBand(carrier=name, trailer="open", from_mi=0, rate_e4=10_000) for name in CARRIERS),
        ferries=tuple(rows),
    )


def fare_lines(book: RateBook, by: tuple[Ferry | None, ...], markup: Markup) -> list[list[Line]]:
    """Return by carrier the lines of its fares over lanes that go by some ferries."""
    place = zip_place("98225").place
    assert place is not None
    columns = PlaceColumns.of([place] * len(by))
    lanes = lane_columns(columns, columns, np.full(len(by), 50, dtype=np.int64), book.areas, by)
    tariffs = compile_tariffs(book, DAY)
    trip = trip_of(tariffs, vehicle_columns([CAR]), lanes, Asked(pickup_day=DAY))
    prices = truck_prices(tariffs.services, trip, markup)
    return [[line for line in price.lines if line.code == "ferry"] for price in prices]


def slow_fare(book: RateBook, ferry: Ferry, carrier: str, ppm: int) -> tuple[int, Ferry]:
    ends = {ferry.from_zip, ferry.to_zip}
    own = [
        row
        for row in book.ferries
        if (row.carrier or "").lower() == carrier.lower() and {row.from_zip, row.to_zip} == ends
    ]
    row = own[0] if own else ferry
    exact = Decimal(row.amount_minor or 0) * (1 + Decimal(ppm) / 1_000_000)
    return int(exact.quantize(Decimal(1), ROUND_HALF_UP)), row


@given(books(), st.integers(0, 400_000), st.lists(st.sampled_from([None, 0, 1]), min_size=1, max_size=6))
def test_a_carrier_pays_its_own_fare_else_the_one_for_all_on_any_number_of_lanes_at_once(
    book: RateBook, ppm: int, routes: list[int | None]
) -> None:
    for_all = [row for row in book.ferries if not row.carrier]
    by = tuple(None if route is None else for_all[route] for route in routes)
    for carrier, lines in zip(CARRIERS, fare_lines(book, by, Markup(extras_ppm=ppm)), strict=True):
        asked = sum((line.amount for line in lines), start=np.zeros((1, len(by)), dtype=np.int64))
        expected = [0 if ferry is None else slow_fare(book, ferry, carrier, ppm)[0] for ferry in by]
        assert asked[0].tolist() == expected
        for line in lines:
            ferry = next(one for one in for_all if one.ferry == line.label)
            assert line.cell == slow_fare(book, ferry, carrier, ppm)[1].at.cell("amount_minor")
