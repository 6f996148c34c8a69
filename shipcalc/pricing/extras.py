"""Which rows of the decision table of extra charges apply to which vehicles and lanes."""

from collections.abc import Iterator

import numpy as np

from shipcalc.pricing.columns import Asked, Bool, LaneColumns, VehicleColumns
from shipcalc.ratebook.decisions import decision_table, holding_numbers, holds, told_by, where_holding
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.extra_charges import ExtraCharge
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True)
class Applying:
    """A row of Extra charges, and where all its conditions but the carrier's own hold.

    `where` is (n, m), or narrower where the row asks nothing of the vehicles (1, m) or of the lanes (n, 1).
    """

    row: ExtraCharge
    where: Bool


def applying_extras(
    rows: tuple[ExtraCharge, ...], vehicles: VehicleColumns, lanes: LaneColumns, asked: Asked
) -> tuple[Applying, ...]:
    """Return the rows that apply to at least one vehicle on one lane."""
    numbers = holding_numbers(decision_table(rows, "shipment", "day"), _wished(asked))
    over_lanes = decision_table(rows, "lane")
    found = [
        Applying(rows[number], its[:, np.newaxis] & (_ASKS_NOTHING if lane is None else lane)[np.newaxis, :])
        for number, its, lane in zip(
            numbers,
            vehicles_meeting(rows, vehicles, numbers),
            where_holding(over_lanes, told_by(over_lanes, lanes), numbers),
            strict=True,
        )
    ]
    return tuple(applying for applying in found if applying.where.any())


def is_charged_by(extra: ExtraCharge, row: Carrier) -> bool:
    """Return whether a service charges a row as far as carrier and trailer go."""
    return holds(extra, {"carrier": row.carrier, "trailer": row.trailer}, "service")


def vehicles_meeting(
    rows: tuple[ExtraCharge, ...], vehicles: VehicleColumns, numbers: list[int] | None = None
) -> Iterator[Bool]:
    """Yield for each row, or each of some, which vehicles (n,) meet what it asks of them; (1,) where it asks nothing."""
    table = decision_table(rows, "vehicle")
    for where in where_holding(table, told_by(table, vehicles), numbers):
        yield _ASKS_NOTHING if where is None else where


def _wished(asked: Asked) -> dict[str, object]:
    return {
        "day": asked.pickup_day,
        "vehicle_count": asked.vehicle_count,
        "lift_gate": asked.lift_gate,
        "limited_access": asked.limited_access,
        "express": asked.express,
    }


_ASKS_NOTHING: Bool = np.ones(1, dtype=np.bool_)
