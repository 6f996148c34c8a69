"""How far quotes were from what was paid: bias, spread and the share under cost, of all and by what they have in common."""

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from itertools import pairwise
from statistics import median

from shipcalc.learning.compared import Compared
from shipcalc.records import dataclass

# Miles up to which a band of distances goes.
BANDS_MI = (250, 500, 1000, 1500, 2000)
NORMAL_SCALE = 1.4826


@dataclass(frozen=True, slots=True, kw_only=True)
class Accuracy:
    """A group of quotes. `bias` is the median of what was paid above what was reckoned, `spread` how far single ones scatter
    about it (1.4826 × the median of the distances: the standard deviation, if they were normal, which wild ones do not move);
    both are shares, 0.05 for 5 %, and a single quote has no spread. `under_cost` is the share sold for less than was paid.
    """

    by: str
    name: str
    count: int
    bias: float
    spread: float | None
    under_cost: float
    reckoned_minor: int
    sold_minor: int
    paid_minor: int


def accuracy(by: str, name: str, group: Sequence[Compared]) -> Accuracy:
    """Return how far a group of quotes, which is not empty, was from what was paid."""
    off = [one.ratio - 1 for one in group]
    bias = median(off)
    return Accuracy(
        by=by,
        name=name,
        count=len(group),
        bias=bias,
        spread=NORMAL_SCALE * median(abs(one - bias) for one in off) if len(off) > 1 else None,
        under_cost=sum(one.sold_minor < one.paid_minor for one in group) / len(group),
        reckoned_minor=sum(one.reckoned_minor for one in group),
        sold_minor=sum(one.sold_minor for one in group),
        paid_minor=sum(one.paid_minor for one in group),
    )


def grouped(by: str, name_of: Callable[[Compared], str], quotes: Sequence[Compared]) -> tuple[Accuracy, ...]:
    """Return the groups of quotes that have a name in common, in the order of `ORDERS`, else the largest first."""
    groups: dict[str, list[Compared]] = {}
    for one in quotes:
        groups.setdefault(name_of(one), []).append(one)
    found = [accuracy(by, name, group) for name, group in groups.items()]
    order = ORDERS.get(by)
    if order is not None:
        return tuple(sorted(found, key=lambda group: order(group.name)))
    return tuple(sorted(found, key=lambda group: (-group.count, group.name)))


def band_of(miles: int) -> str:
    """Return the band that a distance lies in: 250 miles in the first, 251 in the second."""
    reached = next((number for number, most in enumerate(BANDS_MI) if miles <= most), len(BANDS_MI))
    return BAND_NAMES[reached]


def season_of(day: date) -> str:
    """Return the quarter of a year that a day lies in: "2026, April to June"."""
    return f"{day.year}, {QUARTERS[(day.month - 1) // 3]}"


def _when(season: str) -> int:
    """Return the quarter's number, counted through the years."""
    year, _, quarter = season.partition(", ")
    return 4 * int(year) + QUARTERS.index(quarter)


QUARTERS = ("January to March", "April to June", "July to September", "October to December")
BAND_NAMES = (
    f"up to {BANDS_MI[0]:,} mi",
    *(f"{low + 1:,} to {high:,} mi" for low, high in pairwise(BANDS_MI)),
    f"over {BANDS_MI[-1]:,} mi",
)
ORDERS: Mapping[str, Callable[[str], int]] = {"distance": BAND_NAMES.index, "season": _when}
GROUPS: tuple[tuple[str, Callable[[Compared], str]], ...] = (
    ("distance", lambda one: band_of(one.miles)),
    ("carrier", lambda one: one.carrier),
    ("lane", lambda one: one.lane),
    ("way", lambda one: one.way),
    ("season", lambda one: season_of(one.day)),
)
