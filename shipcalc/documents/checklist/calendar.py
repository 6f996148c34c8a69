"""A calendar file of a shipment (RFC 5545): its moments and what is due, as whole days.

Every entry keeps its UID when dates move, so that a calendar that reads the next file moves it and does not add another. There
is no clock in it: the day it was written is an argument.
"""

from collections.abc import Mapping, Sequence
from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING
from uuid import NAMESPACE_URL, uuid5

from shipcalc.checklist.columns import MOMENTS_IN_WORDS
from shipcalc.checklist.items import Item
from shipcalc.one_line import one_line
from shipcalc.quote.model import Window

if TYPE_CHECKING:
    from icalendar import Event

MAKER = "-//shipcalc//checklist//EN"


def calendar_bytes(
    items: Sequence[Item],
    moments: Mapping[str, Window],
    *,
    key: str,
    title: str,
    version: int,
    written_on: date,
    references: Sequence[tuple[str, str]] = (),
) -> bytes:
    """Return the calendar file of a shipment; `key` tells it from others, a later `version` replaces an earlier one.

    `references` are the numbers that the trade knows it by, told with each moment.
    """
    from icalendar import Calendar

    calendar = Calendar()
    calendar.add("prodid", MAKER)
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    calendar.add("x-wr-calname", one_line(title))
    stamp = datetime.combine(written_on, time(), UTC)

    def entry(name: str, days: Window, summary: str, about: str, words: Sequence[str]) -> "Event":
        from icalendar import Event

        event = Event()
        event.add("uid", str(uuid5(NAMESPACE_URL, f"shipcalc:{key}:{name}")))
        event.add("dtstamp", stamp)
        event.add("sequence", version - 1)
        event.add("dtstart", days[0])
        event.add("dtend", days[1] + timedelta(days=1))  # RFC 5545, 3.6.1: the day after the last
        event.add("summary", one_line(summary))
        if about:
            event.add("description", "\n".join(one_line(line) for line in about.splitlines()))
        event.add("categories", list(words))
        event.add("transp", "TRANSPARENT")
        return event

    numbers = "\n".join(f"{label}: {value}" for label, value in references)
    for stage, days in moments.items():
        calendar.add_component(
            entry(f"moment {stage}", days, f"{MOMENTS_IN_WORDS[stage]}: {title}", numbers, ("moment",))
        )
    for item in items:
        if item.due != date.max:
            calendar.add_component(
                entry(
                    f"line {item.id}",
                    (item.due, item.due),
                    _summary(item),
                    _about(item, title),
                    (item.owner or "nobody",),
                )
            )
    return bytes(calendar.to_ical())


def _summary(item: Item) -> str:
    state = "" if item.is_open else f" ({item.state})"
    return f"{item.owner}: {item.title}{state}" if item.owner else f"{item.title}{state}"


def _about(item: Item, title: str) -> str:
    parts = (
        title,
        f"What shows it: {item.wanted}" if item.wanted else "",
        "Nothing moves without it." if item.critical else "",
        item.note,
        f"Note: {item.remark}" if item.remark else "",
    )
    return "\n".join(part for part in parts if part)
