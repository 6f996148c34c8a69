"""The ship, with the vehicles as they can be loaded, from port to port."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from shipcalc.measures import METRES_PER_MILE, metres_to_nautical_miles
from shipcalc.money import Int64
from shipcalc.places.straight import great_circle_mi
from shipcalc.pricing.columns import Bool
from shipcalc.pricing.loading import loading_lines
from shipcalc.pricing.loads import freight_of
from shipcalc.pricing.ocean import ocean_lines
from shipcalc.pricing.passages import has_surcharge, passage_lines
from shipcalc.pricing.quoted import quoted_lines
from shipcalc.quote.edges.edge import NO_WORDS, Refused, Words, takes_all
from shipcalc.quote.model import LeftOut, Leg, Window
from shipcalc.quote.network.columns import Crossing, Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.network.port_ends import ArrivalPort, ExportPort
from shipcalc.quote.price.freight import estimated_lanes, quoted_lanes
from shipcalc.quote.price.marked_up import markup_on
from shipcalc.quote.price.parts import Charged, Priced, Rated
from shipcalc.quote.price.terms import advice, wanted_term
from shipcalc.quote.request import Request
from shipcalc.quote.time.dated import Dated, Days, Span, step
from shipcalc.quote.time.days_in_words import day_in_words
from shipcalc.quote.time.port_days import as_quoted, free_calendar_days
from shipcalc.ratebook.book import RateBook
from shipcalc.records import replace
from shipcalc.schedule.road import NEVER
from shipcalc.schedule.voyage import days_at_sea, late_days
from shipcalc.trade import CROSSING_BY_MODE, Called, Unit

# Where a truck goes to the door, a ship is offered only if it leaves no more of the road than this share (our own rule).
MOST_OF_THE_ROAD = 0.5
# The same where the delivery term is one of the sea, which a truck to the door does not suit.
_MOST_UNDER_A_SEA_TERM = 0.75


def ineligible(request: Request, book: RateBook, network: Network, ways: Ways) -> Refused:
    """Return which ways leave most of the road to be driven where a truck goes to the door, and which the delivery term refuses:
    rules for the sea, where a container is handed over earlier.
    """
    out, _ = takes_all(request, book, network, ways)
    if ways.by_road.any():
        out = ~_spares_the_road(network, ways, most_of_the_road(request, book))
    term = wanted_term(request.wishes.term, book)
    if term is None or not term.sea_only:
        return out, ()
    boxed = np.array(
        [*(CROSSING_BY_MODE[crossing.load.mode].ocean != "roro" for crossing in network.crossings), False]
    )[ways.crossing]
    if not boxed[~out].any():
        return out, ()
    told = advice(term, by_container=True, overseas=True)
    return np.asarray(out | boxed), (LeftOut(carrier="Containers", reason=told),)


def most_of_the_road(request: Request, book: RateBook) -> float:
    """Return the share of the road that a ship may leave to be driven where a truck goes to the door."""
    term = wanted_term(request.wishes.term, book)
    return _MOST_UNDER_A_SEA_TERM if term is not None and term.sea_only else MOST_OF_THE_ROAD


def _spares_the_road(network: Network, ways: Ways, share: float) -> Bool:
    """Return which ways a forwarder would take where a truck goes to the door: by road alone, or by a ship that leaves no more
    of the road than a share. No ship doubles back to a port that lies farther than the buyer.
    """
    ports = [port.road.miles if port.road else port.onward_mi for port in network.arrivals.ports]
    onward = np.array([*ports, 0], dtype=np.int64)[ways.arrival]
    miles = network.trip.lanes.miles
    to_port = np.array([max(miles[network.lane_of(end)]) for end in network.ends], dtype=np.int64)
    driven = to_port[ways.export] + onward
    return np.asarray(ways.by_road | (driven <= share * to_port[-1]))


def lines(request: Request, book: RateBook, network: Network) -> Iterator[Charged]:
    """Yield freight, loading and what lines ask for passages."""
    yield from _freight(request, book, network)
    yield from _loading(request, book, network)
    yield from _passages(request, book, network)


def _charged(network: Network, lanes: Int64, priced: Priced, markup_ppm: int, *, alike: bool = False) -> Charged:
    """Return a part with a column for each of some sea lanes; `alike`: one for all of them."""
    columns: Int64 = np.full((1, len(network.sea) + 1), -1, dtype=np.int64)
    columns[0, lanes] = 0 if alike else np.arange(len(lanes))
    return Charged(Rated(priced, markup_ppm), columns)


def _freight(request: Request, book: RateBook, network: Network) -> Iterator[Charged]:
    """Yield the freight: as it is quoted, where it is; else estimated from the distance."""
    freight, currency = freight_of(request.vehicles), book.pricing.currency
    markup_ppm = markup_on(request, book).ocean_ppm
    for quoted in quoted_lanes(network, freight):
        as_quoted = partial(quoted_lines, quoted.offers, quoted.load, freight, currency=currency)
        yield _charged(network, quoted.lanes, as_quoted, markup_ppm, alike=True)
    nmi = np.concatenate([np.zeros(0, dtype=np.int64), *(crossing.nmi for crossing in network.crossings)])
    for same in estimated_lanes(network, freight):
        numbers, of_lane = np.unique(network.sea.crossing[same.lanes], return_inverse=True)
        services = [network.crossings[number].service for number in numbers.tolist()]
        priced = partial(ocean_lines, services, of_lane.reshape(-1), same.load, freight, nmi[same.lanes], but=same.but)
        yield _charged(network, same.lanes, partial(priced, currency=currency), markup_ppm)


def _loading(request: Request, book: RateBook, network: Network) -> Iterator[Charged]:
    """Yield how the vehicles are loaded and unloaded, for the crossings of each mode."""
    modes = np.array([crossing.load.mode for crossing in network.crossings])
    services = [crossing.service.row for crossing in network.crossings]
    for mode in dict.fromkeys(modes.tolist()):
        lanes = np.flatnonzero(modes[network.sea.crossing] == mode)
        priced = partial(loading_lines, request.vehicles, services, network.sea.crossing[lanes], book.loading_ways)
        yield _charged(network, lanes, priced, markup_on(request, book).port_ppm)


def _passages(request: Request, book: RateBook, network: Network) -> Iterator[Charged]:
    """Yield what lines ask for a passage, over the sea lanes that take it."""
    taken = [names for crossing in network.crossings for names in crossing.passages]
    for row in book.passages:
        lanes = np.array(
            [number for number, names in enumerate(taken) if row.passage.casefold() in names], dtype=np.int64
        )
        if len(lanes) and has_surcharge(row):
            priced = partial(passage_lines, row, request.vehicles)
            yield _charged(network, lanes, priced, markup_on(request, book).ocean_ppm)


def days(request: Request, book: RateBook, network: Network, ways: Ways, when: Days) -> Days:
    """Return the days with those of arrival."""
    none: Int64 = np.zeros(1, dtype=np.int64)
    reckoned = [_reckoned(crossing) for crossing in network.crossings]
    late = [
        late_days(own, crossing.service.row.late_ppm) for own, crossing in zip(reckoned, network.crossings, strict=True)
    ]
    at_sea, more = (np.concatenate([*each, none])[ways.sea_lane] for each in (reckoned, late))
    first, last = (
        np.where(day == NEVER, NEVER // 2, day) + at_sea for day in (when.sailing.earliest, when.sailing.latest)
    )
    arrived = Span(first, last + more)
    return replace(when, arrival=arrived, release=arrived, delivery=arrived)


def _reckoned(crossing: Crossing) -> Int64:
    """Return the days at sea on each lane: as they are quoted, where they are."""
    row = crossing.service.row
    found = days_at_sea(crossing.nmi, knots=row.knots, port_days=row.port_days, canals=crossing.canals)
    for lane, offers in enumerate(crossing.offers):
        if offers is not None and offers.transit_days is not None:
            found[lane] = offers.transit_days
    return found


def words(one: OneWay, dated: Dated) -> Words:
    """Return the way by sea, and the days of sailing and of arrival."""
    if one.ship is None or one.export is None or one.arrival is None:
        return NO_WORDS
    (sailing, arrival), to = (dated.sailing, dated.arrival), as_quoted(one, one.arrival.row)
    called = one.called
    late = ((arrival[1] - arrival[0]) - (sailing[1] - sailing[0])).days
    told = f"{one.miles_aboard:,} {called.miles} at {one.ship.service.row.knots:g} {called.pace}, with calls on the way"
    if one.transit_days is not None:
        told = f"{one.transit_days} day{'' if one.transit_days == 1 else 's'} from port to port, as quoted"
    note = f"{told}; it may come up to {late} days later than planned." if late else f"{told}."
    return Words(
        legs=(_leg(one, one.ship, one.export, one.arrival, dated.aboard),),
        steps=(
            step(f"{called.leaves.capitalize()} from {one.export.row.name}", sailing, "sailing"),
            step(f"Arrives in {to.name}", arrival, "arrival", note, free_days=free_calendar_days(to, arrival[1])),
        ),
        warnings=tuple(_quoted_until(one, sailing, called)),
    )


def _quoted_until(one: OneWay, sailing: Window, called: Called) -> Iterator[str]:
    """Yield that the ship may sail after the last day for which its freight is quoted."""
    ends = [offer.freight.row.valid_to for _, offer in one.offers if offer.freight.row.valid_to is not None]
    if ends and min(ends) < sailing[1]:
        yield (
            f"The {called.freight} is quoted until {day_in_words(min(ends))}, and the {called.carrier} may leave on "
            f"{day_in_words(sailing[1])}: it may cost more by then."
        )


def _leg(one: OneWay, ship: Crossing, export: ExportPort, arrival: ArrivalPort, aboard: str) -> Leg:
    passages, called = ", ".join(_passages_read(one)), one.called
    straight_mi = great_circle_mi(export.place, arrival.place)
    return Leg(
        mode=one.mode,
        carrier=ship.service.row.carrier,
        carrier_named=not ship.service.row.private,
        from_=export.place,
        to=arrival.place,
        great_circle=round(_counted_in(called.unit, straight_mi), 2),
        distance=one.miles_aboard,
        unit=called.unit,
        method="network",
        method_note=f"{called.along} by {passages}" if passages else called.along,
        vehicles=tuple(vehicle.stock_number for vehicle in one.request.vehicles),
        loading=aboard or (called.aboard if CROSSING_BY_MODE[one.mode].is_driven_aboard else ""),
    )


def _counted_in(unit: Unit, miles: float) -> float:
    """Return statute miles in the unit of a mode."""
    return metres_to_nautical_miles(miles * METRES_PER_MILE) if unit == "nmi" else miles


def how_far(one: OneWay, export: ExportPort, arrival: ArrivalPort) -> str:
    """Return how far it is from port to port, and how that was found, as a sentence."""
    through = _passages_read(one)
    by = f" by {' and '.join(filter(None, (', '.join(through[:-1]), through[-1])))}" if through else ""
    return f"{export.row.name} to {arrival.row.name}: {one.miles_aboard:,} {one.called.miles} along the {one.called.along}{by}."


def _passages_read(one: OneWay) -> list[str]:
    """Return the passages that the ship takes, as they are read in a sentence."""
    from shipcalc.places.sea.passages import PASSAGES

    reads = {passage.name: passage.reads for passage in PASSAGES}
    return [reads[name] for name in one.passages]
