"""Road miles: the straight line × a road factor, the closest matching rule of the sheet *Road factors* first.

There is no factor of last resort: a lane without a rule is not given a distance.
"""

import math
from collections.abc import Sequence
from operator import attrgetter
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from shipcalc.errors import NoAnswer
from shipcalc.places.place import Place
from shipcalc.places.road.expected import expectation, expected_error
from shipcalc.places.road.factor_rules import (
    COUNTRY,
    STATE,
    FactorRule,
    closeness,
    closest_rule,
    compared,
    names_of,
    side,
)
from shipcalc.places.straight import great_circle_mi, great_circle_mi_columns
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True)
class RoadDistance:
    """How far by road, and how that was found: `method` is "known miles", "network" or "factor".

    Nine lanes of ten of this length are within `expected_error` of published miles, a share; None where it was not measured.
    """

    great_circle_mi: float
    road_mi: float
    miles: int
    factor: float
    method: str
    note: str
    cell: str | None = None
    expected_error: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceColumns:
    """Many places as columns of one length: what a rule can ask of a place, and where it is (degrees).

    `places` are the same as they were found, for what is seldom asked (their names); it may be empty.
    """

    country: NDArray[np.str_]
    subdivision: NDArray[np.str_]
    postal_code: NDArray[np.str_]
    latitude: NDArray[np.float64]
    longitude: NDArray[np.float64]
    places: Sequence[Place] = ()

    @classmethod
    def of(cls, places: Sequence[Place]) -> "PlaceColumns":
        """Return places as columns."""
        return cls(
            country=np.array([place.country for place in places], dtype=np.str_),
            subdivision=np.array([place.subdivision for place in places], dtype=np.str_),
            postal_code=np.array([place.postal_code for place in places], dtype=np.str_),
            latitude=np.array([place.latitude for place in places], dtype=np.float64),
            longitude=np.array([place.longitude for place in places], dtype=np.float64),
            places=places,
        )


class LaneTable(Protocol):
    """Factors of single lanes, found by position."""

    def factors(
        self,
        *,
        latitude_a: NDArray[np.float64],
        longitude_a: NDArray[np.float64],
        latitude_b: NDArray[np.float64],
        longitude_b: NDArray[np.float64],
    ) -> NDArray[np.float64]:
        """Return road miles ÷ great-circle miles for columns of one length; NaN where the table does not reach."""
        ...

    def factor(self, *, latitude_a: float, longitude_a: float, latitude_b: float, longitude_b: float) -> float:
        """Return the same for one lane."""
        ...

    @property
    def source(self) -> str:
        """Where the table is from, as a phrase for the note."""
        ...


def road_distance(a: Place, b: Place, rules: Sequence[FactorRule], *, lanes: LaneTable | None = None) -> RoadDistance:
    """Return the road distance of one lane.

    Raises NoAnswer where no rule of the sheet matches and the table of lanes does not reach.
    """
    straight_mi = great_circle_mi(a, b)
    rule = closest_rule(rules, a, b, straight_mi)
    closeness = -rule.rank[0] if rule else 0
    if lanes is not None and closeness < STATE:
        factor = lanes.factor(
            latitude_a=a.latitude, longitude_a=a.longitude, latitude_b=b.latitude, longitude_b=b.longitude
        )
        if not math.isnan(factor):
            note = f"straight line × {factor:.3f}, {lanes.source}"
            return _distance(straight_mi, straight_mi * factor, "network", note, at_home=_are_at_home(a, b))
    if rule is None:
        raise NoAnswer(
            f"there is no road factor from {_told(a)} to {_told(b)} ({straight_mi:,.0f} miles in a straight line)",
            where="Road factors",
            remedy=f"add a row {a.country} – {b.country}, or the road miles of this lane",
        )
    if rule.road_mi is not None:
        lane = f"the known miles between {rule.from_place or 'anywhere'} and {rule.to_place or 'anywhere'}"
        return _distance(straight_mi, rule.road_mi, "known miles", lane + _cited(rule), rule.cell)
    assert rule.factor is not None
    note = f"straight line × {rule.factor:g}{_cited(rule)}"
    return _distance(straight_mi, straight_mi * rule.factor, "factor", note, rule.cell, at_home=_are_at_home(a, b))


