"""What every way comes to, as columns: the sums under a delivery term, the marine cover, duty and tax."""

from typing import TYPE_CHECKING

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.line import Line
from shipcalc.quote.price.terms import Term
from shipcalc.records import dataclass
from shipcalc.trade import Treatment

if TYPE_CHECKING:
    from shipcalc.ratebook.rows.imports import Country
    from shipcalc.ratebook.rows.marine_cover import MarineCover


@dataclass(frozen=True, slots=True, eq=False)
class Import:
    """One treatment by the customs: for each vehicle its lines over all ways (1, w), and their sum (w,)."""

    treatment: Treatment
    lines: tuple[tuple[Line, ...], ...]
    total: Int64


@dataclass(frozen=True, slots=True, eq=False)
class Imports:
    """All treatments that may apply, the one that is counted first; nothing where the country's figures are not known.

    `doubts` are for the office: what of it to look up before it is promised.
    """

    country: "Country | None"
    treatments: tuple[Import, ...]
    notes: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()
    is_domestic: bool = False

    @property
    def collector_from_years(self) -> int | None:
        """Return the age from which a vehicle may be a collector's piece; None where none of these is old enough."""
        applies = self.country is not None and any(one.treatment == "collector" for one in self.treatments)
        return self.country.collector_from_years if self.country is not None and applies else None


@dataclass(frozen=True, slots=True, eq=False)
class Covered:
    """The marine cover over all ways: for each mode its row and its lines (1, w); a way without cover has no mode here."""

    by_mode: "dict[str, tuple[MarineCover, tuple[Line, ...]]]"
    premium: Int64


@dataclass(frozen=True, slots=True, eq=False)
class Sums:
    """What every way comes to (w,), in minor units, under one delivery term.

    `total` is the seller's, rounded up as the rate book says; `locally` what the buyer pays beside it; `seasonal` says for each
    charge of a season for which ways it arises.
    """

    term: Term
    total: Int64
    locally: Int64
    cover: Covered
    imports: Imports
    seasonal: tuple[np.ndarray, ...] = ()

    @property
    def lacks_duty(self) -> bool:
        """Return whether the buyer's customs will ask for something that no figure is known for."""
        return not self.imports.treatments and not self.imports.is_domestic

    @property
    def together(self) -> Int64:
        """Return all that the buyer pays beside the vehicles."""
        return self.total + self.locally
