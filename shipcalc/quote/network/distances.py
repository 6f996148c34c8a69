"""How far each vehicle travels by road, with the rules of the rate book."""

from functools import lru_cache

from shipcalc.errors import NoAnswer
from shipcalc.places.place import Place
from shipcalc.places.road.factor_rules import FactorRule, FactorRules
from shipcalc.places.road.lanes import lane_table
from shipcalc.places.road.miles import RoadDistance, road_distance
from shipcalc.places.road.reach import road_reach
from shipcalc.quote.network.crossings import Crossing, by_ferry, crossing_between, road_with_crossing
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True)
class Lane:
    """One start and the destination, and the road between them; `need` is what else the way needs, as a sentence.

    Where a ferry lies on the way, `road` is what is driven before and after it.
    """

    start: Place
    to: Place
    road: RoadDistance
    need: str = ""
    crossing: Crossing | None = None


@lru_cache(maxsize=8)
def factor_rules(book: RateBook) -> FactorRules:
    """Return the rows of the sheet Road factors as the places want them."""
    return FactorRules(
        FactorRule(
            from_place=row.from_place,
            to_place=row.to_place,
            over_mi=row.over_mi,
            up_to_mi=row.up_to_mi,
            factor=row.factor,
            road_mi=row.road_mi,
            cell=row.at.cell("road_mi" if row.road_mi is not None else "factor"),
            source=row.source or "",
        )
        for row in book.road_factors
    )


def road_lanes(book: RateBook, starts: tuple[Place, ...], to: Place) -> tuple[Lane, ...]:
    """Return one lane for each distinct start.

    Raises NoAnswer where no road leads from a start to the destination, and no ferry of the rate book.
    """
    rules = factor_rules(book)
    lanes = []
    for start in dict.fromkeys(starts):
        reach = road_reach(start, to)
        if reach.reached:
            lanes.append(Lane(start, to, road_distance(start, to, rules, lanes=lane_table()), reach.need))
            continue
        at_home = start.country == to.country == "US"
        crossing = crossing_between(book.ferries if at_home else book.ferries_abroad, start, to, rules)
        if crossing is None:
            raise NoAnswer(reach.need)
        road = road_with_crossing(crossing, start, to)
        lanes.append(Lane(start, to, road, by_ferry(to, crossing), crossing))
    return tuple(lanes)
