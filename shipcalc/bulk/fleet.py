"""All ships from the ports that one start reaches to the ports that some places are arrived at, and who may go with them."""

from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from shipcalc.bulk.landfalls import landfalls, ports_of
from shipcalc.bulk.plan import Plan, Same
from shipcalc.money import Int64
from shipcalc.places.place import Place
from shipcalc.pricing.columns import Bool
from shipcalc.pricing.fit import Packing
from shipcalc.pricing.loads import Load, every_load, loads_of
from shipcalc.pricing.ocean import SeaService, asked_of, in_the_way
from shipcalc.quote.model import Wishes
from shipcalc.quote.network.beyond import closed_passages, quotations_of, ships_of
from shipcalc.quote.network.columns import Crossing, sea_lanes
from shipcalc.quote.network.distances import Lane
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.port_ends import ArrivalPort, Arrivals, ExportPort
from shipcalc.quote.network.ports import arrival_rows, export_ports, port_place
from shipcalc.quote.network.sailing import crossings
from shipcalc.quote.network.trucks import find_trailer, truck_trip
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass
from shipcalc.vehicles.vehicle import Vehicle


@dataclass(frozen=True, slots=True, eq=False)
class Fleet:
    """Every crossing with every load, whoever it takes: `network` leads from one start to all ports of arrival, and to no door.

    `number_of` gives the position of a port of arrival by the identity of its row. `once` is the same network with each ship
    once, whatever its loads: they sail together. `lane_once` (z,) says for each sea lane which of its lanes that is.
    `asking` has one crossing of each kind that takes the same vehicles, `asks` the kind of each; `nmi` (z + 1,) the miles of each
    sea lane, none for the last.
    """

    network: Network
    once: Network
    lane_once: Int64
    number_of: dict[int, int]
    asking: tuple[Crossing, ...]
    asks: Int64
    nmi: Int64


@lru_cache(maxsize=4)
def fleet_of(same: Same, places: range, start: Place) -> Fleet:
    """Return the ships from a start to the ports that serve some places of a plan."""
    plan = same.plan
    book, rows = plan.book, ports_of(landfalls(plan, places))
    exports = tuple(export_ports(book, (start,)))
    arrivals = Arrivals(tuple(ArrivalPort(row, port_place(row), None) for row in rows), (), arrival_rows(book)[0])
    found, _ = crossings(
        ships_of(book),
        _every_load(book),
        exports,
        arrivals,
        (),
        book.loading_ways,
        closed_passages(book),
        quotations_of(book, plan.as_of),
    )
    ships: dict[SeaService, Crossing] = {}
    for crossing in found:
        ships.setdefault(crossing.service, crossing)
    once = tuple(ships.values())
    begins = dict(zip(ships, sea_lanes(once).first.tolist(), strict=True))
    lanes = [begins[crossing.service] + np.arange(len(crossing)) for crossing in found]
    kinds = [asked_of(crossing.service, crossing.load) for crossing in found]
    asking = dict(zip(kinds, found, strict=True))
    position = {kind: number for number, kind in enumerate(asking)}
    return Fleet(
        network=_network(plan, start, exports, arrivals, found),
        once=_network(plan, start, exports, arrivals, once),
        lane_once=np.concatenate([np.zeros(0, dtype=np.int64), *lanes]),
        asking=tuple(asking.values()),
        asks=np.array([position[kind] for kind in kinds], dtype=np.int64),
        nmi=np.concatenate([*(crossing.nmi for crossing in found), np.zeros(1, dtype=np.int64)]),
        number_of={id(row): number for number, row in enumerate(rows)},
    )


def _every_load(book: RateBook) -> tuple[Load, ...]:
    """Return every way to hand one vehicle over, in the order in which a quote considers them."""
    sizes = {kind.container: kind for kind in book.containers}
    return every_load([Load("container", Packing(((kind, (0,)),))) for kind in sizes.values()])


def carried(vehicles: Sequence[Vehicle], fleet: Fleet, book: RateBook) -> Bool:
    """Return which vehicles can go by which sea lanes, (n, z)."""
    known: dict[tuple[object, ...], Bool] = {}
    for vehicle in vehicles:
        if _kind(vehicle) not in known:
            known[_kind(vehicle)] = _is_taken(vehicle, fleet, book)
    taken = np.array([known[_kind(vehicle)] for vehicle in vehicles], dtype=np.bool_)
    return taken[:, fleet.network.sea.crossing]


def _kind(vehicle: Vehicle) -> tuple[object, ...]:
    """Return all of a vehicle that ships and containers ask for."""
    sizes = (vehicle.length_mm, vehicle.width_mm, vehicle.height_mm, vehicle.mass_grams)
    return (*sizes, vehicle.runs, vehicle.rolls, vehicle.steers, vehicle.brakes)


def _is_taken(vehicle: Vehicle, fleet: Fleet, book: RateBook) -> Bool:
    offered = {_name(load) for load in loads_of((vehicle,), book.containers)}
    taken = [
        _name(one.load) in offered and not in_the_way(one.service, one.load, (vehicle,), book.loading_ways)
        for one in fleet.asking
    ]
    return np.array(taken, dtype=np.bool_)[fleet.asks]


def _name(load: Load) -> str:
    return load.packing.name if load.packing else load.mode


def _network(
    plan: Plan, start: Place, exports: tuple[ExportPort, ...], arrivals: Arrivals, found: tuple[Crossing, ...]
) -> Network:
    lanes = tuple(Lane(start, port.place, port.roads[0]) for port in exports)
    request = Request(vehicles=plan.vehicles[:1], starts=(start,), to=start, ready=plan.ready, wishes=Wishes())
    services, trip = truck_trip(request, plan.book, lanes, plan.as_of)
    return Network(
        exports=exports,
        arrivals=arrivals,
        crossings=found,
        sea=sea_lanes(found),
        services=tuple(service for service in services if find_trailer(service)),
        trip=trip,
        starts=(0,),
        lanes=lanes,
        has_direct=False,
        left_out=(),
        day=plan.as_of,
    )
