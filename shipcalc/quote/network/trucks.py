"""Every service of the day, priced and dated for the request: what the choices are picked from."""

from collections import Counter
from collections.abc import Sequence
from datetime import date

import numpy as np

from shipcalc.errors import NoAnswer
from shipcalc.money import round_up
from shipcalc.places.road.miles import PlaceColumns
from shipcalc.pricing.areas import extra_days, lane_columns
from shipcalc.pricing.columns import Asked, vehicle_columns
from shipcalc.pricing.eligibility import Obstacle
from shipcalc.pricing.lines import NO_MARKUP, Line, Trip, selling_markup, truck_lines
from shipcalc.pricing.tariff import Service, compile_tariffs
from shipcalc.pricing.truck import TruckPrice, trip_of, truck_prices
from shipcalc.quote.model import LeftOut, Trailer
from shipcalc.quote.network.distances import Lane
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.trucking import DRIVEN
from shipcalc.records import dataclass
from shipcalc.schedule.road import RoadDates, road_dates

# So many reasons are told where no service can take a transport; more would not be read.
MOST_REASONS = 3
NO_CARRIER_REMEDY = "ask a carrier that does, and add it to the sheet Carriers (trucking.xlsx)"


@dataclass(frozen=True, slots=True)
class Candidate:
    """One service that can take all the vehicles, with its price for all of them together.

    `extra_days` are those that areas and ferries add to the dates.
    """

    service: Service
    trip: Trip
    lines: tuple[Line, ...]
    total_minor: int
    dates: RoadDates
    extra_days: int

    def cost_lines(self) -> tuple[Line, ...]:
        """Return the same lines at the carrier's own rates."""
        return truck_lines(self.service, self.trip, NO_MARKUP)


def candidates(
    request: Request, book: RateBook, lanes: tuple[Lane, ...], lane_of: tuple[int, ...], as_of: date
) -> tuple[tuple[Candidate, ...], tuple[LeftOut, ...]]:
    """Return the services that can take the whole request, and those that cannot with the reason.

    Raises NoAnswer where none can.
    """
    services, trip = truck_trip(request, book, lanes, as_of)
    farthest, extra = max(lane.road.miles for lane in lanes), int(extra_days(book.areas, trip.lanes).max())
    found, left_out, refused = [], [], []
    for price in truck_prices(services, trip, selling_markup(book.pricing)):
        in_the_way = obstacles_on(price, lane_of)
        row = price.service.row
        if in_the_way:
            refused.append((price.service, in_the_way))
            reasons = (obstacle.reason for obstacle in in_the_way)
            left_out.append(
                LeftOut(carrier=row.carrier, trailer=find_trailer(price.service), reason="; ".join(reasons))
            )
        else:
            dates = service_dates(price.service, farthest, extra, request, book)
            total = int(price.total[np.arange(len(lane_of)), lane_of].sum())
            total = round_up(total, max(book.pricing.rounding_step_minor, 1))
            found.append(Candidate(price.service, trip, price.lines, total, dates, extra))
    if not found:
        raise NoAnswer(nobody(refused), where=request.to.name, remedy=NO_CARRIER_REMEDY)
    return tuple(found), tuple(left_out)


def truck_trip(
    request: Request, book: RateBook, lanes: Sequence[Lane], as_of: date, *, alone: bool = False
) -> tuple[tuple[Service, ...], Trip]:
    """Return the services that the request allows, and its vehicles over all lanes as they are to be priced.

    `alone`: every vehicle is a transport by itself.
    """
    tariffs = compile_tariffs(book, as_of)
    columns = lane_columns(
        PlaceColumns.of([lane.start for lane in lanes]),
        PlaceColumns.of([lane.to for lane in lanes]),
        np.array([lane.road.miles for lane in lanes], dtype=np.int64),
        book.areas,
        tuple(lane.crossing.ferry if lane.crossing else None for lane in lanes),
    )
    wishes = request.wishes
    asked = Asked(
        pickup_day=request.ready,
        lift_gate=wishes.lift_gate,
        limited_access=wishes.limited_access,
        express=wishes.express,
        vehicle_count=1 if alone else len(request.vehicles),
    )
    wanted = tuple(service for service in tariffs.services if wishes.trailer in (None, service.row.trailer))
    return wanted, trip_of(tariffs, vehicle_columns(request.vehicles), columns, asked)


def find_trailer(service: Service) -> Trailer | None:
    """Return the kind of trailer of a service, None where a driver delivers the vehicle on its own wheels."""
    return None if service.row.trailer == DRIVEN else trailer_of(service)


def trailer_of(service: Service) -> Trailer:
    """Return the kind of trailer of a truck."""
    return "enclosed" if service.row.trailer == "enclosed" else "open"


def obstacles_on(price: TruckPrice, lane_of: Sequence[int]) -> tuple[Obstacle, ...]:
    """Return what stands in the way of any vehicle on its own lane."""
    shape = price.eligible.shape
    at = np.arange(shape[0]), list(lane_of)
    if price.eligible[at].all():
        return ()
    return tuple(obstacle for obstacle in price.obstacles if np.broadcast_to(obstacle.where, shape)[at].any())


def nobody(refused: Sequence[tuple[Service, tuple[Obstacle, ...]]]) -> str:
    """Return why no service can take the request: what all of them lack, else the commonest reasons, counted."""
    if not refused:
        return "no carrier of the rate book is valid on this day"
    for what in ("height", "length", "width", "weight", "value"):
        limits = [{o.what: o for o in found}.get(what) for _, found in refused]
        known = [obstacle for obstacle in limits if obstacle is not None]
        if len(known) == len(refused):
            most = max(known, key=lambda obstacle: obstacle.limit)
            most_any = most.reason.replace("it takes", "the roomiest takes").replace("its cargo", "the highest cargo")
            return f"no carrier takes a vehicle of this {what}: {most_any}"
    counts = Counter(obstacle.reason for _, found in refused for obstacle in found)
    told = "; ".join(f"{reason} ({count} of {len(refused)})" for reason, count in counts.most_common(MOST_REASONS))
    return f"no carrier can take this transport. What stands in the way, and of how many services: {told}"


def service_dates(service: Service, miles: int, extra_days: int, request: Request, book: RateBook) -> RoadDates:
    """Return when a service picks up, and when it has driven the miles."""
    from_days, to_days = pickup_days(service, request)
    return road_dates(
        ready=request.ready,
        pickup_from_days=from_days,
        pickup_to_days=to_days,
        miles=miles,
        speed_mph=book.pricing.road_speed_mph,
        spare_days=service.row.spare_days,
        miles_a_day=miles_a_day(service, book),
        extra_days=extra_days,
    )


def miles_a_day(service: Service, book: RateBook) -> int:
    """Return how far a service comes in a day with its other stops."""
    return service.row.miles_a_day or book.pricing.miles_a_day


def pickup_days(service: Service, request: Request) -> tuple[int, int]:
    """Return after how many days at the earliest and at the latest a service picks up."""
    row = service.row
    express = request.wishes.express and row.express_pickup_days is not None
    last = min(row.pickup_to_days, row.express_pickup_days or 0) if express else row.pickup_to_days
    return min(row.pickup_from_days, last), last
