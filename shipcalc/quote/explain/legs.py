"""The legs of a way: the road, or the roads and the ferry between them, the ship, the road at the other end."""

from collections.abc import Iterator

from shipcalc.measures import METRES_PER_MILE, metres_to_nautical_miles
from shipcalc.places.place import Place
from shipcalc.places.road.miles import RoadDistance
from shipcalc.places.straight import great_circle_mi
from shipcalc.quote.model import Leg
from shipcalc.quote.network.columns import Crossing as Ship
from shipcalc.quote.network.crossings import Crossing
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.network.port_ends import ArrivalPort, ExportPort
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


def way_legs(one: OneWay, loading: str) -> Iterator[Leg]:
    """Yield every movement of one way; `loading` is how the vehicles go aboard, where that needs words."""
    request, network, row = one.request, one.network, one.service.row
    numbers = tuple(vehicle.stock_number for vehicle in request.vehicles)
    for number, start in enumerate(dict.fromkeys(request.starts)):
        on_it = tuple(stock for stock, at in zip(numbers, network.starts, strict=True) if at == number)
        lane = network.lanes[network.lane_of(one.end)[network.starts.index(number)]]
        for part in lane_legs(start, lane.to, lane.road, lane.crossing):
            mode = part.mode if one.trailer or part.mode != "truck" else DRIVEN
            yield replace(part, mode=mode, carrier=row.carrier, vehicles=on_it, carrier_named=not row.private)
    if one.ship is None or one.export is None or one.arrival is None:
        return
    yield _at_sea(one, one.ship, one.export, one.arrival, numbers, loading)
    if one.last_leg is not None and one.arrival.road is not None:
        there = one.arrival
        for part in lane_legs(there.place, request.to, one.arrival.road, there.crossing):
            yield replace(part, carrier=LOCAL_HAULIER, vehicles=numbers, carrier_named=True)


def _at_sea(
    one: OneWay, ship: Ship, export: ExportPort, arrival: ArrivalPort, numbers: tuple[str, ...], loading: str
) -> Leg:
    from shipcalc.places.sea.passages import PASSAGES

    reads = {passage.name: passage.reads for passage in PASSAGES}
    passages = ", ".join(reads[name] for name in one.passages)
    straight_mi = great_circle_mi(export.place, arrival.place)
    return Leg(
        mode=one.mode,
        carrier=ship.service.row.carrier,
        carrier_named=not ship.service.row.private,
        from_=export.place,
        to=arrival.place,
        great_circle=round(metres_to_nautical_miles(straight_mi * METRES_PER_MILE), 2),
        distance=one.nautical_miles,
        unit="nmi",
        method="network",
        method_note=f"sea lanes by {passages}" if passages else "sea lanes",
        vehicles=numbers,
        loading=loading or ("driven aboard" if one.mode == "roro" else ""),
    )
