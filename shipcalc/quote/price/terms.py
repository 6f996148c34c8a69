"""Delivery terms: the eleven rules of Incoterms 2020, stage by stage.

For each rule and cost stage: who pays. The rules' own text is the International Chamber of Commerce's (publication 723) and is
not repeated here; the table is ours, in our words, and was checked against one published chart of costs and risks. What binds
the parties is their contract and the full text of the rule.
"""

from typing import Literal

from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass
from shipcalc.trade import COST_STAGES, NO_TERM_SHARES_OUT, Conditions, Payer


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """One delivery rule at one kind of named place.

    `seller_pays` are the cost stages on the seller's account; all others are the buyer's. `must_insure` are the least
    conditions of cover that the seller owes the buyer (for 110 % of the price), or None. `risk_passes` is where. With `at_cost`
    the same stages are the seller's, and counted as he pays for them.
    """

    code: str
    place: Literal["yard", "port", "arrival port", "door"]
    seller_pays: frozenset[str]
    must_insure: Conditions | None = None
    risk_passes: str
    sea_only: bool = False
    at_cost: bool = False

    def payer(self, stage: str) -> Payer:
        """Return who pays a cost stage: always exactly one of the two."""
        assert stage in NO_TERM_SHARES_OUT or stage in COST_STAGES, f"{stage!r} is not a cost stage"
        return "seller" if stage in self.seller_pays or stage in NO_TERM_SHARES_OUT else "buyer"

    def sells(self, stage: str) -> bool:
        """Return whether a stage is counted at its selling price: what the buyer pays himself is not, nor what we ask at cost."""
        return not self.at_cost and self.payer(stage) == "seller"

    @property
    def at_the_buyers_risk(self) -> bool:
        """Return whether the seller pays for a carriage on which the buyer bears the risk (the C rules)."""
        return self.risk_passes in (_ON_THE_SHIP, _TO_FIRST_CARRIER)


def find_term(code: str, place: str | None = None) -> Term | None:
    """Return the rule of that code, at the named place if it may be had there; None where there is no such rule."""
    same = [term for term in TERMS if term.code == code.strip().upper()]
    if place is None:
        return same[0] if same else None
    return next((term for term in same if term.place == place), None)


def wanted_term(code: str | None, book: RateBook) -> Term | None:
    """Return the rule that is asked for, else the rate book's own; None where there is no such rule."""
    return find_term(code or book.pricing.overseas_term)


_FOR_ANY_MODE = {"FAS": "FCA", "FOB": "FCA", "CFR": "CPT", "CIF": "CIP"}


def advice(term: Term, *, by_container: bool, overseas: bool) -> str:
    """Return the usual advice where a rule does not suit the transport, or an empty string."""
    if term.code == "EXW" and overseas:
        return (
            "EXW leaves loading and export clearance to a buyer abroad, who can hardly do either; FCA is the usual rule. "
            "In the United States the seller owes the export filing its data either way."
        )
    if term.sea_only and by_container:
        return (
            f"{term.code} is meant for goods handed over at the ship; a container is handed over at a terminal before that, "
            f"so {_FOR_ANY_MODE[term.code]} is the usual rule."
        )
    return ""


def needs_a_ship(term: Term) -> str:
    """Return why a rule for the sea does not suit a way by road alone."""
    return (
        f"{term.code} names a ship, and this goes by road all the way: {_FOR_ANY_MODE[term.code]} is the rule for that."
    )


def importer_warnings(term: Term, country: str) -> tuple[str, ...]:
    """Return what the seller must be to import for the buyer, where the term asks that of the seller (DDP).

    EORI and representation in the European Union: Regulation (EU) No 952/2013, Articles 9, 18 and 170, from memory, not checked;
    the others from memory or common practice. A tax adviser and a customs broker there say what holds.
    """
    if "import clearance" not in term.seller_pays or country in HOME_CUSTOMS:
        return ()
    asked = _IMPORTERS.get(
        "EU" if country in EUROPEAN_UNION else country, "the numbers that its customs and tax office ask for"
    )
    told = (
        f"{term.code} makes us the importer of record there, answerable for duty and tax: it takes {asked}. "
        "Some countries take no importer from abroad; until a broker there has agreed, DAP is the safe term."
    )
    return (told,)


