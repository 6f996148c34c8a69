"""Delivery terms against the chart of costs by stage: Incoterms 2020 (ICC publication 723), from memory, checked against one
published cost and risk chart (read at second hand). S the seller pays, B the buyer."""

from itertools import pairwise

import pytest

from shipcalc.quote.price.terms import CODES, TERMS, advice, find_term
from shipcalc.ratebook.rows.overseas import COST_STAGES

COLUMNS = ["EXW", "FCA yard", "FCA port", "FAS", "FOB", "CFR", "CIF", "CPT door", "CIP door", "DAP", "DPU", "DDP"]
CHART = {
    "export packing": "S S S S S S S S S S S S",
    "loading at origin": "B S S S S S S S S S S S",
    "pre-carriage": "B B S S S S S S S S S S",
    "export clearance": "B S S S S S S S S S S S",
    "origin terminal": "B B B S S S S S S S S S",
    "loading on vessel": "B B B B S S S S S S S S",
    "main carriage": "B B B B B S S S S S S S",
    "destination terminal": "B B B B B B B S S S S S",
    "on-carriage": "B B B B B B B S S S S S",
    "unloading": "B B B B B B B B B B S B",
    "import clearance": "B B B B B B B B B B B S",
    "duty and tax": "B B B B B B B B B B B S",
}
CELLS = [
    (column, stage, payer) for stage, row in CHART.items() for column, payer in zip(COLUMNS, row.split(), strict=True)
]


@pytest.mark.parametrize(("column", "stage", "payer"), CELLS)
def test_each_cell_of_the_chart(column: str, stage: str, payer: str) -> None:
    code, _, place = column.partition(" ")
    term = find_term(code, place or None)
    assert term is not None
    assert term.payer(stage) == {"S": "seller", "B": "buyer"}[payer]


def test_the_eleven_rules_are_there() -> None:
    assert CODES == ("EXW", "FCA", "FAS", "FOB", "CFR", "CIF", "CPT", "CIP", "DAP", "DPU", "DDP")


def test_only_two_rules_owe_the_buyer_cover_and_at_which_conditions() -> None:
    assert {term.code: term.must_insure for term in TERMS if term.must_insure} == {"CIF": "C", "CIP": "A"}


def test_four_rules_are_for_the_sea() -> None:
    assert {term.code for term in TERMS if term.sea_only} == {"FAS", "FOB", "CFR", "CIF"}


@pytest.mark.parametrize(
    "chain",
    [
        [("EXW", "yard"), ("FCA", "yard"), ("FCA", "port"), ("FAS", "port"), ("FOB", "port"), ("CFR", "arrival port"), ("CIF", "arrival port")],
        [("FCA", "port"), ("CPT", "arrival port"), ("CIP", "arrival port"), ("CIP", "door")],
        [("CPT", "arrival port"), ("CPT", "door"), ("DAP", "door"), ("DPU", "door")],
        [("DAP", "door"), ("DDP", "door")],
    ],
)  # fmt: skip
def test_along_a_chain_of_rules_the_seller_only_takes_on_more(chain: list[tuple[str, str]]) -> None:
    terms = [find_term(code, place) for code, place in chain]
    pays = [term.seller_pays for term in terms if term is not None]
    assert len(pays) == len(chain)
    assert all(earlier < later for earlier, later in pairwise(pays))


def test_every_stage_a_rule_names_is_a_cost_stage() -> None:
    assert all(term.seller_pays <= set(COST_STAGES) for term in TERMS)


def test_sea_rules_for_a_container_and_ex_works_abroad_are_answered_with_advice() -> None:
    told = {term.code: advice(term, by_container=True, overseas=True) for term in TERMS}
    assert "FCA" in told["FOB"]
    assert "CIP" in told["CIF"]
    assert "FCA" in told["EXW"]
    assert not told["DAP"]


# Where the risk passes, by a published chart: "Incoterms 2020", habtoorresources.com/incoterms (looked at on 28 November 2026, a text
# that tells of the rules, not the rules). FOB stands there as crossing the rail, which is the older rule; the rules of 2020 say on board.
RISK_PASSES = {
    "EXW": "yard",  # at the seller's gate
    "FCA": "terminal",  # when handed to the first carrier at the named place
    "FAS": "alongside",  # on the quay side at the port of loading
    "FOB": "on board",
    "CFR": "on board",  # same as FOB for the risk
    "CIF": "on board",  # as CFR
    "CPT": "first carrier",
    "CIP": "first carrier",  # same point as CPT
    "DAP": "ready to be unloaded",  # on arrival, ready for unloading
    "DPU": "unloaded",  # after unloading at the named place
    "DDP": "cleared for import",  # after import is cleared, ready for unloading
}


@pytest.mark.parametrize(("code", "point"), RISK_PASSES.items())
def test_the_risk_passes_where_a_published_chart_says(code: str, point: str) -> None:
    term = find_term(code)
    assert term is not None
    assert point in term.risk_passes


# Who takes the cover out, by a published chart: cargoinsu.com, guide to the trade terms (read on 28 November 2026); FCA, CPT and DPU,
# which it leaves out, by twmetals.fr: nobody must but under CIF and CIP (read on the same day). Under the D rules the chart says that
# the seller is advised to, since the risk is the seller's until arrival.
INSURES = {
    "EXW": "buyer", "FCA": "buyer", "FAS": "buyer", "FOB": "buyer", "CFR": "buyer", "CPT": "buyer",
    "CIF": "seller", "CIP": "seller", "DAP": "seller", "DPU": "seller", "DDP": "seller",
}  # fmt: skip


@pytest.mark.parametrize(("code", "party"), INSURES.items())
def test_who_takes_out_the_cover_is_who_a_published_chart_says(code: str, party: str) -> None:
    term = find_term(code)
    assert term is not None
    assert term.payer("cargo insurance") == party


def test_the_clauses_owed_are_those_that_are_published() -> None:
    """CIP clauses A, CIF clauses C: dutytrade.com, tools, Incoterms 2020 (read on 28 November 2026)."""
    assert [(code, term.must_insure) for code in ("CIP", "CIF") if (term := find_term(code))] == [
        ("CIP", "A"),
        ("CIF", "C"),
    ]
