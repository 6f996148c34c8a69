"""Every service of the day, priced and dated for the request: what the choices are picked from."""

from dataclasses import dataclass
from datetime import date

import numpy as np

from shipcalc.money import round_up
from shipcalc.pricing.areas import lane_columns, place_columns
from shipcalc.pricing.columns import Asked, vehicle_columns
from shipcalc.pricing.lines import NO_MARKUP, Line, Trip, selling_markup
from shipcalc.pricing.tariff import Service, compile_tariffs
from shipcalc.pricing.truck import TruckPrice, trip_of, truck_price, truck_prices
from shipcalc.quote.distances import Lane
from shipcalc.quote.model import LeftOut, Trailer
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.schedule.road import RoadDates, road_dates


@dataclass(frozen=True, slots=True)
class Candidate:
    """One service that can take all the vehicles, with its price for all of them together."""

    service: Service
    trip: Trip
    lines: tuple[Line, ...]
    total_minor: int
    dates: RoadDates

    def cost_lines(self) -> tuple[Line, ...]:
        """Return the same lines at the carrier's own rates."""
        return truck_price(self.service, self.trip, NO_MARKUP).lines


def candidates(
    request: Request, book: RateBook, lanes: tuple[Lane, ...], lane_of: tuple[int, ...], as_of: date
) -> tuple[tuple[Candidate, ...], tuple[LeftOut, ...]]:
    """Return the services that can take the whole request, and those that cannot with the reason."""
    tariffs = compile_tariffs(book, as_of)
    columns = lane_columns(
        place_columns([lane.start for lane in lanes]),
        place_columns([lane.to for lane in lanes]),
        np.array([lane.road.miles for lane in lanes], dtype=np.int64),
        book.areas,
    )
    wishes = request.wishes
    asked = Asked(
        pickup_day=request.ready,
        lift_gate=wishes.lift_gate,
        limited_access=wishes.limited_access,
        express=wishes.express,
        vehicle_count=len(request.vehicles),
    )
    trip = trip_of(tariffs, vehicle_columns(request.vehicles), columns, asked)
    wanted = [service for service in tariffs.services if wishes.trailer in (None, service.row.trailer)]
    found, left_out = [], []
    for price in truck_prices(wanted, trip, selling_markup(book.pricing)):
        reasons = _reasons(price, lane_of)
        row = price.service.row
        if reasons:
            left_out.append(LeftOut(carrier=row.carrier, trailer=trailer_of(price.service), reason="; ".join(reasons)))
        else:
            found.append(_candidate(price, trip, lanes, lane_of, request, book))
    return tuple(found), tuple(left_out)


def trailer_of(service: Service) -> Trailer:
    """Return the kind of trailer of a service."""
    return "enclosed" if service.row.trailer == "enclosed" else "open"


def _reasons(price: TruckPrice, lane_of: tuple[int, ...]) -> tuple[str, ...]:
    """Return what stands in the way of any vehicle on its own lane."""
    shape = price.eligible.shape
    vehicles = np.arange(shape[0])
    return tuple(
        reason for where, reason in price.obstacles if np.broadcast_to(where, shape)[vehicles, list(lane_of)].any()
    )


def _candidate(
    price: TruckPrice, trip: Trip, lanes: tuple[Lane, ...], lane_of: tuple[int, ...], request: Request, book: RateBook
) -> Candidate:
    total = int(price.total[np.arange(len(lane_of)), list(lane_of)].sum())
    step = book.pricing.rounding_step_minor
    farthest = max(lane.road.miles for lane in lanes)
    dates = _dates(price.service, farthest, _extra_days(trip, book), request, book)
    return Candidate(price.service, trip, price.lines, round_up(total, step) if step > 1 else total, dates)


def _dates(service: Service, miles: int, extra_days: int, request: Request, book: RateBook) -> RoadDates:
    row = service.row
    express = request.wishes.express and row.express_pickup_days is not None
    pickup_to = min(row.pickup_to_days, row.express_pickup_days or 0) if express else row.pickup_to_days
    return road_dates(
        ready=request.ready,
        pickup_from_days=min(row.pickup_from_days, pickup_to),
        pickup_to_days=pickup_to,
        miles=miles,
        speed_mph=book.pricing.road_speed_mph,
        spare_days=row.spare_days,
        extra_days=extra_days,
    )


def _extra_days(trip: Trip, book: RateBook) -> int:
    """Return the days that the areas at either end add, at the most."""
    held = trip.lanes.at_pickup | trip.lanes.at_delivery
    return max((area.extra_days for number, area in enumerate(book.areas) if held[:, number].any()), default=0)
