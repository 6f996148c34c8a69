"""The buyer comes for the vehicle, or sends a truck of his own: a choice without carriage, at home and overseas."""

from collections.abc import Iterator
from datetime import date, timedelta
from decimal import Decimal

from shipcalc.money import to_decimal
from shipcalc.places.straight import great_circle_mi
from shipcalc.quote.explain.lead_times import with_lead
from shipcalc.quote.explain.paper_trail import Way, needed_from_buyer, papers
from shipcalc.quote.explain.warned import title_warnings
from shipcalc.quote.model import Also, Charge, Cost, Dates, Milestone, Option, Window
from shipcalc.quote.network.territory import is_domestic, is_filed, is_home
from shipcalc.quote.own.added import AT_THE_YARD
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.schedule.due import home_days
from shipcalc.schedule.road import RoadDates
from shipcalc.schedule.working_days import YARD, working_day_from
from shipcalc.trade import AT_HOME

TERM = "EXW"
MODE = "collected"
# From so near a buyer may well come himself (our own rule); a straight line in miles.
NEAR_MI = 150
# Within so many days it should be fetched (our own rule).
FETCHED_WITHIN = 14

# So many days after it is agreed the money is there and the papers are signed (common practice, no source).
PAID_AND_SIGNED = 3

PAPERS_AT_THE_YARD = (
    "The vehicle is handed over with bill of sale and title against payment in full. Bring identification; whoever comes "
    "for you brings your signed authorization that names the vehicle and the driver."
)
DRIVING_HOME = (
    "Driving it home needs a temporary registration or transit permit, insurance in force and a vehicle fit for the road: "
    "ask your motor vehicle office and your insurer before you come. After a long rest it travels better on a trailer."
)
NOT_DRIVEN = "It cannot be driven away as it is: bring a trailer, and say beforehand what is needed to load it."
EXPORTED_YOURSELF = (
    "Taking it abroad from here is then up to you: export filing, showing the title to customs before it leaves, carriage, cover "
    "and import. Ask a licensed forwarder before you agree; the seller must still give the data of the export filing."
)
LEFT_TO_THE_BUYER = (
    "Carriage: from the yard on, with loading and cover on the way.",
    "Tax, title and registration: and temporary plates or a permit.",
)


def collected(request: Request, book: RateBook, as_of: date) -> Option:
    """Return the choice of coming for it without carriage: the first working day after it is ready, paid for and signed over."""
    currency, overseas = book.pricing.currency, not is_domestic(request.to.country)
    at_home = is_home(request.to.country, request.to.subdivision)
    lead = with_lead(request, book, as_of, collected=True)
    request = lead.request
    first = working_day_from(max(request.ready + timedelta(days=1), as_of + timedelta(days=PAID_AND_SIGNED)), YARD)
    window = (first, working_day_from(first + timedelta(days=FETCHED_WITHIN), YARD))
    way = Way(
        trailer=None,
        to_country=request.to.country,
        mode=MODE,
        overseas=overseas,
        export_filing=is_filed(request.to.country),
        term=TERM,
        seller_pays=frozenset(),
    )
    days = home_days(as_of, RoadDates(ready=request.ready, pickup=window, delivery=window, driving_days=0, note=""))
    documents, tasks = papers(request, book, way=way, days=days)
    nothing = to_decimal(0, currency)
    values = [vehicle.value_minor for vehicle in request.vehicles]
    known = sum(value for value in values if value is not None)
    return Option(
        title="Collected at the yard",
        good_for=("you come for it, or send your own truck",),
        term=TERM,
        term_place=request.starts[0].name,
        risk_passes="at the yard, when it is handed over",
        total=nothing,
        buyer_pays_locally=nothing,
        deposit=nothing,
        balance_due=book.pricing.balance_due,
        landed=None if at_home or None in values else to_decimal(known, currency),
        cover=nothing,
        total_cost=nothing,
        legs=(),
        charges=(_handed_over(nothing, AT_HOME if at_home else AT_THE_YARD),),
        dates=_dates(request.ready, window),
        needed_from_buyer=needed_from_buyer(request, book, way=way, days=days),
        documents=documents,
        tasks=tasks,
        included=("The vehicle made ready and handed over at the yard, with its papers.",),
        not_included=LEFT_TO_THE_BUYER,
        arrives=False,
        before_price=(*title_warnings(request.vehicles), *lead.said, *((EXPORTED_YOURSELF,) if overseas else ())),
        warnings=tuple(_warnings(request)),
    )


def _handed_over(nothing: Decimal, stage: str) -> Charge:
    """Return a line that costs nothing, so that every face has one to show, at the stage that the seller always pays."""
    return Charge(
        line="1",
        code="yard.handover",
        label="Handed over at the yard",
        stage=stage,
        quantity=Decimal(1),
        unit="lump",
        rate=nothing,
        amount=nothing,
        cost=Cost(quantity=Decimal(1), rate=nothing, amount=nothing),
    )


def _dates(ready: date, window: Window) -> Dates:
    handed_over = Milestone(
        what="Handed over at the yard",
        earliest=window[0],
        latest=window[1],
        note="On a working day, by appointment, once it is paid for.",
        stage="delivery",
    )
    begun = Milestone(what="Ready at the yard", earliest=ready, latest=ready, stage="ready")
    return Dates(pickup=window, delivery=window, timeline=(begun, handed_over))


def _warnings(request: Request) -> Iterator[str]:
    yield PAPERS_AT_THE_YARD
    if any(not (vehicle.runs and vehicle.steers and vehicle.brakes) for vehicle in request.vehicles):
        yield NOT_DRIVEN
    else:
        yield DRIVING_HOME


def collected_beside(request: Request, best: Option, book: RateBook) -> Also | None:
    """Return in one line that a buyer who is near may come for it; None for others."""
    if not is_home(request.to.country, request.to.subdivision):
        return None
    miles = max(great_circle_mi(start, request.to) for start in request.starts)
    if miles > NEAR_MI:
        return None
    nothing = to_decimal(0, book.pricing.currency)
    return Also(
        what="collected",
        title="Collected by you at the yard",
        total=nothing,
        difference=nothing - best.total,
        note=f"{miles:,.0f} miles in a straight line",
    )
