"""Whether a day lies in a season of the sheet Seasons."""

from datetime import date

from shipcalc.ratebook.trucking_rows import Season


def is_in_season(season: Season, day: date) -> bool:
    """Return whether `day` is in the season; one that repeats every year may run over New Year."""
    if not season.every_year:
        return season.first_day <= day <= season.last_day
    first, last = (season.first_day.month, season.first_day.day), (season.last_day.month, season.last_day.day)
    this = (day.month, day.day)
    return first <= this <= last if first <= last else this >= first or this <= last
