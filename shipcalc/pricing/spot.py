"""A price in hand: what a carrier asks for this one shipment, whatever its rates say; it holds all that the carrier asks for."""

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.columns import Bool
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Spot:
    """What a service takes for the vehicles of one request together, or for each, over some of its lanes.

    `lanes` (m,) says over which. `source` stands where the cell of a rate would; `number` tells several prices in hand apart.
    `known`: the carrier has a row in the rate book, so that its cover and its limits are known.
    """

    number: int
    amount_minor: int
    each: bool
    lanes: Bool
    source: str
    note: str
    known: bool


def spot_shares(amount_minor: int, vehicles: int, *, each: bool) -> Int64:
    """Return what each vehicle bears of a sum (n, 1): all the same, or the sum shared out evenly, odd cents to the first ones."""
    if each:
        return np.full((vehicles, 1), amount_minor, dtype=np.int64)
    whole, odd = divmod(amount_minor, vehicles)
    return (whole + (np.arange(vehicles, dtype=np.int64) < odd))[:, np.newaxis]
