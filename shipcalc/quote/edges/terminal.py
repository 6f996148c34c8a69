"""The terminal near the buyer, where the truck sets the vehicle down and he fetches it."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.counted import lump_line
from shipcalc.pricing.lane_prices import rows_priced_by
from shipcalc.pricing.line import Line
from shipcalc.pricing.tariff import Service
from shipcalc.quote.edges.edge import Refused, Words, same_days
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.network.trucks import find_trailer
from shipcalc.quote.price.parts import Charged, Rated
from shipcalc.quote.request import Request
from shipcalc.quote.time.dated import Dated
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.decisions import holds
from shipcalc.ratebook.lane_ends import named_terminal, terminal_key
from shipcalc.ratebook.rows.lanes import says
from shipcalc.ratebook.rows.yards import Terminal
from shipcalc.trade import AT_HOME

# Its truck is there on the day that the road leads it there.
days = same_days


def ineligible(request: Request, book: RateBook, network: Network, ways: Ways) -> Refused:
    """Return which ways have a truck that does not deliver there, or a driver in place of one."""
    row = _row_of(request, book)
    there = [
        find_trailer(service) is not None and holds(row, {"carrier": service.row.carrier}, "service")
        for service in network.services
    ]
    return ~np.array(there, dtype=np.bool_)[ways.truck], ()


def lines(request: Request, book: RateBook, network: Network) -> Iterator[Charged]:
    """Yield what is off the price, since nobody stops at a door, and what the terminal takes; where the truck has a price to the
    terminal itself, nothing is off.
    """
    row = _row_of(request, book)
    part = Rated(partial(_lines, row, len(request.vehicles)), markup_ppm=0)  # sold at what it costs
    yield Charged(part, np.array([[int(_is_priced(service, network, row))] for service in network.services]))


def _lines(row: Terminal, vehicles: int, *, markup_ppm: int) -> Iterator[Line]:
    """Yield the lines of each vehicle beside an ordinary price, and (second column) beside one to the terminal."""
    for code, label, minor, field in (
        ("terminal.discount", "no stop at a door", (-row.discount_minor, 0), "discount_minor"),
        ("terminal.fee", "its fee", (row.fee_minor, row.fee_minor), "fee_minor"),
    ):
        each: Int64 = np.array([minor] * vehicles, dtype=np.int64)
        yield lump_line(code=code, label=f"{row.terminal}, {label}", stage=AT_HOME, minor=each, cell=row.at.cell(field))


def _is_priced(service: Service, network: Network, row: Terminal) -> bool:
    """Return whether a row of Lanes that names the terminal is the price of a service there."""
    rows = rows_priced_by(service.lanes, network.trip.lanes.met, network.lane_of(-1))
    name = named_terminal(row.terminal)
    return any(
        says(lane, "price") and name in map(terminal_key, (lane.from_end or "", lane.to_end or "")) for lane in rows
    )


def words(one: OneWay, dated: Dated) -> Words:
    """Return where and when it is fetched, and how far that is."""
    assert one.request.fetched is not None, "asked only of what is fetched"
    row, miles = _row_of(one.request, one.book), one.request.fetched.miles_left
    hours = f" ({row.hours})" if row.hours else ""
    free = f" It stands there free for {row.free_days} days; storage is asked after that." if row.free_days else ""
    told = f"Ends at the {row.terminal}: fetch it there yourself{hours}, {miles:,} road miles from you.{free}"
    return Words(warnings=(told,))


def _row_of(request: Request, book: RateBook) -> Terminal:
    assert request.fetched is not None, "asked only of what is fetched"
    name = request.fetched.terminal
    return next(row for row in book.terminals if row.terminal == name)
