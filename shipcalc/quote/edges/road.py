"""A road, and the ferry where one lies on it: its movements. Fare and wait stand in the lines and days of who drives it."""

from collections.abc import Iterator

from shipcalc.measures import METRES_PER_MILE, metres_to_nautical_miles
from shipcalc.places.place import Place
from shipcalc.places.road.miles import RoadDistance
from shipcalc.places.straight import great_circle_mi
from shipcalc.quote.model import Leg
from shipcalc.quote.network.crossings import Crossing


def road_legs(start: Place, to: Place, road: RoadDistance, crossing: Crossing | None) -> Iterator[Leg]:
    """Yield the movements from one place to the other, without carrier and vehicles."""
    if crossing is None:
        yield _road_leg(start, to, road)
        return
    if crossing.before.miles:
        yield _road_leg(start, crossing.terminal, crossing.before)
    yield _ferry_leg(crossing)
    if crossing.after.miles:
        yield _road_leg(crossing.landing, to, crossing.after)


def _ferry_leg(crossing: Crossing) -> Leg:
    straight_mi = great_circle_mi(crossing.terminal, crossing.landing)
    nmi = crossing.ferry.crossing_nmi
    return Leg(
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
