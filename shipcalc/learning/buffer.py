"""The buffer on what is reckoned for which a share of quotes is not under cost.

It is an order statistic: of n quotes the one in place ⌈(n + 1) × share⌉, by what was paid for each unit reckoned. A further quote
of the same kind then stays within it with at least that probability, whatever the distribution is (Wilks, 1941; the same bound is
that of conformal prediction). No curve is fitted, and a few wild bills move it by their number, not by their size.

It is held to bills that it was not made from: to the latest third of the quotes, with a buffer from the others.
"""

from collections.abc import Sequence
from math import ceil, comb

from shipcalc.learning.compared import Compared, too_few
from shipcalc.records import dataclass

USUAL_SHARE = 0.9
# Fewer than 20 quotes to hold a buffer to could be kept by a wrong one as well: of 20, 18 ± 1.3 should be within one for 90 %.
FEWEST_HELD_OUT = 20
HELD_OUT = 3
# What would be seen by chance less often than this is said.
_UNLIKELY = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Buffer:
    """What is to be added, 0.08 for 8 %, for a share of quotes.

    `held` of the `held_out` latest quotes would have been covered by one made from the others. `doubt` says what speaks against
    it, if anything.
    """

    share: float
    buffer: float
    count: int
    held: int
    held_out: int
    doubt: str = ""


@dataclass(frozen=True, slots=True)
class TooFew:
    """That nothing is proposed, and why."""

    told: str


def buffer_for(quotes: Sequence[Compared], share: float) -> Buffer | TooFew:
    """Return the buffer for a share between 0 and 1 of quotes, held to the latest of them."""
    in_order = [one.ratio for one in sorted(quotes, key=lambda one: (one.day, one.number))]
    cut = len(in_order) - len(in_order) // HELD_OUT
    earlier, later = in_order[:cut], in_order[cut:]
    if len(later) < FEWEST_HELD_OUT or ceil((cut + 1) * share) > cut:
        needed = max(FEWEST_HELD_OUT * HELD_OUT, ceil(HELD_OUT / (HELD_OUT - 1) * share / (1 - share)))
        return TooFew(
            f"{too_few(len(in_order))} for a buffer that {share:.0%} of quotes keep to: it takes {needed}, "
            "a third of them to hold it to"
        )
    first = quantile(earlier, share)
    held = sum(one <= first for one in later)
    return Buffer(
        share=share,
        buffer=max(quantile(in_order, share) - 1, 0.0),
        count=len(in_order),
        held=held,
        held_out=len(later),
        doubt=_doubt(held, len(later), share),
    )


def quantile(ratios: Sequence[float], share: float) -> float:
    """Return the ratio in place ⌈(n + 1) × share⌉, which must be there."""
    return sorted(ratios)[ceil((len(ratios) + 1) * share) - 1]


def _doubt(held: int, count: int, share: float) -> str:
    """Return a sentence where so few were held that chance does not explain it: prices have moved since."""
    chance = sum(comb(count, k) * share**k * (1 - share) ** (count - k) for k in range(held + 1))
    if chance >= _UNLIKELY:
        return ""
    return f"of the latest quotes only {held} of {count} would have kept to it: prices have moved, or bills are of another kind"
