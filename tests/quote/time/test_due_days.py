"""No task is due before it can be begun: all tasks, on every kind of way, under every term, with every kind of title.

The soonest day of a task is reckoned here by itself: the acceptance, what the task waits for (with the days that takes), and,
for what happens at a moment, the first day of that moment. That a thing cannot be done before what it needs is no rule to be
looked up; the days that things take are those of the shipped rows.
"""

from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from functools import cache

import openpyxl
import pytest

from shipcalc.checklist.accepting import accepted_on
from shipcalc.checklist.items import Item, item_id
from shipcalc.checklist.making import checklist, gates
from shipcalc.documents.checklist.workbook import write_checklist_workbook
from shipcalc.errors import NoAnswer
from shipcalc.places.gazetteer.find import find_place
from shipcalc.quote.assemble import make_quote
from shipcalc.quote.model import Option, Quote, Wishes
from shipcalc.quote.price.terms import CODES
from shipcalc.quote.request import Request
from shipcalc.ratebook.rows.paperwork import TITLES, TaskRow
from shipcalc.records import replace
from shipcalc.trade import MOMENTS
from tests.quote.conftest import DAY, DEALER

FRIDAY_BEFORE_CHRISTMAS = date(2026, 12, 18)
LATER = (0, 1, 4, 9)  # days between quote and acceptance
HOME = {
    "truck": ("HV-1042", "Bozeman, MT", {}),
    "express": ("HV-1042", "Bozeman, MT", {"express": True}),
    "enclosed": ("HV-1042", "33040", {"trailer": "enclosed"}),
    "driven": ("HV-1144", "Bozeman, MT", {}),
    "ferry": ("HV-1042", "Nantucket, MA", {}),
    "collected": ("HV-1042", "98225", {"collect": True}),
    "ship at home": ("HV-1042", "Honolulu, HI", {}),
    "territory": ("HV-1042", "San Juan, Puerto Rico", {}),
}
FOR_SHIPS = ("FAS", "FOB", "CFR", "CIF")
ABROAD = ("Toronto, Canada", "Hamburg", "Southampton, United Kingdom", "Sydney, Australia", "Auckland, New Zealand")


@pytest.fixture(scope="module")
def asked(shipped):
    @cache
    def quoted(number: str, to: str, title: str, day: date, wishes: tuple[tuple[str, object], ...]) -> Quote:
        (found,) = (one for one in shipped.stock.vehicles if one.stock_number == number)
        start, there = find_place("98225" if found.yard == "Bellingham" else "31401").place, find_place(to).place
        request = Request(
            vehicles=(replace(found, title=title),), starts=(start,), to=there, ready=day, wishes=Wishes(**dict(wishes))
        )  # fmt: skip
        return make_quote(request, shipped.rates, as_of=day, dealer=DEALER)

    return quoted


def faults(quote: Quote, option: Option, accepted: date, rows: tuple[TaskRow, ...]) -> Iterator[str]:
    """Yield each task that is due before it can be begun or done, out of order, or before the acceptance."""
    items = {item.id: item for item in checklist(quote, option)}
    own_rows = {(row.code, row.task, row.stage): row for row in rows}
    row_of = {item_id(task.code, task.vehicle): own_rows[task.code, task.title, task.stage] for task in option.tasks}
    done = soonest(items, row_of, gates(quote, option), accepted)
    for item in items.values():
        if item.due < done[item.id]:
            yield f"{item.id} is due on {item.due}, and cannot be done before {done[item.id]}"
        if item.due < accepted:
            yield f"{item.id} is due before the acceptance"
        for key in item.after:
            if key in items and items[key].due > item.due:
                yield f"{item.id} is due on {item.due}, before {key} on {items[key].due}"


def soonest(
    items: Mapping[str, Item], row_of: Mapping[str, TaskRow], moments: Mapping[str, tuple[date, date]], accepted: date
) -> dict[str, date]:
    """Return the first day on which each task can be done."""
    found: dict[str, date] = {}

    def done(key: str) -> date:
        if key not in found:
            row = row_of[key]
            begun = max([accepted, *(done(other) for other in items[key].after if other in items)])
            if row.days >= 0 and row.stage != "agreed":
                at = next(name for name in reversed(MOMENTS[: MOMENTS.index(row.stage) + 1]) if name in moments)
                begun = max(begun, moments[at][0])
            found[key] = begun + timedelta(days=row.takes_days or 0)
        return found[key]

    return {key: done(key) for key in items}


def all_faults(quote: Quote, rows: tuple[TaskRow, ...]) -> list[str]:
    found = []
    for number, option in enumerate(quote.options):
        for days in LATER:
            day = quote.as_of + timedelta(days=days)
            try:
                taken = accepted_on(quote, number, day).quote
            except NoAnswer:
                assert days, "a quote can be accepted on its own day"
                continue
            found += [
                f"{option.title}, {days} days later: {told}" for told in faults(taken, taken.options[number], day, rows)
            ]
    return found


@pytest.mark.parametrize("title", TITLES)
@pytest.mark.parametrize("way", HOME)
def test_at_home_nothing_is_due_before_it_can_be_begun(asked, shipped, way: str, title: str) -> None:
    number, to, wishes = HOME[way]
    for day in (DAY, FRIDAY_BEFORE_CHRISTMAS):
        quote = asked(number, to, title, day, tuple(wishes.items()))
        assert way not in ("driven", "collected") or any(option.trailer is None for option in quote.options)
        assert all_faults(quote, shipped.rates.tasks) == []


def test_what_a_driver_brings_is_neither_tied_down_nor_given_to_a_truck(asked, tmp_path) -> None:
    quote = asked("HV-1144", "Bozeman, MT", "clean", DAY, ())
    number = next(at for at, option in enumerate(quote.options) if option.trailer is None)
    write_checklist_workbook(quote, number, tmp_path / "driven.xlsx")
    book = openpyxl.load_workbook(tmp_path / "driven.xlsx")
    assert "Securing" not in book.sheetnames
    told = " ".join(str(cell.value).casefold() for sheet in book for row in sheet for cell in row if cell.value)
    assert "release the vehicle to the driver" in told
    for word in ("securing", "secures", "tied down", "trucker", "to the carrier;", "the truck", "trailer number"):
        assert word not in told, word


@pytest.mark.parametrize("term", CODES)
@pytest.mark.parametrize("to", ABROAD)
def test_abroad_nothing_is_due_before_it_can_be_begun(asked, shipped, to: str, term: str) -> None:
    if to == "Toronto, Canada" and term in FOR_SHIPS:
        with pytest.raises(NoAnswer, match=r"meant for goods handed over at the ship|names a ship"):
            asked("HV-1042", to, "clean", DAY, (("term", term),))
        return
    for title in TITLES:
        quote = asked("HV-1042", to, title, DAY, (("term", term),))
        assert all_faults(quote, shipped.rates.tasks) == [], title


def test_the_ways_abroad_are_of_all_kinds(asked) -> None:
    quotes = [asked("HV-1042", to, "clean", DAY, (("term", "DAP"),)) for to in ABROAD]
    assert {option.ocean for quote in quotes for option in quote.options} == {None, "roro", "container"}
