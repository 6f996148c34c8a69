"""Every carrier's own prices by two books, as columns: also those that no quote would show, because another is cheaper."""

from collections.abc import Sequence
from datetime import date

import numpy as np

from shipcalc.compare.basket import VEHICLES, places_at_home
from shipcalc.money import Int64
from shipcalc.places.place import Place
from shipcalc.places.road.lanes import lane_table
from shipcalc.places.road.miles import road_distance
from shipcalc.pricing.columns import Bool
from shipcalc.pricing.markups import selling_markup
from shipcalc.pricing.truck import truck_prices
from shipcalc.quote.model import Wishes
from shipcalc.quote.network.distances import Lane, factor_rules
from shipcalc.quote.network.trucks import truck_trip
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.of_day import book_of_day
from shipcalc.records import dataclass

Service = tuple[str, str]


@dataclass(frozen=True, slots=True)
class CarrierChange:
    """One service over all vehicles and places of the spread: how many prices it has in both books, how many get dearer and
    cheaper, the least and the greatest change in minor units; `gained` and `lost` count what only one book prices.
    """

    carrier: str
    trailer: str
    prices: int
    dearer: int
    cheaper: int
    least_minor: int
    most_minor: int
    gained: int
    lost: int

    @property
    def is_any(self) -> bool:
        """Return whether anything changed at all."""
        return bool(self.dearer or self.cheaper or self.gained or self.lost)


def carrier_changes(old: RateBook, new: RateBook, starts: Sequence[Place], as_of: date) -> tuple[CarrierChange, ...]:
    """Return for each service of either book what becomes of its prices, in the order of the new book's sheet."""
    before, after = service_prices(old, starts, as_of), service_prices(new, starts, as_of)
    return tuple(_change(service, before.get(service), after.get(service)) for service in {**after, **before})


def service_prices(book: RateBook, starts: Sequence[Place], as_of: date) -> dict[Service, tuple[Int64, Bool]]:
    """Return each service's selling prices for every vehicle, and where it takes it; shape (vehicles, lanes)."""
    book = book_of_day(book, as_of)
    rules = factor_rules(book)
    lanes = [
        Lane(start, to, road_distance(start, to, rules, lanes=lane_table()))
        for start in starts
        for to in places_at_home()
    ]
    found: dict[Service, list[tuple[Int64, Bool]]] = {}
    for vehicle in VEHICLES:
        # One vehicle a request: charges for several in one transport would fall on all of them.
        request = Request(vehicles=(vehicle,), starts=(starts[0],), to=lanes[0].to, ready=as_of, wishes=Wishes())
        services, trip = truck_trip(request, book, lanes, as_of)
        for price in truck_prices(services, trip, selling_markup(book, "US")):
            if price.service.offer is not None:
                continue
            row = price.service.row
            found.setdefault((row.carrier, row.trailer), []).append((price.total[0], price.eligible[0]))
    return {
        service: (np.stack([total for total, _ in rows]), np.stack([takes for _, takes in rows]))
        for service, rows in found.items()
    }


def _change(service: Service, before: tuple[Int64, Bool] | None, after: tuple[Int64, Bool] | None) -> CarrierChange:
    if before is None or after is None:
        only = before or after
        assert only is not None, "a service stands in one of the books"
        count = int(only[1].sum())
        return CarrierChange(*service, 0, 0, 0, 0, 0, gained=count * (before is None), lost=count * (after is None))
    both = before[1] & after[1]
    change = (after[0] - before[0])[both]
    moved = change[change != 0]
    return CarrierChange(
        *service,
        prices=int(both.sum()),
        dearer=int((change > 0).sum()),
        cheaper=int((change < 0).sum()),
        least_minor=int(moved.min()) if moved.size else 0,
        most_minor=int(moved.max()) if moved.size else 0,
        gained=int((after[1] & ~before[1]).sum()),
        lost=int((before[1] & ~after[1]).sum()),
    )
