"""Truck prices: all services of a day for vehicles × lanes, the one path that every price takes."""

from collections.abc import Sequence

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.areas import charged_ends, ferries_on
from shipcalc.pricing.columns import Asked, Bool, LaneColumns, VehicleColumns
from shipcalc.pricing.eligibility import Obstacle, obstacles
from shipcalc.pricing.extras import applying_extras
from shipcalc.pricing.line import Line, Markup
from shipcalc.pricing.lines import Trip, sum_of, truck_lines
from shipcalc.pricing.seasons import seasons_on
from shipcalc.pricing.tariff import Service, Tariffs
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True)
class TruckPrice:
    """One service priced: its lines, their sum (n, m) in minor units, where it is eligible (n, m), and what stands in the way."""

    service: Service
    lines: tuple[Line, ...]
    total: Int64
    eligible: Bool
    obstacles: tuple[Obstacle, ...]


def trip_of(tariffs: Tariffs, vehicles: VehicleColumns, lanes: LaneColumns, asked: Asked) -> Trip:
    """Return the trip that `truck_price` is asked for: vehicles, lanes and what the rate book charges on them."""
    book = tariffs.book
    return Trip(
        vehicles=vehicles,
        lanes=lanes,
        asked=asked,
        extras=applying_extras(book.extras, vehicles, lanes, asked),
        areas=charged_ends(book.areas, lanes),
        seasons=seasons_on(book.seasons, asked.pickup_day, lanes, book.areas),
        ferries=ferries_on(lanes),
        currency=book.pricing.currency,
    )


def truck_price(service: Service, trip: Trip, markup: Markup) -> TruckPrice:
    """Return one service's price for every vehicle over every lane of the trip."""
    shape = (len(trip.vehicles), len(trip.lanes))
    found = tuple(obstacles(service, trip.vehicles, trip.lanes, trip.asked, trip.currency))
    free = np.ones(shape, dtype=np.bool_)
    for obstacle in found:
        free &= ~obstacle.where
    if not free.any():
        return TruckPrice(service, (), np.zeros(shape, dtype=np.int64), free, found)
    lines = truck_lines(service, trip, markup)
    return TruckPrice(service, lines, sum_of(lines, shape), free, found)


def truck_prices(services: Sequence[Service], trip: Trip, markup: Markup) -> tuple[TruckPrice, ...]:
    """Return every service's price, in the order of the services."""
    return tuple(truck_price(service, trip, markup) for service in services)
