"""All kinds of edge in the order of a way, and what is asked of each of them in turn."""

from collections.abc import Mapping
from datetime import date, timedelta
from functools import reduce

import numpy as np

from shipcalc.quote.edges import truck
from shipcalc.quote.edges.edge import Edge
from shipcalc.quote.model import Dates, LeftOut, Leg, Window
from shipcalc.quote.network.columns import IN_THE_YARD, Ways, every_way
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.price.parts import Parts
from shipcalc.quote.request import Request
from shipcalc.quote.time.dated import Dated, Days, Span, step, window_of
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass, replace
from shipcalc.schedule.road import RoadDates


def edges_of(request: Request, network: Network) -> tuple[Edge, ...]:
    """Return the kinds of edge that the ways of a request have, in the order of a way; no other is imported."""
    if request.kept_from is not None:
        from shipcalc.quote.edges import storage

        return storage, *_from_the_yard(request, network)
    return _from_the_yard(request, network)


def _from_the_yard(request: Request, network: Network) -> tuple[Edge, ...]:
    if network.in_the_yard:
        from shipcalc.quote.edges import collection

        return (collection,)
    if request.fetched is not None:
        from shipcalc.quote.edges import terminal

        return truck, terminal
    if network.at_home:
        return (truck,)
    from shipcalc.quote.edges import arrival_port, border, export_port, ocean, on_carriage, stages

    return truck, export_port, ocean, border, arrival_port, on_carriage, stages


def eligible_ways(
    request: Request, book: RateBook, network: Network
) -> tuple[Ways, tuple[LeftOut, ...], tuple[LeftOut, ...]]:
    """Return all ways that can be had, the trucks that reach nothing, and what else is refused."""
    found = every_way(network.sea, len(network.services), has_direct=network.has_direct)
    found = IN_THE_YARD if network.in_the_yard else found
    idle: tuple[LeftOut, ...] = ()
    refused: tuple[LeftOut, ...] = ()
    for edge in edges_of(request, network):
        out, told = edge.ineligible(request, book, network, found)
        found = found.only(~out) if out.any() else found
        idle, refused = (told, refused) if edge is truck else (idle, (*refused, *told))
        if not len(found):
            break
    return found, idle, refused


def price_parts(request: Request, book: RateBook, network: Network) -> Parts:
    """Return all parts of the ways, which are priced when they are asked for."""
    return tuple(part for edge in edges_of(request, network) for part in edge.lines(request, book, network))


_NONE = np.zeros(0, dtype=np.int64)
_NOT_YET = Days(*[Span(_NONE, _NONE)] * 7)


def days(request: Request, book: RateBook, network: Network, ways: Ways) -> Days:
    """Return when every way gets there."""
    edges = edges_of(request, network)
    return reduce(lambda when, edge: edge.days(request, book, network, ways, when), edges, _NOT_YET)


@dataclass(frozen=True, slots=True)
class Timeline:
    """The movements and dates of one way, the windows of every moment for the papers, and warnings."""

    legs: tuple[Leg, ...]
    dates: Dates
    moments: Mapping[str, Window]
    warnings: tuple[str, ...]


def timeline(one: OneWay, days: Days, *, agreed: date, aboard: str = "") -> Timeline:
    """Return what is told of one way step by step; `aboard` is how the vehicles go onto the ship, where that needs words."""
    dated, ready = _dated(one, days, aboard), (one.request.ready, one.request.ready)
    told = [edge.words(one, dated) for edge in edges_of(one.request, one.network)]
    begun = "Ready at the yard" if one.in_the_yard else "Ready to leave"
    steps = (step(begun, ready, "ready"), *(each for words in told for each in words.steps))
    warnings = tuple(warning for words in told for warning in words.warnings)
    moments = {"agreed": (agreed, agreed), **{each.stage: (each.earliest, each.latest) for each in steps}}
    for words in told:
        moments.update(words.moments)
    moments |= {"delivery": dated.delivery, "after delivery": dated.delivery}
    dates = Dates(pickup=dated.pickup, delivery=dated.delivery, timeline=steps, held_days=dated.held, warned=warnings)
    return Timeline(tuple(leg for words in told for leg in words.legs), dates, moments, warnings)


def _dated(one: OneWay, days: Days, aboard: str) -> Dated:
    """Return the days of one way. A vehicle is picked up no earlier than its free days in the terminal need."""
    spans = (days.terminal, days.cutoff, days.sailing, days.arrival, days.release, days.delivery)
    terminal, cutoff, sailing, arrival, release, delivery = (window_of(span, one.number) for span in spans)
    by_itself = _truck_dates(one)
    truck = _in_time_for_its_ship(by_itself, terminal)
    held = 0
    if one.export is not None:
        from shipcalc.quote.time.port_days import days_held

        held = days_held(one.export.row, terminal[0], cutoff[0])
    return Dated(
        truck=truck,
        pickup=_held_back(truck.pickup, held),
        terminal=_held_back(terminal, held),
        cutoff=cutoff,
        sailing=sailing,
        arrival=arrival,
        release=release,
        delivery=delivery,
        held=held,
        is_tight=truck.delivery[1] < by_itself.delivery[1],
        aboard=aboard,
    )


def _truck_dates(one: OneWay) -> RoadDates:
    """Return the dates of a way's truck by itself; where there is none, those on which the buyer comes."""
    if one.in_the_yard:
        from shipcalc.quote.edges.collection import fetched_dates

        return fetched_dates(one.request, one.network)
    return truck.truck_dates(one)


def _in_time_for_its_ship(truck: RoadDates, at_terminal: Window) -> RoadDates:
    """Return the truck's days; where one ship is meant, it is picked up no later than it must be for it."""
    assert truck.delivery[0] == at_terminal[0], "the truck's days are those that were compared"
    too_late = truck.delivery[1] - at_terminal[1]
    assert too_late >= timedelta(0), "nothing but a known ship changes a truck's days"
    pickup = (truck.pickup[0], max(truck.pickup[0], truck.pickup[1] - too_late))
    return replace(truck, pickup=pickup, delivery=at_terminal)


def _held_back(window: Window, days: int) -> Window:
    first = window[0] + timedelta(days=days)
    return first, max(window[1], first)
