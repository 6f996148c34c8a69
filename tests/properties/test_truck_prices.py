"""The truck prices held to a slow, obvious reading of the tariff in Decimal arithmetic, and to what must always be true."""

from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.places.place import Place
from shipcalc.places.road.miles import PlaceColumns
from shipcalc.pricing.areas import lane_columns
from shipcalc.pricing.columns import Asked, LaneColumns, vehicle_columns
from shipcalc.pricing.line import NO_MARKUP, Markup
from shipcalc.pricing.tariff import compile_tariffs
from shipcalc.pricing.truck import TruckPrice, trip_of, truck_price
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.areas import Area
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.extra_charges import ExtraCharge
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.ratebook.rows.mile_bands import MileBand
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.records import replace
from shipcalc.vehicles.vehicle import Vehicle

DAY = date(2026, 12, 1)
CENT = Decimal("0.01")

edges = st.lists(st.integers(50, 3_000), unique=True, max_size=4).map(sorted)
rates = st.integers(2_000, 60_000)  # 0.20 to 6.00 dollars a mile
markups = st.builds(
    Markup, st.integers(0, 5_000).map(lambda bp: bp * 100), st.integers(0, 300_000), st.integers(0, 300_000)
)


@st.composite
def books(draw: st.DrawFn) -> RateBook:
    """A rate book with one carrier: bands of either kind, a fuel scheme of either kind, some extra charges."""
    stops = draw(edges)
    bands = tuple(
        MileBand(carrier="Plover", trailer="open", from_mi=low, to_mi=high, rate_e4=draw(rates))
        for low, high in zip([0, *stops], [*stops, None], strict=True)
    )
    carrier = Carrier(
        carrier="Plover",
        trailer="open",
        cover_minor=50_000_00,
        cover_can_rise=True,
        base_minor=draw(st.integers(0, 300_00)),
        minimum_minor=draw(st.integers(0, 900_00)),
        bands=draw(st.sampled_from(["whole trip", "graduated"])),
        fuel_scheme=draw(st.sampled_from([None, "Mile", "Step"])),
        takes_inoperable=True,
        winch=True,
    )
    price = draw(st.integers(20_000, 60_000))
    fuel = (
        FuelScheme(scheme="Mile", as_of=DAY, price_e4=price, method="per mile", peg_e4=25_000, miles_per_gallon=6.5),
        FuelScheme(
            scheme="Step",
            as_of=DAY,
            price_e4=price,
            method="percent steps",
            peg_e4=25_000,
            step_e4=1_300,
            step_percent_ppm=10_000,
        ),
    )
    extras = (
        ExtraCharge(
            code="still", label="Does not run", runs=False, charge="flat", amount_minor=draw(st.integers(0, 500_00))
        ),
        ExtraCharge(
            code="long", label="Long", length_over_mm=5_000, charge="percent", percent_ppm=draw(st.integers(0, 400_000))
        ),
        ExtraCharge(
            code="heavy",
            label="Heavy",
            mass_over_grams=2_000_000,
            charge="percent",
            percent_ppm=70_000,
            of="linehaul and fuel",
        ),
        ExtraCharge(code="cover", label="Cover", charge="percent", percent_ppm=4_000, of="value above cover"),
        ExtraCharge(
            code="wide", label="Wide", width_over_mm=2_000, charge="per mile", rate_e4=draw(st.integers(0, 9_000))
        ),
        ExtraCharge(code="pair", label="Two at once", vehicles_over=1, charge="percent", percent_ppm=-50_000),
    )
    areas = (
        Area(area="Rim", state="WA", applies_at="delivery", label="Rim", charge="flat", amount_minor=75_00),
        Area(area="Rim", state="OR", applies_at="both", label="Rim", charge="percent", percent_ppm=30_000),
    )
    return RateBook(
        folder=Path("rates"),
        fingerprint="0",
        pricing=PricingRules(currency="USD"),
        carriers=(carrier,),
        bands=bands,
        extras=extras,
        areas=areas,
        seasons=(),
        fuel=fuel,
        road_factors=(),
        sizes=(),
        documents=(),
        tasks=(),
        warnings=(),
    )


