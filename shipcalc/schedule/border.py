"""When a vehicle may leave over a land border: its papers must have been with customs for 72 hours (19 CFR 192.2(c)).

The filing's number must be with the carrier before that as well (15 CFR 30.4(b)(5)). Some ports count clock hours and some the
hours of business days; a plan that holds under the second holds under the first, so business days are counted. Where on the road
the border lies is not known: the truck does not set out before the hours are over.
"""

from datetime import date

from shipcalc.schedule.cutoff import EXPORT_NOTICE_H
from shipcalc.schedule.working_days import OFFICE, plus_working_days

# Deposit, bill of sale, screening and the filing after the agreement, as the tasks have them: common practice, no source.
PAPERS_WORKING_DAYS = 3


def papers_with_customs(agreed: date) -> date:
    """Return the first day on which title and filing can be with customs at the border."""
    return plus_working_days(agreed, PAPERS_WORKING_DAYS, OFFICE)


def first_departure(agreed: date) -> date:
    """Return the first day on which a truck may set out over the border: 72 hours of business days after the papers came."""
    return plus_working_days(papers_with_customs(agreed), EXPORT_NOTICE_H // 24, OFFICE)
