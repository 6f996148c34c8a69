"""Which ports a shipment may leave from and arrive at, with the roads to and from them."""

from collections.abc import Iterator, Sequence
from contextlib import suppress

import numpy as np

from shipcalc.errors import NoAnswer
from shipcalc.places.lanes import lane_table
from shipcalc.places.place import Place
from shipcalc.places.ports import find_port
from shipcalc.places.reach import road_reach
from shipcalc.places.road import FactorRule, RoadDistance, road_distance
from shipcalc.places.straight import great_circle_mi_columns
from shipcalc.quote.crossings import Crossing, crossing_between, road_with_crossing
from shipcalc.quote.distances import factor_rules
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.ferry_abroad_rows import FerryAbroad
from shipcalc.ratebook.overseas_rows import OnCarriage, Port
from shipcalc.records import dataclass

MOST_ARRIVAL_PORTS = 6
# Among ports that roads join to the buyer, those much farther than the nearest are not sensible.
FARTHER_THAN_NEAREST_MI = 700
# A port on the same coast from which the buyer arranges the rest, where no road leads on.
FARTHEST_WITHOUT_ROAD_MI = 600
_PORTS_WITHOUT_ROAD = 2
_ROADS_TRIED = 16


@dataclass(frozen=True, slots=True)
class ExportPort:
    """A port to ship from, and the road to it from each start."""

    row: Port
    place: Place
    roads: tuple[RoadDistance, ...]


@dataclass(frozen=True, slots=True)
class ArrivalPort:
    """A port to arrive at, and the road on to the buyer; None where the price ends at the port.

    Where a ferry lies on the way, `road` is what is driven before and after it.
    """

    row: Port
    place: Place
    road: RoadDistance | None
    crossing: Crossing | None = None

    @property
    def ferry(self) -> FerryAbroad | None:
        """Return the ferry on the way to the buyer."""
        ferry = self.crossing.ferry if self.crossing else None
        assert ferry is None or isinstance(ferry, FerryAbroad), "the last leg takes no ferry of the home sheet"
        return ferry


@dataclass(frozen=True, slots=True)
class Arrivals:
    """The ports to arrive at, the rates of the last leg by trailer, and what must be said about them.

    `every` is all ports of the rate book that vehicles may arrive at; `none` says why none of them serves the buyer.
    """

    ports: tuple[ArrivalPort, ...]
    on_carriage: tuple[OnCarriage, ...]
    every: tuple[Port, ...]
    note: str = ""
    none: str = ""


def export_ports(book: RateBook, starts: Sequence[Place]) -> Iterator[ExportPort]:
    """Yield every port that ships and that roads join to all starts, within the reach that the rate book sets."""
    rules = factor_rules(book)
    for row in book.ports:
        if not row.exports:
            continue
        place = port_place(row)
        if not all(road_reach(start, place).reached for start in starts):
            continue
        roads = tuple(road_distance(start, place, rules, lanes=lane_table()) for start in starts)
        if max(road.miles for road in roads) <= book.pricing.farthest_export_port_mi:
            yield ExportPort(row, place, roads)


