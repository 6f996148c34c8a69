"""A row of the table is what a single quote of that vehicle to that place says: to the cent, to the day, the same carrier."""

import random
from datetime import date, timedelta
from decimal import Decimal

import numpy as np
import pytest

from shipcalc.bulk.destinations import Destinations, find_destinations
from shipcalc.bulk.plan import Plan, blocks_of
from shipcalc.bulk.running import rows_of_block
from shipcalc.errors import NoAnswer
from shipcalc.quote.assemble import make_quote
from shipcalc.quote.model import Dealer, Wishes
from shipcalc.quote.network.territory import is_home
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.lanes import LaneRow
from shipcalc.records import replace
from shipcalc.trade import TITLES

DEALER = Dealer(name="Heron & Vale Motors (invented)")
ROWS = 250
ENDS = (
    None, "US", "Northwest", "Mountain", "Great Lakes", "Cape Cod", "WA", "GA", "TX", "NY", "5", "97", "590-599", "100-102", "98225",
    "31408", "yard Bellingham", "Bozeman, MT", "Austin, TX",
)  # fmt: skip


def single_quote(plan, vehicle: int, place: int, trailer: str):
    """Return the cheapest option with that trailer of the quote for one vehicle, or None."""
    request = Request(
        vehicles=(plan.vehicles[vehicle],),
        starts=(plan.starts[vehicle],),
        to=plan.destinations.places[place],
        ready=plan.ready,
        wishes=Wishes(trailer=trailer),
    )
    try:
        return make_quote(request, plan.book, as_of=plan.as_of, dealer=DEALER).options[0]
    except NoAnswer:
        return None


def rows(plan) -> list[dict]:
    return [row for block in blocks_of(plan) for row in rows_of_block(plan, block).to_pylist()]


def check_row(plan, row: dict, vehicle: int, place: int, trailer: str) -> bool:
    """Hold one row to its quote; return whether there was a price."""
    option = single_quote(plan, vehicle, place, trailer)
    where = (row["vehicle"], row["to"], trailer)
    assert where == (plan.vehicles[vehicle].stock_number, plan.destinations.names[place], row["trailer"])
    if option is None:
        assert row["price"] is None, where
        assert row["why_not"], where
        return False
    assert row["price"] == option.total, where
    assert isinstance(row["price"], Decimal)
    days = tuple((day - plan.ready).days for day in option.dates.delivery)
    assert (row["days_from"], row["days_to"]) == days, where
    by_ship = row.get("way") not in (None, "truck")
    driven = option.legs[:1] if by_ship else [leg for leg in option.legs if leg.unit == "mi"]
    assert row["miles"] == sum(leg.distance for leg in driven), where
    assert row["carrier"].split(", ")[0] == option.legs[0].carrier, where
    assert row["why_not"] is None
    return True


