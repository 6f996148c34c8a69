"""Prices in hand among the choices: each stands beside what would be shown without it, and is recommended only where it may be.

A carrier gave the price for this one shipment, so it is surer than a rate; but what the rate book does not know of a carrier, its
cover, its papers and its limits, nobody has looked at. So a price in hand of a carrier that has a row competes with the others,
and that it is one is said; one of any other carrier is shown, and left to whoever has seen its papers.
"""

from collections.abc import Sequence

import numpy as np

from shipcalc.distinct import distinct
from shipcalc.money import Int64
from shipcalc.quote.choose.unbeaten import MOST_CHOICES, Compared, Group, Shown, shown
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.price.paid import Sums
from shipcalc.records import replace

IN_HAND = "a price in hand"
NOT_SEEN = "A price in hand is lower, but its carrier's papers and cover have not been seen yet."
NOTHING_ELSE = "Nothing else goes there; the papers and the cover of its carrier have not been seen yet."
BOOK_IT = "It is a price in hand for this shipment: book it while it holds."


def spots_of(network: Network, ways: Ways) -> Int64:
    """Return for every way which price in hand its truck goes at, -1 for one at a carrier's rates."""
    numbers = [service.spot.number if service.spot else -1 for service in network.services]
    return np.array(numbers, dtype=np.int64)[ways.truck]


def with_prices_in_hand(
    among: Compared, spots: Int64, *, first: Sequence[Group], also: Sequence[Group]
) -> tuple[Shown, ...]:
    """Return what would be shown without a price in hand and the cheapest way at each, cheapest first, at most six."""
    held = [int(own[np.argmin(among.price[own])]) for own in _of_each(spots)]
    rest = np.flatnonzero(spots < 0)
    without = _shown_of(among, rest, first, also, MOST_CHOICES - len(held)) if len(rest) else ()
    lowest = min((int(among.price[one.way]) for one in without), default=None)
    best = sorted(
        (way for way in held if lowest is None or among.price[way] < lowest), key=lambda way: int(among.price[way])
    )
    told = [*(_otherwise(one) if best else one for one in without), *(_told(way, best) for way in held)]
    return tuple(sorted(told, key=lambda one: (int(among.price[one.way]), one.way)))


def _of_each(spots: Int64) -> list[Int64]:
    return [np.flatnonzero(spots == number) for number in distinct(spots[spots >= 0])]


def _shown_of(
    among: Compared, which: Int64, first: Sequence[Group], also: Sequence[Group], most: int
) -> tuple[Shown, ...]:
    """Return what is shown of some of the ways."""
    own = replace(
        among,
        price=among.price[which],
        days=among.days[which],
        protection=among.protection[which],
        kind=among.kind[which],
    )
    groups = ([(mask[which], what) for mask, what in some] for some in (first, also))
    found = shown(own, first=next(groups), also=next(groups), most=most)
    return tuple(replace(one, way=int(which[one.way])) for one in found)


def _told(way: int, best: Sequence[int]) -> Shown:
    return Shown(way, (*(["lowest price"] if way in best[:1] else []), IN_HAND))


def _otherwise(one: Shown) -> Shown:
    return replace(
        one, good_for=tuple("lowest price otherwise" if what == "lowest price" else what for what in one.good_for)
    )


def may_be_recommended(network: Network, truck: int) -> bool:
    """Return whether a truck's carrier is known: at the rate book's rates, or at a price in hand of a carrier that it has."""
    spot = network.services[truck].spot
    return spot is None or spot.known


def told_of_prices_in_hand(
    shown: Sequence[Shown], best: int, reason: str, network: Network, ways: Ways, sums: Sums
) -> str:
    """Return the reason for a choice with what a price in hand has to do with it."""
    trucks = [network.services[int(ways.truck[one.way])] for one in shown]
    spot = trucks[best].spot
    if spot is not None:
        return f"{reason} {BOOK_IT if spot.known else NOTHING_ELSE}"
    price = [int(sums.together[one.way]) for one in shown]
    lower = any(
        truck.spot is not None and not truck.spot.known and price[n] < price[best] for n, truck in enumerate(trucks)
    )
    return f"{reason} {NOT_SEEN}" if lower else reason
