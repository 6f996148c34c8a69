"""Which services can take which vehicles over which lanes, and why not the others."""

from collections.abc import Iterator, Sequence

import numpy as np

from shipcalc.measures import grams_to_pounds, mm_to_inches
from shipcalc.money import text
from shipcalc.pricing.areas import has_area
from shipcalc.pricing.columns import UNKNOWN, Asked, Bool, LaneColumns, VehicleColumns
from shipcalc.pricing.tariff import Service
from shipcalc.ratebook.trucking_rows import Area


def obstacles(
    service: Service, vehicles: VehicleColumns, lanes: LaneColumns, asked: Asked, areas: Sequence[Area], currency: str
) -> Iterator[tuple[Bool, str]]:
    """Yield (where (n, m) it stands in the way, the reason as a sentence's end: "…, it takes up to 228 in")."""
    for over_lanes, reason in _lane_obstacles(service, lanes, areas):
        yield over_lanes[np.newaxis, :], reason
    for of_vehicles, reason in _vehicle_obstacles(service, vehicles, asked, currency):
        yield of_vehicles[:, np.newaxis], reason
    if asked.express and service.row.express_pickup_days is None:
        yield np.ones((1, 1), dtype=np.bool_), "it offers no express pickup"
    if asked.lift_gate and not service.row.lift_gate:
        yield np.ones((1, 1), dtype=np.bool_), "it has no lift gate"


def _lane_obstacles(service: Service, lanes: LaneColumns, areas: Sequence[Area]) -> Iterator[tuple[Bool, str]]:
    row = service.row
    if row.from_areas:
        yield ~has_area(lanes.at_pickup, areas, row.from_areas), f"it picks up only in {_listed(row.from_areas)}"
    if row.to_areas:
        yield ~has_area(lanes.at_delivery, areas, row.to_areas), f"it delivers only to {_listed(row.to_areas)}"
    if not (row.from_areas and row.to_areas):
        yield ~lanes.home, "it serves only the contiguous United States"
    yield lanes.miles > service.last_mi, f"its prices end at {service.last_mi:,} miles"
    if not service.bands:
        yield np.ones(len(lanes), dtype=np.bool_), "it has no prices per mile"


def _vehicle_obstacles(
    service: Service, vehicles: VehicleColumns, asked: Asked, currency: str
) -> Iterator[tuple[Bool, str]]:
    row = service.row
    limits = (
        (row.longest_mm, vehicles.length_mm, "length"),
        (row.widest_mm, vehicles.width_mm, "width"),
        (row.highest_mm, vehicles.height_mm, "height"),
    )
    for limit, measure, what in limits:
        if limit is not None:
            yield measure > limit, f"it takes a {what} of up to {mm_to_inches(limit):g} in"
    if row.heaviest_grams is not None:
        yield vehicles.mass_grams > row.heaviest_grams, f"it takes up to {grams_to_pounds(row.heaviest_grams):,} lb"
    if row.lowest_clearance_mm is not None and not row.lift_gate:
        low = (vehicles.clearance_mm != UNKNOWN) & (vehicles.clearance_mm < row.lowest_clearance_mm)
        yield low, f"its ramp needs {mm_to_inches(row.lowest_clearance_mm):g} in of ground clearance"
    yield from _condition_obstacles(service, vehicles)
    if not row.cover_can_rise:
        yield vehicles.value_minor > row.cover_minor, f"its cargo cover ends at {text(row.cover_minor, currency)}"


def _condition_obstacles(service: Service, vehicles: VehicleColumns) -> Iterator[tuple[Bool, str]]:
    row = service.row
    if not row.takes_inoperable:
        yield ~vehicles.runs, "it takes only vehicles that run"
    if not row.winch:
        stuck = ~(vehicles.rolls & vehicles.steers & vehicles.brakes)
        yield stuck, "it has no winch for a vehicle that does not roll, steer and brake"


def _listed(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
