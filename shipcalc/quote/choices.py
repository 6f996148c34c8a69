"""Which candidates the buyer is shown, what each is good for, and which one is recommended."""

from collections.abc import Sequence

from shipcalc.money import with_code
from shipcalc.quote.candidates import Candidate, trailer_of
from shipcalc.quote.model import Trailer
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass
from shipcalc.vehicles.vehicle import Vehicle

# Below this a low car scrapes on an open trailer's ramps (common practice, no source).
LOW_CLEARANCE_MM = 114


@dataclass(frozen=True, slots=True)
class Choice:
    """A candidate that is shown, and what it is good for."""

    candidate: Candidate
    good_for: tuple[str, ...]

    @property
    def trailer(self) -> Trailer:
        """Return the kind of trailer."""
        return trailer_of(self.candidate.service)


def choices(candidates: Sequence[Candidate]) -> tuple[Choice, ...]:
    """Return the cheapest open, the cheapest enclosed, the soonest and the best covered, each once, by price.

    Ties go to the sooner, then the better covered, then the order of the sheet, so that the same question has the same answer.
    """
    by_price = sorted(candidates, key=lambda c: (c.total_minor, c.dates.delivery[1], -c.service.row.cover_minor))
    good_for: dict[int, list[str]] = {}

    def note(candidate: Candidate, what: str) -> None:
        good_for.setdefault(by_price.index(candidate), []).append(what)

    for trailer in ("open", "enclosed"):
        first = next((c for c in by_price if c.service.row.trailer == trailer), None)
        if first is not None:
            note(first, f"lowest price, {trailer} trailer")
    if by_price:
        note(min(by_price, key=lambda c: c.dates.delivery[1]), "soonest")
        note(max(by_price, key=lambda c: c.service.row.cover_minor), "most cover")
    return tuple(Choice(by_price[index], tuple(good_for[index])) for index in sorted(good_for))


def recommended(shown: Sequence[Choice], vehicles: Sequence[Vehicle], book: RateBook) -> tuple[int, str]:
    """Return the index of the choice to recommend and the reason as a sentence."""
    currency = book.pricing.currency
    needed = max((vehicle.value_minor or 0 for vehicle in vehicles), default=0)
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
    dearest = max((vehicle.value_minor or 0 for vehicle in vehicles), default=0)
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
