"""Which papers and tasks: the rules that ship with the program, one case file a rule, answered both ways."""

import tomllib
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.paperwork.needs import Facts, as_travelled, documents_needed, rules_of, tasks_needed
from shipcalc.quote.price.terms import TERMS
from shipcalc.ratebook.rows.paperwork import DocumentRow, TaskRow
from shipcalc.ratebook.rows.sourced import READ, TRUST
from shipcalc.ratebook.workbook.reader import read_rows
from shipcalc.sheets.reading import read_workbook
from shipcalc.trade import BALANCES, MOMENTS, TITLES, TREATMENTS
from shipcalc.trade import PAPER_MODES as MODES

# What a row may name as read: a law or its register, a public authority's own text.
HERE = Path(__file__).parent
BOOK = read_workbook(HERE.parents[1] / "rates" / "paperwork.xlsx")
DOCUMENTS = read_rows(BOOK.find_sheet("Documents"), DocumentRow).rows
TASKS = read_rows(BOOK.find_sheet("Tasks"), TaskRow).rows
DOCUMENT_RULES, TASK_RULES = rules_of(DOCUMENTS), rules_of(TASKS)
SITUATIONS = [
    pytest.param(situation, id=f"{path.stem}: {situation['is']}")
    for path in sorted((HERE / "cases").glob("*.toml"))
    for situation in tomllib.loads(path.read_text(encoding="utf-8"))["situation"]
]
CARRIED = frozenset({"main carriage"})
BUGS = {"season_from": date(2026, 9, 1), "season_to": date(2027, 4, 30)}


def asked_of(**told):
    """Return facts as they are on the day of a quote."""
    return Facts(**{"day": date(2026, 12, 1)} | told)


def under(term, mode, **others):
    """Return facts in which the payers are those of the delivery term; what nobody ships crosses no border."""
    if mode in ("collected", "driven"):
        others.update(overseas=False, export_filing=False)
    return asked_of(term=term.code, mode=mode, seller_pays=as_travelled(term.seller_pays, mode), **others)


FACTS = st.builds(
    under,
    overseas=st.booleans(),
    export_filing=st.booleans(),
    mode=st.sampled_from(MODES),
    term=st.sampled_from(TERMS),
    balance_due=st.sampled_from(BALANCES),
    leaves=st.one_of(st.none(), st.dates(date(2026, 1, 1), date(2027, 12, 31)).map(lambda day: (day, day))),
    treatment=st.sampled_from([*TREATMENTS, None]),
    may_be_collectors=st.booleans(),
    age_years=st.one_of(st.none(), st.integers(0, 120)),
    battery=st.booleans(),
    to_country=st.sampled_from(["US", "CA", "DE"]),
    trailer=st.sampled_from(["open", "enclosed", None]),
    title=st.sampled_from(TITLES),
    runs=st.booleans(),
    lift_gate=st.booleans(),
    value_minor=st.one_of(st.none(), st.integers(0, 10**9)),
)


def task(code, *after, **conditions):
    return TaskRow(code=code, task=code, owner="office", stage="pickup", after=after, **conditions)


def holds(row, facts):
    return tasks_needed(rules_of([row]), facts) == (row,)


def told(case):
    facts = case["facts"]
    return asked_of(**facts | ({"seller_pays": frozenset(facts["seller_pays"])} if "seller_pays" in facts else {}))


@pytest.mark.parametrize("situation", SITUATIONS)
def test_a_rule_as_its_case_file_says(situation):
    facts = told(situation)
    papers = {row.code for row in documents_needed(DOCUMENT_RULES, facts)}
    tasks = {row.code for row in tasks_needed(TASK_RULES, facts)}
    if expected := situation.get("document"):
        (title,) = (row.document for row in documents_needed(DOCUMENT_RULES, facts) if row.code == expected["code"])
        assert expected["says"] in title
    assert set(situation.get("papers", ())) <= papers
    assert papers.isdisjoint(situation.get("no_papers", ()))
    assert set(situation.get("tasks", ())) <= tasks
    assert tasks.isdisjoint(situation.get("no_tasks", ()))


def test_the_case_files_name_only_codes_that_stand_in_the_workbook():
    known = {row.code for row in (*DOCUMENTS, *TASKS)}
    keys = ("papers", "no_papers", "tasks", "no_tasks")
    named = {code for case in SITUATIONS for key in keys for code in case.values[0].get(key, ())}
    assert named <= known


def test_every_rule_is_answered_both_ways():
    """In each case file something is needed in one situation that is not needed, or is another paper, in the next."""
    for path in sorted((HERE / "cases").glob("*.toml")):
        cases = tomllib.loads(path.read_text(encoding="utf-8"))["situation"]
        answers = [frozenset(row.document for row in documents_needed(DOCUMENT_RULES, told(case))) for case in cases]
        answers_of_tasks = [frozenset(row.task for row in tasks_needed(TASK_RULES, told(case))) for case in cases]
        assert len(set(answers)) > 1 or len(set(answers_of_tasks)) > 1, path.name


def test_no_paper_and_no_task_speaks_of_a_harbor_fee_on_exports():
    """The harbor maintenance fee is not collected on exports (US v. United States Shoe Corp., 1998; 63 FR 24209)."""
    for row in (*DOCUMENTS, *TASKS):
        assert "harbor" not in f"{row}".casefold()


def test_a_blank_condition_holds_always():
    assert holds(task("anything"), asked_of(overseas=True, to_country="NZ", title="missing", runs=False))


