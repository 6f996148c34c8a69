"""How the vehicles of one way are loaded, and what of it nobody has priced."""

from collections.abc import Iterator

from shipcalc.pricing.loading import way_for
from shipcalc.quote.explain.loading import on_ship, on_the_other_side, on_truck
from shipcalc.quote.model import Loaded
from shipcalc.quote.network.one_way import OneWay
from shipcalc.ratebook.rows.loading import LoadingWay


def loaded(one: OneWay) -> tuple[Loaded, ...]:
    """Return how each vehicle goes onto the ship, or onto the truck where it goes all the way by road."""
    rows = _rows(one)
    return on_ship(one.request.vehicles, rows) if rows else on_truck(one.request.vehicles)


def unpriced_handling(one: OneWay) -> Iterator[str]:
    """Yield what is not in the price of taking off, and on, what cannot be driven."""
    rows, there = _rows(one), one.arrival
    if not rows or there is None:
        return
    ends_at = "" if one.last_leg is not None else there.row.name
    yield from on_the_other_side(one.request.vehicles, rows, one.last_leg, ends_at)


def _rows(one: OneWay) -> tuple[LoadingWay, ...]:
    """Return the row that loads each vehicle; nothing where no ship is taken."""
    if one.ship is None:
        return ()
    rows = [way_for(vehicle, one.ship.service.row, one.book.loading_ways) for vehicle in one.request.vehicles]
    return tuple(row for row in rows if row is not None)
