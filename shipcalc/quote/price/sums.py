"""Who pays what under a delivery term, as columns over all ways: the seller's total, what the buyer pays, cover, duty and tax."""

from collections.abc import Mapping
from datetime import date

import numpy as np

from shipcalc.money import Int64, round_up
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.price.gathered import stage_sums
from shipcalc.quote.price.paid import Covered, Imports, Sums
from shipcalc.quote.price.parts import Parts
from shipcalc.quote.price.terms import Term
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.trade import COVER_STAGE, DUTY_STAGE


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
    cover, bill = Covered({}, np.zeros(len(ways), dtype=np.int64)), Imports(None, (), is_domestic=True)
    if network.leads_abroad:
        # Late: at home no ship is covered and no customs ask for anything.
        from shipcalc.quote.price.landing import imports
        from shipcalc.quote.price.marine_cover import covered

        cover = covered(term, request, book, network, ways, paid, conditions)
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
