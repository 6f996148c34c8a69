"""The marine cover of all ways: of the value and of the carriage to where the ship, or the term, takes it."""

from collections.abc import Mapping

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.cover import cover_lines
from shipcalc.pricing.line import Line
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.price.landing import ONWARD, TO_THE_SHIP
from shipcalc.quote.price.paid import Covered
from shipcalc.quote.price.terms import Term
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.decisions import decision_table, holding
from shipcalc.ratebook.rows.marine_cover import MarineCover
from shipcalc.trade import CROSSING_BY_MODE


def covered(
    term: Term,
    request: Request,
    book: RateBook,
    network: Network,
    ways: Ways,
    paid: dict[str, Int64],
    conditions: str,
) -> Covered:
    """Return the cover of value and carriage to the arrival port; none where a value is not known, and none without a ship.

    Where the seller carries it to the named place at the buyer's risk (CIP, CPT), all carriage to there is in the price, and is
    lost with the vehicle: 110 % of the CIP value, UCP 600, article 28 (f).
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
            lines = tuple(cover_lines(row, insured, CROSSING_BY_MODE[mode].called))
            by_mode[mode] = (row, lines)
            premium = np.where(modes == mode, sum(line.amount[0] for line in lines), premium)
    return Covered(by_mode, premium)


def insured_carriage(term: Term, paid: Mapping[str, Int64], nothing: Int64) -> Int64:
    """Return the carriage that is insured with the value, by what is paid at every stage."""
    onward = [stage for stage in ONWARD if term.at_the_buyers_risk and term.payer(stage) == "seller"]
    return sum((paid[stage] for stage in (*TO_THE_SHIP, "main carriage", *onward) if stage in paid), start=nothing)


def cover_row(rows: tuple[MarineCover, ...], mode: str, conditions: str) -> MarineCover | None:
    """Return the cover for a way to travel: the row for just this mode before the row for any."""
    if mode == "truck":
        return None
    fitting = holding(decision_table(rows), {"cover": conditions, "mode": mode})
    return min(fitting, key=lambda row: row.mode is None, default=None)
