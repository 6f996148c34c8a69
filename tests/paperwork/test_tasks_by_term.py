"""Every task and paper of the eleven delivery terms × RoRo, container, truck × six kinds of title, as a table that a forwarder can read.

Sources: who contracts, clears and insures under the eleven rules is their grouping as published charts show it (Incoterms 2020, in
our own words); title presented at the port of exportation, 72 hours: 19 CFR 192.2 as amended by 64 FR 16635 (6 April 1999).
What of the order is no rule of law is common practice, no source. Each row of the table names its own.
"""

import os
from pathlib import Path

import pytest

from shipcalc.quote.price.terms import CODES, TERMS
from shipcalc.ratebook.rows.paperwork import DocumentRow, TaskRow
from shipcalc.ratebook.workbook.typed import rows_in
from shipcalc.records import replace
from shipcalc.trade import TITLES
from tests.paperwork.tasks_table import (
    ABROAD,
    AT_HOME,
    MODES,
    Case,
    before,
    broken_titles,
    cases,
    faults,
    home_cases,
    impossible_orders,
    same_lists,
    table,
)

TASKS, PAPERS = rows_in("tasks", TaskRow), rows_in("documents", DocumentRow)
CASES, HOME = cases(TASKS, PAPERS), home_cases(TASKS, PAPERS)
GOLDEN = Path(__file__).parent / "tasks_by_term.md"


def test_all_terms_ways_and_kinds_of_title_are_looked_at():
    assert len(CODES) == 11
    assert len(CASES) == len(TERMS) * len(MODES) * len(TITLES) == 14 * 3 * 6


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_shipment_has_all_that_it_needs_in_an_order_that_is_possible(case: Case):
    assert faults(case) == []


@pytest.mark.parametrize("case", HOME, ids=str)
def test_at_home_every_title_is_signed_sent_and_received(case: Case):
    assert [*broken_titles(case, AT_HOME), *impossible_orders(case)] == []


def test_no_two_terms_with_other_payers_give_the_same_list():
    assert same_lists(CASES) == []


def test_only_tasks_of_the_title_depend_on_its_kind():
    """What the page says above its tables, so that it can show the terms for a clean title alone."""
    own = {
        *("lien-release", "duplicate-title", "ownership", "foreign-title", "salvage-notice", "title", "title-export"),
        "title-sent",
    }
    for case in CASES:
        clean = next(
            other for other in CASES if (other.term, other.mode, other.title) == (case.term, case.mode, "clean")
        )
        differs = {row.code for row in case.tasks} ^ {row.code for row in clean.tasks}
        texts = {row.task for row in case.tasks if row.code not in own} ^ {
            row.task for row in clean.tasks if row.code not in own
        }
        assert differs <= own, str(case)
        assert not texts, str(case)


def test_the_release_waits_for_what_the_law_wants_before_the_border():
    """Screening before anything leaves; by truck the filing too, which is due 72 hours before the border (19 CFR 192.2, 15 CFR 30.4)."""
    for case in CASES:
        assert "screening" in before(case, "release"), str(case)
        assert case.mode != "truck" or "export-filing" in before(case, "release"), str(case)
        assert "import-declaration" in before(case, "delivery-receipt") if "delivery-receipt" in case.by_code else True


def test_what_the_buyer_collects_is_paid_and_handed_over_to_the_right_person():
    for case in HOME:
        if case.mode == "collected":
            assert {"balance", "collector", "driver"} <= before(case, "condition-report"), str(case)
            assert not {"transport-order", "carrier-authority", "delivery-receipt", "claim"} & set(case.by_code), str(
                case
            )


@pytest.mark.parametrize(
    ("without", "told"),
    [
        ("title-sent", "title-sent or title-received is missing"),
        ("title-back", "papers-presented or title-back is missing"),
        ("booking", "booked by the wrong side"),
        ("buyers-haulier", "booked by the wrong side"),
        ("importer-number", "importer's number"),
        ("buyers-cover", "told about the cover"),
        ("delivery-order", "nobody sees to delivery-order"),
    ],
)
def test_a_row_that_is_taken_out_is_noticed(without: str, told: str):
    rows = tuple(row for row in TASKS if row.code != without)
    found = [fault for case in cases(rows, PAPERS) for fault in faults(case)]
    found += [fault for case in home_cases(rows, PAPERS) for fault in broken_titles(case, AT_HOME)]
    assert any(told in fault for fault in found)


def test_terms_that_are_treated_alike_are_noticed():
    blind = tuple(replace(row, seller_pays=(), buyer_pays=()) for row in TASKS)
    assert same_lists(cases(blind, ()))


def test_a_task_of_a_later_moment_that_comes_first_is_noticed():
    late = tuple(replace(row, stage="after delivery") if row.code == "title" else row for row in TASKS)
    assert any("title-export" in fault for case in cases(late, PAPERS) for fault in impossible_orders(case))


def test_the_table_as_it_was_last_read():
    """`REWRITE=1` writes it anew, to be read again."""
    now = table(CASES, HOME)
    if os.environ.get("REWRITE"):
        GOLDEN.write_text(now, encoding="utf-8")
    assert GOLDEN.read_text(encoding="utf-8") == now
    assert ABROAD[-1] in {code for case in CASES for code in case.by_code}
