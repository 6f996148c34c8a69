"""How long the parts of an answer take: `pytest tests/benchmarks --benchmark-enable`. Without that switch each runs once."""

import shutil
from collections.abc import Callable, Sequence
from datetime import date, timedelta
from itertools import cycle
from pathlib import Path

import numpy as np
import pytest

from shipcalc.actions.quoting import Order, quote
from shipcalc.actions.sources import invented_folder
from shipcalc.actions.starting import start_of
from shipcalc.actions.vehicles import vehicles_meant
from shipcalc.places.gazetteer import find
from shipcalc.places.gazetteer import pages as gazetteer
from shipcalc.places.gazetteer.find import get_place
from shipcalc.places.gazetteer.pages import all_postal_codes
from shipcalc.places.place import Place
from shipcalc.places.road.factor_rules import FactorRule
from shipcalc.places.road.lanes import LaneTable, lane_table
from shipcalc.places.road.lanes_hubs import hubs_around
from shipcalc.places.road.miles import PlaceColumns, road_distance
from shipcalc.pricing.areas import lane_columns
from shipcalc.pricing.columns import Asked, vehicle_columns
from shipcalc.pricing.markups import selling_markup
from shipcalc.pricing.tariff import compile_tariffs
from shipcalc.pricing.truck import trip_of, truck_price
from shipcalc.quote.as_data import quote_to_json
from shipcalc.quote.assemble import make_quote
from shipcalc.quote.choose.choices import choices
from shipcalc.quote.edges.kinds import days, eligible_ways, price_parts
from shipcalc.quote.model import Dealer, Wishes
from shipcalc.quote.network.distances import factor_rules
from shipcalc.quote.network.reaching import network_for
from shipcalc.quote.price.seasonal import leaves_in_season, seasonal_rows
from shipcalc.quote.price.sums import sums_under
from shipcalc.quote.price.terms import find_term
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import checked, read_rate_book
from shipcalc.ratebook.drafting import draft_of
from shipcalc.ratebook.making.build_trucking import invented_rows
from shipcalc.ratebook.rows.lanes import LaneRow
from shipcalc.ratebook.starter.workbooks import write_workbook
from shipcalc.records import replace
from shipcalc.vehicles.stock_list import read_stock

DAY = date(2026, 12, 1)
VEHICLES, LANES = 160, 4_096


def test_a_home_quote_when_everything_is_read(benchmark, books, sources) -> None:
    (car,) = vehicles_meant(("HV-1042",), books.stock, books.rates.sizes)
    start, to = start_of(car, "", sources.settings).place, get_place("59715").place
    request = Request(vehicles=(car,), starts=(start,), to=to, ready=DAY, wishes=Wishes())
    made = benchmark(make_quote, request, books.rates, as_of=DAY, dealer=Dealer(name="Heron & Vale Motors (invented)"))
    assert made.options


@pytest.mark.parametrize("to", ["Bremen, Germany", "Auckland, New Zealand", "Honolulu, HI", "Toronto, Canada"])
def test_an_overseas_quote_when_everything_is_read(benchmark, books, sources, to: str) -> None:
    (car,) = vehicles_meant(("HV-1042",), books.stock, books.rates.sizes)
    start = start_of(car, "", sources.settings).place
    request = Request(vehicles=(car,), starts=(start,), to=get_place(to).place, ready=DAY, wishes=Wishes())
    make_quote(request, books.rates, as_of=DAY, dealer=Dealer(name="x"))  # sea miles are searched once
    made = benchmark(make_quote, request, books.rates, as_of=DAY, dealer=Dealer(name="Heron & Vale Motors (invented)"))
    assert made.options


