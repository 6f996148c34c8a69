"""The truck services of the day: which a request allows, what stands in their way, when they drive."""

from collections import Counter
from collections.abc import Sequence
from datetime import date

import numpy as np

from shipcalc.places.road.miles import PlaceColumns
from shipcalc.pricing.areas import lane_columns
from shipcalc.pricing.columns import Asked, vehicle_columns
from shipcalc.pricing.eligibility import Obstacle
from shipcalc.pricing.lines import Trip
from shipcalc.pricing.tariff import Service, compile_tariffs
from shipcalc.pricing.truck import TruckPrice, trip_of
from shipcalc.quote.network.distances import Lane
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.schedule.road import RoadDates, road_dates
from shipcalc.trade import DRIVEN, Trailer
from shipcalc.vehicles.vehicle import Vehicle

# So many reasons are told where no service can take a transport; more would not be read.
MOST_REASONS = 3
# Below this a low car scrapes on an open trailer's ramps (common practice, no source).
LOW_CLEARANCE_MM = 114
NO_CARRIER_REMEDY = "ask a carrier that does, and add it to the sheet Carriers (trucking.xlsx)"


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
        tariffs.lanes,
    )
    wishes = request.wishes
    asked = Asked(
        pickup_day=request.ready,
        lift_gate=wishes.lift_gate,
        limited_access=wishes.limited_access,
        express=wishes.express,
        vehicle_count=1 if alone else len(request.vehicles),
        together=() if alone else tuple(map(request.starts.count, request.starts)),
    )
    wanted = tuple(service for service in tariffs.services if wishes.trailer in (None, service.row.trailer))
    if wishes.spot and not alone:
        # Late: most quotes have none.
        from shipcalc.quote.network.in_hand import services_in_hand

        wanted = (*wanted, *services_in_hand(request, tariffs, lanes))
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
    return f"no carrier can take this transport. What rules it out, and for how many services: {told}"


def service_dates(
    service: Service, miles: int, extra_days: int, request: Request, book: RateBook, *, not_before: date | None = None
) -> RoadDates:
    """Return when a service picks up, never before `not_before`, and when it has driven the miles."""
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
        not_before=not_before,
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


def is_low(vehicle: Vehicle) -> bool:
    """Return whether the vehicle is known to sit too low for an open trailer's ramps."""
    return vehicle.clearance_mm is not None and vehicle.clearance_mm < LOW_CLEARANCE_MM
