"""What a recorded day, or today, shows to be missed or dear: cut-offs, gates that are shut, storage in the ports."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta

from shipcalc.checklist.items import Item
from shipcalc.quote.model import Window
from shipcalc.schedule.working_days import OFFICE, is_working_day, public_holidays, working_day_until
from shipcalc.trade import SHIP, Called

# The task that shows the vehicle in the terminal, and the one that shows it taken out at the other end (sheet Tasks).
IN_THE_TERMINAL, TAKEN_OUT = "dock-receipt", "outturn"
MOST_NAMED = 3


def misses(
    items: Sequence[Item],
    moments: Mapping[str, Window],
    free_days: Mapping[str, int],
    today: date,
    called: Called = SHIP,
) -> Iterator[str]:
    """Yield what has to be said of the ship and the ports, one sentence or two each; nothing for a shipment by road.

    `free_days` are the days by the calendar that a vehicle stands in a port free of storage, by the stage that brings it there.
    """
    if "cut-off" not in moments or "sailing" not in moments:
        return
    there = _of_task(items, IN_THE_TERMINAL)
    yield from _shut(moments["cut-off"], today)
    yield from _too_late(there, items, moments["cut-off"][1], moments["sailing"][1], today, called)
    if "port" in free_days:
        yield from _storage_before_the_ship(there, free_days["port"], moments["cut-off"][1])
        yield from _too_soon(there, free_days["port"], moments, today)
    if "arrival" in moments and "arrival" in free_days:
        ends = moments["arrival"][1] + timedelta(days=free_days["arrival"])
        if today > ends and any(item.is_open for item in _of_task(items, TAKEN_OUT)):
            yield (
                f"The free days at the {called.place} of arrival ended on {ends.isoformat()} at the latest, "
                "and nobody has ticked that the vehicle was taken out: storage may be charged for each day."
            )


def _of_task(items: Sequence[Item], code: str) -> list[Item]:
    return [item for item in items if item.id.partition("/")[0] == code]


def _shut(cutoff: Window, today: date) -> Iterator[str]:
    for day in dict.fromkeys(cutoff):
        if day >= today and not is_working_day(day, OFFICE):
            what = public_holidays(OFFICE.country, day.year).get(day) or f"a {day:%A}"
            before = working_day_until(day, OFFICE)
            yield (
                f"The cut-off of {day.isoformat()} is {what}: ask the terminal whether its gate is open then; "
                f"if not, {before.isoformat()} counts."
            )


def _too_late(
    there: Sequence[Item], items: Sequence[Item], cutoff: date, sailing: date, today: date, called: Called
) -> Iterator[str]:
    ship, ended = f"the {called.carrier} of {sailing.isoformat()}", f"the cut-off of {cutoff.isoformat()}"
    what_now = (
        f"Ask the line for its next {called.carrier} and move the {called.departure} to that day; "
        "storage may be charged until then."
    )
    for item in there:
        if item.state == "done" and item.done_on is not None and item.done_on > cutoff:
            yield (
                f"{_whose(item)} came into the terminal on {item.done_on.isoformat()}, after {ended}: it may have missed {ship}. "
                f"{what_now}"
            )
    if today > cutoff and any(item.is_open for item in there):
        yield (
            f"{ended[:1].upper()}{ended[1:]} is over, and nobody has ticked that the vehicle is in the terminal: it may have "
            f"missed {ship}. {what_now}"
        )
    for item in items:
        if item.stage == "cut-off" and item.critical and item.done_on is not None and item.done_on > cutoff:
            yield f"{item.title} ({item.id}) was done on {item.done_on.isoformat()}, after {ended}: may {ship} still take it?"
    still = (
        [item for item in items if item.stage == "cut-off" and item.critical and item.is_open] if today > cutoff else []
    )
    if still:
        named = "; ".join(f"{item.title} ({item.id})" for item in still[:MOST_NAMED])
        more = f"; and {len(still) - MOST_NAMED} more" if len(still) > MOST_NAMED else ""
        yield (
            f"{ended[:1].upper()}{ended[1:]} is over, and this is not ticked: {named}{more}. Without it the vehicle may have "
            f"missed {ship}. {what_now}"
        )


def _whose(item: Item) -> str:
    return item.vehicle or "The vehicle"


def _storage_before_the_ship(there: Sequence[Item], free: int, cutoff: date) -> Iterator[str]:
    for item in there:
        if item.done_on is not None and (ends := item.done_on + timedelta(days=free)) < cutoff:
            yield (
                f"{_whose(item)} stands in the terminal free of storage until about {ends.isoformat()}, and the cut-off is on "
                f"{cutoff.isoformat()}: ask what the days between cost."
            )


def _too_soon(there: Sequence[Item], free: int, moments: Mapping[str, Window], today: date) -> Iterator[str]:
    """Yield from when it can be brought without storage, where its ship leaves later than it was first thought of."""
    soonest = moments["cut-off"][0] - timedelta(days=free)
    if "port" in moments and moments["port"][0] < soonest and today < soonest and any(item.is_open for item in there):
        yield (
            f"Brought to the terminal before about {soonest.isoformat()}, it stands there longer than its free days until the "
            "cut-off: have it picked up later, or ask what storage costs."
        )