def road_miles_columns(
    origin: Place, destinations: PlaceColumns, rules: Sequence[FactorRule], *, lanes: LaneTable | None = None
) -> NDArray[np.float64]:
    """Return road miles from one origin to many destinations, not rounded; NaN where there is no rule.

    The same figures as `road_distance`, lane by lane; whole miles come from `whole_miles`.
    """
    straight_mi = great_circle_mi_columns(
        latitude_a=origin.latitude,
        longitude_a=origin.longitude,
        latitude_b=destinations.latitude,
        longitude_b=destinations.longitude,
    )
    road_mi = np.full(straight_mi.shape, np.nan)
    ranked = sorted(rules, key=attrgetter("rank"))[::-1]  # farthest first: closer rules write over it
    for rule in (rule for rule in ranked if closeness(rule) < STATE):
        _write_over(road_mi, rule, origin, destinations, straight_mi)
    if lanes is not None:
        factors = _lane_factors(lanes, origin, destinations)
        road_mi = np.where(np.isnan(factors), road_mi, straight_mi * factors)
    for rule in (rule for rule in ranked if closeness(rule) >= STATE):
        _write_over(road_mi, rule, origin, destinations, straight_mi)
    return road_mi


def whole_miles(road_mi: NDArray[np.float64]) -> NDArray[np.int64]:
    """Return miles as they are charged: whole, half a mile up."""
    return np.floor(road_mi + 0.5).astype(np.int64)


def _are_at_home(a: Place, b: Place) -> bool:
    """Whether both places are in the United States, where road miles were held to published ones."""
    return a.country == b.country == "US"


def _distance(
    straight_mi: float, road_mi: float, method: str, note: str, cell: str | None = None, *, at_home: bool = False
) -> RoadDistance:
    """Return the answer; a road shorter than the straight line is said to be."""
    expected = expected_error(method, straight_mi) if at_home else None
    if expected is not None:
        note += f"; {expectation(expected)}"
    if road_mi < straight_mi - 0.5:
        note += f"; that is shorter than the straight line of {straight_mi:,.0f} miles, so check the row"
    factor = road_mi / straight_mi if straight_mi else 1.0
    return RoadDistance(straight_mi, road_mi, math.floor(road_mi + 0.5), factor, method, note, cell, expected)


def _are_in(told: str | None, places: PlaceColumns) -> NDArray[np.bool_]:
    """Return for each place of the columns whether it is what one side of a rule tells, as `names_of` has it for one."""
    told = compared(told)
    if not told:
        return np.ones(places.country.shape, dtype=np.bool_)
    kind = side(told)
    if kind == COUNTRY:
        return np.asarray(places.country == told)
    if kind == STATE:
        country, _, subdivision = told.partition("-")
        return np.asarray((places.country == country) & (places.subdivision == subdivision))
    return np.char.startswith(np.char.upper(places.postal_code), told)


def _write_over(
    road_mi: NDArray[np.float64],
    rule: FactorRule,
    origin: Place,
    destinations: PlaceColumns,
    straight_mi: NDArray[np.float64],
) -> None:
    """Write the rule's miles into the lanes that it matches."""
    matches = np.zeros(straight_mi.shape, dtype=np.bool_)
    here_too = names_of(origin.country, origin.subdivision, origin.postal_code)
    for here, there in (rule.sides, rule.sides[::-1]):
        if here in here_too:
            matches |= _are_in(there, destinations)
    if rule.over_mi is not None:
        matches &= straight_mi > rule.over_mi
    if rule.up_to_mi is not None:
        matches &= straight_mi <= rule.up_to_mi
    if rule.road_mi is not None:
        road_mi[matches] = rule.road_mi
    elif rule.factor is not None:
        road_mi[matches] = straight_mi[matches] * rule.factor


def _lane_factors(lanes: LaneTable, origin: Place, destinations: PlaceColumns) -> NDArray[np.float64]:
    """Return the table's factors from the origin to each destination."""
    return lanes.factors(
        latitude_a=np.full(destinations.latitude.shape, origin.latitude),
        longitude_a=np.full(destinations.latitude.shape, origin.longitude),
        latitude_b=destinations.latitude,
        longitude_b=destinations.longitude,
    )


def _told(place: Place) -> str:
    """Return a place as the message names it."""
    return f"{place.name}, {place.subdivision or place.country}"


def _cited(rule: FactorRule) -> str:
    """Return the rule's source in brackets, "" where it has none."""
    return f" ({rule.source})" if rule.source else ""
