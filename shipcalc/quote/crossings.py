"""The way to a place at home that no road reaches: road to the ferry, the crossing, road after it."""

from collections.abc import Iterator, Sequence
from functools import lru_cache

from shipcalc.errors import NoAnswer
from shipcalc.places.lanes import lane_table
from shipcalc.places.place import Place
from shipcalc.places.postal_codes import zip_place
from shipcalc.places.reach import Land, are_joined, land_of
from shipcalc.places.road import FactorRule, RoadDistance, road_distance
from shipcalc.places.straight import great_circle_mi
from shipcalc.ratebook.ferry_rows import Ferry
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True)
class Crossing:
    """A ferry on the way, from one terminal to the other, and the roads before and after it."""

    ferry: Ferry
    terminal: Place
    landing: Place
    before: RoadDistance
    after: RoadDistance

    @property
    def said(self) -> str:
        """How the crossing is told: its name, how far, how long, how often, and what the office must know."""
        ferry = self.ferry
        hours = f"{ferry.crossing_hours:g} hours" if ferry.crossing_hours is not None else ""
        sailings = f"{ferry.sailings} sailings on an ordinary day" if ferry.sailings is not None else ""
        told = ", ".join(part for part in (ferry.ferry, hours, sailings) if part)
        return f"{told}. {ferry.remark or ''}".strip()


def crossing_between(ferries: Sequence[Ferry], start: Place, to: Place, rules: Sequence[FactorRule]) -> Crossing | None:
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


def _ways(ferries: Sequence[Ferry], start: Place, to: Place) -> Iterator[tuple[Ferry, Place, Place]]:
    """Yield each ferry that joins the land of the start with that of the destination, its terminals in the way's order."""
    start_land, to_land = land_of(start), land_of(to)
    for ferry in ferries:
        one, other = _terminal(ferry.from_zip), _terminal(ferry.to_zip)
        if one is None or other is None:
            continue
        for terminal, landing in ((one, other), (other, one)):
            if are_joined(start, start_land, *terminal) and are_joined(*landing, to, to_land):
                yield ferry, terminal[0], landing[0]
                break


@lru_cache(maxsize=256)
def _terminal(code: str) -> tuple[Place, Land] | None:
    """Return the place of a terminal's ZIP and the land it is on; a list of ZIPs asks for the same ones for each of them."""
    place = zip_place(code).place
    return None if place is None else (place, land_of(place))
