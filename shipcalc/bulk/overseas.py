"""A block beyond the home roads: for every vehicle and place the cheapest of the ways that a quote would show."""

from collections.abc import Iterator

import numpy as np

from shipcalc.bulk.answers import NO_CARRIER, WAYS, Answers, no_answers
from shipcalc.bulk.plan import Block, Plan
from shipcalc.errors import NoAnswer
from shipcalc.places.place import Place
from shipcalc.quote.choose.choices import compared
from shipcalc.quote.choose.unbeaten import unbeaten
from shipcalc.quote.choose.ways import Found, find_ways
from shipcalc.quote.explain.barriers import entry_rules
from shipcalc.quote.explain.lead_times import with_lead
from shipcalc.quote.model import Wishes
from shipcalc.quote.network.holds import check_holds
from shipcalc.quote.network.network import mode_of
from shipcalc.quote.network.trucks import trailer_of
from shipcalc.quote.request import Request
from shipcalc.records import dataclass
from shipcalc.trade import Trailer


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """The cheapest way there: amounts in minor units, days counted from the day the vehicle is ready."""

    price: int
    locally: int
    miles: int
    nautical_miles: int
    days: tuple[int, int]
    carrier: str
    mode: str
    note: str
    lacks_duty: bool


def answers_overseas(plan: Plan, block: Block) -> Answers:
    """Return the cheapest way for every vehicle × place × trailer of a block, or in a sentence why there is none."""
    shape = (len(block.vehicles), len(block.places), len(plan.trailers))
    found: list[tuple[tuple[int, int, int], Way | str]] = [
        ((row, column, nth), way)
        for row, vehicle in enumerate(block.vehicles)
        for column, place in enumerate(block.places)
        for nth, way in enumerate(_cheapest(plan, vehicle, plan.destinations.places[place]))
    ]
    ways = [way for _, way in found if isinstance(way, Way)]
    carriers = tuple(dict.fromkeys(way.carrier for way in ways))
    reasons = ("", *dict.fromkeys(why for _, why in found if isinstance(why, str)))
    notes = tuple(dict.fromkeys(way.note for way in ways if way.note))
    answers = no_answers(shape, carriers, reasons, notes)
    carrier_number = {name: number for number, name in enumerate(carriers)}
    reason_number = {why: number for number, why in enumerate(reasons)}
    for at, way in found:
        if isinstance(way, str):
            answers.why[at] = reason_number[way]
            continue
        answers.price[at], answers.locally[at] = way.price, way.locally
        answers.miles[at], answers.nautical_miles[at] = way.miles, way.nautical_miles
        answers.days_from[at], answers.days_to[at] = way.days
        answers.carrier[at], answers.way[at] = carrier_number[way.carrier], WAYS.index(way.mode)
        if way.lacks_duty:
            answers.lacks[at] = 0
        if way.note:
            answers.note[at] = notes.index(way.note)
    return answers


def _cheapest(plan: Plan, vehicle: int, to: Place) -> Iterator[Way | str]:
    """Yield for each kind of trailer the first way that a quote with it would show, or why it would show none."""
    found = _found(plan, vehicle, to, Wishes(trailer=plan.trailers[0] if len(plan.trailers) == 1 else None))
    for trailer in plan.trailers:
        way = _first(plan, found, trailer)
        if way is None and len(plan.trailers) > 1 and not isinstance(found, str):
            # Where a truck of another kind goes to the door, ports are left out: asked alone, this kind may go by sea.
            alone = _found(plan, vehicle, to, Wishes(trailer=trailer))
            way = _first(plan, alone, trailer)
            yield alone if isinstance(alone, str) else NO_CARRIER if way is None else _way(plan, alone, way)
        elif isinstance(found, str):
            yield found
        else:
            yield NO_CARRIER if way is None else _way(plan, found, way)


def _found(plan: Plan, vehicle: int, to: Place, wishes: Wishes) -> Found | str:
    request = Request(
        vehicles=(plan.vehicles[vehicle],), starts=(plan.starts[vehicle],), to=to, ready=plan.ready, wishes=wishes
    )
    try:
        check_holds(request, plan.book, plan.as_of)
        entry_rules(request, plan.book, plan.as_of)
        return find_ways(with_lead(request, plan.book, plan.as_of).request, plan.book, plan.as_of)
    except NoAnswer as no:
        return no.what


def _first(plan: Plan, found: Found | str, trailer: Trailer) -> int | None:
    """Return the first way with a kind of trailer in the order in which a quote shows them."""
    if isinstance(found, str):
        return None
    kinds = np.array([trailer_of(service) for service in found.network.services])[found.ways.truck]
    own = np.flatnonzero(kinds == trailer)
    if not len(own):
        return None
    order = compared(found.network, found.ways, found.sums, found.days, plan.book)
    front = unbeaten(order.price[own], order.days[own], order.protection[own], np.zeros_like(own))
    return int(own[front[0]])


def _way(plan: Plan, found: Found, way: int) -> Way:
    ways, network = found.ways, found.network
    export, crossing = int(ways.export[way]), int(ways.crossing[way])
    ready = plan.ready.toordinal()
    carrier, nautical_miles = network.services[int(ways.truck[way])].row.carrier, 0
    if export >= 0:
        ship = network.crossings[crossing]
        carrier = f"{carrier}, {ship.service.row.carrier}"
        nautical_miles = int(ship.nmi[int(ways.lane[way])])
    return Way(
        price=int(found.sums.total[way]),
        locally=int(found.sums.locally[way]),
        miles=network.lanes[network.lane_of(export)[0]].road.miles,
        nautical_miles=nautical_miles,
        days=(int(found.days.delivery.earliest[way]) - ready, int(found.days.delivery.latest[way]) - ready),
        carrier=carrier,
        mode=mode_of(network, ways, way),
        note=network.arrivals.note if export >= 0 else "",
        lacks_duty=found.sums.lacks_duty,
    )
