"""A row of a list abroad is what a single quote says, whatever is asked: the same cents, days, carriers and ways.

`ROWS=2500 pytest tests/bulk/test_overseas_equals_single_quote.py` takes so many random rows; the ordinary run takes a few.
"""

import os
from datetime import date

import numpy as np
import pytest

from shipcalc.actions.quoting import Books
from shipcalc.bulk.destinations import Destinations
from shipcalc.bulk.plan import Block, Plan
from shipcalc.bulk.running import rows_of_block
from shipcalc.errors import NoAnswer
from shipcalc.places.gazetteer.find import find_place
from shipcalc.places.gazetteer.pages import largest_cities
from shipcalc.places.place import Place
from shipcalc.quote.assemble import make_quote
from shipcalc.quote.model import Dealer, Wishes
from shipcalc.quote.network.ports import port_place
from shipcalc.quote.network.territory import is_home
from shipcalc.quote.price.terms import CODES
from shipcalc.quote.request import Request
from shipcalc.records import replace
from shipcalc.trade import OCEAN_MODES
from shipcalc.vehicles.sizes import fill_sizes
from shipcalc.vehicles.vehicle import Vehicle
from tests.bulk.quoted_book import quoted_book

pytestmark = pytest.mark.soak

DEALER = Dealer(name="Heron & Vale Motors (invented)")
ROWS = int(os.environ.get("ROWS", "160"))
VEHICLES, PLACES, ROWS_OF_A_PLAN = 7, 12, 40

YARDS = ("Bellingham, WA", "Savannah, GA", "Houston, TX", "Kansas City, MO", "Anchorage, AK", "Honolulu, HI")
# Over a border by road, by a ferry, beyond the home roads, held, landlocked, an island of a land that roads reach.
NAMED = (
    "Vancouver, Canada",
    "Toronto, Canada",
    "Yellowknife, Canada",
    "Iqaluit, Canada",
    "Saint John's, NL, Canada",
    "Tijuana, Mexico",
    "Cancun, Mexico",
    "Guatemala City, Guatemala",
    "Panama City, Panama",
    "Honolulu, HI",
    "Hilo, HI",
    "Anchorage, AK",
    "Fairbanks, AK",
    "Ketchikan, AK",
    "San Juan, Puerto Rico",
    "00802",
    "Tamuning, Guam",
    "Havana, Cuba",
    "Tehran, Iran",
    "Moscow, Russia",
    "Port-au-Prince, Haiti",
    "Zurich, Switzerland",
    "Vienna, Austria",
    "Douglas, Isle of Man",
    "Palma, Spain",
    "Auckland, New Zealand",
    "Sydney, Australia",
    "Perth, Australia",
    "Tokyo, Japan",
    "Dubai, United Arab Emirates",
    "Kampala, Uganda",
)


@pytest.fixture(scope="module")
def places(books: Books) -> tuple[Place, ...]:
    named = [find_place(text).place for text in NAMED]
    assert None not in named
    cities = [city for city in largest_cities() if city.country != "US"]
    ports = [port_place(row) for row in books.rates.ports]
    chance = np.random.default_rng(7)
    some = [cities[number] for number in chance.choice(len(cities), 150, replace=False).tolist()]
    found = [find_place(f"{city.name}, {city.country}").place for city in some]
    every = [*named, *named, *ports, *found]
    return tuple(p for p in every if p is not None and not is_home(p.country, p.subdivision))


def changed(vehicle: Vehicle, number: int, chance: np.random.Generator) -> Vehicle:
    """Return a vehicle of the list, or one that is in some way not as the others."""
    changes = (
        {},
        {},
        {},
        {"runs": False},
        {"runs": False, "rolls": False},
        {"rolls": False, "steers": False, "brakes": False},
        {"steers": False},
        {"value_minor": None},
        {"value_minor": 95_000_000},
        {"value_minor": 1},
        {"year": None},
        {"year": 2024},
        {"year": 1996},
        {"length_mm": None, "width_mm": None, "height_mm": None},
        {"mass_grams": None},
        {"mass_grams": 5_000_000},
        {"height_mm": 3_100, "length_mm": 9_000},
        {"length_mm": 5_900},
        {"clearance_mm": 60},
        {"body": "motorcycle", "engine_cc": 750},
        {"engine_cc": None},
        {"engine_cc": 6_500, "built_in": "US"},
        {"built_in": "DE"},
        {"title": "lien"},
        {"title": "missing"},
        {"title": "foreign"},
    )
    change = changes[int(chance.integers(len(changes)))]
    return replace(vehicle, stock_number=f"R-{number}", **change)


