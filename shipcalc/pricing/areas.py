"""Which rows of the sheet Areas a place belongs to."""

from collections.abc import Sequence

import numpy as np

from shipcalc.money import Int64
from shipcalc.places.road import PlaceColumns
from shipcalc.pricing.columns import Bool, LaneColumns
from shipcalc.ratebook.ferry_rows import Ferry
from shipcalc.ratebook.trucking_rows import Area

_BEYOND_THE_ROADS = ("AK", "HI")
_AFTER_ANY_DIGIT = "~"


def lane_columns(
    pickups: PlaceColumns,
    deliveries: PlaceColumns,
    miles: Int64,
    areas: Sequence[Area],
    ferries: tuple[Ferry | None, ...] = (),
) -> LaneColumns:
    """Return lanes as the pricing wants them; `pickups` may hold one place for all lanes."""
    shape = (len(miles), len(areas))
    return LaneColumns(
        miles=miles,
        at_pickup=np.broadcast_to(_memberships(pickups, areas), shape),
        at_delivery=np.broadcast_to(_memberships(deliveries, areas), shape),
        home=np.broadcast_to(_is_home(pickups) & _is_home(deliveries), (len(miles),)),
        ferries=ferries if any(ferries) else (),
    )


def has_area(memberships: Bool, areas: Sequence[Area], names: Sequence[str]) -> Bool:
    """Return for each lane (m,) whether its end lies in any of the named areas."""
    wanted = {name.casefold() for name in names}
    rows = [number for number, area in enumerate(areas) if area.area.casefold() in wanted]
    held: Bool = np.logical_or.reduce(memberships[:, rows], axis=1)
    return held


def _memberships(places: PlaceColumns, areas: Sequence[Area]) -> Bool:
    inside = np.zeros((len(places.country), len(areas)), dtype=np.bool_)
    for number, area in enumerate(areas):
        inside[:, number] = _is_inside(places, area)
    return inside


def _is_inside(places: PlaceColumns, area: Area) -> Bool:
    inside: Bool = np.ones(len(places.country), dtype=np.bool_)
    inside &= places.country == area.country
    if area.state:
        inside &= places.subdivision == area.state
    if area.zip_from:
        last = (area.zip_to or area.zip_from) + _AFTER_ANY_DIGIT
        inside &= (places.postal_code >= area.zip_from) & (places.postal_code <= last)
    return inside


def _is_home(places: PlaceColumns) -> Bool:
    home: Bool = (places.country == "US") & ~np.isin(places.subdivision, _BEYOND_THE_ROADS)
    return home
