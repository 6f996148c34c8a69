"""The calendar file, read by a parser that is not the one it is written with (vobject), and against RFC 5545 itself."""

from datetime import date, timedelta

import pytest
import vobject

from shipcalc.actions.checklist import move_checklist
from shipcalc.checklist.making import checklist, gates, shipment_key
from shipcalc.documents.checklist.calendar import calendar_bytes
from shipcalc.documents.checklist.workbook import write_checklist_workbook


@pytest.fixture
def made(make_shipment):
    quote = make_shipment(buyer="Ottoline; Marsh, \\ Sons", agreed=date(2026, 12, 1))
    option = quote.options[0]
    items = checklist(quote, option)
    content = calendar_bytes(
        items,
        gates(quote, option),
        key=shipment_key(quote, option),
        title=f"1961 Larkspur Minnow for {quote.buyer}",
        version=1,
        written_on=quote.as_of,
    )
    return items, gates(quote, option), content


def events(content):
    return {event.uid.value: event for event in vobject.readOne(content.decode()).vevent_list}


def test_every_line_is_a_whole_day_of_its_own(made):
    items, moments, content = made
    found = list(events(content).values())
    assert len(found) == len(items) + len(moments)
    by_summary = {event.summary.value: event for event in found}
    assert len(by_summary) == len(found)
    for item in items:
        event = by_summary[f"{item.owner}: {item.title}"]
        assert event.dtstart.value == item.due
        assert event.dtend.value == item.due + timedelta(days=1)  # RFC 5545, 3.6.1: the end is not part of it
    pickup = by_summary["Pickup: 1961 Larkspur Minnow for Ottoline; Marsh, \\ Sons"]
    assert (pickup.dtstart.value, pickup.dtend.value - timedelta(days=1)) == moments["pickup"]


def test_it_keeps_to_the_letter_of_the_standard(made):
    *_, content = made
    lines = content.split(b"\r\n")
    assert content.endswith(b"\r\n")
    assert b"\n" not in b"".join(lines)  # 3.1: lines end with CR LF
    assert max(map(len, lines)) <= 75  # 3.1: no line is longer than 75 octets
    assert lines[0] == b"BEGIN:VCALENDAR"
    unfolded = content.replace(b"\r\n ", b"").split(b"\r\n")
    assert b"VERSION:2.0" in unfolded  # 3.7.4
    assert sum(line.startswith(b"PRODID:") for line in unfolded) == 1  # 3.7.3: exactly once
    count = unfolded.count(b"BEGIN:VEVENT")
    for needed in (b"UID:", b"DTSTAMP:", b"DTSTART;VALUE=DATE:"):  # 3.6.1
        assert sum(line.startswith(needed) for line in unfolded) == count
    assert b"Ottoline\\; Marsh\\, \\\\ Sons" in b"".join(unfolded)  # 3.3.11


def test_no_clock_is_in_it(made):
    stamps = {event.dtstamp.value.isoformat() for event in events(made[2]).values()}
    assert stamps == {"2026-12-01T00:00:00+00:00"}


def test_a_later_version_moves_the_same_entries(tmp_path, make_shipment):
    path = tmp_path / "checklist.xlsx"
    quote = make_shipment()
    write_checklist_workbook(quote, 0, path)
    option = quote.options[0]
    first = calendar_bytes(
        checklist(quote, option),
        gates(quote, option),
        key=shipment_key(quote, option),
        title="t",
        version=1,
        written_on=quote.as_of,
    )
    before = events(first)
    moved = move_checklist(path, "pickup", to=None, days=7, out=None, today=date(2026, 12, 2))
    after = events(moved.calendar.read_bytes())
    assert set(after) == set(before)
    assert {event.sequence.value for event in after.values()} == {"1"}  # RFC 5545, 3.8.7.4: raised with each revision
    assert any(after[uid].dtstart.value > event.dtstart.value for uid, event in before.items())


def test_two_shipments_share_no_entry(make_shipment, fleet):
    uids = []
    for vehicle in fleet[:2]:
        quote = make_shipment(vehicle)
        option = quote.options[0]
        content = calendar_bytes(
            checklist(quote, option),
            gates(quote, option),
            key=shipment_key(quote, option),
            title="t",
            version=1,
            written_on=quote.as_of,
        )
        uids.append(set(events(content)))
    assert uids[0].isdisjoint(uids[1])