vehicles = st.builds(
    Vehicle,
    stock_number=st.just("HV-1"),
    length_mm=st.integers(3_000, 7_000),
    width_mm=st.integers(1_400, 2_300),
    mass_grams=st.integers(300_000, 3_500_000),
    value_minor=st.one_of(st.none(), st.integers(0, 400_000_00)),
    runs=st.booleans(),
)
states = st.sampled_from(["WA", "OR", "GA"])


def priced(
    book: RateBook, cars: list[Vehicle], trips: list[tuple[int, str]], markup: Markup = NO_MARKUP, count: int = 1
) -> TruckPrice:
    """Price every car over every trip, a trip being its miles and the state it ends in."""
    tariffs = compile_tariffs(book, DAY)
    asked = Asked(pickup_day=DAY, vehicle_count=count)
    trip = trip_of(tariffs, vehicle_columns(cars), lanes_of_trips(book, trips), asked)
    return truck_price(tariffs.services[0], trip, markup)


def lanes_of_trips(book: RateBook, trips: list[tuple[int, str]]) -> LaneColumns:
    """Return trips from Oregon as lanes."""

    def places(states: list[str]) -> PlaceColumns:
        return PlaceColumns.of(
            [
                Place(name=state, kind="city", country="US", subdivision=state, latitude=0, longitude=0)
                for state in states
            ]
        )

    miles = np.array([m for m, _ in trips], dtype=np.int64)
    return lane_columns(places(["OR"] * len(trips)), places([state for _, state in trips]), miles, book.areas)


def cents(amount: Decimal) -> Decimal:
    return amount.quantize(CENT, ROUND_HALF_UP)


def slow_price(book: RateBook, car: Vehicle, miles: int, state: str, count: int) -> Decimal:
    """Read the tariff as a clerk would: mile by mile upwards for a later break, then line by line."""
    carrier = book.carriers[0]
    linehaul = slow_linehaul(book, miles)
    scheme = next((row for row in book.fuel if row.scheme == carrier.fuel_scheme), None)
    fuel = Decimal(0)
    if scheme is not None:
        above = max(Decimal(0), Decimal(scheme.price_e4 - scheme.peg_e4) / 10_000)
        if scheme.method == "per mile":
            fuel = cents((above / Decimal("6.5")).quantize(Decimal("0.0001"), ROUND_HALF_UP) * miles)
        else:
            steps = 0
            while Decimal("0.13") * steps < above:
                steps += 1
            fuel = cents(linehaul * steps / 100)
    total = linehaul + fuel
    for extra in book.extras:
        total += slow_extra(extra, car, miles, linehaul, fuel, count)
    at_start, at_end = Decimal(3) / 100 * linehaul, Decimal(3) / 100 * linehaul
    total += cents(at_start)  # every trip of these tests starts in Oregon, which charges at both ends
    if state == "OR":
        total += cents(at_end)
    if state == "WA":
        total += Decimal(75)
    return total


def slow_linehaul(book: RateBook, miles: int) -> Decimal:
    carrier = book.carriers[0]
    base, minimum = Decimal(carrier.base_minor) / 100, Decimal(carrier.minimum_minor) / 100

    def parts(trip: int) -> list[Decimal]:
        if carrier.bands == "whole trip":
            (band,) = (b for b in book.bands if b.from_mi < trip and (b.to_mi is None or trip <= b.to_mi))
            return [Decimal(band.rate_e4) / 10_000 * trip]
        return [
            Decimal(b.rate_e4) / 10_000 * (min(trip, b.to_mi or trip) - b.from_mi)
            for b in book.bands
            if b.from_mi < trip
        ]

    # Only the first mile of a later band can undercut: inside a band a longer trip costs more.
    later = [b.from_mi + 1 for b in book.bands if b.from_mi >= miles]
    cheapest = min((sum(parts(trip)), trip) for trip in [miles, *later])[1]
    return max(base + sum(cents(part) for part in parts(cheapest)), minimum)


