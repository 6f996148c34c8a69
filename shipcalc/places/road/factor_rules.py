"""The rules of the sheet *Road factors*, and which of them is the closest to a lane.

A rule matches a lane in both directions. The closest match counts:

    road miles given > ZIP pair > ZIP > state pair > state and country > state > country pair > country > blank

(the longer of two ZIP beginnings; then the narrower distance band; then the upper row). Between the sheet's rows for ZIPs and
states and its rows for countries stands a table of lane factors, where one is given (`road/miles.py`).
"""

import math
from collections.abc import Mapping, Sequence
from functools import cached_property, lru_cache
from operator import attrgetter

from shipcalc.places.place import Place
from shipcalc.records import dataclass, put

# How close a side of a rule is; a ZIP counts more for each of its figures. Sums of two sides keep the order above.
COUNTRY, STATE, _ZIP, _ROAD_MILES = 1, 3, 10, 1000


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
        put(self, "sides", (compared(self.from_place), compared(self.to_place)))
        put(self, "rank", _rank(self))


class FactorRules(tuple[FactorRule, ...]):
    """The rows of a sheet, for many questions: a lane is held only against the rules of its two ends."""

    @cached_property
    def by_sides(self) -> Mapping[str, Mapping[str, Sequence[tuple[int, FactorRule]]]]:
        """Return the rules by one side and the other, either way round, each with its place in the order of rules."""
        found: dict[str, dict[str, list[tuple[int, FactorRule]]]] = {}
        for ranked in enumerate(sorted(self, key=attrgetter("rank"))):
            one, other = ranked[1].sides
            found.setdefault(one, {}).setdefault(other, []).append(ranked)
            if one != other:
                found.setdefault(other, {}).setdefault(one, []).append(ranked)
        return found


def closest_rule(rules: Sequence[FactorRule], a: Place, b: Place, straight_mi: float) -> FactorRule | None:
    """Return the closest of the rules that match, in either direction; the upper row among equals."""
    by_sides = (rules if isinstance(rules, FactorRules) else FactorRules(rules)).by_sides
    there = names_of(b.country, b.subdivision, b.postal_code)
    closest, before = None, math.inf
    for one in names_of(a.country, a.subdivision, a.postal_code):
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


def _rank(rule: FactorRule) -> tuple[float, float]:
    """Return the order of rules: closeness, then the width of the distance band; the smallest comes first."""
    return -closeness(rule), (rule.up_to_mi if rule.up_to_mi is not None else math.inf) - (rule.over_mi or 0.0)


def closeness(rule: FactorRule) -> int:
    """Return how close a rule is to a lane."""
    sides = side(rule.from_place) + side(rule.to_place)
    return sides + (_ROAD_MILES if rule.road_mi is not None else 0)


def side(place: str | None) -> int:
    """Return how closely one side of a rule is told."""
    place = (place or "").strip()
    if not place:
        return 0
    if place[:2].isalpha() and (len(place) == 2 or place[2:3] == "-"):
        return STATE if "-" in place else COUNTRY
    return _ZIP + len(place)


def _holds_at(rule: FactorRule, straight_mi: float) -> bool:
    """Whether the straight line lies in the rule's band: over the first bound, up to the second."""
    return (rule.over_mi is None or straight_mi > rule.over_mi) and (
        rule.up_to_mi is None or straight_mi <= rule.up_to_mi
    )


def compared(told: str | None) -> str:
    """Return what one side of a rule tells, as it is compared: letter case does not count; "" is anywhere."""
    return (told or "").strip().upper()


@lru_cache(maxsize=10_000)
def names_of(country: str, subdivision: str, postal_code: str) -> frozenset[str]:
    """Return everything that a side of a rule may tell of a place: anywhere, country, state, and its ZIP's beginnings."""
    postal_code = postal_code.upper()
    beginnings = (postal_code[:count] for count in range(1, len(postal_code) + 1))
    zips = (beginning.strip() for beginning in beginnings if side(beginning) > STATE)
    return frozenset(("", country, f"{country}-{subdivision}", *zips))
