"""The yard, where the vehicle is handed over to a buyer who comes for it, or sends a truck of his own: nothing is carried."""

from collections.abc import Iterator
from datetime import date, timedelta

import numpy as np

from shipcalc.pricing.counted import lump_line
from shipcalc.pricing.line import Line
from shipcalc.quote.edges.edge import Words, takes_all
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.price.parts import Charged, on_every_way
from shipcalc.quote.request import Request
from shipcalc.quote.time.dated import Dated, Days, Span, step
from shipcalc.ratebook.book import RateBook
from shipcalc.records import replace
from shipcalc.schedule.road import RoadDates
from shipcalc.schedule.working_days import YARD, working_day_from
from shipcalc.trade import AT_HOME

# Every delivery term has the seller pay what is done at the yard.
AT_THE_YARD = "export packing"
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

ineligible = takes_all


def lines(request: Request, book: RateBook, network: Network) -> Iterator[Charged]:
    """Yield a line that costs nothing, so that every face has one to show."""
    stage = AT_HOME if network.at_home else AT_THE_YARD

    def handed_over(*, markup_ppm: int) -> tuple[Line]:
        line = lump_line(code="yard.handover", label="Handed over at the yard", stage=stage, minor=0, shared=True)
        return (replace(line, free=True),)

    yield on_every_way(network, handed_over)


def days(request: Request, book: RateBook, network: Network, ways: Ways, when: Days) -> Days:
    """Return the days on which it can be fetched: nothing else is waited for."""
    first, last = (np.array([day.toordinal()]) for day in fetched_dates(request, network).pickup)
    return Days(*[Span(first, last)] * 7)


def fetched_dates(request: Request, network: Network) -> RoadDates:
    """Return the dates of a way without a truck: from the first working day after it is ready, paid for and signed over."""
    assert network.day is not None, "a yard hands over from the day of the quote on"
    agreed = network.day + timedelta(days=PAID_AND_SIGNED)
    first = working_day_from(max(request.ready + timedelta(days=1), agreed), YARD)
    window: tuple[date, date] = (first, working_day_from(first + timedelta(days=FETCHED_WITHIN), YARD))
    return RoadDates(ready=request.ready, pickup=window, delivery=window, driving_days=0, note="")


def words(one: OneWay, dated: Dated) -> Words:
    """Return the handing over, and what the buyer brings to it."""
    by_appointment = "On a working day, by appointment, once it is paid for."
    drives = all(vehicle.runs and vehicle.steers and vehicle.brakes for vehicle in one.request.vehicles)
    return Words(
        steps=(step("Handed over at the yard", dated.delivery, "delivery", by_appointment),),
        warnings=(PAPERS_AT_THE_YARD, DRIVING_HOME if drives else NOT_DRIVEN),
        moments={"pickup": dated.pickup},
    )
