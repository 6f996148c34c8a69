"""A leg by road, as every kind of transport has it."""

from shipcalc.places.place import Place
from shipcalc.places.road import RoadDistance
from shipcalc.quote.model import Leg


def road_leg(
    start: Place,
    to: Place,
    road: RoadDistance,
    *,
    carrier: str = "",
    vehicles: tuple[str, ...] = (),
    carrier_named: bool = False,
) -> Leg:
    """Return the movement of some vehicles by truck over a road."""
    return Leg(
        mode="truck",
        carrier=carrier,
        carrier_named=carrier_named,
        from_=start,
        to=to,
        great_circle=round(road.great_circle_mi, 2),
        distance=road.miles,
        unit="mi",
        method=road.method,
        method_note=road.note,
        vehicles=vehicles,
    )
