"""The crossing that a truck over a land border most likely takes, and when customs clear trucks there."""

from collections.abc import Iterator, Sequence

from shipcalc.places.place import Place
from shipcalc.places.straight import great_circle_mi_of
from shipcalc.ratebook.rows.ways import BorderPort, hours_in

ALL_DAY = (0, 24)
# A carrier stays on the roads of home where it can, and does not plan on a gate that may be shut: a mile beyond the border weighs
# more, and a crossing with fewer hours counts as so much farther (our own rules, no source).
BEYOND_THE_BORDER = 1.15
FEWER_HOURS_MI = 60


def crossing_on_the_way(rows: Sequence[BorderPort], start: Place, to: Place) -> BorderPort | None:
    """Return the crossing into the buyer's country with the shortest straight lines before and after it; None without a row."""

    def miles(row: BorderPort) -> float:
        before, after = (
            great_circle_mi_of(place.latitude, place.longitude, row.latitude, row.longitude) for place in (start, to)
        )
        return before + BEYOND_THE_BORDER * after + (0 if _never_shuts(row) else FEWER_HOURS_MI)

    there = [row for row in rows if row.country.upper() == to.country]
    return min(there, key=miles, default=None)


def hours_told(row: BorderPort) -> str:
    """Return when customs clear trucks at a crossing, as a sentence."""
    if _never_shuts(row):
        return f"Likely by {row.crossing}, where customs clear trucks at all hours."
    days = {"Monday to Friday": row.weekdays, "Saturday": row.saturday, "Sunday": row.sunday}
    shut = [*(f"{day}s" for day, text in days.items() if not text), *([] if row.holidays else ["holidays"])]
    none = f"; none on {', '.join(shut)}" if shut else ""
    return (
        f"By {row.crossing}: customs clear trucks {', '.join(_told(days))}{none}. Ask before it sets out: hours change."
    )


def _never_shuts(row: BorderPort) -> bool:
    week = (row.weekdays, row.saturday, row.sunday)
    return row.holidays and all(text is not None and hours_in(text) == ALL_DAY for text in week)


def _told(days: dict[str, str | None]) -> Iterator[str]:
    for day, text in days.items():
        hours = hours_in(text) if text else None
        if hours is not None:
            yield f"{day} {hours[0]}:00 to {hours[1]}:00"
