"""Whole shipments over the sea, worked out by hand in files that somebody who does not program can read and correct."""

import tomllib
from datetime import date, timedelta
from pathlib import Path

import openpyxl
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shipcalc.actions.checklist import move_checklist, read_checklist
from shipcalc.checklist.accepting import accepted_on
from shipcalc.checklist.items import item_id
from shipcalc.checklist.making import checklist, gates
from shipcalc.checklist.returned import read_returned
from shipcalc.documents.buyer.workbook import write_buyer_workbook
from shipcalc.documents.checklist.workbook import write_checklist_workbook
from shipcalc.errors import NoAnswer
from shipcalc.quote.buyer import for_buyer
from shipcalc.ratebook.rows.paperwork import DocumentRow, TaskRow
from shipcalc.ratebook.workbook.typed import rows_in
from shipcalc.records import replace

CASES = sorted((Path(__file__).parent / "cases").glob("*.toml"))


@pytest.fixture
def one_ship(sea_book):
    """A book with one truck, one port of loading and one ship, and the papers and tasks that come with the program."""
    whole = sea_book()
    ports = tuple(port for port in whole.ports if port.port in ("USTIW", "DEBRV"))
    return sea_book(
        carriers=whole.carriers[:1],
        ocean=whole.ocean[:1],
        ports=ports,
        documents=rows_in("documents", DocumentRow),
        tasks=rows_in("tasks", TaskRow),
    )


@pytest.fixture
def with_papers(sea_book):
    book = sea_book(documents=rows_in("documents", DocumentRow), tasks=rows_in("tasks", TaskRow))
    return lambda: book


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_a_shipment_worked_out_by_hand(path, quoted, one_ship):
    case = tomllib.loads(path.read_text(encoding="utf-8"))
    quote = quoted(book=one_ship, ready=case["ready"])
    (option,) = quote.options
    moments = {stage: list(days) for stage, days in gates(quote, option).items()}
    assert moments == {"ready": [case.get("booked", case["ready"])] * 2, **case["moments"]}

    items = {item.id: item for item in checklist(quote, option)}
    for entry in case["due"]:
        assert items[entry["task"]].due == entry["on"], f"{entry['task']}: {entry['because']}"
    storage = case.get("storage")
    assert any("of storage is then due" in warning for warning in option.warnings) == (storage is not None)
    assert storage is None or any(storage in warning for warning in option.warnings)


@pytest.mark.parametrize(
    ("ready", "port", "storage"),
    [
        # Free from Saturday 5 December: the 7th to the 11th, the 14th, the day of the cut-off, are six working days.
        (date(2026, 12, 3), (date(2026, 12, 5), date(2026, 12, 12)), None),
        # There on Tuesday the 15th: the 16th to 18th and 21st to 24th are free; Christmas, the weekend and Monday the 28th are charged.
        (date(2026, 12, 9), (date(2026, 12, 10), date(2026, 12, 17)), "about 100 USD of storage"),
    ],
)
def test_free_days_may_be_working_days(quoted, one_ship, ready, port, storage):
    ports = tuple(replace(row, free_days_count="working") for row in one_ship.ports)
    (option,) = quoted(book=replace(one_ship, ports=ports), ready=ready).options
    (step,) = (step for step in option.dates.timeline if step.stage == "port")
    assert (step.earliest, step.latest) == port
    told = [warning for warning in option.warnings if "of storage" in warning]
    assert [storage in warning for warning in told] == ([True] if storage else [])


