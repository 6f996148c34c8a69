"""Who pays what under a delivery term, as columns over all ways: the seller's total, what the buyer pays, cover, duty and tax."""

from collections.abc import Mapping, Sequence
from datetime import date

import numpy as np

from shipcalc.money import Int64, round_up
from shipcalc.pricing.cover import STAGE as COVER_STAGE
from shipcalc.pricing.cover import cover_lines
from shipcalc.pricing.lines import Line
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.price.landing import ONWARD, TO_THE_SHIP, Imports, imports
from shipcalc.quote.price.landing import STAGE as DUTY_STAGE
from shipcalc.quote.price.parts import Parts, stage_sums
from shipcalc.quote.price.terms import Term
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.overseas import MarineCover
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, eq=False)
class Covered:
    """The marine cover over all ways: for each mode its row and its lines (1, w); a way without cover has no mode here."""

    by_mode: dict[str, tuple[MarineCover, tuple[Line, ...]]]
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


def sums_under(
    term: Term,
    request: Request,
    book: RateBook,
    network: Network,
    parts: Parts,
    ways: Ways,
    *,
    conditions: str,
    as_of: date,
    seasonal: tuple[np.ndarray, ...] = (),
) -> Sums:
    """Return what every way comes to. What the buyer pays for is taken at cost: the dealer earns nothing on it."""
    paid = stage_sums(network, parts, ways, term, seasonal)
    cover = _cover(term, request, book, network, ways, paid, conditions)
    bill = imports(request, book, paid, cover.premium, as_of=as_of)
    paid[COVER_STAGE] = paid.get(COVER_STAGE, 0) + cover.premium
    if bill.treatments:
        paid[DUTY_STAGE] = paid.get(DUTY_STAGE, 0) + bill.treatments[0].total
    total, locally = by_payer(term, paid, cover.premium, book.pricing.rounding_step_minor)
    return Sums(term, total, locally, cover, bill, seasonal)


def by_payer(term: Term, paid: Mapping[str, Int64], shape: Int64, step_minor: int) -> tuple[Int64, Int64]:
    """Return what the seller asks, rounded up, and what the buyer pays beside it: sums of the stages, in the shape of one."""
    zero: Int64 = np.zeros_like(shape)
    total = sum((sum_ for stage, sum_ in paid.items() if term.payer(stage) == "seller"), start=zero)
    locally = sum((sum_ for stage, sum_ in paid.items() if term.payer(stage) == "buyer"), start=zero)
    return round_up(total, step_minor) if step_minor > 1 else total, locally


def _cover(
    term: Term,
    request: Request,
    book: RateBook,
    network: Network,
    ways: Ways,
    paid: dict[str, Int64],
    conditions: str,
) -> Covered:
    """Return the cover of value and carriage to the arrival port; none where a value is not known, and none without a ship.

    Where the term has the seller insure the contract price (CIF, CIP), all carriage to the named place is in that price.
    """
    premium: Int64 = np.zeros(len(ways), dtype=np.int64)
    by_mode: dict[str, tuple[MarineCover, tuple[Line, ...]]] = {}
    values = [vehicle.value_minor for vehicle in request.vehicles]
    if None in values:
        return Covered(by_mode, premium)
    insured = insured_carriage(term, paid, premium) + sum(value or 0 for value in values)
    modes = np.array([*(crossing.load.mode for crossing in network.crossings), "truck"])[ways.crossing]
    for mode in dict.fromkeys(modes.tolist()):
        row = cover_row(book.marine_cover, mode, conditions)
        if row is not None:
            lines = tuple(cover_lines(row, insured))
            by_mode[mode] = (row, lines)
            premium = np.where(modes == mode, sum(line.amount[0] for line in lines), premium)
    return Covered(by_mode, premium)


def insured_carriage(term: Term, paid: Mapping[str, Int64], nothing: Int64) -> Int64:
    """Return the carriage that is insured with the value, by what is paid at every stage."""
    onward = [stage for stage in ONWARD if term.must_insure and term.payer(stage) == "seller"]
    return sum((paid[stage] for stage in (*TO_THE_SHIP, "main carriage", *onward) if stage in paid), start=nothing)


def cover_row(rows: Sequence[MarineCover], mode: str, conditions: str) -> MarineCover | None:
    """Return the cover for a way to travel: the row for just this mode before the row for any."""
    if mode == "truck":
        return None
    fitting = [row for row in rows if row.conditions == conditions and row.mode in (mode, None)]
    return min(fitting, key=lambda row: row.mode is None, default=None)
