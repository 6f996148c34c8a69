"""Which candidates the buyer is shown, what each is good for, and which one is recommended."""

from collections.abc import Sequence

import numpy as np

from shipcalc.money import with_code
from shipcalc.quote.choose.unbeaten import Compared
from shipcalc.quote.choose.unbeaten import shown as shown_ways
from shipcalc.quote.model import Trailer
from shipcalc.quote.network.trucks import Candidate, find_trailer
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass
from shipcalc.vehicles.vehicle import Vehicle

# Below this a low car scrapes on an open trailer's ramps (common practice, no source).
LOW_CLEARANCE_MM = 114
TRAILERS: tuple[Trailer | None, ...] = ("open", "enclosed", None)
BY_DRIVER = "driven by a hired driver"


@dataclass(frozen=True, slots=True)
class Choice:
    """A candidate that is shown, and what it is good for."""

    candidate: Candidate
    good_for: tuple[str, ...]

    @property
    def trailer(self) -> Trailer | None:
        """Return the kind of trailer, None where it is driven."""
        return find_trailer(self.candidate.service)


def choices(candidates: Sequence[Candidate], vehicles: Sequence[Vehicle], book: RateBook) -> tuple[Choice, ...]:
    """Return the services to show, cheapest first. Of equals the first on the sheet stays: same question, same answer."""
    rows = [candidate.service.row for candidate in candidates]
    trailers = [find_trailer(candidate.service) for candidate in candidates]
    cover = np.array([row.cover_minor for row in rows], dtype=np.int64)
    enough = cover >= _needed(vehicles)
    if any(applies for _, applies in _reasons_for_enclosed(vehicles, book)):
        enough &= np.array([trailer == "enclosed" for trailer in trailers])
    if any(trailers):
        enough &= np.array([trailer is not None for trailer in trailers])
    compared = Compared(
        price=np.array([candidate.total_minor for candidate in candidates], dtype=np.int64),
        days=np.array([candidate.dates.delivery[1].toordinal() for candidate in candidates], dtype=np.int64),
        protection=cover,
        kind=np.array([TRAILERS.index(trailer) for trailer in trailers], dtype=np.int64),
        kinds=tuple(f"{trailer} trailer" if trailer else BY_DRIVER for trailer in TRAILERS),
        best="most cover",
        better="more cover",
    )
    # What is recommended below is among those that are shown.
    first = ((enough, "lowest price that covers the value"),)
    return tuple(Choice(candidates[one.way], one.good_for) for one in shown_ways(compared, first=first))


def _needed(vehicles: Sequence[Vehicle]) -> int:
    return max((vehicle.value_minor or 0 for vehicle in vehicles), default=0)


def recommended(shown: Sequence[Choice], vehicles: Sequence[Vehicle], book: RateBook) -> tuple[int, str]:
    """Return the index of the choice to recommend and the reason as a sentence.

    A driven delivery is recommended only where no truck can take it: it wears the vehicle, and leaves it in the traffic.
    """
    trucks = [choice for choice in shown if choice.trailer]
    if trucks and len(trucks) < len(shown):
        index, reason = recommended(trucks, vehicles, book)
        chosen = shown.index(trucks[index])
        driven = min(choice.candidate.total_minor for choice in shown if not choice.trailer)
        cheaper = driven < trucks[index].candidate.total_minor
        told = " Being driven would cost less, but puts the miles on its odometer." if cheaper else ""
        return chosen, f"{reason}{told}"
    currency = book.pricing.currency
    needed = _needed(vehicles)
    covered = [index for index, choice in enumerate(shown) if choice.candidate.service.row.cover_minor >= needed]
    for reason, applies in _reasons_for_enclosed(vehicles, book):
        enclosed = [index for index in covered if shown[index].trailer == "enclosed"]
        if applies and enclosed:
            return enclosed[0], reason
    if not covered:
        best = max(range(len(shown)), key=lambda index: shown[index].candidate.service.row.cover_minor)
        return best, (
            f"No carrier's own cover reaches the value of {with_code(needed, currency)}; this one comes closest, "
            "and the rest is covered for an extra charge."
        )
    first = covered[0]
    if first > 0:
        return (
            first,
            f"The lowest price among the carriers whose cover reaches the value of {with_code(needed, currency)}.",
        )
    if needed:
        return first, f"The lowest price, and its cover reaches the value of {with_code(needed, currency)}."
    return first, "The lowest price. The value is not known, so ask what cover is wanted."


def is_low(vehicle: Vehicle) -> bool:
    """Return whether the vehicle is known to sit too low for an open trailer's ramps."""
    return vehicle.clearance_mm is not None and vehicle.clearance_mm < LOW_CLEARANCE_MM


def _reasons_for_enclosed(vehicles: Sequence[Vehicle], book: RateBook) -> tuple[tuple[str, bool], ...]:
    threshold = book.pricing.enclosed_from_minor
    dearest = _needed(vehicles)
    value = with_code(threshold or 0, book.pricing.currency)
    return (
        (
            f"Enclosed, because a vehicle worth {value} or more should not travel in the open.",
            threshold is not None and dearest >= threshold,
        ),
        (
            "Enclosed, because the vehicle sits too low for an open trailer's ramps.",
            any(is_low(vehicle) for vehicle in vehicles),
        ),
    )
