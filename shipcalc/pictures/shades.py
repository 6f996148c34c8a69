"""Shades for amounts: from light to dark in one hue, so that print without colour and any eye tell them apart by lightness."""

import itertools
from collections.abc import Iterable, Sequence

from shipcalc.records import dataclass

INK = "22282E"
WHITE = "FFFFFF"
NO_PRICE = "F4F4F2"

# From light to dark; each a step darker than the last, to the accent of everything we write.
SHADES = ("E3EEEE", "BDD5D6", "93B8BB", "67979C", "3E747B", "1B4B52")


@dataclass(frozen=True, slots=True)
class Scale:
    """Amounts in classes: class n holds what is above `limits[n - 1]` and up to `limits[n]`; the last has no limit."""

    limits: tuple[int, ...]

    def class_of(self, amount: float) -> int:
        """Return the number of the class that an amount is in."""
        return sum(amount > limit for limit in self.limits)

    def shade(self, amount: float | None) -> str:
        """Return the colour of an amount."""
        return NO_PRICE if amount is None else SHADES[self.class_of(amount)]

    def words(self) -> tuple[str, ...]:
        """Return what each class is called: "up to 1,200", "1,200 to 1,500" …, "above 3,000"."""
        ends = [f"{limit:,}" for limit in self.limits]
        if not ends:
            return ("all",)
        between = [f"{low} to {high}" for low, high in itertools.pairwise(ends)]
        return (f"up to {ends[0]}", *between, f"above {ends[-1]}")


def scale_of(amounts: Iterable[float]) -> Scale:
    """Return classes that hold about as many amounts each, with limits that one can say: round, and each only once."""
    ordered = sorted(amounts)
    if not ordered:
        return Scale(())
    # The step follows the middle of the amounts: a few far away must not throw all the others into one class.
    middle = ordered[-1 - len(ordered) // len(SHADES)] - ordered[len(ordered) // len(SHADES)]
    step = _round_step(middle or ordered[-1] - ordered[0])
    limits: list[int] = []
    for nth in range(1, len(SHADES)):
        at = ordered[min(len(ordered) - 1, nth * len(ordered) // len(SHADES))]
        limit = round(at / step) * step
        if limit < ordered[-1] and limit >= ordered[0] and (not limits or limit > limits[-1]):
            limits.append(limit)
    return Scale(tuple(limits))


def ink_on(ground: str) -> str:
    """Return dark or white letters, whichever stand out more."""
    return max((INK, WHITE), key=lambda ink: contrast(ink, ground))


def contrast(a: str, b: str) -> float:
    """Return the contrast of two colours (WCAG 2.1, contrast ratio)."""
    lighter, darker = sorted((luminance(a), luminance(b)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def luminance(colour: str) -> float:
    """Return the relative luminance of a colour (WCAG 2.1)."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    linear: Sequence[float] = [part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def _round_step(span: float) -> int:
    """Return a step of which some twenty make the span: 1, 2 or 5 with noughts."""
    for power in range(7):
        for digit in (1, 2, 5):
            step = int(digit * 10**power)
            if span / step <= 25:
                return step
    return 10**7
