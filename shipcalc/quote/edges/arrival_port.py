"""The port that a vehicle arrives at: what it takes, and when customs, or between ports of one country the port, let it go."""

from collections.abc import Iterable, Iterator
from datetime import timedelta
from functools import partial

import numpy as np

from shipcalc.money import with_code
from shipcalc.pricing.loads import Load, freight_of
from shipcalc.pricing.ports import arrival_port_lines
from shipcalc.quote.edges.edge import NO_WORDS, Refused, Words, takes_all
from shipcalc.quote.model import Window
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.network.territory import is_domestic
from shipcalc.quote.price.freight import asked_at_ports, beside_freight
from shipcalc.quote.price.marked_up import markup_on
from shipcalc.quote.price.parts import Charged, Rated, by_load
from shipcalc.quote.request import Request
from shipcalc.quote.time.dated import Dated, Days, Span, step
from shipcalc.quote.time.days_in_words import day_in_words
from shipcalc.quote.time.port_days import as_quoted, calendar_of, last_free_day, storage_due
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.ports import Port
from shipcalc.records import replace
from shipcalc.schedule.voyage import plus_working_days_columns


def ineligible(request: Request, book: RateBook, network: Network, ways: Ways) -> Refused:
    """Return all ways by ship where the price ends at the port and a truck goes to the door: nobody is left at a port then."""
    if network.arrivals.arrive or not ways.by_road.any():
        return takes_all(request, book, network, ways)
    return ~ways.by_road, ()


def lines(request: Request, book: RateBook, network: Network) -> Iterable[Charged]:
    """Return for each load what the ports take."""
    rows, freight, rules = [port.row for port in network.arrivals.ports], freight_of(request.vehicles), book.pricing

    def part(load: Load) -> Rated:
        asked = asked_at_ports(book, network.day, rows, load.mode)
        priced = partial(arrival_port_lines, load, freight, rows, asked, currency=rules.currency)
        return Rated(priced, markup_on(request, book).port_ppm)

    parts = by_load(network.sea, network.sea.arrival, part)
    return beside_freight(network, freight, parts)


def days(request: Request, book: RateBook, network: Network, ways: Ways, when: Days) -> Days:
    """Return the days with those on which what came by ship is released."""
    first, last = when.release.earliest.copy(), when.release.latest.copy()
    # Ports that clear alike are asked together: many of a list of places do.
    clearing = [(port.row.clearance_days, calendar_of(port.row)) for port in network.arrivals.ports]
    kinds = {kind: number for number, kind in enumerate(dict.fromkeys(clearing))}
    no_ship = -1
    kind_of_way = np.array([*(kinds[kind] for kind in clearing), no_ship])[ways.arrival]
    for (clearance_days, calendar), number in kinds.items():
        own = np.flatnonzero((kind_of_way == number) & when.possible)
        for column in (first, last):
            column[own] = plus_working_days_columns(column[own], clearance_days, calendar)
    released = Span(first, last)
    return replace(when, release=released, delivery=released)


def words(one: OneWay, dated: Dated) -> Words:
    """Return the day it is released, and the storage that is due where that takes longer than the free days."""
    if one.arrival is None:
        return NO_WORDS
    port = as_quoted(one, one.arrival.row)
    released = "Released at the port" if is_domestic(one.request.to.country) else "Cleared by customs"
    note = f"{port.clearance_days} working days, an estimate."
    stored = _storage(one, port, dated.arrival, dated.release)
    return Words(steps=(step(released, dated.release, "release", note),), warnings=tuple(stored))


def _storage(one: OneWay, port: Port, arrival: Window, release: Window) -> Iterator[str]:
    """Yield the storage that is due where the customs take longer than the port's free days."""
    days, ends = max(
        ((out - last_free_day(port, came)).days, last_free_day(port, came))
        for came, out in zip(arrival, release, strict=True)
    )
    if days <= 0:
        return
    storage = storage_due(one, port, days)
    costs = f"about {with_code(storage, one.currency)} of storage" if storage else "storage"
    yield (
        f"{port.name} asks no storage until {day_in_words(ends)}, and customs may take until "
        f"{day_in_words(ends + timedelta(days=days))}: {costs} may then be due there, which is not in the price."
    )
