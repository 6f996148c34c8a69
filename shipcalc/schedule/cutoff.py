"""Counting hours back from a departure: the 72 hours of 19 CFR 192.2(c) and 15 CFR 30.4(b)(5).

Ports read the 72 hours differently, so the kind of hours is an argument: by the clock, or only those of business days.
"""

from datetime import UTC, datetime, time, timedelta
from typing import Literal

from shipcalc.schedule.working_days import OFFICE, Calendar, is_working_day

HoursKind = Literal["clock", "business"]

EXPORT_NOTICE_H = 72


def latest_time_before(
    departure: datetime, *, hours: int = EXPORT_NOTICE_H, kind: HoursKind = "clock", calendar: Calendar = OFFICE
) -> datetime:
    """Return the last moment that lies `hours` before `departure`, in the same zone.

    Clock hours run through; where `departure` knows its zone, a change of the clocks in between is counted. Business
    hours are the 24 hours of each working day of `calendar`: Monday 08:00 less 72 is Friday 08:00 by the clock and
    Wednesday 08:00 by business days.
    """
    if kind == "clock":
        if departure.tzinfo is None:
            return departure - timedelta(hours=hours)
        return (departure.astimezone(UTC) - timedelta(hours=hours)).astimezone(departure.tzinfo)

    moment, left = departure, timedelta(hours=hours)
    while left:
        midnight = datetime.combine(moment.date(), time(), moment.tzinfo)
        if moment == midnight:
            midnight -= timedelta(days=1)
        if is_working_day(midnight.date(), calendar):
            used = min(left, moment - midnight)
            moment, left = moment - used, left - used
        else:
            moment = midnight
    return moment
