"""Which ways a buyer is shown, at home and overseas: those that no other beats in price, days and protection together.

Only ways of one kind are compared with each other: who asks for an open trailer is not answered by an enclosed one at three
times the price that comes a day sooner. Of more than six, those stay that buyers ask for.
"""

from collections.abc import Iterator, Sequence

import numpy as np

from shipcalc.distinct import distinct
from shipcalc.money import Int64
from shipcalc.records import dataclass

MOST_CHOICES = 6


@dataclass(frozen=True, slots=True, eq=False)
class Compared:
    """All ways as columns (n,): price in minor units, day of delivery as an ordinal, protection (more is better), kind.

    `kind` is a position in `kinds`, which names each kind in words. `best` and `better` say what protection is: "most cover",
    "more cover".
    """

    price: Int64
    days: Int64
    protection: Int64
    kind: Int64
    kinds: tuple[str, ...]
    best: str
    better: str


@dataclass(frozen=True, slots=True)
class Shown:
    """A way that is shown, by its position, and what it is good for."""

    way: int
    good_for: tuple[str, ...]


# Ways from which the cheapest unbeaten one must be among those shown, and what that one is good for.
Group = tuple[np.ndarray, str]


def unbeaten(price: Int64, days: Int64, protection: Int64, kind: Int64) -> Int64:
    """Return the positions of the ways that no other of their kind equals or beats in all three, by price.

    Of ways that are equal in all three the first stays.
    """
    order = np.lexsort((np.arange(len(price)), -protection, days, price))
    kept = np.ones(len(order), dtype=np.bool_)
    never = np.iinfo(np.int64).max
    for own_kind in distinct(kind):
        for level in distinct(protection[kind == own_kind]):
            rivals = (kind[order] == own_kind) & (protection[order] >= level)
            # The soonest among all cheaper rivals.
            soonest = np.where(rivals, days[order], never)
            before = np.concatenate(([never], np.minimum.accumulate(soonest)[:-1]))
            own = rivals & (protection[order] == level)
            kept &= ~own | (before > days[order])
    return order[kept]


def shown(
    ways: Compared, *, first: Sequence[Group] = (), also: Sequence[Group] = (), most: int = MOST_CHOICES
) -> tuple[Shown, ...]:
    """Return the ways to show, cheapest first, each with what it is good for.

    Where more than `most` are unbeaten: the lowest price of each kind, of `first`, the soonest of each kind, the best protected,
    the lowest price of `also`, then the others by price.
    """
    front = unbeaten(ways.price, ways.days, ways.protection, ways.kind).tolist()
    good_for: dict[int, list[str]] = {}
    for way, what in _merits(ways, front, first, also):
        if way in good_for or len(good_for) < most:
            good_for.setdefault(way, []).append(what)
    others = [way for way in front if way not in good_for][: most - len(good_for)]
    lowest = {int(ways.kind[own[0]]): own[0] for own in _by_kind(ways, front)}
    for way in others:
        sooner = ways.days[way] < ways.days[lowest[int(ways.kind[way])]]
        good_for[way] = [f"{'sooner' if sooner else ways.better} than at the lowest price"]
    return tuple(Shown(way, tuple(good_for[way])) for way in front if way in good_for)


def _merits(
    ways: Compared, front: Sequence[int], first: Sequence[Group], also: Sequence[Group]
) -> Iterator[tuple[int, str]]:
    """Yield (way, what is good about it) for the ways of the front, what matters most first."""
    by_kind = _by_kind(ways, front)
    soonest = [min(own, key=lambda way: (ways.days[way], ways.price[way])) for own in by_kind]
    yield from _best_of_each([own[0] for own in by_kind], "lowest price", ways)
    yield from _cheapest(front, first)
    yield from _best_of_each(sorted(soonest, key=lambda way: (ways.days[way], ways.price[way])), "soonest", ways)
    yield min(front, key=lambda way: (-ways.protection[way], ways.price[way])), ways.best
    yield from _cheapest(front, also)


def _by_kind(ways: Compared, front: Sequence[int]) -> list[list[int]]:
    """Return the unbeaten ways of each kind, by price; the kind with the lowest price first."""
    kinds: dict[int, list[int]] = {}
    for way in front:
        kinds.setdefault(int(ways.kind[way]), []).append(way)
    return list(kinds.values())


def _best_of_each(best: Sequence[int], what: str, ways: Compared) -> Iterator[tuple[int, str]]:
    """Yield the best way of each kind, the best of all without its kind."""
    for place, way in enumerate(best):
        yield way, f"{what}, {ways.kinds[int(ways.kind[way])]}" if place else what


def _cheapest(front: Sequence[int], groups: Sequence[Group]) -> Iterator[tuple[int, str]]:
    for mask, what in groups:
        way = next((way for way in front if mask[way]), None)
        if way is not None and way != front[0]:
            yield way, what
