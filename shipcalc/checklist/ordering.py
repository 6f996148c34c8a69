"""Items in an order they can be worked off in: by date, and nothing before what it waits for."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from heapq import heapify, heappop, heappush

from shipcalc.checklist.items import Item


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
    """Return the items in working order, due no later than what waits for them, each with its slack.

    `gates` are the first and last day of each stage: what is due before a stage may slip until its first day, what is due
    in it until its last.
    """
    ordered = in_working_order(items)
    waits_for = {item.id: set(item.after) for item in ordered}
    followers = _followers(waits_for)
    settled: dict[str, Item] = {}
    for item in reversed(ordered):
        later = [settled[key].due for key in followers[item.id] if key in settled]
        due = min([item.due, *later])
        limits = [*later, *_gate(due, gates.get(item.stage))]
        settled[item.id] = replace(item, due=due, slack_days=(min(limits) - due).days if limits else None)
    return in_working_order([settled[item.id] for item in items])


def _gate(due: date, stage: tuple[date, date] | None) -> tuple[date, ...]:
    """Return the day of its own stage that something due then must not pass, where there is one."""
    return () if stage is None else tuple(day for day in stage if due <= day)[:1]


def _followers(waits_for: Mapping[str, set[str]]) -> dict[str, list[str]]:
    followers: dict[str, list[str]] = {key: [] for key in waits_for}
    for key, others in waits_for.items():
        for other in others:
            if other in followers:
                followers[other].append(key)
    return followers
