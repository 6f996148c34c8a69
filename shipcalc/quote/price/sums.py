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
from shipcalc.records import replace
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
    least = None
    if network.leads_abroad and book.pricing.least_abroad_minor:
        at_cost = stage_sums(network, parts, ways, replace(term, at_cost=True), seasonal)
        at_cost |= {stage: paid[stage] for stage in (COVER_STAGE, DUTY_STAGE) if stage in paid}
        margin = book.pricing.least_abroad_minor * len(request.vehicles)
        least = sold_for(term, at_cost, cover.premium) + margin
    total, locally = by_payer(term, paid, cover.premium, book.pricing.rounding_step_minor, least)
    return Sums(term, total, locally, cover, bill, seasonal)


def by_payer(
    term: Term, paid: Mapping[str, Int64], shape: Int64, step_minor: int, least: Int64 | None = None
) -> tuple[Int64, Int64]:
    """Return what the seller asks, rounded up, and what the buyer pays beside it: sums of the stages, in the shape of one.

    Who asks for anything asks for `least` at least.
    """
    total = sold_for(term, paid, shape)
    if least is not None:
        total = np.where(total > 0, np.maximum(total, least), total)
    locally = sum((sum_ for stage, sum_ in paid.items() if term.payer(stage) == "buyer"), start=np.zeros_like(shape))
    return round_up(total, step_minor) if step_minor > 1 else total, locally


def sold_for(term: Term, paid: Mapping[str, Int64], shape: Int64) -> Int64:
    """Return the sum of the stages that the seller pays, in the shape of one of them."""
    own = (sum_ for stage, sum_ in paid.items() if term.payer(stage) == "seller")
    return sum(own, start=np.zeros_like(shape))
