"""A block beyond the home roads: for every vehicle and place the cheapest of the ways that a quote would show."""

from collections.abc import Iterator, Sequence
from functools import partial

import numpy as np

from shipcalc.bulk.answers import NO_CARRIER, NONE, WAYS, Answers, no_answers
from shipcalc.bulk.best import NO_WAY, Best, better_of, nothing_found
from shipcalc.bulk.by_road import best_by_road
from shipcalc.bulk.by_ship import best_by_ship
from shipcalc.bulk.landfalls import Landfall, landfalls
from shipcalc.bulk.plan import Block, Plan, Same, dated
from shipcalc.bulk.shipments import Shipments, lacks_duty
from shipcalc.errors import NoAnswer, named
from shipcalc.money import Int64
from shipcalc.places.place import Place
from shipcalc.pricing.columns import Bool
from shipcalc.quote.choose.ways import find_ways, why_nothing_sails
from shipcalc.quote.explain.barriers import entry_rules, rules_of
from shipcalc.quote.explain.lead_times import with_lead
from shipcalc.quote.model import Wishes
from shipcalc.quote.request import Request
from shipcalc.records import dataclass, fields, replace


class _Words:
    """Texts by number, in the order in which they came up."""

    def __init__(self, *texts: str) -> None:
        self.numbers = {text: number for number, text in enumerate(texts)}

    def number(self, text: str) -> int:
        """Return a text's number."""
        return self.numbers.setdefault(text, len(self.numbers))


@dataclass(frozen=True, slots=True, eq=False)
class _Page:
    """The answers of a block while they are filled in, and the texts that they name."""

    answers: Answers
    carriers: _Words
    reasons: _Words
    notes: _Words


def answers_overseas(plan: Plan, block: Block) -> Answers:
    """Return the cheapest way for every vehicle × place × trailer of a block, or in a sentence why there is none."""
    shape = (len(block.vehicles), len(block.places), len(plan.trailers))
    page = _Page(no_answers(shape, ()), _Words(), _Words(""), _Words())
    starts = [plan.starts[number] for number in block.vehicles]
    for start in dict.fromkeys(starts):
        rows = np.array([row for row, own in enumerate(starts) if own == start], dtype=np.int64)
        numbers = [block.vehicles[row] for row in rows.tolist()]
        shipments = Shipments(plan, block.places, start, tuple(plan.vehicles[number] for number in numbers))
        for column, landfall in enumerate(landfalls(plan, block.places)):
            for own, of_day, there in _of_each_day(shipments, column, landfall):
                _fill(page, rows[own], column, of_day, there)
    carriers, reasons, notes = (tuple(own.numbers) for own in (page.carriers, page.reasons, page.notes))
    return replace(page.answers, carriers=carriers, reasons=reasons, notes=notes)


def _of_each_day(shipments: Shipments, column: int, landfall: Landfall) -> Iterator[tuple[Int64, Shipments, Landfall]]:
    """Yield the vehicles, by position, that the rows of the same days of pickup price, with these rows' landfall."""
    plan, every = shipments.plan, np.arange(len(shipments.vehicles))
    plans: dict[int, tuple[Plan, list[Int64]]] = {}
    for leaving in shipments.leaving(landfall.place) if not landfall.held else ():
        then = dated(Same(plan), leaving.request.ready)
        plans.setdefault(id(then), (then, []))[1].append(leaving.rows)
    if all(then is plan for then, _ in plans.values()):
        yield every, shipments, landfall
        return
    for then, rows in plans.values():
        own = np.sort(np.concatenate(rows))
        yield own, shipments.of_plan(then, own), landfalls(then, shipments.places)[column]


def _fill(page: _Page, rows: Int64, column: int, shipments: Shipments, landfall: Landfall) -> None:
    """Write the answers of the vehicles of one start for one place."""
    answers = page.answers
    if landfall.held:
        answers.why[rows, column] = page.reasons.number(landfall.held)
        return
    best = _best(shipments, landfall)
    barred = _barred(shipments, landfall.place)
    found = best.rank < NO_WAY
    found[list(barred)] = False
    for number, why in barred.items():
        answers.why[rows[number], column] = page.reasons.number(why)
    missed = [(number, nth) for number, nth in np.argwhere(~found).tolist() if number not in barred]
    for (number, nth), why in zip(missed, _why_nothing(shipments, landfall, missed), strict=True):
        answers.why[rows[number], column, nth] = page.reasons.number(why)
    row, trailer = np.nonzero(found)
    _write(page, (rows[row], column, trailer), (row, trailer), best, shipments, landfall)


