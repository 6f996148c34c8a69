"""What is priced by kind is what is priced one by one, for every service of the invented rate book."""

from datetime import date
from functools import cache

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from shipcalc.actions.sources import invented_folder
from shipcalc.money import round_up
from shipcalc.places.road.miles import PlaceColumns
from shipcalc.pricing.areas import lane_columns
from shipcalc.pricing.columns import Asked, LaneColumns, vehicle_columns
from shipcalc.pricing.many import NO_PRICE, cheapest, many_prices
from shipcalc.pricing.markups import selling_markup
from shipcalc.pricing.tariff import Tariffs, compile_tariffs
from shipcalc.pricing.truck import trip_of, truck_price
from shipcalc.ratebook.book import RateBook, read_rate_book
from shipcalc.vehicles.vehicle import Vehicle

DAY = date(2026, 12, 18)  # before Christmas: some seasons of the book run
ZIPS = ("98225", "31401", "10013", "81435", "02554", "33040", "90012", "59715", "78539", "04609")
STATES = ("WA", "GA", "NY", "CO", "MA", "FL", "CA", "MT", "TX", "ME", "AK", "HI")

vehicles = st.lists(
    st.builds(
        Vehicle,
        stock_number=st.just("HV-1"),
        length_mm=st.one_of(st.none(), st.integers(3_000, 7_500)),
        width_mm=st.integers(1_400, 2_500),
        height_mm=st.integers(1_100, 2_600),
        clearance_mm=st.one_of(st.none(), st.integers(60, 250)),
        mass_grams=st.one_of(st.none(), st.integers(200_000, 4_000_000)),
        value_minor=st.one_of(st.none(), st.integers(0, 900_000_00)),
        runs=st.booleans(),
        rolls=st.booleans(),
        steers=st.booleans(),
        brakes=st.booleans(),
        modified=st.booleans(),
    ),
    min_size=1,
    max_size=12,
)
trips = st.lists(
    st.tuples(st.integers(0, 4_200), st.sampled_from(STATES), st.sampled_from(ZIPS)), min_size=1, max_size=12
)
wishes = st.builds(Asked, pickup_day=st.just(DAY), lift_gate=st.booleans(), express=st.booleans())


@cache
def book() -> RateBook:
    return read_rate_book(invented_folder("rates"))


def tariffs() -> Tariffs:
    return compile_tariffs(book(), DAY)


def places(states: list[str], codes: list[str]) -> PlaceColumns:
    count = len(states)
    return PlaceColumns(
        country=np.full(count, "US"),
        subdivision=np.array(states),
        postal_code=np.array(codes),
        latitude=np.zeros(count),
        longitude=np.zeros(count),
    )


def lanes(ends: list[tuple[int, str, str]]) -> LaneColumns:
    miles = np.array([mi for mi, _, _ in ends], dtype=np.int64)
    deliveries = places([state for _, state, _ in ends], [code for _, _, code in ends])
    return lane_columns(places(["WA"], ["98225"]), deliveries, miles, book().areas, prices=tariffs().lanes)


@settings(deadline=None)
@given(vehicles, trips, wishes)
def test_a_price_by_kind_is_the_price_of_the_vehicle_over_its_lane(
    cars: list[Vehicle], ends: list[tuple[int, str, str]], asked: Asked
) -> None:
    markup, columns, over = selling_markup(book(), "US"), vehicle_columns(cars), lanes(ends)
    found = many_prices(tariffs(), tariffs().services, columns, over, asked, markup)
    trip = trip_of(tariffs(), columns, over, asked)
    for number, service in enumerate(tariffs().services):
        alone = truck_price(service, trip, markup)
        total = found.spread(found.total(number))
        assert ((total < NO_PRICE) == alone.eligible).all()
        assert (total[alone.eligible] == alone.total[alone.eligible]).all()


@settings(deadline=None)
@given(vehicles, trips)
def test_the_cheapest_is_the_first_of_the_lowest_prices_rounded_up(
    cars: list[Vehicle], ends: list[tuple[int, str, str]]
) -> None:
    markup, columns, over = selling_markup(book(), "US"), vehicle_columns(cars), lanes(ends)
    asked = Asked(pickup_day=DAY)
    prices = many_prices(tariffs(), tariffs().services, columns, over, asked, markup)
    order = list(range(len(tariffs().services)))[::-1]
    best = cheapest(prices, order, 500)
    total, service = prices.spread(best.total), prices.spread(best.service)
    trip = trip_of(tariffs(), columns, over, asked)
    alone = [truck_price(each, trip, markup) for each in tariffs().services]
    for row in range(len(cars)):
        for column in range(len(ends)):
            offers = [
                (round_up(int(alone[n].total[row, column]), 500), n) for n in order if alone[n].eligible[row, column]
            ]
            if not offers:
                assert (total[row, column], service[row, column]) == (NO_PRICE, -1)
            else:
                low = min(price for price, _ in offers)
                assert (total[row, column], service[row, column]) == (
                    low,
                    next(n for price, n in offers if price == low),
                )