def test_tens_of_thousands_of_ways_priced_dated_and_chosen_from(benchmark, books, sources) -> None:
    """The ocean services of the book ten times over, each of them sailing on another day."""
    (car,) = vehicles_meant(("HV-1042",), books.stock, books.rates.sizes)
    start, to = start_of(car, "", sources.settings).place, get_place("Bremen, Germany").place
    request = Request(vehicles=(car,), starts=(start,), to=to, ready=DAY, wishes=Wishes())
    ocean = tuple(
        replace(
            row,
            service=f"{row.service} {n}",
            carrier=f"{row.carrier} {n}",
            first_sailing=row.first_sailing + timedelta(n),
        )
        for n in range(10)
        for row in books.rates.ocean
    )
    book = replace(books.rates, ocean=ocean)
    network = network_for(request, book, DAY)
    found, _, _ = eligible_ways(request, book, network)
    parts = price_parts(request, book, network)
    assert len(found) > 20_000
    term = find_term("DAP")

    def chosen() -> int:
        when = days(request, book, network, found)
        sailing = when.sailing.earliest, when.sailing.latest
        seasonal = tuple(leaves_in_season(row, request, network, found, *sailing) for row in seasonal_rows(book))
        sums = sums_under(term, request, book, network, parts, found, conditions="A", as_of=DAY, seasonal=seasonal)
        return len(choices(network, found, sums, when, request.vehicles, book))

    assert benchmark(chosen)


def test_a_quote_from_typed_words_as_json(benchmark, books, sources) -> None:
    order = Order(vehicles=("HV-1042",), to="59715")
    said = benchmark(lambda: quote_to_json(quote(order, sources, as_of=DAY, books=books)))
    assert '"options"' in said


def test_reading_and_checking_the_rate_book(benchmark, sources) -> None:
    assert benchmark(read_rate_book, sources.rates.path).carriers


def test_checking_the_whole_rate_book_anew(benchmark, sources) -> None:
    """As after every change in Excel: nothing is kept. The aim is 0.3 s."""
    assert benchmark(draft_of, sources.rates.path).tables.carriers


def test_checking_a_rate_book_that_was_read_before(benchmark, sources) -> None:
    """By the content of its files, from the cache. The aim is 20 ms."""
    assert benchmark(checked, sources.rates.path, as_of=DAY)[1]


def test_reading_the_stock_list(benchmark, sources, books) -> None:
    assert benchmark(read_stock, sources.stock.path, sizes=books.rates.sizes).vehicles


@pytest.mark.parametrize("text", ["59715", "Bozeman, MT", "Seattle", "48.7, -122.4"])
def test_looking_up_a_place_for_the_first_time(benchmark, text: str) -> None:
    """Everything that the rooms remember of earlier look-ups is forgotten before each."""
    remembered = [
        kept for module in (find, gazetteer) for kept in vars(module).values() if hasattr(kept, "cache_clear")
    ]
    assert len(remembered) > 3

    def forget() -> None:
        for kept in remembered:
            kept.cache_clear()

    assert benchmark.pedantic(get_place, args=(text,), setup=forget, rounds=30).place


def test_how_far_one_lane_is_by_road(benchmark, books) -> None:
    """From one yard to ever another ZIP; nothing is remembered of either but the hubs of its part of the country."""
    rules, table, zips = factor_rules(books.rates), lane_table(), all_postal_codes()
    yard = get_place("98225").place
    at = [(float(north), float(east)) for north, east in zip(zips.latitude[::40], zips.longitude[::40], strict=True)]
    places = cycle([replace(yard, latitude=north, longitude=east) for north, east in at])

    def another() -> tuple[tuple[Place, Place, Sequence[FactorRule]], dict[str, LaneTable]]:
        hubs_around.cache_clear()
        return (yard, next(places), rules), {"lanes": table}

    for _ in at:
        (start, to, _), _ = another()
        road_distance(start, to, rules, lanes=table)
    assert benchmark.pedantic(road_distance, setup=another, rounds=len(at)).miles


