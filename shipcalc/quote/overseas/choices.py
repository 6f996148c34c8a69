"""Which ways the buyer is shown: those that no other way beats in price, days and protection together, at most six."""

from collections.abc import Iterator, Sequence

import numpy as np

from shipcalc.money import Int64, with_code
from shipcalc.pricing.loads import Mode
from shipcalc.quote.candidates import trailer_of
from shipcalc.quote.choices import is_low
from shipcalc.quote.overseas.columns import Ways
from shipcalc.quote.overseas.days import Days
from shipcalc.quote.overseas.network import Network
from shipcalc.quote.overseas.sums import Sums
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass
from shipcalc.vehicles.vehicle import Vehicle

MOST_CHOICES = 6

# How well a vehicle is sheltered on its way: at sea first, then on the road (our own order, no source).
AT_SEA = {"roro": 0, "shared container": 1, "container": 2, "truck": 2}
_LEVELS = 2 * max(AT_SEA.values()) + 2


@dataclass(frozen=True, slots=True)
class Shown:
    """A way that is shown, by its position, and what it is good for."""

    way: int
    good_for: tuple[str, ...]


def protection(network: Network, ways: Ways) -> Int64:
    """Return how well the vehicles are sheltered on every way: more is better."""
    at_sea = np.array([*(AT_SEA[crossing.load.mode] for crossing in network.crossings), AT_SEA["truck"]])
    enclosed = np.array([trailer_of(service) == "enclosed" for service in network.services])
    return np.asarray(2 * at_sea[ways.crossing] + enclosed[ways.truck], dtype=np.int64)


def unbeaten(price: Int64, days: Int64, shelter: Int64) -> Int64:
    """Return the positions of the ways that no other equals or beats in price, days and shelter together, by price.

    Of ways that are equal in all three the first stays.
    """
    order = np.lexsort((np.arange(len(price)), -shelter, days, price))
    kept = np.ones(len(order), dtype=np.bool_)
    for level in range(_LEVELS):
        # The soonest among all cheaper ways that shelter at least as well.
        soonest = np.where(shelter[order] >= level, days[order], np.iinfo(np.int64).max)
        before = np.concatenate(([np.iinfo(np.int64).max], np.minimum.accumulate(soonest)[:-1]))
        kept &= (shelter[order] != level) | (before > days[order])
    return order[kept]


def choices(network: Network, ways: Ways, sums: Sums, days: Days) -> tuple[Shown, ...]:
    """Return the ways to show, cheapest first, each with what it is good for."""
    shelter = protection(network, ways)
    price, latest = sums.together, days.delivery.latest
    front = unbeaten(price, latest, shelter).tolist()
    good_for: dict[int, list[str]] = {}
    for way, what in _merits(network, ways, front, price, latest, shelter):
        if way in good_for or len(good_for) < MOST_CHOICES:
            good_for.setdefault(way, []).append(what)
    shown = sorted(good_for, key=lambda way: (price[way], latest[way]))
    return tuple(Shown(way, tuple(good_for[way])) for way in shown)


def _merits(
    network: Network, ways: Ways, front: Sequence[int], price: Int64, latest: Int64, shelter: Int64
) -> Iterator[tuple[int, str]]:
    """Yield (way, what is good about it) for the ways of the front, what matters most first."""
    yield front[0], "lowest price"
    yield min(front, key=lambda way: (latest[way], price[way])), "soonest"
    yield min(front, key=lambda way: (-shelter[way], price[way])), "best sheltered"
    for mode, what in (
        ("container", "lowest price in a container of its own"),
        ("roro", "lowest price driven aboard"),
        ("shared container", "lowest price in a shared container"),
        ("truck", "lowest price by road alone"),
    ):
        own = [way for way in front if mode_of(network, ways, way) == mode]
        if own and own[0] != front[0]:
            yield own[0], what
    enclosed = [way for way in front if shelter[way] % 2]
    if enclosed and enclosed[0] != front[0]:
        yield enclosed[0], "lowest price in enclosed trucks"


def mode_of(network: Network, ways: Ways, way: int) -> Mode:
    """Return how the vehicles cross: "roro", "container", "shared container", or "truck" by road alone."""
    crossing = int(ways.crossing[way])
    return network.crossings[crossing].load.mode if crossing >= 0 else "truck"


def recommended(
    shown: Sequence[Shown], network: Network, ways: Ways, vehicles: Sequence[Vehicle], book: RateBook
) -> tuple[int, str]:
    """Return the index of the choice to recommend, and the reason as a sentence."""
    shelter = protection(network, ways)
    threshold = book.pricing.enclosed_from_minor
    dearest = max((vehicle.value_minor or 0 for vehicle in vehicles), default=0)
    needs_shelter = threshold is not None and dearest >= threshold
    if needs_shelter or any(is_low(vehicle) for vehicle in vehicles):
        sheltered = [index for index, choice in enumerate(shown) if shelter[choice.way] % 2]
        if sheltered:
            value = with_code(threshold or 0, book.pricing.currency)
            reason = (
                f"The lowest price in enclosed trucks, because a vehicle worth {value} or more should not travel in the open."
                if needs_shelter
                else "The lowest price in enclosed trucks, because the vehicle sits too low for an open trailer's ramps."
            )
            return sheltered[0], reason
    return 0, "The lowest price of all ways, counting what you pay to others."