HOME_CUSTOMS = frozenset({"US", "PR", "VI", "GU", "AS", "MP"})
EUROPEAN_UNION = frozenset("AT BE BG HR CY CZ DK EE FI FR DE GR HU IE IT LV LT LU MT NL PL PT RO SK SI ES SE".split())
_IMPORTERS = {
    "EU": "an EORI number, an indirect representative established in the Union, and a registration for VAT where it falls due",
    "GB": "a GB EORI number, an indirect representative there, and a registration for VAT where it falls due",
    "CA": "a business number as a non-resident importer, and a registration for GST where it falls due",
    "AU": "an Australian business number or client identifier, and a registration for GST where it falls due",
    "CH": "a Swiss UID number or a fiscal representative for VAT",
    "NO": "a Norwegian organization number or a fiscal representative for VAT",
}

_PACKED = frozenset({"export packing"})
_LOADED = _PACKED | {"loading at origin", "export clearance"}
_AT_TERMINAL = _LOADED | {"pre-carriage"}
_ALONGSIDE = _AT_TERMINAL | {"origin terminal"}
_ON_BOARD = _ALONGSIDE | {"loading on vessel"}
_CARRIED = _ON_BOARD | {"main carriage"}
_TO_DOOR = _CARRIED | {"destination terminal", "on-carriage"}
_INSURED = {"cargo insurance"}

_ON_THE_SHIP = "when the vehicle is on board at the port of loading"
_TO_FIRST_CARRIER = "when the vehicle is handed to the first carrier; the costs go on, the risk does not"
_AT_DOOR = "at the named place, on the arriving truck, ready to be unloaded"

# Where a rule can be had at two kinds of place, the usual one here comes first.
TERMS = (
    Term(
        code="EXW",
        place="yard",
        seller_pays=_PACKED,
        risk_passes="at the seller's yard, before loading",
    ),
    Term(
        code="FCA",
        place="port",
        seller_pays=_AT_TERMINAL,
        risk_passes="at the terminal, on the arriving truck, ready to be unloaded",
    ),
    Term(
        code="FCA",
        place="yard",
        seller_pays=_LOADED,
        risk_passes="at the seller's yard, when loaded on the buyer's truck",
    ),
    Term(
        code="FAS",
        place="port",
        seller_pays=_ALONGSIDE,
        risk_passes="alongside the ship at the port of loading",
        sea_only=True,
    ),
    Term(code="FOB", place="port", seller_pays=_ON_BOARD, risk_passes=_ON_THE_SHIP, sea_only=True),
    Term(code="CFR", place="arrival port", seller_pays=_CARRIED, risk_passes=_ON_THE_SHIP, sea_only=True),
    Term(
        code="CIF",
        place="arrival port",
        seller_pays=_CARRIED | _INSURED,
        must_insure="C",
        risk_passes=_ON_THE_SHIP,
        sea_only=True,
    ),
    Term(code="CPT", place="door", seller_pays=_TO_DOOR, risk_passes=_TO_FIRST_CARRIER),
    Term(code="CPT", place="arrival port", seller_pays=_CARRIED, risk_passes=_TO_FIRST_CARRIER),
    Term(code="CIP", place="door", seller_pays=_TO_DOOR | _INSURED, must_insure="A", risk_passes=_TO_FIRST_CARRIER),
    Term(
        code="CIP",
        place="arrival port",
        seller_pays=_CARRIED | _INSURED,
        must_insure="A",
        risk_passes=_TO_FIRST_CARRIER,
    ),
    # Under the D rules the seller bears the risk to the door, so that cover is the seller's own affair and cost.
    Term(code="DAP", place="door", seller_pays=_TO_DOOR | _INSURED, risk_passes=_AT_DOOR),
    Term(
        code="DPU",
        place="door",
        seller_pays=_TO_DOOR | _INSURED | {"unloading"},
        risk_passes="at the named place, unloaded",
    ),
    Term(
        code="DDP",
        place="door",
        seller_pays=_TO_DOOR | _INSURED | {"import clearance", "duty and tax"},
        risk_passes=f"{_AT_DOOR}, cleared for import",
    ),
)
# The rule under which a buyer comes to the yard.
EX_WORKS = TERMS[0]
CODES = tuple(dict.fromkeys(term.code for term in TERMS))
# At home there is nothing to agree: the seller carries it to the door, and the carrier's papers say where the risk passes.
HOME_TERM = Term(code="DAP", place="door", seller_pays=_TO_DOOR | _INSURED, risk_passes="")
