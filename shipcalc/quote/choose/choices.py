"""Which ways the buyer is shown and which one is recommended.

`protection` is what a carrier's cover reaches where trucks are compared with trucks, else the shelter at sea and on the road.
"""

from collections.abc import Iterator, Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from shipcalc.money import Int64, decimals, with_code
from shipcalc.quote.choose.unbeaten import Compared, Group, Shown
from shipcalc.quote.choose.unbeaten import shown as shown_ways
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.trucks import find_trailer, is_low
from shipcalc.quote.price.paid import Sums
from shipcalc.quote.time.dated import Days
from shipcalc.ratebook.book import RateBook
from shipcalc.trade import CROSSINGS, Trailer
from shipcalc.vehicles.vehicle import Vehicle

TRAILERS: tuple[Trailer | None, ...] = ("open", "enclosed", None)
BY_DRIVER = "driven by a hired driver"


def choices(
    network: Network, ways: Ways, sums: Sums, days: Days, vehicles: Sequence[Vehicle], book: RateBook
) -> tuple[Shown, ...]:
    """Return the ways to show, cheapest first, each with what it is good for. Of equals the first stays: same question, same
    answer.
    """
    among = compared(network, ways, sums, days, book)
    if network.at_home:
        # What is recommended below is among those that are shown.
        enough = _well_covered(network, ways, vehicles, book)
        return _shown(network, ways, among, first=((enough, "lowest price that covers the value"),))
    in_danger = _in_danger(network, ways, book)
    around = [(~in_danger, "lowest price around dangerous waters")] if in_danger.any() and not in_danger.all() else []
    return _shown(network, ways, among, first=around, also=tuple(_by_mode(network, ways)))


def _shown(
    network: Network, ways: Ways, among: Compared, *, first: Sequence[Group], also: Sequence[Group] = ()
) -> tuple[Shown, ...]:
    if not _has_spot(network):
        return shown_ways(among, first=first, also=also)
    from shipcalc.quote.choose.in_hand import spots_of, with_prices_in_hand  # late: few quotes have one

    return with_prices_in_hand(among, spots_of(network, ways), first=first, also=also)


def _has_spot(network: Network) -> bool:
    return any(service.spot is not None for service in network.services)


def compared(network: Network, ways: Ways, sums: Sums, days: Days, book: RateBook) -> Compared:
    """Return what ways are compared by. What ends at a port counts with an estimate of the way on, which is in no price; a way
    around dangerous waters is the better protected of two.
    """
    kind = np.array([TRAILERS.index(find_trailer(s)) for s in network.services], dtype=np.int64)[ways.truck]
    if network.at_home:
        return Compared(
            price=sums.together,
            days=days.delivery.latest,
            protection=truck_cover(network, ways),
            kind=kind,
            kinds=tuple(f"{trailer} trailer" if trailer else BY_DRIVER for trailer in TRAILERS),
            best="most cover",
            better="more cover",
        )
    return Compared(
        price=sums.together + beyond_the_port(network, ways, book),
        days=days.delivery.latest,
        protection=shelter(network, ways, book),
        kind=kind,
        kinds=("open trucks", "enclosed trucks", BY_DRIVER),
        best="best sheltered",
        better="better sheltered",
    )


def truck_cover(network: Network, ways: Ways) -> Int64:
    """Return up to which sum the truck of every way covers a vehicle, in minor units."""
    return np.array([service.row.cover_minor for service in network.services], dtype=np.int64)[ways.truck]


def protection(network: Network, ways: Ways) -> Int64:
    """Return how well the vehicles are sheltered on every way: more is better."""
    sheltered = {crossing.mode: crossing.shelter for crossing in CROSSINGS}
    longest = np.array([*(sheltered[crossing.load.mode] for crossing in network.crossings), sheltered["truck"]])
    return np.asarray(2 * longest[ways.crossing] + in_enclosed(network, ways), dtype=np.int64)


def shelter(network: Network, ways: Ways, book: RateBook) -> Int64:
    """Return what ways are compared by as their protection: a way around dangerous waters is the better one of two."""
    return np.asarray(2 * protection(network, ways) + ~_in_danger(network, ways, book), dtype=np.int64)


def _well_covered(network: Network, ways: Ways, vehicles: Sequence[Vehicle], book: RateBook) -> NDArray[np.bool_]:
    """Return which ways may be recommended: covered up to the value, enclosed where that is due, on a truck if there is one."""
    trailers = np.array([find_trailer(service) or "" for service in network.services])[ways.truck]
    enough = truck_cover(network, ways) >= dearest(vehicles)
    if next(_reasons_for_enclosed(vehicles, book), None):
        enough &= trailers == "enclosed"
    if (trailers != "").any():
        enough &= trailers != ""
    return np.asarray(enough, dtype=np.bool_)


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
    # Late: a quote at home compares no ports.
    from shipcalc.ratebook.rows.on_carriage import is_for_the_country

    return max((row.rate_e4 for row in book.on_carriage if is_for_the_country(row)), default=0)


