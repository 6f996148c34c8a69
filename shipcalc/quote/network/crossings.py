"""The way to a place that no road reaches: road to the ferry, the crossing, road after it."""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

from shipcalc.errors import NoAnswer
from shipcalc.places.gazetteer.postal_codes import zip_place
from shipcalc.places.place import Place
from shipcalc.places.road.factor_rules import FactorRule
from shipcalc.places.road.lanes import lane_table
from shipcalc.places.road.miles import RoadDistance, road_distance
from shipcalc.places.road.reach import Land, are_joined, land_of
from shipcalc.places.straight import great_circle_mi
from shipcalc.ratebook.rows.ferries import Ferry
from shipcalc.records import dataclass, replace

if TYPE_CHECKING:
    from shipcalc.pricing.columns import AnyFerry


@dataclass(frozen=True, slots=True)
class Crossing:
    """A ferry on the way, from one terminal to the other, and the roads before and after it."""

    ferry: "AnyFerry"
    terminal: Place
    landing: Place
    before: RoadDistance
    after: RoadDistance

    @property
    def said(self) -> str:
        """How the crossing is told: its name, how far, how long, how often, and what the office must know."""
        ferry = self.ferry
        hours = _counted(ferry.crossing_hours, "hour") if ferry.crossing_hours is not None else ""
        sailings = f"{_counted(ferry.sailings, 'sailing')} on an ordinary day" if ferry.sailings is not None else ""
        told = ", ".join(part for part in (ferry.ferry, hours, sailings) if part)
        return f"{told}. {ferry.remark or ''}".strip()


def crossing_between(
    ferries: "Sequence[AnyFerry]", start: Place, to: Place, rules: Sequence[FactorRule]
) -> Crossing | None:
    """Return the crossing with the shortest roads, None where no row of the sheet leads there.

    Raises NoAnswer where the only ferry takes no vehicles, with what its row says to do instead.
    """
    ways = list(_ways(ferries, start, to))
    open_ways = [way for way in ways if way[0].takes_vehicles]
    if ways and not open_ways:
        closed = ways[0][0]
        raise NoAnswer(
            f"{to.name} is not reached by road, and vehicles cannot go by the {closed.ferry[:1].lower()}{closed.ferry[1:]}",
            where=closed.at.cell("takes_vehicles"),
            remedy=closed.remark or "",
        )
    lanes = lane_table()
    crossings = [
        Crossing(
            ferry,
            terminal,
            landing,
            road_distance(start, terminal, rules, lanes=lanes),
            road_distance(landing, to, rules, lanes=lanes),
        )
        for ferry, terminal, landing in open_ways
    ]
    return min(crossings, key=lambda crossing: crossing.before.miles + crossing.after.miles, default=None)


def road_with_crossing(crossing: Crossing, start: Place, to: Place) -> RoadDistance:
    """Return the miles that the truck drives, before and after the ferry together."""
    before, after = crossing.before, crossing.after
    straight_mi = great_circle_mi(start, to)
    road_mi = before.road_mi + after.road_mi
    return RoadDistance(
        great_circle_mi=straight_mi,
        road_mi=road_mi,
        miles=before.miles + after.miles,
        factor=road_mi / straight_mi if straight_mi else 1.0,
        method=before.method,
        note=f"{before.miles:,} miles to the ferry in {crossing.terminal.name} and {after.miles:,} after it; {before.note}",
        cell=before.cell,
        expected_error=before.expected_error,
    )


def _counted(number: float, what: str) -> str:
    return f"{number:,g} {what}{'' if number == 1 else 's'}"


def way_sentence(start: str, to: str, crossing: Crossing) -> str:
    """Return how far is driven before and after a crossing, and how that was found."""
    before, after = crossing.before, crossing.after
    roads = [f"{_counted(before.miles, 'road mile')} to the ferry in {crossing.terminal.name}"] if before.miles else []
    if after.miles:
        roads.append(f"{_counted(after.miles, 'road mile')} on from {crossing.landing.name}")
    if not roads:
        return f"{start} to {to}, by ferry: no road before or after it."
    return f"{start} to {to}, by ferry: {' and '.join(roads)} ({(before if before.miles else after).note})."


def by_ferry(to: Place, crossing: Crossing) -> str:
    """Return the sentence on how a place is reached."""
    return f"{to.name} is reached by a ferry: {crossing.said}"


def _ways(ferries: "Sequence[AnyFerry]", start: Place, to: Place) -> "Iterator[tuple[AnyFerry, Place, Place]]":
    """Yield each ferry that joins the land of the start with that of the destination, its terminals in the way's order."""
    start_land, to_land = land_of(start), land_of(to)
    for ferry in ferries:
        if isinstance(ferry, Ferry) and ferry.carrier:
            continue  # a fare of its own on the ferry of another row
        one, other = _terminals(ferry)
        if one is None or other is None:
            continue
        for terminal, landing in ((one, other), (other, one)):
            if are_joined(start, start_land, *terminal) and are_joined(*landing, to, to_land):
                yield ferry, terminal[0], landing[0]
                break


def _terminals(ferry: "AnyFerry") -> tuple[tuple[Place, Land] | None, tuple[Place, Land] | None]:
    """Return where a ferry begins and ends, and on which land: at home by ZIP, abroad by UN/LOCODE, as the row names it."""
    if isinstance(ferry, Ferry):
        return _terminal(ferry.from_zip), _terminal(ferry.to_zip)
    return _harbour(ferry.from_port, ferry.from_name), _harbour(ferry.to_port, ferry.to_name)


@lru_cache(maxsize=256)
def _terminal(code: str) -> tuple[Place, Land] | None:
    """Return the place of a terminal's ZIP and the land it is on; a list of ZIPs asks for the same ones for each of them."""
    place = zip_place(code).place
    return None if place is None else (place, land_of(place))


@lru_cache(maxsize=256)
def _harbour(code: str, name: str) -> tuple[Place, Land] | None:
    from shipcalc.places.sea.ports import find_port  # a quote at home asks for no port

    known = find_port(code)
    return None if known is None else (replace(known, name=name), land_of(known))
