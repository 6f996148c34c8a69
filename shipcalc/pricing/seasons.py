"""Which seasons of the sheet Seasons hold on a day, and over which lanes."""

from collections.abc import Sequence
from datetime import date
from functools import partial

import numpy as np

from shipcalc.pricing.areas import area_rows, has_area
from shipcalc.pricing.columns import Bool, LaneColumns
from shipcalc.ratebook.decisions import decision_table, holding_numbers, where_holding
from shipcalc.ratebook.rows.areas import Area, Season
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True)
class InSeason:
    """A season, and the lanes (m,) that it holds over."""

    row: Season
    where: Bool


def seasons_on(
    seasons: tuple[Season, ...], day: date, lanes: LaneColumns, areas: Sequence[Area]
) -> tuple[InSeason, ...]:
    """Return the seasons that hold on a day over at least one lane, in the order of the sheet."""
    numbers = holding_numbers(decision_table(seasons, "day"), {"day": day})
    ends = {
        "pickup_area": partial(_lies_in, lanes.at_pickup, areas),
        "delivery_area": partial(_lies_in, lanes.at_delivery, areas),
    }
    everywhere = np.ones(len(lanes), dtype=np.bool_)
    found = [
        InSeason(seasons[number], everywhere if where is None else where)
        for number, where in zip(numbers, where_holding(decision_table(seasons, "lane"), ends, numbers), strict=True)
    ]
    return tuple(season for season in found if season.where.any())


def _lies_in(memberships: Bool, areas: Sequence[Area], name: str) -> Bool:
    return has_area(memberships, area_rows(areas, (name,)))
