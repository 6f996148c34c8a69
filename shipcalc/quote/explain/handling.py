"""How the vehicles of one way are loaded, and what of it nobody has priced."""

from collections.abc import Iterator

from shipcalc.pricing.loading import way_for
from shipcalc.quote.choose.ways import Found
from shipcalc.quote.explain.loading import on_ship, on_the_other_side, on_truck
from shipcalc.quote.model import Loaded
from shipcalc.quote.network.trucks import trailer_of
from shipcalc.quote.request import Request
from shipcalc.quote.time.days import on_carriage_by
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.loading import LoadingWay


def loaded(way: int, request: Request, book: RateBook, found: Found) -> tuple[Loaded, ...]:
    """Return how each vehicle goes onto the ship, or onto the truck where it goes all the way by road."""
    rows = _rows(way, request, book, found)
    return on_ship(request.vehicles, rows) if rows else on_truck(request.vehicles)


def unpriced_handling(way: int, request: Request, book: RateBook, found: Found) -> Iterator[str]:
    """Yield what is not in the price of taking off, and on, what cannot be driven."""
    rows = _rows(way, request, book, found)
    if not rows:
        return
    there = found.network.arrivals.ports[int(found.ways.arrival[way])]
    trailer = trailer_of(found.network.services[int(found.ways.truck[way])])
    last_leg = on_carriage_by(found.network.arrivals.on_carriage, trailer) if there.road is not None else None
    ends_at = "" if last_leg is not None else there.row.name
    yield from on_the_other_side(request.vehicles, rows, last_leg, ends_at)


def _rows(way: int, request: Request, book: RateBook, found: Found) -> tuple[LoadingWay, ...]:
    """Return the row that loads each vehicle; nothing where no ship is taken."""
    crossing = int(found.ways.crossing[way])
    if crossing < 0:
        return ()
    row = found.network.crossings[crossing].service.row
    rows = [way_for(vehicle, row, book.loading_ways) for vehicle in request.vehicles]
    return tuple(row for row in rows if row is not None)
