"""What was ticked and noted is carried over: from a sheet that came back, from two people's copies, to new dates."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from shipcalc.checklist.items import Item, State
from shipcalc.checklist.ordering import in_working_order


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
    remarks = dict.fromkeys(remark for remark in (one.remark, other.remark) if remark)
    return replace(first, remark=" / ".join(remarks))


def redated(before: Sequence[Item], afresh: Sequence[Item]) -> tuple[Item, ...]:
    """Return the checklist with new dates: open items take theirs from `afresh`, closed ones stay as they were.

    What is no longer on the list stays where it was closed or noted on; what is new comes in open.
    """
    old = {item.id: item for item in before}
    new = {item.id: item for item in afresh}
    kept = [item for item in before if item.id not in new and (not item.is_open or item.remark)]
    return in_working_order([*(_carried(item, old) for item in afresh), *kept])


def _carried(item: Item, old: Mapping[str, Item]) -> Item:
    was = old.get(item.id)
    if was is None:
        return item
    carried = _ticked(item, tick_of(was))
    return carried if was.is_open else replace(carried, due=was.due, slack_days=was.slack_days)


def _ticked(item: Item, tick: Tick) -> Item:
    return replace(item, state=tick.state, done_on=tick.done_on, done_by=tick.done_by, remark=tick.remark)