def slow_extra(extra: ExtraCharge, car: Vehicle, miles: int, linehaul: Decimal, fuel: Decimal, count: int) -> Decimal:
    value = Decimal(car.value_minor or 0) / 100
    match extra.code:
        case "still":
            return Decimal(extra.amount_minor or 0) / 100 if not car.runs else Decimal(0)
        case "long":
            return (
                cents(linehaul * (extra.percent_ppm or 0) / 1_000_000) if (car.length_mm or 0) > 5_000 else Decimal(0)
            )
        case "heavy":
            return cents((linehaul + fuel) * 7 / 100) if (car.mass_grams or 0) > 2_000_000 else Decimal(0)
        case "cover":
            return cents(max(Decimal(0), value - 50_000) * Decimal("0.004"))
        case "wide":
            return cents(Decimal(extra.rate_e4 or 0) / 10_000 * miles) if (car.width_mm or 0) > 2_000 else Decimal(0)
        case "pair":
            return cents(linehaul * -5 / 100) if count > 1 else Decimal(0)
    raise AssertionError(extra.code)


@given(books(), vehicles, st.integers(1, 3_500), states, st.integers(1, 2))
def test_a_price_is_the_clerks_price_to_the_cent(
    book: RateBook, car: Vehicle, miles: int, state: str, count: int
) -> None:
    assert Decimal(int(priced(book, [car], [(miles, state)], count=count).total[0, 0])) / 100 == slow_price(
        book, car, miles, state, count
    )


@given(
    books(),
    st.lists(vehicles, min_size=1, max_size=4),
    st.lists(st.tuples(st.integers(1, 3_500), states), min_size=1, max_size=5),
    markups,
)
def test_one_at_a_time_is_all_at_once(
    book: RateBook, cars: list[Vehicle], trips: list[tuple[int, str]], markup: Markup
) -> None:
    together = priced(book, cars, trips, markup).total
    apart = [[int(priced(book, [car], [trip], markup).total[0, 0]) for trip in trips] for car in cars]
    assert together.tolist() == apart


@given(books(), vehicles, st.integers(1, 3_500), markups)
def test_the_total_is_the_sum_of_its_lines(book: RateBook, car: Vehicle, miles: int, markup: Markup) -> None:
    price = priced(book, [car], [(miles, "WA")], markup)
    lines = [int(np.broadcast_to(line.amount, (1, 1))[0, 0]) for line in price.lines]
    assert sum(lines) == int(price.total[0, 0])
    assert len(lines) >= 1


@given(books(), vehicles, states, markups)
def test_a_longer_trip_never_costs_less(book: RateBook, car: Vehicle, state: str, markup: Markup) -> None:
    trips = [(miles, state) for miles in range(1, 3_400)]
    total = priced(book, [car], trips, markup).total[0]
    assert (np.diff(total) >= 0).all()
    assert total[-1] > 0


@given(books(), vehicles, st.integers(1, 3_500), markups)
def test_an_extra_charge_that_does_not_apply_changes_nothing(
    book: RateBook, car: Vehicle, miles: int, markup: Markup
) -> None:
    beyond = ExtraCharge(code="giant", label="Giant", length_over_mm=9_000, charge="flat", amount_minor=1_000_00)
    with_it = replace(book, extras=(*book.extras, beyond))
    trip = [(miles, "GA")]
    assert priced(with_it, [car], trip, markup).total.tolist() == priced(book, [car], trip, markup).total.tolist()


@given(books(), vehicles, st.integers(1, 3_500))
def test_a_markup_never_makes_a_price_lower(book: RateBook, car: Vehicle, miles: int) -> None:
    cost = priced(book, [car], [(miles, "GA")]).total[0, 0]
    sold = priced(book, [car], [(miles, "GA")], Markup(120_000, 0, 100_000)).total[0, 0]
    assert sold >= cost
