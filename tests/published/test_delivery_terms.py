"""Delivery terms held to outside texts about Incoterms 2020 (ICC publication 723, whose own text nobody here has read).

CHART    who pays which stage: a chart headed "Incoterm 2020" on a forwarder's page (github.com/mousmi12/logistic,
         resources/views/resource.blade.php, version 37c3a42), copied cell by cell. Its row DAT is the name of 2010 and is left out.
SAID     who insures, clears, loads and unloads, and where the risk passes: the open data set ICC-Incoterms
         (github.com/datasets/ICC-Incoterms, data/data.csv, version 9baa2bc), sentence by sentence.
SEA      which rules are for the water: kvk.nl, "Incoterms 2020: everything you need to know" (Netherlands Chamber of Commerce).
CODES    UN/CEFACT Recommendation 5, ECE/TRADE/458 (2020 edition); the list as intertradeireland.com prints it.

All looked at on 28 November 2026. These texts tell of the rules and are not the rules; between the parties their contract counts.
"""

from itertools import pairwise

import pytest

from shipcalc.quote.price.terms import CODES, TERMS, advice, find_term
from shipcalc.trade import COST_STAGES

# The chart's columns, in its order and in our words; loading on a truck in the port of arrival is part of that terminal's handling.
COLUMNS = (
    "loading at origin", "export clearance", "pre-carriage", "origin terminal", "loading on vessel", "main carriage",
    "destination terminal", "destination terminal", "on-carriage", "cargo insurance", "import clearance", "duty and tax",
)  # fmt: skip
CHART = {
    "EXW yard": "B B B B B B B B B B B B",
    "FCA yard": "S S B B B B B B B B B B",
    "FAS port": "S S S S B B B B B B B B",
    "FOB port": "S S S S S B B B B B B B",
    "CFR arrival port": "S S S S S S B B B B B B",
    "CIF arrival port": "S S S S S S B B B S B B",
    "CPT door": "S S S S S S S S S B B B",
    "CIP door": "S S S S S S S S S S B B",
    "DAP door": "S S S S S S S S S S B B",
    "DDP door": "S S S S S S S S S S S S",
}
CELLS = [(rule, stage, payer) for rule, row in CHART.items() for stage, payer in zip(COLUMNS, row.split(), strict=True)]

# What the data set says of each rule, one fact a row: (code, stage or "risk" or "cover", what).
SAID = [
    ("EXW", "pre-carriage", "buyer"),  # the buyer bears transportation costs, taxes and duties
    ("EXW", "duty and tax", "buyer"),
    ("FCA", "export clearance", "seller"),  # cleared for export, to the buyer's carrier
    ("FCA", "main carriage", "buyer"),
    ("CPT", "main carriage", "seller"),
    ("CPT", "risk", "first carrier"),
    ("CIP", "cargo insurance", "seller"),
    ("CIP", "cover", "A"),
    ("CIP", "risk", "first carrier"),
    ("DPU", "unloading", "seller"),
    ("DPU", "duty and tax", "buyer"),
    ("DAP", "unloading", "buyer"),
    ("DAP", "duty and tax", "buyer"),
    ("DAP", "risk", "ready to be unloaded"),
    ("DDP", "duty and tax", "seller"),
    ("FAS", "export clearance", "seller"),
    ("FAS", "loading on vessel", "buyer"),
    ("FAS", "risk", "alongside"),
    ("FOB", "export clearance", "seller"),
    ("FOB", "loading on vessel", "seller"),
    ("FOB", "risk", "on board"),
    ("CFR", "main carriage", "seller"),
    ("CFR", "risk", "on board"),
    ("CIF", "cargo insurance", "seller"),
    ("CIF", "cover", "C"),
    ("CIF", "risk", "on board"),
]


@pytest.mark.parametrize(("rule", "stage", "payer"), CELLS)
def test_each_cell_of_a_published_chart(rule: str, stage: str, payer: str) -> None:
    code, _, place = rule.partition(" ")
    term = find_term(code, place)
    assert term is not None
    assert term.payer(stage) == {"S": "seller", "B": "buyer"}[payer]


@pytest.mark.parametrize(("code", "about", "what"), SAID)
def test_what_a_published_data_set_says_of_a_rule(code: str, about: str, what: str) -> None:
    terms = [term for term in TERMS if term.code == code]
    assert terms
    for term in terms:
        found = {"risk": term.risk_passes, "cover": term.must_insure or ""}
        assert what in (found[about] if about in found else term.payer(about))


def test_no_rule_but_two_owes_the_buyer_cover():
    """The data set names cover under CIP and CIF alone; its D rules leave the risk, and so the cover, with the seller."""
    assert {term.code for term in TERMS if term.must_insure} == {code for code, about, _ in SAID if about == "cover"}


def test_the_stages_that_no_text_names_go_with_their_neighbours():
    """Packing is the seller's under each rule, and the stages between loading and unloading never go back to the seller."""
    order = [
        stage
        for stage in COST_STAGES
        if stage not in ("cargo insurance", "export clearance", "import clearance", "duty and tax")
    ]
    for term in TERMS:
        paid = [term.payer(stage) for stage in order]
        assert paid[0] == "seller"
        assert ("buyer", "seller") not in set(pairwise(paid)), term.code


def test_the_eleven_rules_are_there() -> None:
    """Recommendation 5 lists EXW, FCA, CPT, CIP, DAP, DPU and DDP for any mode, and FAS, FOB, CFR and CIF for the water."""
    assert set(CODES) == {"EXW", "FCA", "CPT", "CIP", "DAP", "DPU", "DDP", "FAS", "FOB", "CFR", "CIF"}


def test_four_rules_are_for_the_sea() -> None:
    """Netherlands Chamber of Commerce: FAS, FOB, CFR and CIF can only be used for transport by water."""
    assert {term.code for term in TERMS if term.sea_only} == {"FAS", "FOB", "CFR", "CIF"}


def test_sea_rules_for_a_container_and_ex_works_abroad_are_answered_with_advice() -> None:
    """Netherlands Chamber of Commerce: CFR and CIF cannot be used for containers. That EXW suits nobody abroad: common practice."""
    told = {term.code: advice(term, by_container=True, overseas=True) for term in TERMS}
    assert all(
        instead in told[code] for code, instead in (("CFR", "CPT"), ("CIF", "CIP"), ("FOB", "FCA"), ("FAS", "FCA"))
    )
    assert "FCA" in told["EXW"]
    assert not told["DAP"]


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


# Where the risk passes, by another published text: "Incoterms 2020", habtoorresources.com/incoterms. FOB stands there as crossing the
# rail, which is the older rule; the data set above has it on board.
RISK_PASSES = {
    "EXW": "yard",  # at the seller's gate
    "FCA": "terminal",  # when handed to the first carrier at the named place
    "FAS": "alongside",  # on the quay side at the port of loading
    "CFR": "on board",
    "CIF": "on board",  # as CFR
    "CPT": "first carrier",
    "CIP": "first carrier",  # same point as CPT
    "DAP": "ready to be unloaded",  # on arrival, ready for unloading
    "DPU": "unloaded",  # after unloading at the named place
    "DDP": "cleared for import",  # after import is cleared, ready for unloading
}


@pytest.mark.parametrize(("code", "point"), RISK_PASSES.items())
def test_the_risk_passes_where_a_published_text_says(code: str, point: str) -> None:
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
