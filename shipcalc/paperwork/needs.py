"""Which papers and tasks a shipment needs: rows of decision tables, answered from facts.

A row holds when all its conditions hold; a blank condition holds always.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from typing import Generic, TypeVar

from shipcalc.ratebook.rows.paperwork import Conditioned, DocumentRow, FromBuyerRow, TaskRow
from shipcalc.ratebook.rows.yearly import touches_yearly
from shipcalc.records import dataclass, replace
from shipcalc.trade import COST_STAGES

# Who pays where nothing else is said: the seller all to the door, the buyer what the customs ask (DAP).
DELIVERED = frozenset(COST_STAGES) - {"unloading", "import clearance", "duty and tax"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """What the conditions ask about one vehicle of one shipment.

    `to_country` is ISO 3166-1 alpha-2. `treatment` is how the buyer's customs take the vehicle in the sums; where it
    `may_be_collectors`, they may take it as a collector's piece all the same, and what that asks for is needed too.
    `seller_pays` are the cost stages on the seller's account, all others are the buyer's; `leaves` the first and the last day on
    which it may leave by ship, or by road, None where that is not known.
    An unknown value (None) counts as above every threshold and an unknown age as within every bound: rather one paper too many.
    """

    overseas: bool = False
    export_filing: bool = False
    to_country: str = "US"
    mode: str = "truck"
    loaded: str | None = "truck"
    term: str = "DAP"
    seller_pays: frozenset[str] = DELIVERED
    balance_due: str = "before pickup"
    leaves: tuple[date, date] | None = None
    treatment: str | None = None
    may_be_collectors: bool = False
    trailer: str | None = None
    title: str = "clean"
    runs: bool = True
    lift_gate: bool = False
    value_minor: int | None = None
    age_years: int | None = None
    battery: bool = False


_ROAD = frozenset({"pre-carriage", "main carriage", "on-carriage"})


def as_travelled(seller_pays: frozenset[str], mode: str) -> frozenset[str]:
    """Return the cost stages on the seller's account as a shipment has them.

    A truck all the way, or a hired driver, is the first and the last leg too, so that one side pays it whole. What the buyer
    collects is carried by nobody for the seller.
    """
    by_road = mode in ("truck", "driven")
    if mode == "collected" or (by_road and "main carriage" not in seller_pays):
        return seller_pays - _ROAD
    return seller_pays | _ROAD if by_road else seller_pays


CodedRow = TypeVar("CodedRow", DocumentRow, TaskRow, FromBuyerRow)
Answers = frozenset[bool | str | None]

# The conditions that one of some answers meets; the others are bounds.
_ANSWERED = (
    "overseas",
    "export_filing",
    "treatment",
    "battery",
    "trailer",
    "runs",
    "lift_gate",
    "to_country",
    "title",
    "mode",
    "loaded",
    "term",
    "balance_due",
)


@dataclass(frozen=True, slots=True, eq=False)
class Rule(Generic[CodedRow]):
    """A row as it is asked: its code in lower case, and for each condition that is not blank the answers that meet it."""

    row: CodedRow
    code: str
    met_by: tuple[tuple[str, Answers], ...]


def rules_of(rows: Iterable[CodedRow]) -> tuple[Rule[CodedRow], ...]:
    """Return the rows of a table as they are asked."""
    return tuple(Rule(row, row.code.casefold(), tuple(_conditions(row))) for row in rows)


def documents_needed(rules: Sequence[Rule[DocumentRow]], facts: Facts) -> tuple[DocumentRow, ...]:
    """Return the documents whose conditions hold, in the order of the sheet; of rows that share a code, the first."""
    return tuple(_holding(rules, facts).values())


def asked_of_buyer(rules: Sequence[Rule[FromBuyerRow]], facts: Facts) -> tuple[FromBuyerRow, ...]:
    """Return what the buyer must bring, in the order of the sheet; of rows that share a code, the first that holds."""
    return tuple(_holding(rules, facts).values())


def tasks_needed(rules: Sequence[Rule[TaskRow]], facts: Facts) -> tuple[TaskRow, ...]:
    """Return the tasks whose conditions hold, in the order of the sheet; of rows that share a code, the first.

    A task that falls away hands on what it waited for: where b comes after a and c after b, and b is not needed, c comes after a.
    """
    needed = _holding(rules, facts)
    fallen: dict[str, tuple[str, ...]] = {}
    for rule in rules:
        if rule.code not in needed:
            fallen[rule.code] = (*fallen.get(rule.code, ()), *rule.row.after)
    before = [_standing_before(code, row, needed, fallen) for code, row in needed.items()]
    return tuple(
        row if row.after == after else replace(row, after=after)
        for row, after in zip(needed.values(), before, strict=True)
    )


def _conditions(row: Conditioned) -> Iterator[tuple[str, Answers]]:
    for name in _ANSWERED:
        wanted = getattr(row, name)
        if wanted not in (None, ()):
            yield name, _answers(*(wanted if isinstance(wanted, tuple) else (wanted,)))


def _answers(*answers: bool | str | None) -> Answers:
    return frozenset(answer.casefold() if isinstance(answer, str) else answer for answer in answers)


def _holding(rules: Iterable[Rule[CodedRow]], facts: Facts) -> dict[str, CodedRow]:
    """Return the rows whose conditions all hold, by their code in lower case; of those that share one, the first."""
    told = {name: _answers(getattr(facts, name)) for name in _ANSWERED}
    if facts.may_be_collectors:
        told["treatment"] |= {"collector"}
    held: dict[str, CodedRow] = {}
    for rule in rules:
        if not any(told[name].isdisjoint(answers) for name, answers in rule.met_by) and _is_within(rule.row, facts):
            held.setdefault(rule.code, rule.row)
    return held


def _is_within(row: Conditioned, facts: Facts) -> bool:
    """Return whether the facts lie within a row's bounds."""
    return (
        (row.age_from is None or facts.age_years is None or facts.age_years >= row.age_from)
        and (row.age_under is None or facts.age_years is None or facts.age_years < row.age_under)
        and (row.value_over_minor is None or facts.value_minor is None or facts.value_minor > row.value_over_minor)
        and facts.seller_pays.issuperset(row.seller_pays)
        and facts.seller_pays.isdisjoint(row.buyer_pays)
        and _in_season(row, facts.leaves)
    )


def _in_season(row: Conditioned, leaves: tuple[date, date] | None) -> bool:
    """Return whether a shipment may leave within a row's season, which returns every year and may run over New Year."""
    if row.season_from is None or row.season_to is None or leaves is None:
        return True
    return touches_yearly(leaves, row.season_from, row.season_to)


def _standing_before(
    own: str, row: TaskRow, standing: Mapping[str, TaskRow], fallen: Mapping[str, tuple[str, ...]]
) -> tuple[str, ...]:
    """Return the codes a task waits for, those that fell away replaced by what they waited for themselves."""
    found: list[str] = []
    seen = {own}
    ahead = list(row.after)
    while ahead:
        code = ahead.pop(0).casefold()
        if code in seen:
            continue
        seen.add(code)
        if code in standing:
            found.append(standing[code].code)
        else:
            ahead.extend(fallen.get(code, ()))
    return tuple(found)
