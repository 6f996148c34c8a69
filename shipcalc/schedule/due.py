"""When a paper or a task is due: so many days before or after a moment of the shipment."""

from collections.abc import Mapping
from datetime import date, timedelta

from shipcalc.schedule.road import RoadDates, Window
from shipcalc.schedule.working_days import OFFICE, Calendar, working_day_until
from shipcalc.trade import MOMENTS

# What is due at a deadline is due for the first of the days it may fall on: the ship that may still be reached does not wait.
DEADLINES = frozenset({"cut-off"})


def home_days(agreed: date, dates: RoadDates) -> dict[str, Window]:
    """Return the moments of a shipment by road, by stage: the first and the last day on which each may happen."""
    return {
        "agreed": (agreed, agreed),
        "ready": (dates.ready, dates.ready),
        "pickup": dates.pickup,
        "delivery": dates.delivery,
        "after delivery": dates.delivery,
    }


def due_date(
    stage: str,
    days: int,
    counts_from: str | None = None,
    *,
    moments: Mapping[str, Window],
    office: Calendar = OFFICE,
) -> date:
    """Return the day something is due: `days` after `stage` (before it, where negative), never before the agreement.

    Most moments are windows. What has to stand *before* them counts back from the first day they may happen; what happens *at*
    them (0 days) or later counts from the last, except at a deadline. `counts_from`, "first" or "last", says which end a row
    wants: a limit of the law that counted from the last day would be missed where the first one comes true. Days before and
    after fall back to a working day of the office, since nobody answers the telephone on the holiday in between; days after
    never to before the moment.
    """
    window = moment(stage, moments)
    from_first = counts_from == "first" or (counts_from is None and (days < 0 or stage in DEADLINES))
    start = window[0 if from_first else 1]
    day = start + timedelta(days=days)
    if days:
        day = working_day_until(day, office)
    return max(day, moments["agreed"][0], start if days > 0 else day)


def moment(stage: str, moments: Mapping[str, Window]) -> Window:
    """Return the first and the last day on which a stage may happen.

    A shipment that has no such stage, as one by road has no sailing, takes the last one before it that it has.
    """
    assert stage in MOMENTS, f"{stage!r} is not a stage"
    return next(moments[name] for name in reversed(MOMENTS[: MOMENTS.index(stage) + 1]) if name in moments)
