"""What stands in the way of a service taking a vehicle over a lane, and the reason as people read it."""

from collections.abc import Iterator, Sequence

import numpy as np

from shipcalc.measures import grams_to_pounds, mm_to_inches
from shipcalc.money import Int64, with_code
from shipcalc.pricing.areas import has_area
from shipcalc.pricing.columns import Asked, Bool, LaneColumns, VehicleColumns
from shipcalc.pricing.lane_prices import met_by
from shipcalc.pricing.tariff import Service
from shipcalc.ratebook.decisions import UNKNOWN
from shipcalc.records import dataclass
from shipcalc.trade import DRIVEN


@dataclass(frozen=True, slots=True)
class Obstacle:
    """Where (n, m) something stands in the way, and the reason as a sentence's end ("it takes up to 7,000 lb").

    `what` names the measure of the vehicle that exceeds `limit` (in the measure's own unit); empty where it is no measure.
    """

    where: Bool
    reason: str
    what: str = ""
    limit: int = 0


def obstacles(
    service: Service, vehicles: VehicleColumns, lanes: LaneColumns, asked: Asked, currency: str
) -> Iterator[Obstacle]:
    """Yield everything that may stand in the way; `where` says for which vehicles and lanes it does.

    Nothing stands in the way of a price in hand, which a carrier gave for these vehicles, but that it is for another place.
    """
    if service.spot is not None:
        yield Obstacle(~service.spot.lanes[np.newaxis, :], "its price in hand is for another place")
        return
    for over_lanes, reason in _lane_obstacles(service, lanes):
        yield Obstacle(over_lanes[np.newaxis, :], reason)
    yield from vehicle_obstacles(service, vehicles, currency)
    if asked.express and service.row.express_pickup_days is None:
        yield Obstacle(_EVERYWHERE, "it offers no express pickup")
    if asked.lift_gate and not service.row.lift_gate:
        yield Obstacle(_EVERYWHERE, "it has no lift gate")


def vehicle_obstacles(service: Service, vehicles: VehicleColumns, currency: str) -> Iterator[Obstacle]:
    """Yield what a vehicle itself may have that a service does not take; each is (n, 1)."""
    yield from _size_obstacles(service, vehicles, currency)
    for of_vehicles, reason in _condition_obstacles(service, vehicles):
        yield Obstacle(of_vehicles[:, np.newaxis], reason)


def _lane_obstacles(service: Service, lanes: LaneColumns) -> Iterator[tuple[Bool, str]]:
    row, (priced, from_there, to_there) = service.row, _priced(service, lanes)
    if row.from_areas:
        outside = ~has_area(lanes.at_pickup, service.from_rows) & ~from_there
        yield outside, f"it picks up only in {_listed(row.from_areas)}"
    if row.to_areas:
        outside = ~has_area(lanes.at_delivery, service.to_rows) & ~to_there
        yield outside, f"it delivers only to {_listed(row.to_areas)}"
    if not (row.from_areas and row.to_areas):
        yield ~lanes.home & ~priced, "it serves only the contiguous United States"
    yield (lanes.miles > service.last_mi) & ~priced, f"its prices end at {service.last_mi:,} miles"
    if not service.bands:
        yield np.ones(len(lanes), dtype=np.bool_) & ~priced, "it has no prices per mile"


def _priced(service: Service, lanes: LaneColumns) -> tuple[Bool, Bool, Bool]:
    """Return the lanes with a price of their own (m,) or (1,), and those whose pickup and delivery the price names.

    A carrier that says a price for a place goes there, whatever areas its row names.
    """
    met = met_by(service.lanes, lanes.met)
    if met is None or met.price is None:
        return _NOWHERE, _NOWHERE, _NOWHERE
    where = met.price.where
    return where, where & met.price.of(met.prices.from_named), where & met.price.of(met.prices.to_named)


def _size_obstacles(service: Service, vehicles: VehicleColumns, currency: str) -> Iterator[Obstacle]:
    row = service.row

    def too_large(what: str, measure: Int64, limit: int, told: str) -> Obstacle:
        return Obstacle((measure > limit)[:, np.newaxis], told, what, limit)

    lengths = (
        ("length", vehicles.length_mm, row.longest_mm),
        ("width", vehicles.width_mm, row.widest_mm),
        ("height", vehicles.height_mm, row.highest_mm),
    )
    for what, measure, limit in lengths:
        if limit is not None:
            yield too_large(what, measure, limit, f"it takes a {what} of up to {mm_to_inches(limit):g} in")
    if row.heaviest_grams is not None:
        told = f"it takes a weight of up to {grams_to_pounds(row.heaviest_grams):,} lb"
        yield too_large("weight", vehicles.mass_grams, row.heaviest_grams, told)
    if not row.cover_can_rise:
        told = f"its cargo cover ends at a value of {with_code(row.cover_minor, currency)}"
        yield too_large("value", vehicles.value_minor, row.cover_minor, told)
    if row.lowest_clearance_mm is not None and not row.lift_gate:
        low = (vehicles.clearance_mm != UNKNOWN) & (vehicles.clearance_mm < row.lowest_clearance_mm)
        told = f"its ramp needs {mm_to_inches(row.lowest_clearance_mm):g} in of ground clearance"
        yield Obstacle(low[:, np.newaxis], told)


def _condition_obstacles(service: Service, vehicles: VehicleColumns) -> Iterator[tuple[Bool, str]]:
    row = service.row
    if row.higher_than_mm is not None:
        yield (
            vehicles.height_mm <= row.higher_than_mm,
            f"it takes only what is higher than {mm_to_inches(row.higher_than_mm):g} in",
        )
    if row.trailer == DRIVEN:
        drives = vehicles.runs & vehicles.rolls & vehicles.steers & vehicles.brakes
        yield ~drives, "its driver needs a vehicle that runs, rolls, steers and brakes"
        return
    if not row.takes_inoperable:
        yield ~vehicles.runs, "it takes only vehicles that run"
    if not row.winch:
        stuck = ~(vehicles.rolls & vehicles.steers & vehicles.brakes)
        yield stuck, "it has no winch for a vehicle that does not roll, steer and brake"


_NOWHERE: Bool = np.zeros(1, dtype=np.bool_)
_EVERYWHERE: Bool = np.ones((1, 1), dtype=np.bool_)


def _listed(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
