"""The best way of each kind of trailer for each of some vehicles, and how ways are compared in bulk."""

from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from shipcalc.money import Int64
from shipcalc.records import dataclass, fields

Number = TypeVar("Number", np.int64, np.bool_)

NO_WAY = np.iinfo(np.int64).max
# A way is compared by price, then by the day it is there, then by its shelter: all three in one number.
_DAYS, _SHELTERS = 1 << 12, 1 << 5


@dataclass(frozen=True, slots=True, eq=False)
class Best:
    """Columns (n, trailers); `rank` is NO_WAY where there is none. A way by road alone has -1 for its sea lane.

    Amounts in minor units; days count from the day that `rank` was given.
    """

    rank: Int64
    total: Int64
    locally: Int64
    truck: Int64
    sea_lane: Int64
    days_from: Int64
    days_to: Int64


def rank_of(price: Int64, days_to: Int64, shelter: Int64) -> Int64:
    """Return a number that is lower for what a quote shows first: by price, then by day, then by shelter."""
    assert days_to.max(initial=0) < _DAYS, "nothing travels for ten years"
    assert shelter.max(initial=0) < _SHELTERS, "there are fewer kinds of shelter"
    return (price * _DAYS + days_to) * _SHELTERS + (_SHELTERS - 1 - shelter)


def nothing_found(shape: tuple[int, int]) -> Best:
    """Return columns without a way, to be filled in."""
    rank, *others = (np.full(shape, fill, dtype=np.int64) for fill in (NO_WAY, -1, 0, -1, -1, -1, -1))
    return Best(rank, *others)


def better_of(one: Best, other: Best) -> Best:
    """Return the better of two ways in every cell; where they are equal the first."""
    wins = one.rank <= other.rank
    names = [each.name for each in fields(Best)]
    return Best(*(np.where(wins, getattr(one, name), getattr(other, name)) for name in names))


def lowest(rank: Int64, trailer: Int64, trailers: int) -> Int64:
    """Return the lowest rank of each kind of trailer (n, trailers) among ways (n, k)."""
    found = [rank[:, trailer == number].min(axis=1, initial=NO_WAY) for number in range(trailers)]
    return np.stack(found, axis=1)


def all_rows(rows: Int64, count: int) -> bool:
    """Return whether positions name all of so many rows, in order."""
    return len(rows) == count


def taken(table: NDArray[Number], rows: Int64, columns: Int64) -> NDArray[Number]:
    """Return some rows and columns of a table; all rows where as many are named as there are."""
    own = table if all_rows(rows, len(table)) else table[rows]
    return own[:, columns]