def _write(
    page: _Page,
    cells: tuple[Int64, int, Int64],
    at: tuple[Int64, Int64],
    best: Best,
    shipments: Shipments,
    landfall: Landfall,
) -> None:
    answers, network, plan = page.answers, shipments.fleet.network, shipments.plan
    sea, lane, truck = network.sea, best.sea_lane[at], best.truck[at]
    answers.price[cells], answers.locally[cells] = best.total[at], best.locally[at]
    answers.days_from[cells], answers.days_to[cells] = best.days_from[at], best.days_to[at]
    by_ship = lane >= 0
    crossing = np.append(sea.crossing, -1)[lane]
    to_port = np.append(network.trip.lanes.miles, 0)[np.append(sea.export, -1)[lane]]
    road = shipments.road(landfall) if not by_ship.all() else None
    answers.miles[cells] = np.where(by_ship, to_port, road.road.miles if road else 0)
    answers.nautical_miles[cells] = shipments.fleet.nmi[lane]
    modes = [*(WAYS.index(load.mode) for load in sea.loads), WAYS.index("truck")]
    answers.way[cells] = np.array(modes)[np.append(sea.load, -1)[lane]]
    pairs, pair_of = np.unique(truck * (len(network.crossings) + 1) + crossing + 1, return_inverse=True)
    names = [page.carriers.number(_carrier(shipments, pair)) for pair in pairs.tolist()]
    answers.carrier[cells] = np.array(names, dtype=np.int64)[pair_of.reshape(-1)]
    lacks = lacks_duty(landfall.place.country, plan, shipments.has_value)[at[0]]
    answers.lacks[cells] = np.where(lacks, 0, NONE)
    if landfall.arrivals.note and by_ship.any():
        answers.note[cells] = np.where(by_ship, page.notes.number(landfall.arrivals.note), NONE)


def _carrier(shipments: Shipments, pair: int) -> str:
    """Return who carries: a truck, and a crossing counted from 1; 0 where there is none."""
    network = shipments.fleet.network
    truck, crossing = divmod(pair, len(network.crossings) + 1)
    carrier = network.services[truck].row.carrier
    return f"{carrier}, {network.crossings[crossing - 1].service.row.carrier}" if crossing else carrier


def _best(shipments: Shipments, landfall: Landfall) -> Best:
    """Return the best ways of all vehicles (n, trailers)."""
    shape = (len(shipments.vehicles), len(shipments.plan.trailers))
    best = nothing_found(shape)
    lane = shipments.road(landfall)
    for leaving in shipments.leaving(landfall.place):
        by_road, drives = (
            nothing_found((len(leaving.rows), shape[1])),
            np.zeros((len(leaving.rows), shape[1]), dtype=np.bool_),
        )
        if lane is not None:
            by_road, drives = best_by_road(shipments, leaving, landfall, lane)
        by_ship = best_by_ship(shipments, leaving, landfall, drives, lane.road.miles if lane else 0)
        own = better_of(by_ship, by_road)
        for one in fields(Best):
            getattr(best, one.name)[leaving.rows] = getattr(own, one.name)
    return best


def _barred(shipments: Shipments, to: Place) -> dict[int, str]:
    """Return the vehicles, by position, that a country does not let in, and why."""
    plan, barred = shipments.plan, {}
    if any(rule.answer == "bars" for rule in rules_of(plan.book, to.country, plan.as_of)):
        for row in range(len(shipments.vehicles)):
            try:
                entry_rules(shipments.request(to, (row,)), plan.book, plan.as_of)
            except NoAnswer as no:
                barred[row] = named(no.what)
    return barred


def _why_nothing(shipments: Shipments, landfall: Landfall, missed: Sequence[tuple[int, int]]) -> Iterator[str]:
    """Yield why a quote would show no way, for each vehicle and kind of trailer, by position.

    It is asked once for all places where it cannot say anything else.
    """
    plan, arrivals, once = shipments.plan, landfall.arrivals, shipments.once
    if not missed:
        return
    network = replace(shipments.fleet.network, arrivals=arrivals)
    ports = tuple(shipments.fleet.number_of[id(port.row)] for port in arrivals.ports)
    sails: Bool = np.any(shipments.carried[:, np.isin(network.sea.arrival, ports)], axis=1)
    no_ship_at_all = bool(arrivals.none) or not network.exports
    by_sea_alone = shipments.is_by_sea_alone(landfall)
    for row, nth in missed:
        request = replace(shipments.request(landfall.place, (row,)), wishes=Wishes(trailer=plan.trailers[nth]))
        no_ship = partial(why_nothing_sails, request, plan.book, network, plan.as_of)
        if by_sea_alone:
            yield _refusal(request, plan)
        elif no_ship_at_all:
            # Whatever is to be shipped.
            yield once(("why", landfall.place), no_ship)
        elif not sails[row]:
            # It names the ports, and what the ships there say.
            yield once(("why", row, ports), no_ship)
        else:
            # A ship would take it: no truck does.
            yield once(("why", row, nth), partial(_refusal, request, plan))


def _refusal(request: Request, plan: Plan) -> str:
    """Return what a quote says instead of a way."""
    try:
        find_ways(with_lead(request, plan.book, plan.as_of).request, plan.book, plan.as_of)
    except NoAnswer as no:
        return named(no.what)
    return NO_CARRIER
