"""Things that wait for each other, in an order they can be worked off in, and days that hold in it."""

from collections.abc import Collection, Mapping, Sequence
from datetime import date
from heapq import heapify, heappop, heappush
from typing import TypeVar

Key = TypeVar("Key")


def in_turn(due: Mapping[Key, date], after: Mapping[Key, Collection[Key]]) -> list[Key]:
    """Return the keys by due date, none before one it waits for; ties keep the order they came in.

    What stands in a circle cannot be ordered: the earliest due of the circle then goes first.
    """
    waits_for = {key: {other for other in after[key] if other in due and other != key} for key in due}
    behind = followers(waits_for)
    rank = {key: (day, place) for place, (key, day) in enumerate(due.items())}
    free = [(rank[key], key) for key, others in waits_for.items() if not others]
    heapify(free)
    ordered: list[Key] = []
    waiting = {key for key, others in waits_for.items() if others}
    while free or waiting:
        key = heappop(free)[1] if free else min(waiting, key=rank.__getitem__)
        waiting.discard(key)
        ordered.append(key)
        for follower in behind[key]:
            waits_for[follower].discard(key)
            if follower in waiting and not waits_for[follower]:
                waiting.discard(follower)
                heappush(free, (rank[follower], follower))
    return ordered


def days_in_turn(
    due: Mapping[Key, date], after: Mapping[Key, Collection[Key]], opens: Mapping[Key, date]
) -> dict[Key, date]:
    """Return the days, none later than those of what waits for it.

    What is due too late moves forward to what waits for it, but not to before the day it `opens` where it is due after that: no
    condition report is filled in before the truck is there. Then what waits moves back.
    """
    ordered = in_turn(due, after)
    behind = followers(after)
    days = dict(due)
    for key in reversed(ordered):
        first = opens.get(key, date.min)
        soonest = first if due[key] >= first else date.min
        days[key] = max(min([due[key], *(days[other] for other in behind[key])]), soonest)
    for key in ordered:
        days[key] = max([days[key], *(days[other] for other in after[key] if other in days)])
    return days


def followers(after: Mapping[Key, Collection[Key]]) -> dict[Key, Sequence[Key]]:
    """Return what waits for each key."""
    found: dict[Key, list[Key]] = {key: [] for key in after}
    for key, others in after.items():
        for other in others:
            if other in found:
                found[other].append(key)
    return dict(found)
