"""Prices in hand held to a slow reading in Decimal: the carrier's sum, marked up as linehaul, shared out to the cent."""

from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.pricing.columns import Asked, LaneColumns, vehicle_columns
from shipcalc.pricing.line import Markup
from shipcalc.pricing.spot import Spot
from shipcalc.pricing.tariff import Service, compile_tariffs
from shipcalc.pricing.truck import trip_of, truck_price
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.vehicles.vehicle import Vehicle

DAY = date(2026, 12, 1)
CENT = Decimal("0.01")
SHORT, LONG = 0, 1


def _price(amount: int, vehicles: int, markup_ppm: int, *, each: bool, lanes: tuple[bool, bool]):
    empty = dict.fromkeys(
        ("bands", "extras", "areas", "seasons", "fuel", "sizes", "documents", "tasks", "carriers"), ()
    )
    tariffs = compile_tariffs(RateBook(folder=Path("rates"), fingerprint="0", pricing=PricingRules(), **empty), DAY)
    spot = Spot(number=0, amount_minor=amount, each=each, lanes=np.array(lanes), source="", note="", known=True)
    row = Carrier(carrier="Plover", trailer="open", cover_minor=0)
    service = Service(
        row=row,
        bands=(),
        charged_mi=np.zeros(1, dtype=np.int64),
        last_mi=0,
        fuel=None,
        from_rows=(),
        to_rows=(),
        spot=spot,
    )
    cars = vehicle_columns([Vehicle(stock_number=f"HV-{n}") for n in range(vehicles)])
    nowhere = np.zeros((2, 0), dtype=np.bool_)
    roads = LaneColumns(
        miles=np.array([40, 2_000]), at_pickup=nowhere, at_delivery=nowhere, home=np.array([True, False])
    )
    return truck_price(service, trip_of(tariffs, cars, roads, Asked(pickup_day=DAY)), Markup(linehaul_ppm=markup_ppm))


@given(st.integers(1, 2_000_000), st.integers(1, 7), st.integers(0, 5_000).map(lambda bp: bp * 100), st.booleans())
def test_a_price_in_hand_is_the_carriers_sum_with_the_markup_on_it_shared_out_to_the_cent(
    amount, vehicles, markup, each
):
    price = _price(amount, vehicles, markup, each=each, lanes=(False, True))
    sold = (Decimal(amount) / 100 * (1 + Decimal(markup) / 1_000_000)).quantize(CENT, ROUND_HALF_UP)
    together = sold * vehicles if each else sold
    own = [Decimal(int(minor)) / 100 for minor in price.total[:, LONG]]
    assert sum(own) == together
    assert max(own) - min(own) <= CENT


def test_it_is_for_its_own_place_alone_however_far_that_is():
    price = _price(125_000, 1, 0, each=False, lanes=(False, True))
    assert price.eligible.tolist() == [[False, True]]
    assert [obstacle.reason for obstacle in price.obstacles] == ["its price in hand is for another place"]
