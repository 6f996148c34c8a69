from datetime import date, timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shipcalc.checklist.items import Item
from shipcalc.checklist.making import checklist, gates, shipment_key
from shipcalc.checklist.ordering import in_working_order, with_dates_that_hold
from shipcalc.quote.model import Document
from shipcalc.records import replace
from shipcalc.vehicles.vehicle import Vehicle

DAY = date(2026, 12, 1)
TITLES = st.sampled_from(["clean", "lien", "salvage", "foreign", "bill of sale only", "missing"])
VEHICLES = st.builds(
    Vehicle,
    stock_number=st.just("HV-1"),
    title=TITLES,
    runs=st.booleans(),
    value_minor=st.sampled_from([1, 10**8, None]),
)
SEVERAL = st.lists(VEHICLES, min_size=1, max_size=3).map(
    lambda some: [replace(vehicle, stock_number=f"HV-{n}") for n, vehicle in enumerate(some, 1)]
)
SLOW = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


def item(key, days, *after, stage=""):
    return Item(id=key, title=key, owner="office", due=DAY + timedelta(days=days), after=after, stage=stage)


def test_items_come_by_date_and_after_what_they_wait_for():
    listed = in_working_order([item("c", 3, "b"), item("b", 3), item("a", 1)])
    assert [entry.id for entry in listed] == ["a", "b", "c"]


def test_items_of_one_day_keep_the_order_of_the_sheet():
    assert [entry.id for entry in in_working_order([item("z", 1), item("a", 1)])] == ["z", "a"]


def test_a_circle_is_listed_whole_and_the_earliest_goes_first():
    listed = in_working_order([item("a", 2, "b"), item("b", 1, "a"), item("c", 0)])
    assert [entry.id for entry in listed] == ["c", "b", "a"]


def test_an_item_is_due_no_later_than_what_waits_for_it():
    first, second = with_dates_that_hold([item("deposit", 9), item("book", 4, "deposit")], {})
    assert (first.id, first.due, first.slack_days) == ("deposit", second.due, 0)


def test_slack_is_the_days_to_the_first_thing_that_would_be_late():
    dated = with_dates_that_hold([item("a", 1), item("b", 5, "a"), item("c", 3, "a")], {})
    assert {entry.id: entry.slack_days for entry in dated} == {"a": 2, "b": None, "c": None}


def test_slack_ends_at_the_items_own_stage():
    pickup = {"pickup": (DAY + timedelta(days=4), DAY + timedelta(days=8))}
    before, at = with_dates_that_hold([item("fuel", 1, stage="pickup"), item("report", 6, stage="pickup")], pickup)
    assert (before.slack_days, at.slack_days) == (3, 2)


def test_what_happens_at_a_stage_does_not_move_to_before_it():
    pickup = {"pickup": (DAY + timedelta(days=4), DAY + timedelta(days=8))}
    report, call = with_dates_that_hold([item("report", 8, stage="pickup"), item("call", 2, "report")], pickup)
    assert report.due == DAY + timedelta(days=4)
    assert call.due == report.due


def test_ids_name_the_vehicle_only_where_there_are_several(make_shipment, fleet):
    one, three = make_shipment(fleet[0]), make_shipment(*fleet)
    assert "photographs" in {entry.id for entry in checklist(one, one.options[0])}
    ids = {entry.id for entry in checklist(three, three.options[0])}
    assert {"photographs/HV-114", "photographs/HV-318", "photographs/HV-207", "deposit"} <= ids
    assert "deposit/HV-114" not in ids


def test_a_task_of_the_whole_shipment_waits_for_the_same_task_of_every_vehicle(make_shipment, fleet):
    quote = make_shipment(*fleet)
    order = next(entry for entry in checklist(quote, quote.options[0]) if entry.id == "transport-order")
    assert {f"declared-value/{vehicle.stock_number}" for vehicle in fleet} <= set(order.after)


def test_a_paper_without_a_task_gets_a_line_of_its_own(make_shipment):
    quote = make_shipment()
    note = Document(code="plain-note", title="A plain note", due=DAY, prepared_by="yard", given_to="buyer")
    option = replace(quote.options[0], documents=(*quote.options[0].documents, note))
    line = next(entry for entry in checklist(quote, option) if entry.id == "plain-note")
    assert (line.owner, line.title) == ("yard", "Have this paper ready and give it to the buyer: A plain note")


@pytest.mark.parametrize("code", ["title", "lien-release", "photographs", "claim"])
def test_everything_says_what_shows_it_and_where_it_is_from(make_shipment, fleet, code):
    quote = make_shipment(fleet[1])
    line = next(entry for entry in checklist(quote, quote.options[0]) if entry.id == code)
    assert line.wanted
    assert line.source


def test_the_key_of_a_shipment_stays_when_dates_move_and_differs_between_shipments(make_shipment, fleet):
    quote, moved, other = make_shipment(), make_shipment(ready=date(2027, 1, 7)), make_shipment(fleet[1])
    keys = [shipment_key(entry, entry.options[0]) for entry in (quote, moved, other)]
    assert keys[0] == keys[1] != keys[2]


@SLOW
@given(vehicles=SEVERAL, lift_gate=st.booleans(), wait=st.integers(0, 30), miles=st.integers(10, 3500))
def test_every_paper_has_a_line_and_nothing_is_due_after_its_stage(make_shipment, vehicles, lift_gate, wait, miles):
    quote = make_shipment(*vehicles, lift_gate=lift_gate, ready=DAY + timedelta(days=wait), miles=miles)
    option = quote.options[0]
    items = {entry.id: entry for entry in checklist(quote, option)}
    for paper in option.documents:
        key = f"{paper.code}/{paper.vehicle}" if paper.vehicle else paper.code
        assert items[key].due <= paper.due
        if paper.stage in ("pickup", "delivery"):
            assert paper.due <= gates(quote, option)[paper.stage][1]
    for entry in items.values():
        assert entry.due >= quote.as_of
        assert entry.slack_days is None or entry.slack_days >= 0
        assert all(items[key].due <= entry.due for key in entry.after)
        assert set(entry.after) <= set(items)


@SLOW
@given(vehicles=SEVERAL, wait=st.integers(0, 30))
def test_the_list_is_by_date_and_in_an_order_that_can_be_worked_off(make_shipment, vehicles, wait):
    quote = make_shipment(*vehicles, ready=DAY + timedelta(days=wait))
    items = checklist(quote, quote.options[0])
    assert [entry.due for entry in items] == sorted(entry.due for entry in items)
    seen: set[str] = set()
    for entry in items:
        assert set(entry.after) <= seen
        seen.add(entry.id)


@given(
    edges=st.lists(st.tuples(st.integers(0, 7), st.integers(0, 7)), max_size=20),
    days=st.lists(st.integers(0, 9), min_size=8, max_size=8),
)
def test_any_tangle_is_listed_once_and_whole(edges, days):
    tangle = [item(str(n), days[n], *{str(a) for a, b in edges if b == n}) for n in range(8)]
    assert sorted(entry.id for entry in in_working_order(tangle)) == sorted(entry.id for entry in tangle)
    if all(a < b for a, b in edges):
        dated = {entry.id: entry for entry in with_dates_that_hold(tangle, {})}
        assert all(dated[str(a)].due <= dated[str(b)].due for a, b in edges)