def test_how_far_a_million_lanes_are_by_road(benchmark) -> None:
    zips, table = all_postal_codes(), lane_table()
    north, east = zips.latitude.astype(np.float64), zips.longitude.astype(np.float64)
    here, there = np.arange(1_000_000) % len(north), np.arange(1_000_000) * 7 % len(north)
    ends = {
        "latitude_a": north[here],
        "longitude_a": east[here],
        "latitude_b": north[there],
        "longitude_b": east[there],
    }
    assert np.nanmax(benchmark.pedantic(table.factors, kwargs=ends, rounds=3, warmup_rounds=1)) > 1


def test_every_service_over_many_vehicles_and_lanes(benchmark, books, sources) -> None:
    """All services of the book × 160 vehicles × 4,096 lanes, as selling prices."""
    stock, columns = books.stock.vehicles, all_postal_codes()
    cars = vehicles_meant(
        [stock[n % len(stock)].stock_number for n in range(len(stock))], books.stock, books.rates.sizes
    )
    many = [cars[n % len(cars)] for n in range(VEHICLES)]
    taken = np.arange(LANES) * 7 % len(columns.codes)
    ends = PlaceColumns(
        country=np.full(LANES, "US"),
        subdivision=columns.state[taken],
        postal_code=columns.codes[taken],
        latitude=columns.latitude[taken],
        longitude=columns.longitude[taken],
    )
    yard = PlaceColumns.of([start_of(cars[0], "", sources.settings).place])
    miles = np.arange(LANES, dtype=np.int64) % 3_000 + 1
    tariffs = compile_tariffs(books.rates, DAY)
    lanes = lane_columns(yard, ends, miles, books.rates.areas, prices=tariffs.lanes)

    def every_price() -> int:
        trip = trip_of(tariffs, vehicle_columns(many), lanes, Asked(pickup_day=DAY))
        markup = selling_markup(books.rates, "US")
        return sum(int(truck_price(service, trip, markup).eligible.sum()) for service in tariffs.services)

    assert benchmark(every_price) > VEHICLES * LANES


def many_lanes(folder: Path, count: int) -> Path:
    """Write the invented book with so many rows of Lanes more, twenty of each area of ZIPs."""
    services = [("Three Puffins Haulage", "open"), ("Moonlit Plover Lines", "enclosed"), ("Magpie and Compass", "open"),
                ("Lantern Gull Carriage", "enclosed")]  # fmt: skip
    rows = [
        LaneRow(carrier=carrier, trailer=trailer, from_end=begin, to_end=f"{code:03}", flat_minor=50_000 + code * 100,
                valid_from=date(2026, 1, 1), valid_to=date(2027, 12, 31), reference=f"Q-{code}", fuel_included=True)
        for carrier, trailer in services
        for begin in ("yard Bellingham", "yard Savannah", "WA", "FL", "USBAL")
        for code in range(count // 20)
    ]  # fmt: skip
    own = invented_rows()
    write_workbook(folder / "trucking.xlsx", own | {"Lanes": (*own["Lanes"], *rows)})
    for name in ("overseas.xlsx", "paperwork.xlsx"):
        shutil.copy(invented_folder("rates") / name, folder / name)
    return folder


def test_reading_and_checking_twenty_thousand_lanes(benchmark, tmp_path: Path, size: Callable[[int, int], int]) -> None:
    """0.6 s of processor beyond what the book takes without them, on 2 virtual cores."""
    folder = many_lanes(tmp_path, size(20_000, 400))
    draft = benchmark.pedantic(draft_of, args=(folder,), rounds=3, iterations=1)
    assert len(draft.tables.lanes) > size(20_000, 400)
    assert not [problem for problem in draft.problems if problem.severity == "fault"]


def test_a_book_of_twenty_thousand_lanes_that_was_read_before(
    benchmark, tmp_path: Path, size: Callable[[int, int], int]
) -> None:
    """20 ms; its rows are made when a price is asked for."""
    folder = many_lanes(tmp_path, size(20_000, 400))
    read_rate_book(folder)
    assert benchmark(read_rate_book, folder).fingerprint
