"""What was ticked and noted is carried over: to the lines it belongs to, from two people's copies into one."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from shipcalc.checklist.items import Item, State


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


def with_ticks(items: Sequence[Item], ticks: Iterable[Tick]) -> tuple[Item, ...]:
    """Return the items with what was filled in; ticks of other items are left out."""
    by_id = {tick.id: tick for tick in ticks}
    return tuple(_ticked(item, by_id[item.id]) if item.id in by_id else item for item in items)


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


def _ticked(item: Item, tick: Tick) -> Item:
    return replace(item, state=tick.state, done_on=tick.done_on, done_by=tick.done_by, remark=tick.remark)
