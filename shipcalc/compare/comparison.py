"""Two rate books compared: what was changed in the sheets, and what that does. Plain data, for terminal, workbook and JSON."""

from collections import Counter
from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from itertools import pairwise
from statistics import median

from shipcalc.compare.books import CARRIER, DATES, PAPERS, PRICE, Effect
from shipcalc.compare.carriers import CarrierChange
from shipcalc.ratebook.changes.differences import RowChange
from shipcalc.records import dataclass

ZERO = Decimal(0)
# Bounds of the chart's steps, in major units of the currency; a change counts where it is at most the bound.
STEPS = (-500, -200, -100, -50, -20, 0, 20, 50, 100, 200, 500)


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """What became of a rate book.

    `basket` is what was priced, `alone` the services of changed rows, each priced as if there were no other, `open_quotes` what
    was promised and is not out of date.

    `notes` are sentences about what was left out.
    """

    old_name: str
    new_name: str
    old_fingerprint: str
    new_fingerprint: str
    currency: str
    as_of: date
    on: date
    rows: tuple[RowChange, ...]
    basket_name: str
    basket: tuple[Effect, ...]
    alone: tuple[Effect, ...] = ()
    open_quotes: tuple[Effect, ...] = ()
    carriers: tuple[CarrierChange, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Moves:
    """How the prices of some transports move: counts, and amounts in major units (zero where nothing moves)."""

    priced: int
    dearer: int
    cheaper: int
    least: Decimal
    most: Decimal
    middle: Decimal
    total: Decimal


def moves(effects: Sequence[Effect]) -> Moves:
    """Return how the recommended prices move among the transports that both books price."""
    changes = [effect.change for effect in effects if effect.change is not None]
    moved = [change for change in changes if change]
    return Moves(
        priced=len(changes),
        dearer=sum(change > 0 for change in moved),
        cheaper=sum(change < 0 for change in moved),
        least=min(moved, default=ZERO),
        most=max(moved, default=ZERO),
        middle=Decimal(median(moved)) if moved else ZERO,
        total=sum(moved, ZERO),
    )


def by_weight(effects: Sequence[Effect]) -> tuple[Effect, ...]:
    """Return what differs, the greatest change of price first; then what has an answer in one book only; then the rest."""
    return tuple(sorted((e for e in effects if e.differs_in), key=_weight))


def _weight(effect: Effect) -> tuple[int, Decimal, str]:
    if effect.change:
        return 0, -abs(effect.change), effect.asked.name
    return 1 if "answer" in effect.differs_in else 2, ZERO, effect.asked.name


def carriers_exchanged(effect: Effect) -> tuple[str, str]:
    """Return whom the recommended choice left and to whom it went; where all stay, or some only came or went, all of both."""
    was, now = (outcome.carrier.split(", ") for outcome in (effect.old, effect.new))
    left, came = [one for one in was if one not in now], [one for one in now if one not in was]
    return (", ".join(left), ", ".join(came)) if left and came else (effect.old.carrier, effect.new.carrier)


def side_effects(effects: Sequence[Effect]) -> tuple[str, ...]:
    """Return what else changes than the recommended price, as sentences without a full stop."""
    lost = sum(1 for e in effects if e.old.total is not None and e.new.total is None)
    gained = sum(1 for e in effects if e.old.total is None and e.new.total is not None)
    other_choice = sum(1 for e in effects if not e.change and PRICE in e.differs_in)
    carrier = sum(1 for e in effects if CARRIER in e.differs_in and e.old.carrier != e.new.carrier)
    counts = Counter(part for effect in effects for part in effect.differs_in)
    lines_only = sum(1 for e in effects if e.differs_in and PRICE not in e.differs_in and "lines" in e.differs_in)
    told = (
        (lost, "can no longer be quoted"),
        (gained, "can be quoted now and could not before"),
        (carrier, "recommended from another carrier"),
        (other_choice, "with another price among the choices, the recommended one as before"),
        (lines_only, "with other lines or another cost, the prices as before"),
        (counts[DATES], "with other dates"),
        (counts[PAPERS], "with other papers or tasks"),
    )
    return tuple(f"{count} {words}" for count, words in told if count)


def steps(effects: Sequence[Effect]) -> tuple[tuple[str, int], ...]:
    """Return how many prices change by how much, in steps; what stays is a step of its own."""
    changes = [effect.change for effect in effects if effect.change is not None]
    found = [(f"down more than {-STEPS[0]:,}", sum(change < STEPS[0] for change in changes))]
    for low, high in pairwise(STEPS):
        if low < 0:
            found.append((f"down {-high:,} to {-low:,}", sum(low <= change < high for change in changes)))
        if high == 0:
            found.append(("as before", sum(change == 0 for change in changes)))
        if low >= 0:
            found.append((f"up {low:,} to {high:,}", sum(low < change <= high for change in changes)))
    found.append((f"up more than {STEPS[-1]:,}", sum(change > STEPS[-1] for change in changes)))
    return tuple(found)
