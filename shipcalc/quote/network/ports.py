"""Which ports a shipment may leave from and arrive at, with the roads to and from them."""

from collections.abc import Collection, Iterator, Sequence
from contextlib import suppress
from functools import lru_cache

import numpy as np

from shipcalc.errors import NoAnswer, asked
from shipcalc.places.gazetteer.regions import country_name
from shipcalc.places.place import Place
from shipcalc.places.road.factor_rules import FactorRule
from shipcalc.places.road.lanes import lane_table
from shipcalc.places.road.miles import RoadDistance, road_distance
from shipcalc.places.road.reach import road_reach
from shipcalc.places.sea.ports import find_port
from shipcalc.places.straight import great_circle_mi_columns
from shipcalc.quote.network.arriving import customary_ports, in_the_way, is_passable
from shipcalc.quote.network.crossings import crossing_between, road_with_crossing
from shipcalc.quote.network.distances import factor_rules
from shipcalc.quote.network.port_ends import ArrivalPort, Arrivals, ExportPort, LastLeg
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.embargoed import embargo_on
from shipcalc.ratebook.rows.on_carriage import OnCarriage, closeness
from shipcalc.ratebook.rows.ports import Port

MOST_ARRIVAL_PORTS = 6
# Among ports that roads join to the buyer, those much farther than the nearest are not sensible.
FARTHER_THAN_NEAREST_MI = 700
# A port on the same coast from which the buyer arranges the rest, where no road leads on.
FARTHEST_WITHOUT_ROAD_MI = 600
_PORTS_WITHOUT_ROAD = 2
_ROADS_TRIED = 16
# A town within so many miles of its port has arrived with the ship (our own rule).
ARRIVED_WITHIN_MI = 12
# For the order of choices, where nobody knows the way on (our own figure).
_LONGER_THAN_STRAIGHT = 1.5


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


def arrival_ports(book: RateBook, to: Place, shut: Collection[str] = ()) -> Arrivals:
    """Return the sensible ports for a buyer: those that roads join, nearest first, else those from which a ferry of the sheet
    Ferries abroad goes on, else the nearest of the country. A country's own ports and its gateways come before all others, and
    no way on passes a country that is `shut`.
    """
    every, allowed = arrival_rows(book)
    rows = [row for row in allowed if row.country.upper() not in shut]
    rates = tuple(row for row in book.on_carriage if row.country.upper() == to.country and _is_for(row, to))
    groups = [_nearest_first(to, group) for group in customary_ports(book, to, rows)]
    joined = [[row for row in group[:_ROADS_TRIED] if road_reach(port_place(row), to).reached] for group in groups]
    passable = [[row for row in group if is_passable(row.country.upper(), to.country, shut)] for group in joined]
    by_road = next((group for group in passable if group), [])
    if rates:
        found = tuple(_by_road(book, to, _priced(rates, to, by_road)))
        if not found and not by_road:
            found = next(
                (
                    by_ferry
                    for group in groups
                    if (by_ferry := tuple(_by_ferry(book, to, _priced(rates, to, group[:_ROADS_TRIED]))))
                ),
                (),
            )
        if found:
            return Arrivals(found, _last_legs(rates, to, [port.row.port for port in found]), every)
    gateways = {row.port.upper() for row in book.gateways if row.country.upper() == to.country}
    own = [row for row in groups[0] if row.country.upper() == to.country] or [
        row for row in groups[0] if row.port.upper() in gateways
    ]
    blocked = [row for group in joined for row in group]
    if not by_road and not own and blocked:
        return Arrivals((), (), every, none=_through_held(book, to, blocked[0], shut))
    near = by_road or own or [row for row in groups[-1][:1] if _straight_mi(to, [row])[0] <= FARTHEST_WITHOUT_ROAD_MI]
    if not near:
        return Arrivals((), (), every, none=_no_port(to, groups[-1]))
    return _to_the_port(book, to, near, every, has_rates=bool(rates), is_joined=bool(by_road))


@lru_cache(maxsize=8)
def arrival_rows(book: RateBook) -> tuple[tuple[Port, ...], tuple[Port, ...]]:
    """Return the ports of a rate book that vehicles may arrive at, and those of them on which there is no embargo."""
    # Ships do not bring a vehicle to where it left: ports that ship are no ports of arrival.
    every = tuple(row for row in book.ports if (row.roro or row.container) and not row.exports)
    return every, tuple(row for row in every if embargo_on(port_place(row)) is None)


