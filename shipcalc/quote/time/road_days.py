"""When every way gets there, as columns of days: the truck, and what comes after it beyond the home roads."""

from collections.abc import Sequence

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.areas import extra_days
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.trucks import miles_a_day, pickup_days, service_dates
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass
from shipcalc.schedule.road import NEVER, RoadDates, Window, days_of_delivery, driving_days, pickup_window
from shipcalc.schedule.working_days import YARD, working_day_from


@dataclass(frozen=True, slots=True, eq=False)
class Span:
    """The earliest and the latest day of a step over all ways (w,)."""

    earliest: Int64
    latest: Int64


@dataclass(frozen=True, slots=True, eq=False)
class Days:
    """Every step over all ways, as ordinals; where there is no ship, terminal to arrival are the days of the truck."""

    terminal: Span
    cutoff: Span
    sailing: Span
    arrival: Span
    release: Span
    delivery: Span

    @property
    def possible(self) -> np.ndarray:
        """Return which ways get there at all: a list of sailings may have ended."""
        return self.sailing.latest < NEVER // 2


def truck_dates(truck: int, export: int, request: Request, book: RateBook, network: Network) -> RoadDates:
    """Return the dates of one truck service to an export port, or to the buyer for -1, which waits for the border's 72 hours."""
    lanes = network.lane_of(export)
    miles, extra = network.trip.lanes.miles[lanes].max(), extra_days(book.areas, network.trip.lanes)[lanes].max()
    not_before = network.leaves_from if export < 0 else None
    return service_dates(network.services[truck], int(miles), int(extra), request, book, not_before=not_before)


def _border_window(pickup: Window, network: Network) -> Window:
    """Return the days of pickup of a truck that drives over the border: none before the papers' 72 hours are over."""
    if network.leaves_from is None:
        return pickup
    first = working_day_from(network.leaves_from, YARD)
    return max(pickup[0], first), max(pickup[1], first)


def truck_days(request: Request, book: RateBook, network: Network) -> Span:
    """Return the days of `truck_dates` on which each truck service (down) is at each end (across, the buyer last)."""
    lanes = [network.lane_of(end) for end in network.ends]
    miles, extra = network.trip.lanes.miles[lanes].max(axis=1), extra_days(book.areas, network.trip.lanes)[lanes]
    paces = np.array([miles_a_day(service, book) for service in network.services], dtype=np.int64)
    driving = driving_days(miles, book.pricing.road_speed_mph, paces)
    windows = [pickup_window(request.ready, *pickup_days(service, request)) for service in network.services]
    first, last = (_by_end(windows, end, network) for end in (0, 1))
    spare = np.array([[service.row.spare_days] for service in network.services], dtype=np.int64)
    latest = last + driving + spare + extra.max(axis=1)
    return Span(days_of_delivery(first + driving), days_of_delivery(latest))


def _by_end(windows: Sequence[Window], which: int, network: Network) -> Int64:
    """Return the first (0) or the last (1) day of pickup of each truck service (down) for each end (across)."""
    each = [
        [(window if end >= 0 else _border_window(window, network))[which].toordinal() for end in network.ends]
        for window in windows
    ]
    return np.array(each, dtype=np.int64).reshape(len(windows), len(network.ends))
