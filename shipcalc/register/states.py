"""How a quote stands: as few words as there can be.

*open*: it holds until its last day. *ended*: that day is over (reckoned). *accepted*, *declined*: the buyer said so.
"""

from datetime import date
from typing import Literal

State = Literal["open", "ended", "accepted", "declined"]
OPEN, ENDED, ACCEPTED, DECLINED = "open", "ended", "accepted", "declined"
STATES: tuple[State, ...] = ("open", "ended", "accepted", "declined")


def state_on(stored: str, valid_until: date, today: date) -> State:
    """Return how a quote stands on a day."""
    if stored == OPEN and valid_until < today:
        return "ended"
    return next(state for state in STATES if state == stored)