def random_plan(books: Books, places: tuple[Place, ...], chance: np.random.Generator, term: str) -> Plan:
    stock = books.stock.vehicles
    yards = [find_place(YARDS[n]).place for n in chance.choice(len(YARDS), 2, replace=False).tolist()]
    vehicles = tuple(
        changed(fill_sizes(stock[n], books.rates.sizes), number, chance)
        for number, n in enumerate(chance.choice(len(stock), VEHICLES, replace=False).tolist())
    )
    to = {f"{n}": places[n] for n in chance.choice(len(places), PLACES, replace=False).tolist()}
    day = date.fromordinal(date(2026, 6, 1).toordinal() + int(chance.integers(330)))
    trailers = (("open",), ("enclosed",), ("open", "enclosed"))[int(chance.integers(3))]
    return Plan(
        vehicles=vehicles,
        starts=tuple(yards[int(chance.integers(2))] for _ in vehicles),
        destinations=Destinations("cities", tuple(to), tuple(to.values()), tuple(place.name for place in to.values())),
        trailers=trailers,
        book=replace(books.rates, pricing=replace(books.rates.pricing, overseas_term=term)),
        as_of=day,
        ready=date.fromordinal(day.toordinal() + int(chance.integers(20))),
        for_office=True,
    )


def said_by_a_quote(plan: Plan, vehicle: int, place: int, trailer: str) -> dict[str, object] | None:
    """Return what the first choice of the quote says, as a row would; None where there is none."""
    request = Request(
        vehicles=(plan.vehicles[vehicle],),
        starts=(plan.starts[vehicle],),
        to=plan.destinations.places[place],
        ready=plan.ready,
        wishes=Wishes(trailer=trailer),
    )
    try:
        option = make_quote(request, plan.book, as_of=plan.as_of, dealer=DEALER).options[0]
    except NoAnswer:
        return None
    sea = [leg for leg in option.legs if leg.mode in OCEAN_MODES]  # the ferry of a last leg is none of these
    driven = option.legs[:1] if sea else [leg for leg in option.legs if leg.unit == "mi"]
    lines = [option.legs[0].carrier, *(leg.carrier for leg in sea)]
    return {
        "price": option.total,
        "buyer_pays_locally": option.buyer_pays_locally,
        "days_from": (option.dates.delivery[0] - plan.ready).days,
        "days_to": (option.dates.delivery[1] - plan.ready).days,
        "miles": sum(leg.distance for leg in driven),
        "sea_miles": sum(leg.distance for leg in sea),
        "way": sea[0].mode if sea else "truck",
        "carrier": ", ".join(lines),
    }


@pytest.mark.parametrize(
    ("quoted", "least_minor"),
    [(False, 0), (True, 0), (False, 70_000)],
    ids=["as shipped", "mostly quoted", "least margin"],
)
def test_random_rows(books: Books, places: tuple[Place, ...], quoted: bool, least_minor: int) -> None:
    """With the shipped book, with one in which most ships are quoted and ports charge line by line, and with a least margin that
    about half of the shipments miss.
    """
    books = replace(books, rates=quoted_book(books.rates, ROWS)) if quoted else books
    rules = replace(books.rates.pricing, least_abroad_minor=least_minor)
    books = replace(books, rates=replace(books.rates, pricing=rules))
    chance, compared, priced, terms = np.random.default_rng(ROWS), 0, 0, list(CODES)
    while compared < ROWS:
        plan = random_plan(books, places, chance, terms[compared // ROWS_OF_A_PLAN % len(terms)])
        table = rows_of_block(plan, Block(0, range(VEHICLES), range(PLACES))).to_pylist()
        for at in chance.choice(len(table), min(ROWS_OF_A_PLAN, len(table)), replace=False).tolist():
            row, each = table[at], PLACES * len(plan.trailers)
            vehicle, place = at // each, at % each // len(plan.trailers)
            said = said_by_a_quote(plan, vehicle, place, row["trailer"])
            where = (row, plan.vehicles[vehicle], plan.starts[vehicle].name, plan.book.pricing.overseas_term)
            if said is None:
                assert row["price"] is None, where
                assert row["why_not"], where
            else:
                assert {name: row[name] for name in said} == said, where
                priced += 1
            compared += 1
    assert priced > ROWS // 3
