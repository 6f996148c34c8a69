"""Items in an order they can be worked off in: by date, and nothing before what it waits for."""

from collections.abc import Mapping, Sequence
from datetime import date

from shipcalc.checklist.items import Item
from shipcalc.records import replace
from shipcalc.schedule.in_turn import days_in_turn, followers, in_turn


def in_working_order(items: Sequence[Item]) -> tuple[Item, ...]:
    """Return the items by due date, none before one it waits for; ties keep the order they came in."""
    by_id = {item.id: item for item in items}
    ordered = in_turn({item.id: item.due for item in items}, {item.id: item.after for item in items})
    return tuple(by_id[key] for key in ordered)


def with_dates_that_hold(items: Sequence[Item], gates: Mapping[str, tuple[date, date]]) -> tuple[Item, ...]:
    """Return the items in working order, none due after what waits for it, each with its slack.

    `gates` are the first and last day of each stage: what is due before a stage may slip until its first day, what is due
    in it until its last.
    """
    after = {item.id: item.after for item in items}
    opens = {item.id: gates[item.stage][0] for item in items if item.stage in gates}
    due = days_in_turn({item.id: item.due for item in items}, after, opens)
    behind = followers(after)
    return in_working_order(
        [
            replace(item, due=due[item.id], slack_days=_slack_days(due, item, behind[item.id], gates.get(item.stage)))
            for item in items
        ]
    )


def _slack_days(
    due: Mapping[str, date], item: Item, followers: Sequence[str], stage: tuple[date, date] | None
) -> int | None:
    """Return the days until the first thing that would be late: something that waits, or the item's own stage."""
    own = due[item.id]
    limits = [due[key] for key in followers]
    limits += [day for day in stage or () if own <= day][:1]
    return max((min(limits) - own).days, 0) if limits else None
