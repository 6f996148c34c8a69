"""Shipments made from the papers and tasks that ship with the program; all people, makes and places of work are invented."""

from datetime import date
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest

from shipcalc.places.place import Place
from shipcalc.quote.explain.lead_times import with_lead
from shipcalc.quote.explain.paper_trail import Way, papers
from shipcalc.quote.model import Dates, Dealer, Leg, Option, Quote, RateBookStamp, Wishes
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.paperwork import DocumentRow, TaskRow
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.workbook.reader import read_rows
from shipcalc.schedule.due import home_days
from shipcalc.schedule.road import road_dates
from shipcalc.sheets.reading import read_workbook
from shipcalc.vehicles.vehicle import Vehicle

BELLINGHAM = Place(name="Bellingham", kind="city", country="US", subdivision="WA", latitude=48.76, longitude=-122.49)
SAVANNAH = Place(name="Savannah", kind="city", country="US", subdivision="GA", latitude=32.08, longitude=-81.09)
MINNOW = Vehicle(stock_number="HV-114", year=1961, make="Larkspur", model="Minnow", body="roadster", value_minor=38_000_00,
                 mass_grams=920_000)  # fmt: skip
SCRAMBLER = Vehicle(stock_number="HV-318", year=1969, make="Petrel", model="Scrambler", body="motorcycle",
                    value_minor=12_750_00, runs=False, title="lien")  # fmt: skip
WAYFARER = Vehicle(stock_number="HV-207", year=1974, make="Tamarack", model="Wayfarer", body="camper",
                   value_minor=161_500_00, title="missing")  # fmt: skip

AS_IT_SHIPS = Path(__file__).parents[2] / "rates" / "paperwork.xlsx"


@cache
def paperwork() -> RateBook:
    """Return the rows of rates/paperwork.xlsx."""
    book = read_workbook(AS_IT_SHIPS)
    documents, tasks = book.find_sheet("Documents"), book.find_sheet("Tasks")
    assert documents is not None
    assert tasks is not None
    return RateBook(
        folder=AS_IT_SHIPS.parent,
        fingerprint="",
        pricing=PricingRules(),
        documents=read_rows(documents, DocumentRow).rows,
        tasks=read_rows(tasks, TaskRow).rows,
    )


def shipment(
    *vehicles: Vehicle,
    agreed: date = date(2026, 12, 1),
    ready: date = date(2026, 12, 3),
    pickup_from_days: int = 2,
    pickup_to_days: int = 6,
    miles: int = 2000,
    speed_mph: float = 55,
    spare_days: int = 3,
    lift_gate: bool = False,
    buyer: str = "Ottoline Marsh",
    number: str | None = "Q-2026-0001",
) -> Quote:
    """Return a quote with one option, its papers and tasks dated as the program dates them."""
    vehicles = vehicles or (MINNOW,)
    wishes = Wishes(lift_gate=lift_gate)
    request = Request(vehicles=vehicles, starts=(BELLINGHAM,) * len(vehicles), to=SAVANNAH, ready=ready, wishes=wishes)
    request = with_lead(request, paperwork(), agreed).request
    ready = request.ready
    dates = road_dates(
        ready=ready,
        pickup_from_days=pickup_from_days,
        pickup_to_days=pickup_to_days,
        miles=miles,
        speed_mph=speed_mph,
        spare_days=spare_days,
    )
    way = Way(trailer="enclosed", to_country="US")
    documents, tasks = papers(request, paperwork(), way=way, days=home_days(agreed, dates))
    leg = Leg(from_=BELLINGHAM, to=SAVANNAH, mode="truck", carrier="Tern Haulage", great_circle=miles / 1.2, distance=miles,
              unit="mi", method="factor")  # fmt: skip
    option = Option(
        title="Enclosed trailer",
        trailer="enclosed",
        term="DAP",
        term_place="Savannah, GA",
        total=Decimal("3219.87"),
        buyer_pays_locally=Decimal("0.00"),
        deposit=Decimal("643.97"),
        cover=Decimal("250000.00"),
        legs=(leg,),
        charges=(),
        dates=Dates(pickup=dates.pickup, delivery=dates.delivery),
        documents=documents,
        tasks=tasks,
    )
    return Quote(
        number=number,
        as_of=agreed,
        ready=ready,
        valid_until=date(2027, 1, 31),
        currency="USD",
        rate_book=RateBookStamp(fingerprint="invented"),
        program="shipcalc",
        dealer=Dealer(name="Heron & Vale Motors", phone="+1 555 0100"),
        buyer=buyer,
        wishes=wishes,
        from_=BELLINGHAM,
        to=SAVANNAH,
        vehicles=vehicles,
        recommended=0,
        reason="The only choice.",
        options=(option,),
    )


@pytest.fixture
def make_shipment():
    return shipment


@pytest.fixture
def fleet() -> tuple[Vehicle, ...]:
    return (MINNOW, SCRAMBLER, WAYFARER)
