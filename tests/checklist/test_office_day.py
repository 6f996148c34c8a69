"""The office's day: which line belongs to which list, told from small shipments by hand."""

from datetime import date, timedelta

import icalendar

from shipcalc.checklist.office_day import OfficeDay, OpenLine, UnderWay, office_day
from shipcalc.documents.office.today_calendar import calendar_of_all
from shipcalc.records import replace

TODAY = date(2026, 12, 3)


def day(offset: int) -> date:
    return TODAY + timedelta(days=offset)


def line(shipment: str, name: str, owner: str, due: int, **more: object) -> OpenLine:
    return OpenLine(shipment=shipment, id=name, title=f"Do {name}", owner=owner, due=day(due), **more)  # type: ignore[arg-type]


SHIPMENTS = (
    UnderWay(
        shipment="A",
        buyer="Åsa Lindqvist",
        vehicles="HV-1 1961 Halberd Corsair",
        to="Bremen",
        moments={
            "ready": (day(-3), day(-3)),
            "pickup": (day(-2), day(-1)),
            "cut-off": (day(2), day(4)),
            "sailing": (day(5), day(6)),
        },
        recorded=frozenset({"pickup"}),
    ),
    UnderWay(
        shipment="B",
        buyer="K. Brandt",
        vehicles="HV-2 1957 Marlow Tern",
        to="Madison, WI",
        moments={"pickup": (day(-1), day(3)), "delivery": (day(8), day(12))},
    ),
)
LINES = (
    line("A", "invoice", "office", -2),
    line("A", "itn", "office", 0, critical=True, source="15 CFR 30.4(b)(5)", after=("invoice",)),
    line("A", "booking", "forwarder", 3),
    line("A", "telex", "forwarder", 9, after=("booking",)),
    line("B", "wash", "yard", 7, assigned="Ida"),
    line("B", "address", "buyer", 10),
    line("B", "thanks", "sales", 8),
    line("C", "nobody's", "office", -9),
)


def names(entries: "tuple[object, ...]") -> list[str]:
    return [f"{entry.shipment} {entry.id}" for entry in entries]  # type: ignore[attr-defined]


def made(person: str = "") -> OfficeDay:
    return office_day(LINES, SHIPMENTS, today=TODAY, person=person)


def test_each_line_stands_where_its_day_and_owner_put_it() -> None:
    """Late before today; due today to a week on; waiting what others can do, which waits for nothing that is open."""
    found = made()
    assert names(found.late) == ["A invoice"]
    assert names(found.due) == ["A itn", "A booking", "B wash"]
    assert names(found.waiting) == ["A booking", "B address"]
    assert [entry.id for entry in (*found.late, *found.due) if not entry.ready] == ["itn"]
    assert names(found.next) == ["B pickup", "A cut-off"]


def test_a_cut_off_counts_by_its_last_day_and_a_window_that_has_begun_by_today() -> None:
    assert [entry.due for entry in made().next] == [TODAY, day(4)]


def test_what_nobody_recorded_is_overdue_once_all_windows_are_over() -> None:
    """The first moment behind what came true, since its last day; nothing where the last one came true."""
    arrived = UnderWay(
        shipment="D",
        buyer="",
        vehicles="HV-3",
        to="Bremen",
        moments={
            "pickup": (day(-30), day(-30)),
            "arrival": (day(-9), day(-7)),
            "release": (day(-4), day(-2)),
            "delivery": (day(-2), day(-1)),
        },
        recorded=frozenset({"arrival"}),
    )
    (entry,) = office_day((), (arrived,), today=TODAY).next
    assert (entry.id, entry.due, entry.overdue) == ("release", day(-2), True)
    done = replace(arrived, recorded=frozenset({"arrival", "delivery"}))
    assert office_day((), (done,), today=TODAY).next == ()
    assert not any(one.overdue for one in made().next)


def test_each_shipment_is_one_row_the_latest_first() -> None:
    rows = [(one.shipment, one.late, one.due, one.waiting) for one in made().shipments]
    assert rows == [("A", 1, 2, ("forwarder",)), ("B", 0, 1, ("buyer",))]


def test_a_person_sees_what_was_given_to_them_or_to_their_role() -> None:
    assert names(made("ida").due) == ["B wash"]
    assert [one.shipment for one in made("Ida").shipments] == ["B"]
    assert names(made("office").late) == ["A invoice"]
    assert made("nobody").shipments == ()


def test_each_of_the_dealers_people_has_a_share_and_others_have_none() -> None:
    """Late and due within the week; a line that was given to nobody counts for its role."""
    assert [(one.who, one.late, one.due) for one in made().people] == [("office", 1, 1), ("Ida", 0, 1)]
    assert [one.who for one in made("ida").people] == ["Ida"]


def test_papers_that_are_missing_by_the_end_of_the_week_are_told() -> None:
    lines = (
        line("A", "invoice", "office", -2, paper="Invoice"),
        line("A", "seal", "office", 7, paper="Seal certificate"),
        line("B", "title", "office", 8, paper="Title"),
        line("B", "wash", "yard", 0),
    )
    found = office_day(lines, SHIPMENTS, today=TODAY)
    assert names(found.papers) == ["A invoice", "A seal"]
    assert {one.shipment: one.papers for one in found.shipments} == {"A": 2, "B": 0}


def test_an_entry_names_vehicle_and_buyer() -> None:
    entry = made().late[0]
    assert (entry.task, entry.owner, entry.vehicle, entry.buyer) == (
        "Do invoice",
        "office",
        "HV-1 1961 Halberd Corsair",
        "Åsa Lindqvist",
    )


def test_one_calendar_names_vehicle_and_buyer_and_rings_for_what_the_law_asks() -> None:
    """Read back by icalendar (RFC 5545): lines of both shipments and their moments; alarms for the ITN and the cut-off."""
    written = calendar_of_all(LINES, SHIPMENTS, written_on=TODAY)
    events = icalendar.Calendar.from_ical(written).walk("VEVENT")
    titles = [str(event["SUMMARY"]) for event in events]
    assert len(events) == 7 + 6
    assert all(
        title.startswith(("HV-1 1961 Halberd Corsair, Åsa Lindqvist: ", "HV-2 1957 Marlow Tern, K. Brandt: "))
        for title in titles
    )
    ringing = {str(event["SUMMARY"]).rpartition(": ")[2] for event in events if event.walk("VALARM")}
    assert ringing == {"Do itn", "Papers and vehicle due at the terminal"}
    alarm = next(event for event in events if event.walk("VALARM")).walk("VALARM")[0]
    assert alarm["TRIGGER"].dt == timedelta(days=-2, hours=9)
    assert len({str(event["UID"]) for event in events}) == len(events)
    late = icalendar.Calendar.from_ical(calendar_of_all(LINES, SHIPMENTS, written_on=day(5))).walk("VEVENT")
    assert not any(event.walk("VALARM") for event in late), "what is past does not ring"
    again = icalendar.Calendar.from_ical(calendar_of_all(LINES[1:], SHIPMENTS, written_on=day(1))).walk("VEVENT")
    assert {str(event["UID"]) for event in again} < {str(event["UID"]) for event in events}
