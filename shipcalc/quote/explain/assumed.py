"""What was taken for granted: sizes, roads, the lanes of ships."""

from collections.abc import Iterable, Iterator, Sequence

from shipcalc.places.road.miles import RoadDistance
from shipcalc.quote.choose.ways import Found
from shipcalc.quote.explain.loading import taken_to_work
from shipcalc.quote.network.crossings import Crossing, by_ferry, way_sentence
from shipcalc.quote.network.one_way import OneWay
from shipcalc.vehicles.sizes import SIZE_FIELDS, missing_sizes
from shipcalc.vehicles.vehicle import Vehicle


def assumptions(found: Found, ways: Iterable[int]) -> Iterator[str]:
    """Yield everything that was taken for granted of the ways that are shown, one sentence each."""
    request, network = found.request, found.network
    yield from request.notes
    yield from found.notes
    for vehicle in request.vehicles:
        yield from vehicle_assumptions(vehicle)
    if len(request.vehicles) > 1 and found.sums.imports.treatments:
        yield "For duty and tax the carriage is divided evenly among the vehicles."
    told: dict[str, None] = {}
    for one in map(found.one, ways):
        for number in dict.fromkeys(network.lane_of(one.end)):
            lane = network.lanes[number]
            told[_driven(lane.start.name, lane.to.name, lane.road, lane.crossing)] = None
            if lane.need:
                told[lane.need] = None
        if one.export is not None and one.arrival is not None:
            port = one.arrival
            from shipcalc.quote.edges.ocean import how_far  # late: a quote at home asks for no ship

            told[how_far(one, one.export, port)] = None
            if port.road is not None:
                told[_driven(port.row.name, request.to.name, port.road, port.crossing)] = None
            if port.crossing is not None:
                told[by_ferry(request.to, port.crossing)] = None
    yield from told
    yield from _freight_estimated([one for one in map(found.one, ways) if one.ship])


def _freight_estimated(by_sea: Sequence[OneWay]) -> Iterator[str]:
    """Yield once for each kind of freight that it is not quoted."""
    for kind in dict.fromkeys(one.called.freight for one in by_sea):
        own = [one for one in by_sea if one.called.freight == kind]
        estimated = [one for one in own if one.ship and len(one.offers) < len(one.ship.load.sizes)]
        if estimated:
            where = "" if len(estimated) == len(own) else " where its line says so"
            yield f"{kind.capitalize()} is estimated from distance{where}: nobody has quoted it."


def _driven(start: str, to: str, road: RoadDistance, crossing: Crossing | None) -> str:
    return _road_sentence(start, to, road) if crossing is None else way_sentence(start, to, crossing)


def vehicle_assumptions(vehicle: Vehicle) -> Iterator[str]:
    """Yield what was taken for granted about one vehicle."""
    assumed = [SIZE_FIELDS[field] for field in vehicle.assumed]
    if assumed:
        yield (
            f"{vehicle.stock_number}: {_listed(assumed)} taken from the typical sizes of the body {vehicle.body}; "
            "measure before loading."
        )
    unknown = [SIZE_FIELDS[field] for field in missing_sizes(vehicle)]
    if unknown:
        yield f"{vehicle.stock_number}: {_listed(unknown)} not known; taken as ordinary."
    yield from taken_to_work(vehicle)
    if vehicle.value_minor is None:
        yield f"{vehicle.stock_number}: value not known; cover was not compared with it."


def _road_sentence(start: str, to: str, road: RoadDistance) -> str:
    """Return how far a road is, and how that was found."""
    note = f" ({road.note})" if road.note else ""
    return f"{start} to {to}: {road.miles:,} road miles for {road.great_circle_mi:,.0f} in a straight line{note}."


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
