"""The legs of a way: the road, or the roads and the ferry between them, the ship, the road at the other end."""

from collections.abc import Iterator

from shipcalc.measures import METRES_PER_MILE, metres_to_nautical_miles
from shipcalc.places.place import Place
from shipcalc.places.road.miles import RoadDistance
from shipcalc.places.straight import great_circle_mi
from shipcalc.quote.choose.ways import Found
from shipcalc.quote.model import Leg
from shipcalc.quote.network.crossings import Crossing
from shipcalc.quote.network.trucks import find_trailer, trailer_of
from shipcalc.quote.request import Request
from shipcalc.records import replace
from shipcalc.trade import DRIVEN

# Who drives the last leg abroad, whom the rate book does not name.
LOCAL_HAULIER = "a haulier of the country"


def lane_legs(start: Place, to: Place, road: RoadDistance, crossing: Crossing | None) -> Iterator[Leg]:
    """Yield the movements from one place to the other, without carrier and vehicles."""
    if crossing is None:
        yield _road_leg(start, to, road)
        return
    if crossing.before.miles:
        yield _road_leg(start, crossing.terminal, crossing.before)
    straight_mi = great_circle_mi(crossing.terminal, crossing.landing)
    nmi = crossing.ferry.crossing_nmi
    yield Leg(
        mode="ferry",
        carrier="",
        from_=crossing.terminal,
        to=crossing.landing,
        great_circle=round(straight_mi, 2),
        distance=max(1, round(metres_to_nautical_miles(straight_mi * METRES_PER_MILE) if nmi is None else nmi)),
        unit="nmi",
        method="straight line" if nmi is None else "known miles",
        method_note=crossing.said,
    )
    if crossing.after.miles:
        yield _road_leg(crossing.landing, to, crossing.after)


def _road_leg(start: Place, to: Place, road: RoadDistance) -> Leg:
    return Leg(
        mode="truck",
        carrier="",
        from_=start,
        to=to,
        great_circle=round(road.great_circle_mi, 2),
        distance=road.miles,
        unit="mi",
        method=road.method,
        method_note=road.note,
    )


def way_legs(way: int, request: Request, found: Found, loading: str) -> Iterator[Leg]:
    """Yield every movement of one way; `loading` is how the vehicles go aboard, where that needs words."""
    ways, network = found.ways, found.network
    truck, export, arrival = int(ways.truck[way]), int(ways.export[way]), int(ways.arrival[way])
    row, by_driver = network.services[truck].row, find_trailer(network.services[truck]) is None
    numbers = tuple(vehicle.stock_number for vehicle in request.vehicles)
    for number, start in enumerate(dict.fromkeys(request.starts)):
        on_it = tuple(stock for stock, at in zip(numbers, network.starts, strict=True) if at == number)
        lane = network.lanes[network.lane_of(export)[network.starts.index(number)]]
        for part in lane_legs(start, lane.to, lane.road, lane.crossing):
            mode = DRIVEN if by_driver and part.mode == "truck" else part.mode
            yield replace(part, mode=mode, carrier=row.carrier, vehicles=on_it, carrier_named=not row.private)
    if export < 0:
        return
    crossing, port, there = (
        network.crossings[int(ways.crossing[way])],
        network.exports[export],
        network.arrivals.ports[arrival],
    )
    lane_number = int(ways.lane[way])
    from shipcalc.places.sea.passages import PASSAGES

    reads = {passage.name: passage.reads for passage in PASSAGES}
    passages = [reads[name] for name in crossing.passages[lane_number]]
    service = crossing.service.row
    yield Leg(
        mode=crossing.load.mode,
        carrier=service.carrier,
        carrier_named=not service.private,
        from_=port.place,
        to=there.place,
        great_circle=round(metres_to_nautical_miles(great_circle_mi(port.place, there.place) * METRES_PER_MILE), 2),
        distance=int(crossing.nmi[lane_number]),
        unit="nmi",
        method="network",
        method_note=f"sea lanes by {', '.join(passages)}" if passages else "sea lanes",
        vehicles=numbers,
        loading=loading or ("driven aboard" if crossing.load.mode == "roro" else ""),
    )
    if there.road is not None and goes_on(way, found):
        for part in lane_legs(there.place, request.to, there.road, there.crossing):
            yield replace(part, carrier=LOCAL_HAULIER, vehicles=numbers, carrier_named=True)


def goes_on(way: int, found: Found) -> bool:
    """Return whether somebody is priced to carry it on from the arrival port."""
    there = found.network.arrivals.ports[int(found.ways.arrival[way])]
    trailer = trailer_of(found.network.services[int(found.ways.truck[way])])
    from shipcalc.quote.time.days import on_carriage_by

    return there.road is not None and on_carriage_by(found.network.arrivals.on_carriage, trailer) is not None
