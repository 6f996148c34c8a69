"""Which ways overseas the buyer is shown and which one is recommended; `protection` is the shelter at sea and on the road."""

from collections.abc import Iterator, Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from shipcalc.money import Int64, decimals, with_code
from shipcalc.pricing.loads import Mode
from shipcalc.quote.choose.home_choices import is_low
from shipcalc.quote.choose.unbeaten import Compared, Group, Shown
from shipcalc.quote.choose.unbeaten import shown as shown_ways
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.trucks import trailer_of
from shipcalc.quote.price.sums import Sums
from shipcalc.quote.time.days import Days
from shipcalc.ratebook.book import RateBook
from shipcalc.vehicles.vehicle import Vehicle

# How well a vehicle is sheltered on its way: at sea first, then on the road (our own order, no source).
AT_SEA = {"roro": 0, "shared container": 1, "container": 2, "truck": 2}
_CROSSED: tuple[tuple[Mode, str], ...] = (
    ("container", "in a container of its own"),
    ("roro", "by RoRo ship"),
    ("shared container", "in a shared container"),
    ("truck", "by road alone"),
)


def protection(network: Network, ways: Ways) -> Int64:
    """Return how well the vehicles are sheltered on every way: more is better."""
    at_sea = np.array([*(AT_SEA[crossing.load.mode] for crossing in network.crossings), AT_SEA["truck"]])
    return np.asarray(2 * at_sea[ways.crossing] + in_enclosed(network, ways), dtype=np.int64)


def choices(network: Network, ways: Ways, sums: Sums, days: Days, book: RateBook) -> tuple[Shown, ...]:
    """Return the ways to show, cheapest first, each with what it is good for."""
    in_danger = _in_danger(network, ways, book)
    around = [(~in_danger, "lowest price around dangerous waters")] if in_danger.any() and not in_danger.all() else []
    return shown_ways(compared(network, ways, sums, days, book), first=around, also=tuple(_by_mode(network, ways)))


def compared(network: Network, ways: Ways, sums: Sums, days: Days, book: RateBook) -> Compared:
    """Return what ways are compared by. What ends at a port counts with an estimate of the way on, which is in no price; a way
    around dangerous waters is the better protected of two.
    """
    return Compared(
        price=sums.together + beyond_the_port(network, ways, book),
        days=days.delivery.latest,
        protection=shelter(network, ways, book),
        kind=in_enclosed(network, ways),
        kinds=("open trucks", "enclosed trucks"),
        best="best sheltered",
        better="better sheltered",
    )


def shelter(network: Network, ways: Ways, book: RateBook) -> Int64:
    """Return what ways are compared by as their protection: a way around dangerous waters is the better one of two."""
    return np.asarray(2 * protection(network, ways) + ~_in_danger(network, ways, book), dtype=np.int64)


def _in_danger(network: Network, ways: Ways, book: RateBook) -> NDArray[np.bool_]:
    """Return for every way whether its ship takes a passage that the rate book sets a caution on."""
    names = {row.passage.casefold() for row in book.passages if row.state == "caution"}
    lanes = [not names.isdisjoint(taken) for crossing in network.crossings for taken in crossing.passages]
    return np.array([*lanes, False], dtype=np.bool_)[ways.sea_lane]


def beyond_the_port(network: Network, ways: Ways, book: RateBook) -> Int64:
    """Return what the way on from a port where the price ends may cost (w,), in minor units: its miles at the book's dearest rate
    for a mile of carriage abroad. For the order of choices alone.
    """
    dearest_e4 = _dearest_e4(book)
    onward = np.array([*(port.onward_mi for port in network.arrivals.ports), 0], dtype=np.int64)
    per_mile_minor = dearest_e4 * 10 ** decimals(book.pricing.currency) // 10_000
    return np.asarray(onward[ways.arrival] * per_mile_minor, dtype=np.int64)


@lru_cache(maxsize=8)
def _dearest_e4(book: RateBook) -> int:
    return max((row.rate_e4 for row in book.on_carriage), default=0)


def in_enclosed(network: Network, ways: Ways) -> Int64:
    """Return for every way whether its truck is enclosed: 1 or 0."""
    enclosed = [trailer_of(service) == "enclosed" for service in network.services]
    return np.array(enclosed, dtype=np.int64)[ways.truck]


def _by_mode(network: Network, ways: Ways) -> Iterator[Group]:
    modes = np.array([*(crossing.load.mode for crossing in network.crossings), "truck"])[ways.crossing]
    for mode, what in _CROSSED:
        yield modes == mode, f"lowest price {what}"


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