def _to_the_port(
    book: RateBook, to: Place, near: Sequence[Port], every: tuple[Port, ...], *, has_rates: bool, is_joined: bool
) -> Arrivals:
    """Return the ports at which the price ends: those of the buyer's own town, where there are any, and then it has arrived."""
    rules = factor_rules(book)
    there = [
        row for row in near if row.country.upper() == to.country and _straight_mi(to, [row])[0] <= ARRIVED_WITHIN_MI
    ]
    if there and is_joined:
        return Arrivals(tuple(ArrivalPort(row, port_place(row), None, is_there=True) for row in there), (), every)
    ports = []
    for row in near[:_PORTS_WITHOUT_ROAD]:
        road = _road(port_place(row), to, rules) if is_joined else None
        beyond = road.miles if road else int(_straight_mi(to, [row])[0] * _LONGER_THAN_STRAIGHT)
        ports.append(ArrivalPort(row, port_place(row), None, onward_mi=beyond))
    why = (
        f"the rate book has no carriage by road in {country_name(to.country)}"
        if is_joined and not has_rates
        else f"no road leads from a port of the rate book to {to.name}, and no ferry of its sheet Ferries abroad"
    )
    names = " or ".join(port.row.name for port in ports)
    note = f"Priced to the port of arrival only ({names}): {why}. The onward journey is not in the price."
    return Arrivals(tuple(ports), (), every, note, why=why)


def port_place(row: Port) -> Place:
    """Return a port of the rate book as a place, with the state that the table of ports has for it."""
    return _placed(row.port, row.name, row.country, row.latitude, row.longitude)


@lru_cache(maxsize=2_048)
def _placed(code: str, name: str, country: str, latitude: float, longitude: float) -> Place:
    known = find_port(code)
    return Place(
        name=name,
        kind="port",
        country=country.upper(),
        subdivision=known.subdivision if known else "",
        latitude=latitude,
        longitude=longitude,
        found_by=f"UN/LOCODE {code.upper()}",
    )


def _by_road(book: RateBook, to: Place, rows: Sequence[Port]) -> Iterator[ArrivalPort]:
    """Yield the nearest ports with their roads; a port without a road factor is no answer to anybody."""
    rules = factor_rules(book)
    roads = ((row, _road(port_place(row), to, rules)) for row in rows)
    yield from _nearest([ArrivalPort(row, port_place(row), road) for row, road in roads if road is not None])


def _is_for(row: OnCarriage, to: Place) -> bool:
    """Return whether a row of On-carriage is for a buyer of its country, from whichever port."""
    return closeness(row, to, row.port or "") is not None


def _priced(rates: Sequence[OnCarriage], to: Place, ports: Sequence[Port]) -> list[Port]:
    """Return the ports from which some row of On-carriage leads to a buyer."""
    return [port for port in ports if any(closeness(row, to, port.port) is not None for row in rates)]


def _last_legs(rates: Sequence[OnCarriage], to: Place, ports: Sequence[str]) -> tuple[LastLeg, ...]:
    """Return the rates of the last leg from ports, each of which some row is for, to a buyer: by trailer the closest rows.

    From a port that has none for a trailer, those of the other kind count.
    """
    trailers = dict.fromkeys(
        row.trailer for row in rates if any(closeness(row, to, port) is not None for port in ports)
    )
    return tuple(LastLeg(trailer, tuple(_closest(rates, to, port, trailer) for port in ports)) for trailer in trailers)


def _closest(rates: Sequence[OnCarriage], to: Place, port: str, trailer: str) -> OnCarriage:
    held = [(close, row) for row in rates if (close := closeness(row, to, port)) is not None]
    own = [(close, row) for close, row in held if row.trailer == trailer]
    return max(own or held, key=lambda one: one[0])[1]


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


def _nearest_first(to: Place, rows: Sequence[Port]) -> list[Port]:
    return [rows[int(number)] for number in np.argsort(_straight_mi(to, rows), kind="stable")]


def _through_held(book: RateBook, to: Place, port: Port, shut: Collection[str]) -> str:
    """Return why no way by road leads on, as a sentence: which countries the customary ways lead through, else the shortest."""
    gateways = {row.port.upper() for row in book.gateways if row.country.upper() == to.country}
    held = {row.country.upper() for row in book.ports if row.port.upper() in gateways} & set(shut)
    names = sorted(map(country_name, held or in_the_way(port.country.upper(), to.country, shut)))
    return (
        f"every way by road to {to.name} that hauliers take leads through {' and '.join(names) or 'a country'}, which the "
        f"rate book holds: whoever is responsible for export compliance can release what is merely held ({asked('released_by')})"
    )


def _no_port(to: Place, rows: Sequence[Port]) -> str:
    """Return why no port serves the buyer; `rows` are the ports, nearest first."""
    if not rows:
        return f"{to.name} is reached by sea, and the rate book has no ports (overseas.xlsx)"
    return (
        f"no port of the rate book serves {to.name}: the nearest is {rows[0].name}, {country_name(rows[0].country)}, "
        f"{_straight_mi(to, rows[:1])[0]:,.0f} miles in a straight line"
    )