@pytest.mark.parametrize(
    ("conditions", "holding", "failing"),
    [
        ({"overseas": False}, {"overseas": False}, {"overseas": True}),
        ({"to_country": ("US", "CA")}, {"to_country": "CA"}, {"to_country": "MX"}),
        ({"to_country": ("us",)}, {"to_country": "US"}, {"to_country": "CA"}),
        ({"trailer": "open"}, {"trailer": "open"}, {"trailer": "enclosed"}),
        ({"title": ("lien", "missing")}, {"title": "missing"}, {"title": "clean"}),
        ({"runs": False}, {"runs": False}, {"runs": True}),
        ({"lift_gate": True}, {"lift_gate": True}, {"lift_gate": False}),
        ({"export_filing": True}, {"export_filing": True}, {"export_filing": False}),
        ({"mode": ("container", "shared container")}, {"mode": "shared container"}, {"mode": "roro"}),
        ({"term": ("CIF", "CIP")}, {"term": "CIP"}, {"term": "DAP"}),
        ({"seller_pays": ("main carriage",)}, {"seller_pays": CARRIED}, {"seller_pays": frozenset()}),
        ({"buyer_pays": ("main carriage",)}, {"seller_pays": frozenset()}, {"seller_pays": CARRIED}),
        ({"balance_due": ("on delivery",)}, {"balance_due": "on delivery"}, {"balance_due": "before pickup"}),
        (BUGS, {"leaves": (date(2026, 9, 1), date(2026, 9, 1))}, {"leaves": (date(2026, 5, 1), date(2026, 8, 31))}),
        (BUGS, {"leaves": (date(2027, 4, 30), date(2027, 5, 9))}, {"leaves": (date(2027, 5, 1), date(2027, 5, 9))}),
        (BUGS, {"leaves": None}, {"leaves": (date(2026, 6, 1), date(2026, 6, 30))}),
        ({"treatment": "collector"}, {"treatment": "collector"}, {"treatment": "ordinary"}),
        ({"treatment": "ordinary"}, {"treatment": "ordinary"}, {"treatment": None}),
        ({"age_from": 30}, {"age_years": 30}, {"age_years": 29}),
        ({"age_from": 30}, {"age_years": None}, {"age_years": 29}),
        ({"age_under": 25}, {"age_years": 24}, {"age_years": 25}),
        ({"battery": True}, {"battery": True}, {"battery": False}),
        ({"value_over_minor": 100}, {"value_minor": 101}, {"value_minor": 100}),
    ],
)
def test_each_condition_both_ways(conditions, holding, failing):
    row = task("conditional", **conditions)
    assert holds(row, asked_of(**holding))
    assert not holds(row, asked_of(**failing))


def test_all_conditions_of_a_row_must_hold():
    row = task("both", runs=False, title=("lien",))
    assert holds(row, asked_of(runs=False, title="lien"))
    assert not holds(row, asked_of(runs=False, title="clean"))


def test_a_task_that_falls_away_hands_on_what_it_waited_for():
    rows = (task("a"), task("b", "a", runs=False), task("c", "b"))
    assert tasks_needed(rules_of(rows), asked_of(runs=False))[-1].after == ("b",)
    assert tasks_needed(rules_of(rows), asked_of(runs=True))[-1].after == ("a",)


def test_of_rows_with_one_code_the_first_that_holds_is_taken():
    rows = (task("t", "x", runs=False), task("t"), task("x"))
    assert [row.runs for row in tasks_needed(rules_of(rows), asked_of(runs=False)) if row.code == "t"] == [False]
    assert [row.runs for row in tasks_needed(rules_of(rows), asked_of(runs=True)) if row.code == "t"] == [None]


@given(facts=FACTS)
def test_what_is_needed_stands_in_the_table_once_in_its_order_and_waits_only_for_what_is_needed(facts):
    needed = tasks_needed(TASK_RULES, facts)
    codes = [row.code for row in needed]
    assert codes == list(dict.fromkeys(row.code for row in TASKS if row.code in set(codes)))
    for row in needed:
        assert set(row.after) <= set(codes) - {row.code}


@given(facts=FACTS)
def test_every_paper_that_is_needed_has_a_task(facts):
    assert {row.code for row in documents_needed(DOCUMENT_RULES, facts)} <= {
        row.code for row in tasks_needed(TASK_RULES, facts)
    }


def test_every_row_has_a_source_and_only_what_was_read_has_a_day_of_checking():
    for row in (*DOCUMENTS, *TASKS):
        assert row.source
        assert row.trust in TRUST, row.source
        assert row.checked_on is None or row.trust in READ, row.source


@given(facts=FACTS)
def test_a_task_is_not_due_before_one_of_the_same_stage_that_it_waits_for(facts):
    needed = tasks_needed(TASK_RULES, facts)
    due = {row.code: (row.stage, row.days) for row in needed}
    for row in needed:
        for code in row.after:
            if row.stage == due[code][0]:
                assert due[code][1] <= row.days, f"{row.code} waits for {code}"


@given(facts=FACTS)
def test_a_task_waits_for_nothing_of_a_later_stage(facts):
    needed = tasks_needed(TASK_RULES, facts)
    stage = {row.code: MOMENTS.index(row.stage) for row in needed}
    for row in needed:
        for code in row.after:
            assert stage[code] <= stage[row.code], f"{row.code} waits for {code}"