def test_the_papers_show_the_storage_that_a_missed_cut_off_costs(quoted, one_ship, tmp_path):
    case = tomllib.loads((Path(__file__).parent / "cases" / "too_late_for_the_ship.toml").read_text(encoding="utf-8"))
    quote = quoted(book=one_ship, ready=case["ready"])
    write_checklist_workbook(quote, 0, tmp_path / "checklist.xlsx")
    write_buyer_workbook(for_buyer(quote), tmp_path / "quote.xlsx", paper="letter")
    for name in ("checklist.xlsx", "quote.xlsx"):
        book = openpyxl.load_workbook(tmp_path / name)
        told = [str(cell.value) for sheet in book for row in sheet for cell in row if cell.value]
        assert any("185 USD of storage" in text for text in told), name


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(wait=st.integers(0, 60), title=st.sampled_from(["clean", "lien", "foreign", "missing"]), runs=st.booleans())
def test_every_paper_has_a_task_and_is_due_by_the_stage_that_needs_it(quoted, with_papers, minnow, wait, title, runs):
    ready = date(2026, 12, 1) + timedelta(days=wait)
    quote = quoted(replace(minnow, title=title, runs=runs), book=with_papers(), ready=ready)
    for option in quote.options:
        stages = gates(quote, option)
        tasks = {item_id(task.code, task.vehicle) for task in option.tasks}
        items = {item.id: item for item in checklist(quote, option)}
        assert option.documents
        for paper in option.documents:
            key = item_id(paper.code, paper.vehicle)
            assert key in tasks, f"nobody is told to see to {paper.title}"
            assert items[key].due <= max(paper.due, quote.as_of)
            if paper.stage in stages:
                first, last = stages[paper.stage]
                printed = timedelta(
                    days=5 if paper.stage == "sailing" else 0
                )  # what the line makes once the ship is gone
                assert paper.due <= (first if paper.stage == "cut-off" else last) + printed, paper.title
        for item in items.values():
            assert all(items[key].due <= item.due for key in item.after), item.id
        assert not any("harbor" in charge.label.casefold() for charge in option.charges)


def test_the_ship_slips_a_week_and_what_hangs_on_it_moves_along(quoted, one_ship, tmp_path):
    case = tomllib.loads((Path(__file__).parent / "cases" / "in_time_for_the_ship.toml").read_text(encoding="utf-8"))
    path = tmp_path / "checklist.xlsx"
    write_checklist_workbook(quoted(book=one_ship, ready=case["ready"]), 0, path)
    book = openpyxl.load_workbook(path)
    for row in book["Checklist"].iter_rows(min_row=6):
        if row[-1].value in ("export-filing", "wash"):
            row[1].value = "done"
    book.save(path)
    was = read_returned(path)
    done = move_checklist(path, "sailing", to=date(2026, 12, 25), days=None, out=None, today=date(2026, 12, 10))
    now = read_returned(done.file)
    for stage, (first, last) in was.last.moments.items():
        shift = timedelta(days=0 if stage in ("ready", "pickup", "port") else 7)
        assert now.last.moments[stage] == (first + shift, last + shift), stage
    before, after = ({item.id: item for item in copy.items} for copy in (was, now))
    assert after["export-filing"].due == before["export-filing"].due, "what is done stays"
    assert after["papers-presented"].due == date(2026, 12, 18)
    assert after["outturn"].due == date(2027, 1, 29)
    assert after["photographs"].due == before["photographs"].due
    front = openpyxl.load_workbook(done.file)["Shipment"]
    assert any("Last version" in str(cell.value) for row in front for cell in row), "the front page shows the new days"


def test_a_truck_that_is_late_does_not_move_the_ship_and_that_is_said(quoted, one_ship, tmp_path):
    case = tomllib.loads((Path(__file__).parent / "cases" / "in_time_for_the_ship.toml").read_text(encoding="utf-8"))
    path = tmp_path / "checklist.xlsx"
    write_checklist_workbook(quoted(book=one_ship, ready=case["ready"]), 0, path)
    done = move_checklist(path, "pickup", to=None, days=6, out=None, today=date(2026, 12, 10))
    moments = read_returned(done.file).last.moments
    assert moments["port"] == (date(2026, 12, 13), date(2026, 12, 18))
    assert moments["sailing"] == (date(2026, 12, 18), date(2026, 12, 18))
    assert any("only on 2026-12-18, after the cut-off of 2026-12-14" in sentence for sentence in done.said)