def arrival_ports(book: RateBook, to: Place) -> Arrivals:
    """Return the sensible ports for a buyer: those that roads join, nearest first, else those from which a ferry of the sheet
    Ferries abroad goes on, else the nearest of the country.
    """
    # Ships do not bring a vehicle to where it left: ports that ship are no ports of arrival.
    rows = [row for row in book.ports if (row.roro or row.container) and not row.exports]
    straight = _straight_mi(to, rows)
    order = [int(number) for number in np.argsort(straight, kind="stable")]
    rates = tuple(row for row in book.on_carriage if row.country.upper() == to.country)
    by_road = [number for number in order[:_ROADS_TRIED] if road_reach(port_place(rows[number]), to).reached]
    if by_road and rates:
        found = tuple(_by_road(book, to, [rows[number] for number in by_road]))
        if found:
            return Arrivals(found, rates, tuple(rows))
    elif rates:
        found = tuple(_by_ferry(book, to, [rows[number] for number in order[:_ROADS_TRIED]]))
        if found:
            return Arrivals(found, rates, tuple(rows))
    near = [number for number in (by_road or order) if rows[number].country == to.country or number in by_road]
    near = near[:_PORTS_WITHOUT_ROAD] or [n for n in order[:1] if straight[n] <= FARTHEST_WITHOUT_ROAD_MI]
    if not near:
        return Arrivals((), (), tuple(rows), none=_no_port(to, rows, order, straight))
    ports = tuple(ArrivalPort(rows[number], port_place(rows[number]), None) for number in near)
    why = (
        f"the rate book has no carriage by road in {to.country}"
        if by_road
        else f"no road leads from a port of the rate book to {to.name}, and no ferry of its sheet Ferries abroad"
    )
    names = " or ".join(port.row.name for port in ports)
    note = f"Priced to the port of arrival only ({names}): {why}. The way on is not in the price."
    return Arrivals(ports, (), tuple(rows), note)


def port_place(row: Port) -> Place:
    """Return a port of the rate book as a place, with the state that the table of ports has for it."""
    known = find_port(row.port)
    return Place(
        name=row.name,
        kind="port",
        country=row.country.upper(),
        subdivision=known.subdivision if known else "",
        latitude=row.latitude,
        longitude=row.longitude,
        found_by=f"UN/LOCODE {row.port.upper()}",
    )


def _by_road(book: RateBook, to: Place, rows: Sequence[Port]) -> Iterator[ArrivalPort]:
    """Yield the nearest ports with their roads; a port without a road factor is no answer to anybody."""
    rules = factor_rules(book)
    roads = ((row, _road(port_place(row), to, rules)) for row in rows)
    yield from _nearest([ArrivalPort(row, port_place(row), road) for row, road in roads if road is not None])


def _by_ferry(book: RateBook, to: Place, rows: Sequence[Port]) -> Iterator[ArrivalPort]:
    """Yield the ports from which a ferry leads to the buyer, those with the shortest roads before and after it."""
    rules = factor_rules(book)
    found = []
    for row in rows:
        port = port_place(row)
        with suppress(NoAnswer):
            crossing = crossing_between(book.ferries_abroad, port, to, rules)
            if crossing is not None:
                found.append(ArrivalPort(row, port, road_with_crossing(crossing, port, to), crossing))
    yield from _nearest(found)


def _nearest(found: Sequence[ArrivalPort]) -> Iterator[ArrivalPort]:
    """Yield the ports with the shortest roads to the buyer, and those not much farther."""
    ordered = sorted(found, key=_driven)[:MOST_ARRIVAL_PORTS]
    for port in ordered:
        if _driven(port) <= _driven(ordered[0]) + FARTHER_THAN_NEAREST_MI:
            yield port


def _driven(port: ArrivalPort) -> int:
    return port.road.miles if port.road else 0


def _road(port: Place, to: Place, rules: Sequence[FactorRule]) -> RoadDistance | None:
    try:
        return road_distance(port, to, rules, lanes=lane_table())
    except NoAnswer:
        return None


def _straight_mi(to: Place, rows: Sequence[Port]) -> np.ndarray:
    return great_circle_mi_columns(
        latitude_a=to.latitude,
        longitude_a=to.longitude,
        latitude_b=np.array([row.latitude for row in rows], dtype=np.float64),
        longitude_b=np.array([row.longitude for row in rows], dtype=np.float64),
    )


def _no_port(to: Place, rows: Sequence[Port], order: Sequence[int], straight: np.ndarray) -> str:
    if not rows:
        return f"{to.name} is reached by sea, and the rate book has no ports (overseas.xlsx)"
    nearest = rows[order[0]]
    return (
        f"no port of the rate book serves {to.name}: the nearest is {nearest.name}, {nearest.country}, "
        f"{straight[order[0]]:,.0f} miles in a straight line"
    )
