"""A request for a place beyond the home roads becomes the ways to get there, priced, dated and picked from."""

from collections import Counter
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import date

import numpy as np

from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.places.lanes import lane_table
from shipcalc.places.place import Place
from shipcalc.places.reach import road_reach
from shipcalc.places.road import FactorRule, road_distance
from shipcalc.pricing.loads import Load, loads_of, unfit
from shipcalc.pricing.ocean import sea_services
from shipcalc.quote.candidates import MOST_REASONS, obstacles_on, trailer_of, truck_trip
from shipcalc.quote.distances import Lane, factor_rules
from shipcalc.quote.model import LeftOut
from shipcalc.quote.overseas.choices import Shown, choices, recommended
from shipcalc.quote.overseas.columns import Ways, crossings, ways
from shipcalc.quote.overseas.days import Days, days
from shipcalc.quote.overseas.ports import Arrivals, ExportPort, arrival_ports, export_ports
from shipcalc.quote.overseas.prices import Network, Parts, price_parts
from shipcalc.quote.overseas.sums import Sums, sums_under
from shipcalc.quote.request import Request
from shipcalc.quote.terms import CODES, Term, advice, find_term
from shipcalc.ratebook.book import RateBook

# Where the price ends at the arrival port, the rule that carries and covers as far as that.
TO_PORT_TERM = "CIP"
FULLEST_COVER = "A"


@dataclass(frozen=True, slots=True, eq=False)
class Found:
    """Everything that the options of an overseas quote are made from."""

    network: Network
    lanes: tuple[Lane, ...]
    parts: Parts
    ways: Ways
    sums: Sums
    days: Days
    shown: tuple[Shown, ...]
    recommended: int
    reason: str
    left_out: tuple[LeftOut, ...]
    notes: tuple[str, ...]
    conditions: str


def find_ways(request: Request, book: RateBook, as_of: date) -> Found:
    """Return the ways to show. Raises NoAnswer where none gets there, WrongInput for a term that there is not."""
    starts = tuple(dict.fromkeys(request.starts))
    arrivals = arrival_ports(book, request.to)
    exports = tuple(export_ports(book, starts))
    lanes, has_direct = _truck_lanes(request, book, starts, exports)
    network, left_out = _network(request, book, exports, arrivals, lanes, as_of, has_direct=has_direct)
    parts = price_parts(request, book, network)
    takes, direct, refused = _trucks(network, parts)
    # Where a truck goes to the door, nobody wants to be left at a port.
    by_road_alone = bool(direct.any()) and not arrivals.on_carriage
    term, notes = _term(request, book, to_door=bool(arrivals.on_carriage) or by_road_alone)
    found = ways(() if by_road_alone else network.crossings, takes, direct)
    found, refusal = _suited(found, network, term)
    left_out = (*left_out, *refused, *refusal)
    if len(found):
        when = days(request, book, network, found)
        found, when = _possible(found, when, request, book, network)
    if not len(found):
        raise NoAnswer(_nothing(left_out, refused, refusal, network), where=request.to.name)
    conditions = _conditions(request, book, term)
    sums = sums_under(term, request, book, network, parts, found, conditions=conditions, as_of=as_of)
    shown = choices(network, found, sums, when)
    index, reason = recommended(shown, network, found, request.vehicles, book)
    said = tuple(note for note in ("" if by_road_alone else arrivals.note, *notes, *sums.imports.notes) if note)
    return Found(network, lanes, parts, found, sums, when, shown, index, reason, left_out, said, conditions)


def _term(request: Request, book: RateBook, *, to_door: bool) -> tuple[Term, tuple[str, ...]]:
    """Return the delivery term as it can be had, and what must be said about it."""
    wanted = request.wishes.term
    code = wanted or book.pricing.overseas_term
    term = find_term(code)
    if term is None:
        raise WrongInput(
            f"{code} is no delivery term", where="--term", remedy=f"one of {', '.join(CODES)} (Incoterms 2020)"
        )
    notes = []
    if not to_door and term.place == "door":
        term = find_term(code, "arrival port") or find_term(TO_PORT_TERM, "arrival port")
        assert term is not None
        if wanted and term.code != wanted:
            notes.append(
                f"{wanted} would need the way on to {request.to.name}; {term.code} to the port is quoted instead."
            )
    said = advice(term, by_container=False, overseas=True)
    return term, (*notes, said) if said else tuple(notes)


def _conditions(request: Request, book: RateBook, term: Term) -> str:
    """Return the conditions of cover: as wished, or as the rate book sets, never less than the term asks for."""
    wanted = request.wishes.cover or book.pricing.cover_conditions
    return FULLEST_COVER if term.must_insure == FULLEST_COVER else wanted


