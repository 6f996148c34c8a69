"""Road miles: the straight line × a road factor, the closest matching rule of the sheet *Road factors* first.

A rule matches a lane in both directions. The closest match counts:

    road miles given > ZIP pair > ZIP > state pair > state and country > state > country pair > country > blank

(the longer of two ZIP beginnings; then the narrower distance band; then the upper row). Between the sheet's rows for ZIPs and
states and its rows for countries stands a table of lane factors, where one is given. There is no factor of last resort: a
lane without a rule is not given a distance.
"""

import math
from collections.abc import Mapping, Sequence
from functools import cached_property, lru_cache
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from shipcalc.errors import NoAnswer
from shipcalc.places.place import Place
from shipcalc.places.road.expected import expectation, expected_error
from shipcalc.places.straight import great_circle_mi, great_circle_mi_columns
from shipcalc.records import dataclass, put

# How close a side of a rule is; a ZIP counts more for each of its figures. Sums of two sides keep the order above.
_COUNTRY, _STATE, _ZIP, _ROAD_MILES = 1, 3, 10, 1000
_STATE_AT_LEAST = _STATE


@dataclass(frozen=True, slots=True, kw_only=True)
class FactorRule:
    """One row of the sheet: `factor`, or the miles of a known lane (`road_mi`), between two places.

    A place is a country ("US"), a state ("US-WA"), a ZIP or its beginning ("98225", "982"), or None for any. The rule holds
    where the straight line is longer than `over_mi` and up to `up_to_mi` (None: no bound). `sides` and `rank` are worked out
    from these, because a lane is held against every rule.
    """

    from_place: str | None
    to_place: str | None
    over_mi: float | None = None
    up_to_mi: float | None = None
    factor: float | None = None
    road_mi: float | None = None
    cell: str | None = None
    source: str = ""
    sides: tuple[str, str] = ("", "")  # both are worked out from the others
    rank: tuple[float, float] = (0.0, 0.0)

    def __post_init__(self) -> None:
        """Work out both sides as they are compared, and the rule's place in the order of rules."""
        put(self, "sides", (_compared(self.from_place), _compared(self.to_place)))
        put(self, "rank", _rank(self))


class FactorRules(tuple[FactorRule, ...]):
    """The rows of a sheet, for many questions: a lane is held only against the rules of its two ends."""

    @cached_property
    def by_sides(self) -> Mapping[str, Mapping[str, Sequence[tuple[int, FactorRule]]]]:
        """Return the rules by one side and the other, either way round, each with its place in the order of rules."""
        found: dict[str, dict[str, list[tuple[int, FactorRule]]]] = {}
        for ranked in enumerate(sorted(self, key=_ranked)):
            one, other = ranked[1].sides
            found.setdefault(one, {}).setdefault(other, []).append(ranked)
            if one != other:
                found.setdefault(other, {}).setdefault(one, []).append(ranked)
        return found


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
    rule = _closest(rules, a, b, straight_mi)
    closeness = -rule.rank[0] if rule else 0
    if lanes is not None and closeness < _STATE_AT_LEAST:
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
    ranked = sorted(rules, key=_ranked)[::-1]  # farthest first: closer rules write over it
    for rule in (rule for rule in ranked if _closeness(rule) < _STATE_AT_LEAST):
        _write_over(road_mi, rule, origin, destinations, straight_mi)
    if lanes is not None:
        factors = _lane_factors(lanes, origin, destinations)
        road_mi = np.where(np.isnan(factors), road_mi, straight_mi * factors)
    for rule in (rule for rule in ranked if _closeness(rule) >= _STATE_AT_LEAST):
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


def _closest(rules: Sequence[FactorRule], a: Place, b: Place, straight_mi: float) -> FactorRule | None:
    """Return the closest of the rules that match, in either direction; the upper row among equals."""
    by_sides = (rules if isinstance(rules, FactorRules) else FactorRules(rules)).by_sides
    there = _names(b.country, b.subdivision, b.postal_code)
    closest, before = None, math.inf
    for one in _names(a.country, a.subdivision, a.postal_code):
        others = by_sides.get(one)
        if others is None:
            continue
        for other in there:
            if other in others:
                for number, rule in others[other]:
                    if number < before and _says_something(rule) and _holds_at(rule, straight_mi):
                        closest, before = rule, number
    return closest


def _says_something(rule: FactorRule) -> bool:
    """Whether a row has a factor or miles: one without stands for nothing."""
    return rule.factor is not None or rule.road_mi is not None


def _ranked(rule: FactorRule) -> tuple[float, float]:
    """Return a rule's place in the order of rules."""
    return rule.rank


def _rank(rule: FactorRule) -> tuple[float, float]:
    """Return the order of rules: closeness, then the width of the distance band; the smallest comes first."""
    return -_closeness(rule), (rule.up_to_mi if rule.up_to_mi is not None else math.inf) - (rule.over_mi or 0.0)


def _closeness(rule: FactorRule) -> int:
    """Return how close a rule is to a lane."""
    sides = _side(rule.from_place) + _side(rule.to_place)
    return sides + (_ROAD_MILES if rule.road_mi is not None else 0)


def _side(place: str | None) -> int:
    """Return how closely one side of a rule is told."""
    place = (place or "").strip()
    if not place:
        return 0
    if place[:2].isalpha() and (len(place) == 2 or place[2:3] == "-"):
        return _STATE if "-" in place else _COUNTRY
    return _ZIP + len(place)


def _holds_at(rule: FactorRule, straight_mi: float) -> bool:
    """Whether the straight line lies in the rule's band: over the first bound, up to the second."""
    return (rule.over_mi is None or straight_mi > rule.over_mi) and (
        rule.up_to_mi is None or straight_mi <= rule.up_to_mi
    )


def _compared(told: str | None) -> str:
    """Return what one side of a rule tells, as it is compared: letter case does not count; "" is anywhere."""
    return (told or "").strip().upper()


@lru_cache(maxsize=10_000)
def _names(country: str, subdivision: str, postal_code: str) -> frozenset[str]:
    """Return everything that a side of a rule may tell of a place: anywhere, country, state, and its ZIP's beginnings."""
    postal_code = postal_code.upper()
    beginnings = (postal_code[:count] for count in range(1, len(postal_code) + 1))
    zips = (beginning.strip() for beginning in beginnings if _side(beginning) > _STATE)
    return frozenset(("", country, f"{country}-{subdivision}", *zips))


def _are_in(told: str | None, places: PlaceColumns) -> NDArray[np.bool_]:
    """Return for each place of the columns whether it is what one side of a rule tells, as `_names` has it for one."""
    told = _compared(told)
    if not told:
        return np.ones(places.country.shape, dtype=np.bool_)
    kind = _side(told)
    if kind == _COUNTRY:
        return np.asarray(places.country == told)
    if kind == _STATE:
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
    here_too = _names(origin.country, origin.subdivision, origin.postal_code)
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
