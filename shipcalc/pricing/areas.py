"""Which rows of the sheet Areas a place belongs to, and what they add there."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from shipcalc.money import Int64
from shipcalc.places.road.miles import PlaceColumns
from shipcalc.pricing.columns import Bool, LaneColumns
from shipcalc.pricing.lane_prices import LanePrices, rows_met
from shipcalc.ratebook.rows.areas import Area
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.pricing.columns import AnyFerry

_BEYOND_THE_ROADS = ("AK", "HI")
_AFTER_ANY_DIGIT = "~"


def lane_columns(
    pickups: PlaceColumns,
    deliveries: PlaceColumns,
    miles: Int64,
    areas: Sequence[Area],
    ferries: "tuple[AnyFerry | None, ...]" = (),
    prices: LanePrices | None = None,
) -> LaneColumns:
    """Return lanes as the pricing wants them; `pickups` may hold one place for all lanes. `prices` are those of the tariffs."""
    shape = (len(miles), len(areas))
    return LaneColumns(
        miles=miles,
        at_pickup=np.broadcast_to(_memberships(pickups, areas), shape),
        at_delivery=np.broadcast_to(_memberships(deliveries, areas), shape),
        home=np.broadcast_to(_is_home(pickups) & _is_home(deliveries), (len(miles),)),
        ferries=ferries if any(ferries) else (),
        met=None if prices is None else rows_met(prices, pickups, deliveries, len(miles)),
    )


def area_rows(areas: Sequence[Area], names: Sequence[str]) -> tuple[int, ...]:
    """Return the positions of the rows of the named areas."""
    wanted = {name.casefold() for name in names}
    return tuple(number for number, area in enumerate(areas) if area.area.casefold() in wanted)


def has_area(memberships: Bool, rows: Sequence[int]) -> Bool:
    """Return for each lane (m,) whether its end lies in any of some rows."""
    held: Bool = np.logical_or.reduce(memberships[:, rows], axis=1)
    return held


@dataclass(frozen=True, slots=True)
class ChargedEnd:
    """A row that charges at one `end` of lanes, pickup or delivery, and the lanes (m,) whose end lies in it."""

    area: Area
    end: str
    where: Bool


def charged_ends(areas: Sequence[Area], lanes: LaneColumns) -> tuple[ChargedEnd, ...]:
    """Return every end at which a row charges at least one lane, in the order of the sheet."""
    charging = [number for number, area in enumerate(areas) if area.applies_at is not None and area.charge is not None]
    return tuple(
        ChargedEnd(areas[number], end, at_end[:, number])
        for number in charging
        for end, at_end in (("pickup", lanes.at_pickup), ("delivery", lanes.at_delivery))
        if areas[number].applies_at in (end, "both") and at_end[:, number].any()
    )


def ferries_on(lanes: LaneColumns) -> "tuple[tuple[AnyFerry, Bool], ...]":
    """Return every ferry and the lanes (m,) that go by it, in the order of the lanes."""
    lanes_of: dict[int, list[int]] = {}
    for lane, ferry in enumerate(lanes.ferries):
        if ferry is not None:
            lanes_of.setdefault(id(ferry), []).append(lane)
    found = []
    for numbers in lanes_of.values():
        ferry = lanes.ferries[numbers[0]]
        assert ferry is not None, "lanes without a ferry are left out"
        where = np.zeros(len(lanes), dtype=np.bool_)
        where[numbers] = True
        found.append((ferry, where))
    return tuple(found)


def extra_days(areas: Sequence[Area], lanes: LaneColumns) -> Int64:
    """Return the days that each lane (m,) takes longer: the most of the areas at either end, and those of its ferry."""
    by_area = np.array([area.extra_days for area in areas], dtype=np.int64)
    days: Int64 = np.max((lanes.at_pickup | lanes.at_delivery) * by_area, axis=1, initial=0)
    if lanes.ferries:
        days += np.array([ferry.extra_days if ferry else 0 for ferry in lanes.ferries], dtype=np.int64)
    return days


def _memberships(places: PlaceColumns, areas: Sequence[Area]) -> Bool:
    """Return which places lie in which rows, (places, areas)."""
    inside: Bool = places.country[:, np.newaxis] == _texts([area.country for area in areas])
    with_state = [number for number, area in enumerate(areas) if area.state]
    inside[:, with_state] &= places.subdivision[:, np.newaxis] == _texts([areas[n].state or "" for n in with_state])
    with_zip = [(number, area.zip_from, area.zip_to) for number, area in enumerate(areas) if area.zip_from]
    code = places.postal_code[:, np.newaxis]
    inside[:, [number for number, _, _ in with_zip]] &= (code >= _texts([first or "" for _, first, _ in with_zip])) & (
        code <= _texts([(last or first or "") + _AFTER_ANY_DIGIT for _, first, last in with_zip])
    )
    for number, area in enumerate(areas):
        if area.city:
            town = area.city.casefold()
            inside[:, number] &= np.array([place.name.casefold() == town for place in places.places], dtype=np.bool_)
    return inside


def _texts(texts: Sequence[str]) -> NDArray[np.str_]:
    return np.array(texts, dtype=np.str_)


def _is_home(places: PlaceColumns) -> Bool:
    home: Bool = (places.country == "US") & ~np.isin(places.subdivision, _BEYOND_THE_ROADS)
    return home