def test_what_a_hired_driver_could_bring_is_on_no_trailer(make_plan, books, zips, some) -> None:
    """Motor homes go by flat-bed here, where a driver is cheaper; nothing else is asked for."""
    high = [number for number, vehicle in enumerate(books.stock.vehicles) if (vehicle.height_mm or 0) > 2_286]
    assert len(high) > 5
    home = [number for number, place in enumerate(zips.places) if is_home(place.country, place.subdivision)]
    plan = make_plan(some(zips, home[:: len(home) // 12][:12]), high[:3])
    answers = iter(rows(plan))
    priced = [
        check_row(plan, next(answers), vehicle, place, trailer)
        for vehicle in range(3)
        for place in range(len(plan.destinations))
        for trailer in plan.trailers
    ]
    assert sum(priced) > 3 * 8


def test_rows_of_random_vehicles_and_zips(make_plan, zips, some) -> None:
    chance = np.random.default_rng(20261218)
    home = [number for number, place in enumerate(zips.places) if is_home(place.country, place.subdivision)]
    places = some(zips, sorted(chance.choice(home, 14, replace=False).tolist()))
    plan = make_plan(places, sorted(chance.choice(150, 14, replace=False).tolist()))
    answers = iter(rows(plan))
    priced = [
        check_row(plan, next(answers), vehicle, place, trailer)
        for vehicle in range(len(plan.vehicles))
        for place in range(len(plan.destinations))
        for trailer in plan.trailers
    ]
    assert len(priced) == 14 * 14 * 2
    assert sum(priced) > 300


def test_a_title_that_must_be_got_first_moves_its_vehicle_alone(make_plan, books, zips, some) -> None:
    """Every kind of title side by side: each row leaves on the day of its own quote, at the price of that day."""
    of_kind = {vehicle.title: number for number, vehicle in enumerate(books.stock.vehicles)}
    assert of_kind.keys() == set(TITLES)
    plan = make_plan(some(zips, [zips.names.index(code) for code in ("10013", "59715", "33040")]), of_kind.values())
    found = rows(plan)
    answers = iter(found)
    priced = [
        check_row(plan, next(answers), vehicle, place, trailer)
        for vehicle in range(len(plan.vehicles))
        for place in range(len(plan.destinations))
        for trailer in plan.trailers
    ]
    assert sum(priced) > 24
    stock_numbers = {title: vehicle.stock_number for title, vehicle in zip(of_kind, plan.vehicles, strict=True)}
    first = {
        title: min(row["days_from"] for row in found if row["vehicle"] == number and row["price"])
        for title, number in stock_numbers.items()
    }
    assert first["missing"] > first["lien"] > first["clean"] + 5


@pytest.mark.parametrize("code", ["02554", "98250", "49757", "81435", "10013", "33040", "99501"])
def test_rows_of_places_with_a_rule_of_their_own(make_plan, zips, some, code: str) -> None:
    """Islands by ferry and one whose ferry takes no vehicles, the mountains, a city's area, the Keys; Alaska is left out."""
    place = some(zips, [zips.names.index(code)])
    plan = make_plan(place, [0, 40, 80, 120])
    for number, row in enumerate(rows(plan)):
        if code == "99501":
            assert (row["price"], row["why_not"]) == (None, "beyond the home roads")
        else:
            priced = check_row(plan, row, number // 2, 0, plan.trailers[number % 2])
            assert code != "49757" or not priced


def test_zips_beyond_the_home_roads_where_they_are_asked_for(make_plan, zips, some) -> None:
    """Anchorage, Honolulu and San Juan by sea, between ZIPs that roads reach, which stay what they are without."""
    places = some(zips, [zips.names.index(code) for code in ("00901", "10013", "59715", "96813", "99501")])
    plan = make_plan(places, [0, 80], by_sea=True)
    found = rows(plan)
    numbers = {
        (vehicle.stock_number, trailer): (n, trailer)
        for n, vehicle in enumerate(plan.vehicles)
        for trailer in plan.trailers
    }
    for row in found:
        vehicle, trailer = numbers[row["vehicle"], row["trailer"]]
        assert check_row(plan, row, vehicle, places.names.index(row["to"]), trailer), row
    ways = {row["to"]: row["way"] for row in found}
    assert {code: way == "truck" for code, way in ways.items()} == {
        "00901": False,
        "10013": True,
        "59715": True,
        "96813": False,
        "99501": False,
    }
    without = {(row["vehicle"], row["to"], row["trailer"]): row["price"] for row in rows(make_plan(places, [0, 80]))}
    same = {
        key: row["price"]
        for row in found
        if row["way"] == "truck"
        for key in [(row["vehicle"], row["to"], row["trailer"])]
    }
    assert same.items() <= without.items()


def test_rows_over_the_sea_and_over_the_border(make_plan, books) -> None:
    """The cheapest way that the quote with that trailer shows: also with what the buyer pays there, and the sea miles."""
    countries = find_destinations("countries", None, books.rates)
    codes = ("CA", "DE", "JP", "CU", "NZ")
    places = Destinations(
        "countries",
        codes,
        *(
            tuple(column[countries.names.index(code)] for code in codes)
            for column in (countries.places, countries.labels)
        ),
    )
    plan = make_plan(places, [0, 60])
    answers = iter(rows(plan))
    priced = 0
    for vehicle in range(2):
        for place in range(len(codes)):
            for trailer in plan.trailers:
                row = next(answers)
                if not check_row(plan, row, vehicle, place, trailer):
                    continue
                option = single_quote(plan, vehicle, place, trailer)
                priced += 1
                assert row["buyer_pays_locally"] == option.buyer_pays_locally
                asked_for_duty = plan.destinations.places[place].country not in ("US", "PR", "GU", "VI", "AS", "MP")
                assert (row["not_in_sum"] == "duty and tax") == (asked_for_duty and not option.imports)
                sea = [leg for leg in option.legs if leg.unit == "nmi"]
                assert row["sea_miles"] == sum(leg.distance for leg in sea)
                assert row["way"] == (sea[0].mode if sea else "truck")
    assert priced >= 12


def with_lanes_and_days(book: RateBook, day: date, count: int = 400) -> RateBook:
    """Return the book with many rows of Lanes, some of other days and currencies, and rates a mile and markups that rise after a week."""
    chance = random.Random(3)
    lanes = []
    for _ in range(count):
        carrier = chance.choice(book.carriers)
        price = chance.choice(
            (
                {"flat_minor": chance.randrange(200_00, 4_000_00), "fuel_included": chance.random() < 0.5},
                {"rate_e4": chance.randrange(4_000, 30_000), "minimum_minor": chance.choice((None, 700_00))},
                {"percent_ppm": chance.randrange(-300_000, 300_000)},
                {"minimum_minor": chance.randrange(300_00, 900_00)},
            )
        )
        first = chance.choice((None, None, day, day + timedelta(days=chance.randrange(12))))
        ends = [chance.choice((*ENDS, f"{chance.randrange(1000):03}", f"{chance.randrange(100):02}")) for _ in range(2)]
        lanes.append(
            LaneRow(
                carrier=carrier.carrier,
                trailer=chance.choice((None, carrier.trailer)),
                from_end=chance.choice((ends[0], None, "yard Bellingham", "31408")),
                to_end=ends[1],
                both_ways=chance.random() < 0.3,
                currency=chance.choice((None, None, "CAD")),
                valid_from=first,
                **price,
            )
        )
    changes = day + timedelta(days=7)
    today = (replace(band, valid_to=changes - timedelta(days=1)) for band in book.bands)
    later = (replace(band, valid_from=changes, rate_e4=band.rate_e4 * 11 // 10) for band in book.bands)
    dearer = replace(book.pricing, markup_linehaul_ppm=231_000, markup_extras_ppm=77_000, later=())
    return replace(
        book,
        pricing=replace(book.pricing, later=((changes, dearer),)),
        lanes=tuple(lanes),
        bands=(*today, *later),
        changes=None,
        fingerprint="lanes and days",
    )


def test_a_row_is_its_quote_over_lanes_with_prices_and_on_days_with_other_rates(make_plan, zips) -> None:
    plan = make_plan(zips, vehicles=(0, 8, 40, 90, 120))
    plan = replace(plan, book=with_lanes_and_days(plan.book, plan.ready))
    assert hold(plan, ROWS) > ROWS / 3


def hold(plan: Plan, count: int) -> int:
    """Hold random rows of a plan to single quotes; return how many of them have a price."""
    chance, priced = np.random.default_rng(5), 0
    blocks = blocks_of(plan)
    for block in blocks:
        table = rows_of_block(plan, block)
        trailers = len(plan.trailers)
        for at in chance.choice(len(table), count // len(blocks), replace=False).tolist():
            row = table.slice(at, 1).to_pylist()[0]
            if row["why_not"] == "beyond the home roads":
                continue
            vehicle, rest = divmod(at, len(block.places) * trailers)
            place = block.places[rest // trailers]
            priced += check_row(plan, row, block.vehicles[vehicle], place, row["trailer"])
    return priced
