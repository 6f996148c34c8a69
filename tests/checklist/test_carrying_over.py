from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from shipcalc.checklist.carrying_over import Tick, joined
from shipcalc.checklist.items import STATES, Item
from shipcalc.checklist.progress import closed_too_soon, overdue, ready_to_do
from shipcalc.records import replace

DAY = date(2026, 12, 1)
TICKS = st.builds(
    Tick,
    id=st.just("fuel"),
    state=st.sampled_from(STATES),
    done_on=st.one_of(st.none(), st.dates(DAY, date(2026, 12, 9))),
    done_by=st.sampled_from(["", "Ines", "Bo"]),
    remark=st.sampled_from(["", "=gauge broken", "called twice"]),
)


def item(key, days=0, *after, **more):
    return Item(id=key, title=key, owner="yard", due=DAY + timedelta(days=days), after=after, **more)


def test_what_is_late_and_what_can_be_done_now():
    items = (item("wash", 1, state="done"), item("photographs", 2, "wash"), item("report", 5, "photographs"))
    assert [entry.id for entry in overdue(items, DAY + timedelta(days=3))] == ["photographs"]
    assert overdue(items, DAY + timedelta(days=2)) == ()
    assert [entry.id for entry in ready_to_do(items)] == ["photographs"]


def test_something_done_before_what_it_waits_for_is_asked_about():
    wash, photographs = item("wash"), item("photographs", 1, "wash", state="done")
    assert closed_too_soon((wash, photographs)) == ((photographs, wash),)
    assert closed_too_soon((replace(wash, state="not needed"), photographs)) == ()


def test_of_two_copies_the_later_closing_counts_and_both_notes_stay():
    ines = Tick(id="fuel", state="done", done_on=date(2026, 12, 3), done_by="Ines", remark="quarter")
    bo = Tick(id="fuel", state="not needed", done_on=date(2026, 12, 4), done_by="Bo", remark="gauge broken")
    assert joined(ines, bo) == replace(bo, remark="quarter / gauge broken")
    assert joined(ines, Tick(id="fuel", remark="call first")) == replace(ines, remark="quarter / call first")


@given(one=TICKS, other=TICKS)
def test_joining_loses_no_note_and_opens_nothing_again(one, other):
    both = joined(one, other)
    assert one.remark in both.remark
    assert other.remark in both.remark
    assert (both.state == "open") == (one.state == other.state == "open")


@given(one=TICKS)
def test_a_copy_joined_with_itself_is_itself(one):
    assert joined(one, one) == one
