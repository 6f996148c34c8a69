"""One calendar file of all shipments (RFC 5545): what is open and what comes, each title with its vehicle and buyer.

What a law asks for, and the cut-offs of ports, ring two days before, in the morning, as long as they are to come. Every entry
keeps its UID, so that a calendar that reads the next file moves it and does not add another.
"""

from collections.abc import Iterable, Iterator, Sequence
from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING
from uuid import NAMESPACE_URL, uuid5

from shipcalc.checklist.columns import MOMENTS_IN_WORDS
from shipcalc.checklist.office_day import Entry, OpenLine, UnderWay, entry_of, is_for, moment_entry

if TYPE_CHECKING:
    from icalendar import Event

MAKER = "-//shipcalc//shipments//EN"
RINGS_BEFORE = timedelta(days=-2, hours=9)  # from midnight, with which a whole day begins


def calendar_of_all(
    lines: Sequence[OpenLine], shipments: Iterable[UnderWay], *, written_on: date, person: str = ""
) -> bytes:
    """Return the calendar of what is open in all shipments, or of one person's lines; moments are in both."""
    from icalendar import Calendar

    calendar = Calendar()
    calendar.add("prodid", MAKER)
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    calendar.add("x-wr-calname", "Shipments")
    known = {one.shipment: one for one in shipments}
    stamp = datetime.combine(written_on, time(), UTC)
    for entry, first, last in _entries(lines, known, person):
        calendar.add_component(_event(entry, first, last, stamp))
    return bytes(calendar.to_ical())


def _entries(lines: Sequence[OpenLine], known: dict[str, UnderWay], person: str) -> Iterator[tuple[Entry, date, date]]:
    mine = [line for line in lines if line.shipment in known and is_for(line, person)]
    shown = {line.shipment for line in mine}
    for one in known.values():
        for stage, (first, last) in one.moments.items():
            if one.shipment in shown and stage in MOMENTS_IN_WORDS:
                yield moment_entry(one, stage, last), first, last
    for line in mine:
        if line.due != date.max:
            yield entry_of(line, known[line.shipment]), line.due, line.due


def _event(entry: Entry, first: date, last: date, stamp: datetime) -> "Event":
    from icalendar import Alarm, Event

    event = Event()
    event.add(
        "uid", str(uuid5(NAMESPACE_URL, f"shipcalc:{entry.shipment}:{'line' if entry.owner else 'moment'} {entry.id}"))
    )
    event.add("dtstamp", stamp)
    event.add("dtstart", first)
    event.add("dtend", last + timedelta(days=1))  # RFC 5545, 3.6.1: the day after the last
    title = f"{entry.vehicle}, {entry.buyer}" if entry.buyer else entry.vehicle
    event.add("summary", f"{title}: {entry.task}")
    told = (entry.shipment, entry.owner and f"Who: {entry.owner}", entry.wanted and f"What shows it: {entry.wanted}")
    event.add("description", "\n".join(part for part in told if part))
    event.add("categories", [entry.owner.partition(":")[0] or "moment"])
    event.add("transp", "TRANSPARENT")
    if entry.legal and last >= stamp.date():
        alarm = Alarm()
        alarm.add("action", "DISPLAY")
        alarm.add("description", f"{title}: {entry.task}")
        alarm.add("trigger", RINGS_BEFORE)
        event.add_component(alarm)
    return event
