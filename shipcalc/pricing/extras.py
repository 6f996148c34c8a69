"""Which rows of the decision table of extra charges apply to which vehicles and lanes."""

from collections.abc import Iterable

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.columns import UNKNOWN, Asked, Bool, LaneColumns, VehicleColumns
from shipcalc.pricing.tariff import is_valid
from shipcalc.ratebook.rows.trucking import Carrier, ExtraCharge
from shipcalc.records import dataclass
from shipcalc.trade import DRIVEN

# A measure has two condition columns, `<stem>_over_<unit>` and `<stem>_up_to_<unit>`.
MEASURES = (
    ("length", "mm"),
    ("width", "mm"),
    ("height", "mm"),
    ("clearance", "mm"),
    ("mass", "grams"),
    ("value", "minor"),
)
STATES = ("runs", "rolls", "steers", "brakes", "modified")
_WISHES = ("lift_gate", "limited_access", "express")


@dataclass(frozen=True, slots=True)
class Applying:
    """A row of Extra charges, and where all its conditions but the carrier's own hold.

    `where` is (n, m), or narrower where the row asks nothing of the vehicles (1, m) or of the lanes (n, 1).
    """

    row: ExtraCharge
    where: Bool


def applying_extras(
    rows: Iterable[ExtraCharge], vehicles: VehicleColumns, lanes: LaneColumns, asked: Asked
) -> tuple[Applying, ...]:
    """Return the rows that apply to at least one vehicle on one lane."""
    found = []
    for row in rows:
        if not (is_valid(row.valid_from, row.valid_to, asked.pickup_day) and _meets_wishes(row, asked)):
            continue
        where = vehicles_meeting(row, vehicles)[:, np.newaxis] & _lanes_meeting(row, lanes)[np.newaxis, :]
        if where.any():
            found.append(Applying(row, where))
    return tuple(found)


def is_charged_by(extra: ExtraCharge, row: Carrier) -> bool:
    """Return whether a service charges a row as far as carrier and trailer go; a blank trailer is any, and driven is none."""
    if extra.carrier and extra.carrier.casefold() != row.carrier.casefold():
        return False
    return extra.trailer == row.trailer if extra.trailer or row.trailer == DRIVEN else True


def _meets_wishes(row: ExtraCharge, asked: Asked) -> bool:
    if row.vehicles_over is not None and asked.vehicle_count <= row.vehicles_over:
        return False
    return all(getattr(row, wish) in (None, getattr(asked, wish)) for wish in _WISHES)


def vehicles_meeting(row: ExtraCharge, vehicles: VehicleColumns) -> Bool:
    """Return which vehicles (n,) meet what a row asks of them; (1,) where it asks nothing."""
    meeting: Bool = _ASKS_NOTHING
    for state in STATES:
        wanted = getattr(row, state)
        if wanted is not None:
            meeting = meeting & (getattr(vehicles, state) == wanted)
    for stem, unit in MEASURES:
        over, up_to = getattr(row, f"{stem}_over_{unit}"), getattr(row, f"{stem}_up_to_{unit}")
        if over is None and up_to is None:
            continue
        measure: Int64 = getattr(vehicles, f"{stem}_{unit}")
        meeting = meeting & (measure != UNKNOWN)
        if over is not None:
            meeting = meeting & (measure > over)
        if up_to is not None:
            meeting = meeting & (measure <= up_to)
    return meeting


def _lanes_meeting(row: ExtraCharge, lanes: LaneColumns) -> Bool:
    if row.miles_over is None:
        return _ASKS_NOTHING
    return lanes.miles > row.miles_over


_ASKS_NOTHING: Bool = np.ones(1, dtype=np.bool_)
