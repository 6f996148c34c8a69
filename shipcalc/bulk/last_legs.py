"""What the last leg takes from the ports of a place, by kind of vehicle: the same from every start."""

from collections.abc import Sequence
from datetime import date
from functools import lru_cache

import numpy as np

from shipcalc.bulk.landfalls import Landfall
from shipcalc.bulk.sums import alike
from shipcalc.money import Int64
from shipcalc.pricing.loads import Freight
from shipcalc.pricing.markups import selling_markup
from shipcalc.quote.edges.on_carriage import last_leg
from shipcalc.quote.network.port_ends import on_carriage_by
from shipcalc.quote.price.gathered import Paid
from shipcalc.quote.price.terms import Term
from shipcalc.ratebook.book import RateBook
from shipcalc.trade import Trailer

# Of a vehicle the last leg asks whether it drives and whether it rolls, and nothing else: these are all the kinds there are.
_KINDS = Freight(
    revenue_tons=np.zeros((4, 1), dtype=np.int64),
    cubic_metres=np.zeros((4, 1), dtype=np.int64),
    drives=np.array([[False], [False], [True], [True]]),
    rolls=np.array([[False], [True], [False], [True]]),
)


def kinds_of(freight: Freight) -> Int64:
    """Return the position of each vehicle's kind (n,)."""
    return np.asarray(2 * freight.drives[:, 0] + freight.rolls[:, 0], dtype=np.int64)


@lru_cache(maxsize=1_024)
def last_legs(
    landfall: Landfall, trailers: Sequence[Trailer], term: Term, book: RateBook, as_of: date
) -> dict[str, Int64]:
    """Return what the last leg takes at every stage for each kind of vehicle (kinds, trailers × ports), whatever its start."""
    ports, kinds, markup = len(landfall.arrivals.ports), _KINDS, selling_markup(book, landfall.place.country)
    sums = Paid(ports * len(trailers), term, len(kinds), alone=True)
    for number, trailer in enumerate(trailers):
        rates = on_carriage_by(landfall.arrivals.on_carriage, trailer)
        assert rates is not None, "asked only where a haulier goes on from the port"
        leg = last_leg(rates, landfall.arrivals, kinds, book, markup, as_of)
        sums.add_part(leg, number * ports + np.arange(ports), np.arange(ports))
    return alike(term, sums.by_stage)
