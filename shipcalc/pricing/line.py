"""One line of a price, as columns, and what all lines are made with: markups, rates a mile, what is counted in thousandths."""

from typing import Any, overload

import numpy as np

from shipcalc.money import E4, PPM, Int64, decimals, half_up, share
from shipcalc.records import dataclass

LINEHAUL = ("truck.base", "truck.linehaul", "truck.lane", "truck.direction", "truck.minimum", "truck.loaded")
FUEL = ("truck.fuel",)

# Revenue tons and cubic metres are counted in thousandths.
THOUSANDTHS = ("W/M", "m³")

# A rate a mile is kept as ten-thousandths × millionths, so that a marked-up rate is exact.
RATE_SCALE = E4 * PPM
ONE: Int64 = np.ones((1, 1), dtype=np.int64)


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of a price for n vehicles × m lanes.

    `unit` is "lump" (quantity 1, `rate` in minor units), "%" (quantity the base in minor units, `rate` in millionths, of the
    lines whose codes are in `of`, or of the quantity as it stands where `of` is empty), or what is counted: whole "mi",
    "vehicle", "container", or "W/M" and "m³" in THOUSANDTHS, each with its `rate` in 1/RATE_SCALE of the major unit.
    `amount` is zero where the line does not apply. `lane_notes`, `lane_cells` and `lane_offers` have one text for each lane, or
    are empty.
    `stage` is the cost stage it arises at ("": the caller knows). `shared`: it is for the whole shipment, and has one row.
    `offer` is who quoted it, for the office. `free`: it is shown, though it comes to nothing.
    """

    code: str
    label: str
    unit: str
    quantity: Int64
    rate: int | Int64
    amount: Int64
    of: tuple[str, ...] = ()
    note: str = ""
    lane_notes: tuple[str, ...] = ()
    lane_offers: tuple[str, ...] = ()
    cell: str
    lane_cells: tuple[str, ...] = ()
    stage: str = ""
    shared: bool = False
    offer: str = ""
    free: bool = False

    @property
    def is_of_value(self) -> bool:
        """Return whether a truck's line is a share of what the vehicle is worth."""
        return self.unit == "%" and not self.of


@dataclass(frozen=True, slots=True)
class Markup:
    """What is added to the carriers' rates, in millionths, by kind of charge; to those of some carriers as `by_carrier` says.

    `least_minor`: what is added to a truck's linehaul comes to so much for each vehicle at least, as `least_cell` says.
    """

    linehaul_ppm: int = 0
    fuel_ppm: int = 0
    extras_ppm: int = 0
    ocean_ppm: int = 0
    port_ppm: int = 0
    least_minor: int = 0
    least_cell: str = ""
    by_carrier: "tuple[tuple[str, Markup], ...]" = ()

    def of(self, carrier: str) -> "Markup":
        """Return what is added to one carrier's rates."""
        return next((markup for name, markup in self.by_carrier if name == carrier.casefold()), self)


NO_MARKUP = Markup()


@overload
def marked_up(minor: int, markup_ppm: int) -> int: ...
@overload
def marked_up(minor: Int64, markup_ppm: int) -> Int64: ...
def marked_up(minor: Any, markup_ppm: int) -> Any:
    """Return a sum with the markup on it, in minor units."""
    return minor + share(minor, markup_ppm)


def miles_times(miles: Int64, rate: int | Int64, currency: str) -> Int64:
    """Return miles × a rate in 1/RATE_SCALE of the major unit, in minor units."""
    per_minor: int = RATE_SCALE // 10 ** decimals(currency)
    return half_up(miles * rate, per_minor)