def in_enclosed(network: Network, ways: Ways) -> Int64:
    """Return for every way whether its truck is enclosed: 1 or 0."""
    enclosed = [find_trailer(service) == "enclosed" for service in network.services]
    return np.array(enclosed, dtype=np.int64)[ways.truck]


def _by_mode(network: Network, ways: Ways) -> Iterator[Group]:
    modes = np.array([*(crossing.load.mode for crossing in network.crossings), "truck"])[ways.crossing]
    for crossing in CROSSINGS:
        yield modes == crossing.mode, f"lowest price {crossing.told}"


def recommended(
    shown: Sequence[Shown], network: Network, ways: Ways, sums: Sums, vehicles: Sequence[Vehicle], book: RateBook
) -> tuple[int, str]:
    """Return the index of the choice to recommend, and the reason as a sentence.

    A driven delivery is recommended only where no truck can take it: it wears the vehicle, and leaves it in the traffic.
    """
    trailers = [find_trailer(network.services[int(ways.truck[choice.way])]) for choice in shown]
    on_trucks = [index for index, trailer in enumerate(trailers) if trailer]
    among = on_trucks or list(range(len(shown)))
    if _has_spot(network):
        from shipcalc.quote.choose.in_hand import (
            may_be_recommended,
            told_of_prices_in_hand,
        )  # late: few quotes have one

        known = [index for index in among if may_be_recommended(network, int(ways.truck[shown[index].way]))]
        index, reason = _best_of(known or among, trailers, shown, network, ways, vehicles, book)
        return index, told_of_prices_in_hand(shown, index, reason, network, ways, sums)
    index, reason = _best_of(among, trailers, shown, network, ways, vehicles, book)
    if len(among) < len(shown):
        total = {number: int(sums.together[choice.way]) for number, choice in enumerate(shown)}
        if min(total[number] for number in total if number not in among) < total[index]:
            reason = f"{reason} Having it driven would cost less, but puts the miles on its odometer."
    return index, reason


def _best_of(
    among: Sequence[int],
    trailers: Sequence[Trailer | None],
    shown: Sequence[Shown],
    network: Network,
    ways: Ways,
    vehicles: Sequence[Vehicle],
    book: RateBook,
) -> tuple[int, str]:
    """Return the best of some choices: in an enclosed trailer where that is due, else at the lowest price with enough cover."""
    needed, currency = dearest(vehicles), book.pricing.currency
    cover = truck_cover(network, ways)
    reaches = [index for index in among if not network.at_home or cover[shown[index].way] >= needed]
    for reason in _reasons_for_enclosed(vehicles, book):
        enclosed = [index for index in reaches if trailers[index] == "enclosed"]
        if enclosed:
            told = (
                f"Enclosed, because {reason}"
                if network.at_home
                else f"The lowest price in enclosed trucks, because {reason}"
            )
            return enclosed[0], told
    if not network.at_home:
        return among[0], "The lowest price overall, counting what you pay to others."
    value = with_code(needed, currency)
    if not reaches:
        best = max(among, key=lambda index: cover[shown[index].way])
        return best, (
            f"No carrier's own cover reaches the value of {value}; this one comes closest, "
            "and the rest is covered for an extra charge."
        )
    if reaches[0] > among[0]:
        return reaches[0], f"The lowest price among the carriers whose cover reaches the value of {value}."
    if needed:
        return reaches[0], f"The lowest price, and its cover reaches the value of {value}."
    return reaches[0], "The lowest price. The value is not known, so ask what cover is wanted."


def dearest(vehicles: Sequence[Vehicle]) -> int:
    """Return the highest value among vehicles, in minor units; 0 where none is known."""
    return max((vehicle.value_minor or 0 for vehicle in vehicles), default=0)


def _reasons_for_enclosed(vehicles: Sequence[Vehicle], book: RateBook) -> Iterator[str]:
    """Yield why the vehicles should not travel in the open, as the end of a sentence."""
    threshold = book.pricing.enclosed_from_minor
    if threshold is not None and dearest(vehicles) >= threshold:
        yield f"a vehicle worth {with_code(threshold, book.pricing.currency)} or more should not travel in the open."
    if any(is_low(vehicle) for vehicle in vehicles):
        yield "the vehicle sits too low for an open trailer's ramps."
