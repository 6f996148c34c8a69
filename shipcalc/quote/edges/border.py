"""A border that a truck crosses on its way to the door, and the customs there."""

import numpy as np

from shipcalc.quote.edges.edge import NO_WORDS, Refused, Words, no_lines, takes_all
from shipcalc.quote.model import LeftOut
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.price.terms import needs_a_ship, wanted_term
from shipcalc.quote.request import Request
from shipcalc.quote.time.border_hours import crossing_on_the_way, hours_told
from shipcalc.quote.time.dated import Dated, Days, Span, step
from shipcalc.ratebook.book import RateBook
from shipcalc.records import replace
from shipcalc.schedule.voyage import plus_working_days_columns
from shipcalc.schedule.working_days import Calendar

# Clearing a border by road (common practice, no source).
WORKING_DAYS = 1


def ineligible(request: Request, book: RateBook, network: Network, ways: Ways) -> Refused:
    """Return which ways go by road alone where the delivery term is one of the sea."""
    term = wanted_term(request.wishes.term, book)
    if term is None or not term.sea_only:
        return takes_all(request, book, network, ways)
    alone = (LeftOut(carrier="Trucks", reason=needs_a_ship(term)),) if ways.by_road.all() else ()
    return ways.by_road, alone


# What customs and brokers take are charges by stage.
lines = no_lines


def days(request: Request, book: RateBook, network: Network, ways: Ways, when: Days) -> Days:
    """Return the days with those on which what goes by road alone is through customs."""
    abroad = Calendar(weekdays=frozenset(range(5)), country=request.to.country)
    own = np.flatnonzero(ways.by_road & when.possible)
    first, last = when.arrival.earliest.copy(), when.arrival.latest.copy()
    for column in (first, last):
        column[own] = plus_working_days_columns(column[own], WORKING_DAYS, abroad)
    released = Span(first, last)
    return replace(when, release=released, delivery=released)


def words(one: OneWay, dated: Dated) -> Words:
    """Return the border that is crossed, and the delivery behind it; nothing where a ship is taken."""
    if one.ship is not None:
        return NO_WORDS
    gate = crossing_on_the_way(one.book.border_ports, one.request.starts[0], one.request.to)
    told = hours_told(gate) if gate else ""
    across = step("Across the border", dated.arrival, "arrival", told, office_note=dated.truck.note)
    return Words(steps=(across, step("Delivered", dated.delivery, "delivery")), moments={"release": dated.release})
