"""What ways come to under a delivery term, by what each stage is paid: a table of vehicles × ways, or single ways."""

from collections.abc import Mapping, Sequence
from functools import cache

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.cover import cover_lines
from shipcalc.pricing.landed import Landed, import_lines
from shipcalc.quote.price.landing import ONWARD, TO_THE_SHIP, carriage
from shipcalc.quote.price.marine_cover import insured_carriage
from shipcalc.quote.price.sums import by_payer, sold_for
from shipcalc.quote.price.terms import Term
from shipcalc.ratebook.rows.imports import ImportCharge
from shipcalc.ratebook.rows.marine_cover import MarineCover
from shipcalc.records import dataclass
from shipcalc.trade import COST_STAGES, COVER_STAGE, DUTY_STAGE

# Some cells of a table of sums.
Cells = np.ndarray | tuple[slice | np.ndarray, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Duty:
    """What customs ask of some vehicles, and the sums in local currency of its rows in minor units of the quote's."""

    rows: tuple[ImportCharge, ...]
    local_minor: Mapping[str, int]

    def of(self, landed: Landed) -> Int64:
        """Return what is due, in minor units."""
        lines = import_lines(self.rows, landed, local_minor=self.local_minor)
        return sum((line.amount[0] for line in lines), start=np.zeros_like(landed.fob))


@dataclass(frozen=True, slots=True, eq=False)
class Least:
    """What a price is at least: the sum of each stage at cost, and the margin above it."""

    at_cost: Mapping[str, Int64]
    margin_minor: int


def come_to(
    term: Term,
    paid: Mapping[str, Int64],
    values: Int64,
    covers: Sequence[tuple[Cells, MarineCover]],
    duties: Sequence[tuple[Cells, Duty]],
    step_minor: int,
    least: "Least | None" = None,
) -> tuple[Int64, Int64]:
    """Return the seller's price and what the buyer pays beside it, of vehicles with their values that go alone.

    `paid` is the sum of each stage; `covers` and `duties` say which cells are covered by what, and taxed how.
    """
    zero: Int64 = np.zeros(np.broadcast_shapes(values.shape, *(sum_.shape for sum_ in paid.values())), dtype=np.int64)
    insured = insured_carriage(term, paid, zero) + values
    premium = np.zeros_like(zero)
    for cells, row in covers:
        premium[cells] = sum(line.amount[0] for line in cover_lines(row, insured[cells]))
    due = np.zeros_like(zero)
    if duties:
        to_ship, freight, onward = carriage(paid, zero)
        fob = to_ship + values
        for cells, duty in duties:
            landed = Landed(fob=fob[cells], freight=freight[cells], insurance=premium[cells], onward=onward[cells])
            due[cells] = duty.of(landed)
    added = {stage: paid.get(stage, zero) + more for stage, more in ((COVER_STAGE, premium), (DUTY_STAGE, due))}
    if least is None:
        return by_payer(term, {**paid, **added}, zero, step_minor)
    own = {stage: least.at_cost.get(stage, zero) + more for stage, more in ((COVER_STAGE, premium), (DUTY_STAGE, due))}
    floor = sold_for(term, {**least.at_cost, **own}, zero) + least.margin_minor
    return by_payer(term, {**paid, **added}, zero, step_minor, floor)


def cells_of(group_of: Int64, duties: Sequence[Duty]) -> list[tuple[Cells, Duty]]:
    """Return which rows of a table are taxed how; a row with -1 is not."""
    if len(duties) == 1 and not group_of.any():
        return [((slice(None),), duties[0])]
    return [((np.flatnonzero(group_of == number),), duty) for number, duty in enumerate(duties)]


def alike(term: Term, paid: Mapping[str, Int64]) -> dict[str, Int64]:
    """Return the sums with those of stages added up that one side pays, and that cover and customs count alike."""
    sums: dict[str, Int64] = {}
    for stage, amounts in paid.items():
        name = first_alike(term, stage)
        sums[name] = sums[name] + amounts if name in sums else amounts
    return sums


@cache
def first_alike(term: Term, stage: str) -> str:
    """Return the first of all stages that one side pays, and that cover and customs count alike."""
    return next(other for other in COST_STAGES if _counted_as(term, other) == _counted_as(term, stage))


def _counted_as(term: Term, stage: str) -> tuple[str, str]:
    for name, stages in (("to the ship", TO_THE_SHIP), ("onward", ONWARD)):
        if stage in stages:
            return name, term.payer(stage)
    return stage, term.payer(stage)
