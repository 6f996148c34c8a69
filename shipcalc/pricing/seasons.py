"""Which seasons of the sheet Seasons hold on a day, and over which lanes."""

from collections.abc import Sequence
from datetime import date

import numpy as np

from shipcalc.pricing.areas import area_rows, has_area
from shipcalc.pricing.columns import Bool, LaneColumns
from shipcalc.ratebook.rows.trucking import Area, Season
from shipcalc.ratebook.rows.yearly import is_in_yearly
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True)
class InSeason:
    """A season, and the lanes (m,) that it holds over."""

    row: Season
    where: Bool


def seasons_on(seasons: Sequence[Season], day: date, lanes: LaneColumns, areas: Sequence[Area]) -> tuple[InSeason, ...]:
    """Return the seasons that hold on a day over at least one lane, in the order of the sheet."""
    found = []
    for season in seasons:
        if not is_in_season(season, day):
            continue
        where = np.ones(len(lanes), dtype=np.bool_)
        if season.from_area:
            where &= has_area(lanes.at_pickup, area_rows(areas, (season.from_area,)))
        if season.to_area:
            where &= has_area(lanes.at_delivery, area_rows(areas, (season.to_area,)))
        if where.any():
            found.append(InSeason(season, where))
    return tuple(found)


def is_in_season(season: Season, day: date) -> bool:
    """Return whether `day` is in the season; one that repeats every year may run over New Year."""
    if not season.every_year:
        return season.first_day <= day <= season.last_day
    return is_in_yearly(day, season.first_day, season.last_day)
