"""What recorded days, or today, show to be missed: each case by hand."""

from datetime import date, timedelta

import pytest

from shipcalc.checklist.items import Item
from shipcalc.checklist.misses import misses

MOMENTS = {
    "port": (date(2026, 12, 7), date(2026, 12, 11)),
    "cut-off": (date(2026, 12, 14), date(2026, 12, 14)),  # a Monday
    "sailing": (date(2026, 12, 18), date(2026, 12, 18)),
    "arrival": (date(2027, 1, 18), date(2027, 1, 23)),
}


def line(code: str, *, stage: str, done_on: date | None = None, vehicle: str | None = None) -> Item:
    state = "done" if done_on else "open"
    key = f"{code}/{vehicle}" if vehicle else code
    return Item(id=key, title="Do it", owner="carrier", due=date(2026, 12, 11), stage=stage, critical=True, vehicle=vehicle,
                state=state, done_on=done_on)  # fmt: skip


def told(*items: Item, today: date, free: dict[str, int] | None = None, **moments: tuple[date, date]) -> list[str]:
    return list(
        misses(items, MOMENTS | {name.replace("_", "-"): days for name, days in moments.items()}, free or {}, today)
    )


def test_all_in_time_nothing_is_said():
    there = line("dock-receipt", stage="port", done_on=date(2026, 12, 14))
    shown = line("papers-presented", stage="cut-off", done_on=date(2026, 12, 14))
    free = {"port": 7, "arrival": 5}
    assert told(there, shown, today=date(2026, 12, 15), free=free) == []


def test_a_vehicle_that_came_a_day_late_is_named_with_its_ship():
    there = line("dock-receipt", stage="port", done_on=date(2026, 12, 15), vehicle="HV-7")
    (sentence,) = told(there, today=date(2026, 12, 15))
    assert sentence.startswith("HV-7 came into the terminal on 2026-12-15, after the cut-off of 2026-12-14")
    assert "ship of 2026-12-18" in sentence


def test_a_cut_off_that_passed_without_a_tick_is_said_from_the_day_after():
    open_line = line("dock-receipt", stage="port")
    assert told(open_line, today=date(2026, 12, 14)) == []
    (sentence,) = told(open_line, today=date(2026, 12, 15))
    assert "nobody has ticked that the vehicle is in the terminal" in sentence


def test_what_must_be_done_by_a_cut_off_and_is_not_ticked_is_named_from_the_day_after():
    there = line("dock-receipt", stage="port", done_on=date(2026, 12, 10))
    filing = line("export-filing", stage="cut-off")
    assert told(there, filing, today=date(2026, 12, 14)) == []
    (sentence,) = told(there, filing, today=date(2026, 12, 15))
    assert "not ticked: Do it (export-filing)" in sentence
    assert "may have missed the ship of 2026-12-18" in sentence
    many = [line(f"paper-{number}", stage="cut-off") for number in range(5)]
    (sentence,) = told(there, *many, today=date(2026, 12, 15))
    assert "(paper-2); and 2 more" in sentence


def test_a_paper_that_came_late_is_named():
    (sentence,) = told(line("papers-presented", stage="cut-off", done_on=date(2026, 12, 15)), today=date(2026, 12, 16))
    assert "(papers-presented) was done on 2026-12-15" in sentence


@pytest.mark.parametrize(
    ("cutoff", "what", "counts"),
    [
        (date(2026, 12, 12), "a Saturday", "2026-12-11"),
        (date(2026, 12, 25), "Christmas Day", "2026-12-24"),  # 5 USC 6103(a)
    ],
)
def test_a_cut_off_at_the_weekend_or_on_a_holiday_is_asked_about(cutoff, what, counts):
    (sentence,) = told(today=date(2026, 12, 1), cut_off=(cutoff, cutoff))
    assert f"is {what}" in sentence
    assert f"{counts} counts" in sentence
    assert told(today=cutoff + timedelta(days=1), cut_off=(cutoff, cutoff)) == []


def test_free_days_that_end_before_the_cut_off_are_said():
    there = line("dock-receipt", stage="port", done_on=date(2026, 12, 7))
    assert told(there, today=date(2026, 12, 8), free={"port": 7}) == []
    (sentence,) = told(there, today=date(2026, 12, 8), free={"port": 6})
    assert "free of storage until about 2026-12-13" in sentence


def test_it_is_not_brought_before_its_free_days_reach_to_the_cut_off():
    there, day = line("dock-receipt", stage="port"), date(2026, 12, 1)
    assert told(there, today=day, free={"port": 7}) == []  # from the 7th to the 14th
    (sentence,) = told(there, today=day, free={"port": 7}, cut_off=(date(2026, 12, 21),) * 2)
    assert "before about 2026-12-14" in sentence


def test_free_days_at_the_other_end_are_said_until_it_is_taken_out():
    free, day = {"arrival": 5}, date(2027, 1, 29)  # the day after 23 January and five days
    (sentence,) = told(line("outturn", stage="release"), today=day, free=free)
    assert "2027-01-28" in sentence
    assert told(line("outturn", stage="release"), today=date(2027, 1, 28), free=free) == []
    assert told(line("outturn", stage="release", done_on=day), today=day, free=free) == []


def test_by_road_there_is_no_port():
    assert list(misses([line("dock-receipt", stage="port")], {"pickup": MOMENTS["port"]}, {}, date(2027, 1, 1))) == []
