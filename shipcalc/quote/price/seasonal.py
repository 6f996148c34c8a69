"""What is charged and done only for ships that leave within a season of the year, such as treatment against stink bugs."""

from collections.abc import Iterator, Sequence
from datetime import date
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from shipcalc.money import Int64
from shipcalc.pricing.stage_charges import arises, is_in_season
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.stage_charges import StageCharge

# Beyond every day there is: two such numbers fit one of 64 bits.
_TOO_LATE = date.max.toordinal() + 1


@lru_cache(maxsize=8)
def seasonal_rows(book: RateBook) -> tuple[StageCharge, ...]:
    """Return the charges by stage that only hold in a season."""
    return tuple(row for row in book.stage_charges if row.season_from is not None and row.season_to is not None)


@lru_cache(maxsize=8)
def each_season(book: RateBook) -> tuple[tuple[StageCharge, ...], ...]:
    """Return each of them by itself."""
    return tuple((row,) for row in seasonal_rows(book))


@lru_cache(maxsize=8)
def all_year_rows(book: RateBook) -> tuple[StageCharge, ...]:
    """Return the charges by stage that hold all the year."""
    return tuple(row for row in book.stage_charges if row.season_from is None or row.season_to is None)


def leaves_in_season(
    row: StageCharge, request: Request, network: Network, ways: Ways, earliest: Int64, latest: Int64
) -> np.ndarray:
    """Return for which ways (w,) a seasonal charge arises: those by ship, whose sailing may fall into the season.

    `earliest` and `latest` are the ordinals of the day of sailing: what counts is the day it is shipped on board.
    """
    assert row.season_from is not None, "asked only of seasonal rows"
    assert row.season_to is not None, "asked only of seasonal rows"
    arising = {
        mode: arises(row, request.vehicles, mode=mode, to_country=request.to.country)
        for mode in dict.fromkeys(crossing.load.mode for crossing in network.crossings)
    }
    by_crossing = [arising[crossing.load.mode] for crossing in network.crossings]
    return np.array([*by_crossing, False])[ways.crossing] & sails_in_season(row, earliest, latest)


def sails_in_season(row: StageCharge, earliest: Int64, latest: Int64) -> NDArray[np.bool_]:
    """Return whether windows of sailing (w,) fall into the season of a row, be it for a day."""
    first, last = (np.minimum(day, _TOO_LATE) for day in (earliest, latest))
    pairs, pair_of = np.unique(first * (_TOO_LATE + 1) + last, return_inverse=True)
    inside = [_touches(row, *divmod(pair, _TOO_LATE + 1)) for pair in pairs.tolist()]
    return np.array(inside, dtype=np.bool_)[pair_of.reshape(-1)]


def _touches(row: StageCharge, first: int, last: int) -> bool:
    return is_in_season(row, None if last >= _TOO_LATE else (date.fromordinal(first), date.fromordinal(last)))


def days_before_the_ship(
    request: Request, book: RateBook, network: Network, ways: Ways, earliest: Int64, latest: Int64
) -> Int64:
    """Return how many days later every way (w,) is ready for its ship, since something is done to it in that season."""
    days: Int64 = np.zeros(len(ways), dtype=np.int64)
    for row in seasonal_rows(book):
        if row.takes_days:
            where = leaves_in_season(row, request, network, ways, earliest, latest)
            days = np.where(where, np.maximum(days, row.takes_days), days)
    return days


def told_of(way: int, book: RateBook, masks: Sequence[np.ndarray]) -> Iterator[str]:
    """Yield what is said above the price of a way for which seasonal charges arise."""
    for row, mask in zip(seasonal_rows(book), masks, strict=True):
        if mask[way] and row.said:
            yield row.said
