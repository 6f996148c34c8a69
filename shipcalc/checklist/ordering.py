"""Items in an order they can be worked off in: by date, and nothing before what it waits for."""

from collections.abc import Mapping, Sequence
from datetime import date
from heapq import heapify, heappop, heappush

from shipcalc.checklist.items import Item
from shipcalc.records import replace


def in_working_order(items: Sequence[Item]) -> tuple[Item, ...]:
    """Return the items by due date, none before one it waits for; ties keep the order they came in.

    What stands in a circle cannot be ordered: the earliest due of the circle then goes first.
    """
    by_id = {item.id: item for item in items}
    waits_for = {item.id: {other for other in item.after if other in by_id and other != item.id} for item in items}
    followers = _followers(waits_for)
    rank = {item.id: (item.due, place) for place, item in enumerate(items)}
    free = [(rank[key], key) for key, others in waits_for.items() if not others]
    heapify(free)
    ordered: list[Item] = []
    waiting = {key for key, others in waits_for.items() if others}
    while free or waiting:
        key = heappop(free)[1] if free else min(waiting, key=rank.__getitem__)
        waiting.discard(key)
        ordered.append(by_id[key])
        for follower in followers[key]:
            waits_for[follower].discard(key)
            if follower in waiting and not waits_for[follower]:
                waiting.discard(follower)
                heappush(free, (rank[follower], follower))
    return tuple(ordered)


def with_dates_that_hold(items: Sequence[Item], gates: Mapping[str, tuple[date, date]]) -> tuple[Item, ...]:
    """Return the items in working order, none due after what waits for it, each with its slack.

    `gates` are the first and last day of each stage: what is due before a stage may slip until its first day, what is due
    in it until its last. An item moves forward to what waits for it, but not from within its stage to before it: no condition
    report is filled in before the truck is there. Then what waits moves back.
    """
    ordered = in_working_order(items)
    followers = _followers({item.id: set(item.after) for item in ordered})
    due = {item.id: item.due for item in ordered}
    for item in reversed(ordered):
        first = gates.get(item.stage, (date.min, date.min))[0]
        soonest = first if item.due >= first else date.min
        due[item.id] = max(min([item.due, *(due[key] for key in followers[item.id])]), soonest)
    for item in ordered:
        due[item.id] = max([due[item.id], *(due[key] for key in item.after if key in due)])
    settled = [
        replace(item, due=due[item.id], slack_days=_slack_days(due, item, followers[item.id], gates.get(item.stage)))
        for item in items
    ]
    return in_working_order(settled)


def _slack_days(
    due: Mapping[str, date], item: Item, followers: Sequence[str], stage: tuple[date, date] | None
) -> int | None:
    """Return the days until the first thing that would be late: something that waits, or the item's own stage."""
    own = due[item.id]
    limits = [due[key] for key in followers]
    limits += [day for day in stage or () if own <= day][:1]
    return max((min(limits) - own).days, 0) if limits else None


def _followers(waits_for: Mapping[str, set[str]]) -> dict[str, list[str]]:
    followers: dict[str, list[str]] = {key: [] for key in waits_for}
    for key, others in waits_for.items():
        for other in others:
            if other in followers:
                followers[other].append(key)
    return followers