def test_a_ship_that_is_known_makes_the_checklist_as_narrow_as_one_ship(quoted, one_ship, tmp_path):
    """The two ships of cases/too_late_for_the_ship.toml, 14 days apart: by hand from there."""
    path = tmp_path / "checklist.xlsx"
    case = tomllib.loads((Path(__file__).parent / "cases" / "too_late_for_the_ship.toml").read_text(encoding="utf-8"))
    quote = quoted(book=one_ship, ready=case["ready"])
    write_checklist_workbook(quote, 0, path)
    done = move_checklist(path, "sailing", to=date(2026, 12, 18), days=None, out=None, today=date(2026, 12, 10))
    by_move = read_returned(done.file).last.moments
    assert by_move["cut-off"] == (date(2026, 12, 14), date(2026, 12, 14))
    assert by_move["sailing"] == (date(2026, 12, 18), date(2026, 12, 18))
    assert by_move["arrival"] == (date(2027, 1, 18), date(2027, 1, 23))
    assert by_move["delivery"] == (date(2027, 1, 22), date(2027, 2, 1))
    assert any("only on 2026-12-17, after the cut-off of 2026-12-14" in sentence for sentence in done.said)
    items = {item.id: item.due for item in read_returned(done.file).items}
    assert items["outturn"] == date(2027, 1, 22)  # its limit counts from the first day, Thursday the 21st, which stays
    taken = accepted_on(quote, 0, quote.as_of, sailing=date(2026, 12, 18))
    assert gates(taken.quote, taken.quote.options[0]) == by_move
    later = accepted_on(quote, 0, quote.as_of, sailing=date(2027, 1, 1))
    assert gates(later.quote, later.quote.options[0])["arrival"] == (date(2027, 2, 1), date(2027, 2, 6))
    assert any("misses the sailing" in told for told in quote.options[0].warnings)
    for known in (taken, later):
        assert not any("misses the sailing" in told for told in known.quote.options[0].warnings), (
            "one ship has no next one"
        )


def test_a_ship_that_the_checklist_no_longer_reaches_is_said(quoted, one_ship, tmp_path):
    quote = quoted(book=one_ship, ready=date(2026, 12, 9))
    with pytest.raises(
        NoAnswer, match="ship of 2026-12-12 can no longer be reached: the vehicle is at the port on 2026-12-10"
    ):
        accepted_on(quote, 0, quote.as_of, sailing=date(2026, 12, 12))
    write_checklist_workbook(quote, 0, tmp_path / "checklist.xlsx")
    file = tmp_path / "checklist.xlsx"
    done = move_checklist(file, "sailing", to=date(2026, 12, 12), days=None, out=None, today=date(2026, 12, 2))
    assert any("can no longer be reached" in sentence for sentence in done.said)


def test_days_that_were_recorded_show_a_missed_cut_off(quoted, one_ship, tmp_path):
    """In the terminal two days after the cut-off of Monday 14 December (cases/in_time_for_the_ship.toml)."""
    path = tmp_path / "checklist.xlsx"
    write_checklist_workbook(quoted(book=one_ship, ready=date(2026, 12, 3)), 0, path)
    book = openpyxl.load_workbook(path)
    sheet = book["Checklist"]
    headers = [cell.value for cell in sheet[5]]
    for row in sheet.iter_rows(min_row=6):
        if row[-1].value == "dock-receipt":
            row[1].value, row[headers.index("Done on")].value = "done", date(2026, 12, 16)
    book.save(path)
    done = read_checklist([path], out=None, today=date(2026, 12, 16))
    told = [sentence for sentence in done.said if "missed the ship" in sentence]
    assert told[0].startswith("The vehicle came into the terminal on 2026-12-16, after the cut-off of 2026-12-14")
