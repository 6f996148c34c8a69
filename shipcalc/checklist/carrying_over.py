"""What was ticked and noted is carried over: from two people's copies of a line into one."""

from datetime import date

from shipcalc.checklist.items import Item, State
from shipcalc.records import dataclass, replace


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    """What people fill in on one line."""

    id: str
    state: State = "open"
    done_on: date | None = None
    done_by: str = ""
    remark: str = ""


def tick_of(item: Item) -> Tick:
    """Return what has been filled in for an item."""
    return Tick(id=item.id, state=item.state, done_on=item.done_on, done_by=item.done_by, remark=item.remark)


def joined(one: Tick, other: Tick) -> Tick:
    """Return one tick from two people's copies of a line: the later closing counts, both notes stay.

    What is closed counts before what is open; of two closed on the same day (or on none), the first.
    """
    assert one.id == other.id, "two lines, not two copies of one"
    first = max((one, other), key=lambda tick: (tick.state != "open", tick.done_on or date.min))
    return replace(first, remark=joined_remark(one.remark, other.remark))


def joined_remark(one: str, other: str) -> str:
    """Return two notes as one; where one says all that the other says, that one."""
    if one in other or other in one:
        return max(one, other, key=len)
    return f"{one} / {other}"