def _network(
    request: Request,
    book: RateBook,
    exports: Sequence[ExportPort],
    arrivals: Arrivals,
    lanes: Sequence[Lane],
    as_of: date,
    *,
    has_direct: bool,
) -> tuple[Network, tuple[LeftOut, ...]]:
    starts = tuple(dict.fromkeys(request.starts))
    services, trip = truck_trip(request, book, lanes, as_of)
    loads = [load for load in loads_of(request.vehicles, book.containers) if _is_wished(load, request)]
    found, left_out = crossings(sea_services(book.ocean, as_of), loads, exports, arrivals, request.vehicles)
    unfitting = tuple(LeftOut(carrier=what, reason=why) for what, why in unfit(request.vehicles, book.containers))
    network = Network(
        exports=tuple(exports),
        arrivals=arrivals,
        crossings=found,
        services=services,
        trip=trip,
        starts=tuple(starts.index(start) for start in request.starts),
        has_direct=has_direct,
    )
    return network, (*left_out, *unfitting)


def _is_wished(load: Load, request: Request) -> bool:
    return request.wishes.ocean is None or (load.mode == "roro") == (request.wishes.ocean == "roro")


def _truck_lanes(
    request: Request, book: RateBook, starts: Sequence[Place], exports: Sequence[ExportPort]
) -> tuple[tuple[Lane, ...], bool]:
    """Return for each start its lanes to the export ports and, where roads lead from all, to the buyer; and whether they do."""
    rules = factor_rules(book.road_factors)
    to_buyer = [_lane(start, request.to, rules) for start in starts]
    lanes: list[Lane] = []
    for number, (start, direct) in enumerate(zip(starts, to_buyer, strict=True)):
        lanes += [Lane(start, port.place, port.roads[number]) for port in exports]
        if direct is not None and None not in to_buyer:
            lanes.append(direct)
    return tuple(lanes), None not in to_buyer


def _lane(start: Place, to: Place, rules: Sequence[FactorRule]) -> Lane | None:
    """Return the road from a start to the buyer; None where none leads there, or nobody has said how long it is."""
    reach = road_reach(start, to)
    with suppress(NoAnswer):
        return (
            Lane(start, to, road_distance(start, to, rules, lanes=lane_table()), reach.need) if reach.reached else None
        )
    return None


def _trucks(network: Network, parts: Parts) -> tuple[np.ndarray, np.ndarray, tuple[LeftOut, ...]]:
    """Return which truck services reach which export port, which reach the buyer, and which nothing at all."""
    each = np.arange(len(network.starts))
    takes = np.array(
        [
            [price.eligible[each, network.lane_of(p)].all() for p in range(len(network.exports))]
            for price in parts.trucks
        ]
    ).reshape(len(parts.trucks), len(network.exports))
    direct = np.array(
        [network.has_direct and bool(price.eligible[each, network.lane_of(-1)].all()) for price in parts.trucks]
    )
    idle = [n for n in range(len(parts.trucks)) if not takes[n].any() and not direct[n]]
    told = tuple(_idle(network, parts, number) for number in idle) if network.ends else ()
    return takes, direct, told


def _idle(network: Network, parts: Parts, number: int) -> LeftOut:
    service = network.services[number]
    first = obstacles_on(parts.trucks[number], network.lane_of(network.ends[0]))
    return LeftOut(carrier=service.row.carrier, trailer=trailer_of(service), reason=first[0].reason)


def _suited(found: Ways, network: Network, term: Term) -> tuple[Ways, tuple[LeftOut, ...]]:
    """Return the ways that the delivery term suits: rules for the sea are refused where a container is handed over earlier."""
    if not term.sea_only or not len(found):
        return found, ()
    by_sea = np.array([*(crossing.load.mode == "roro" for crossing in network.crossings), False])[found.crossing]
    if by_sea.all():
        return found, ()
    told = advice(term, by_container=True, overseas=True)
    return found.only(by_sea), (LeftOut(carrier="Containers", reason=told),)


def _possible(found: Ways, when: Days, request: Request, book: RateBook, network: Network) -> tuple[Ways, Days]:
    """Return the ways whose services still sail, with their days."""
    if when.possible.all():
        return found, when
    kept = found.only(when.possible)
    return kept, days(request, book, network, kept) if len(kept) else when


def _nothing(
    left_out: Sequence[LeftOut], trucks: Sequence[LeftOut], refusal: Sequence[LeftOut], network: Network
) -> str:
    """Return why there is no way at all, in one sentence: the delivery term, the ships, or else the trucks."""
    if refusal:
        return refusal[0].reason
    if network.arrivals.none or not network.exports:
        return network.arrivals.none or "no port of the rate book that ships is reached from the yard (overseas.xlsx)"
    ports = ", ".join(port.row.name for port in network.arrivals.ports)
    by_sea = [out for out in left_out if out not in trucks]
    if not network.crossings and not by_sea:
        return f"no sea service of the rate book runs to {ports}"
    what = f"nothing sails to {ports} with this request" if not network.crossings else "no truck can take it to a port"
    counts = Counter(out.reason for out in (by_sea if not network.crossings else trucks))
    told = "; ".join(reason for reason, _ in counts.most_common(MOST_REASONS))
    return f"{what}. What stands in the way: {told}" if told else what
