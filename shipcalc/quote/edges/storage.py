"""The yard, where a vehicle waits before it sets out because the buyer wishes it."""

from collections.abc import Iterator
from datetime import date
from functools import partial

from shipcalc.errors import NoAnswer, asked
from shipcalc.pricing.line import Line
from shipcalc.pricing.storage import storage_lines
from shipcalc.quote.edges.edge import no_words, same_days, takes_all
from shipcalc.quote.network.network import Network
from shipcalc.quote.price.parts import Charged, on_every_way
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.decisions import decision_table, holding
from shipcalc.ratebook.rows.yards import Storage
from shipcalc.trade import AT_HOME, KEPT
from shipcalc.vehicles.vehicle import Vehicle

# A request is dated from the day it is kept until, so that nothing more is later for it.
ineligible, days, words = takes_all, same_days, no_words


def lines(request: Request, book: RateBook, network: Network) -> Iterator[Charged]:
    """Yield what the yards ask. Raises NoAnswer where the rate book has no row for one of them."""
    until = request.wishes.keep_until
    assert request.kept_from, "asked only of what is kept"
    assert until, "asked only of what is kept"
    rows = [_row_of(vehicle, book.storage, until) for vehicle in request.vehicles]
    kept, stage = (until - request.kept_from).days, AT_HOME if network.at_home else KEPT
    yield on_every_way(network, partial(_lines, rows, kept, stage=stage, currency=book.pricing.currency))


def _lines(rows: list[Storage], days: int, *, stage: str, currency: str, markup_ppm: int) -> Iterator[Line]:
    yield from storage_lines(rows, days, stage=stage, currency=currency)  # sold at what it costs


def _row_of(vehicle: Vehicle, rows: tuple[Storage, ...], on: date) -> Storage:
    """Return what counts for a vehicle: the first row of its yard, else the first without one."""
    held = holding(decision_table(rows), {"yard": vehicle.yard or None, "day": on})
    found = min(held, key=lambda row: not row.yard, default=None)
    if found is None:
        raise NoAnswer(
            f"the rate book has no price for keeping a vehicle{f' at {vehicle.yard}' if vehicle.yard else ''}",
            where=asked("keep_until"),
            remedy="add a row to the sheet Storage (trucking.xlsx)",
        )
    return found
