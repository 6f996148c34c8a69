"""The parts of all ways gathered into the sums that are paid at every stage."""

from collections.abc import Iterable, Sequence

import numpy as np

from shipcalc.money import Int64
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.price.parts import Charged, Part, Parts
from shipcalc.quote.price.terms import Term
from shipcalc.records import dataclass, field


def stage_sums(
    network: Network, parts: Parts, ways: Ways, term: Term, seasonal: Sequence[np.ndarray] = ()
) -> dict[str, Int64]:
    """Return what is paid at every stage but cover, duty and tax over all ways (w,): by the buyer at cost.

    `seasonal` says for each part of a season for which ways it arises.
    """
    sums = Paid(len(ways), term, len(network.starts))
    for charged in parts:
        if charged.hangs_on_the_truck:
            column = charged.columns_of(ways.truck, ways.sea_lane)
            has = column >= 0 if charged.season is None else (column >= 0) & seasonal[charged.season]
            where = np.flatnonzero(has)
            sums.add_part(charged.part, where, column[where])
    for stage, by_lane in _lane_sums(network, parts, term).items():
        sums.add(stage, slice(None), by_lane[ways.sea_lane])
    return sums.by_stage


def _lane_sums(network: Network, parts: Parts, term: Term) -> dict[str, Int64]:
    """Return what is paid at every stage whatever the truck (z + 1,), for each sea lane, and last for a way without a ship."""
    sums = Paid(len(network.sea) + 1, term, len(network.starts))
    sums.add_lanes(charged for charged in parts if not charged.hangs_on_the_truck)
    return sums.by_stage


@dataclass(slots=True, eq=False)
class Paid:
    """What is paid at every stage over all ways (w,), in minor units, while it is added up.

    `alone`: every vehicle is a shipment by itself, and all sums are (vehicles, w).
    """

    ways: int
    term: Term
    vehicles: int
    alone: bool = False
    by_stage: dict[str, Int64] = field(default_factory=dict)

    def add(self, stage: str, where: np.ndarray | slice, amounts: Int64) -> None:
        """Add amounts to some of the ways."""
        shape = (self.vehicles, self.ways) if self.alone else (self.ways,)
        self.by_stage.setdefault(stage, np.zeros(shape, dtype=np.int64))[..., where] += amounts

    def add_part(self, part: Part, where: np.ndarray, column: Int64) -> None:
        """Add a part's lines to some of the ways, each at its own column of the part."""
        if not len(column):
            return
        for stage in part.stages:
            sold = self.term.sells(stage)  # who pays it himself is asked his own price
            amounts = part.amounts(stage, sold=sold, vehicles=self.vehicles, alone=self.alone)
            self.add(stage, where, amounts[..., column] if amounts.shape[-1] > 1 else amounts)

    def add_lanes(self, parts: Iterable[Charged]) -> None:
        """Add parts that hang on no truck, where the ways are the sea lanes."""
        for charged in parts:
            where = np.flatnonzero(charged.columns[0] >= 0)
            self.add_part(charged.part, where, charged.columns[0, where])
