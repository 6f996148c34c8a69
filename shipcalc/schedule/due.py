"""When a paper or a task is due: so many days before or after a moment of the shipment."""

from datetime import date, timedelta

from shipcalc.ratebook.paperwork_rows import STAGES
from shipcalc.schedule.road import RoadDates
from shipcalc.schedule.working_days import OFFICE, Calendar, working_day_until


def due_date(stage: str, days: int, *, agreed: date, dates: RoadDates, office: Calendar = OFFICE) -> date:
    """Return the day something is due: `days` after `stage` (before it, where negative), never before the agreement.

    A pickup and a delivery are windows. What has to stand *before* them counts back from the first day they may happen; what
    happens *at* them (0 days) or later counts from the last. Days before and after fall back to a working day of the
    office, since nobody answers the telephone on the holiday in between.
    """
    day = moment(stage, agreed=agreed, dates=dates)[0 if days < 0 else 1] + timedelta(days=days)
    if days:
        day = working_day_until(day, office)
    return max(day, agreed)


def moment(stage: str, *, agreed: date, dates: RoadDates) -> tuple[date, date]:
    """Return the first and the last day on which a stage may happen."""
    assert stage in STAGES, f"{stage!r} is no stage"
    if stage == "agreed":
        return (agreed, agreed)
    if stage == "ready":
        return (dates.ready, dates.ready)
    if stage == "pickup":
        return dates.pickup
    return dates.delivery if stage == "delivery" else (dates.delivery[1], dates.delivery[1])
