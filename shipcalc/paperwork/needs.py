"""Which papers and tasks a shipment needs: rows of decision tables, answered from facts.

A row holds when all its conditions hold; a blank condition holds always.
"""

from collections.abc import Iterable, Mapping
from datetime import date
from functools import lru_cache
from typing import Generic, TypeVar

from shipcalc.ratebook.decisions import DecisionTable, decision_table, holding_numbers, told_by
from shipcalc.ratebook.rows.paperwork import DocumentRow, FromBuyerRow, TaskRow
from shipcalc.records import dataclass, replace
from shipcalc.trade import COST_STAGES

# Who pays where nothing else is said: the seller all to the door, the buyer what the customs ask (DAP).
DELIVERED = frozenset(COST_STAGES) - {"unloading", "import clearance", "duty and tax"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """What the conditions ask about one vehicle of one shipment.

    `day` is that of the quote, `to_country` ISO 3166-1 alpha-2. `treatment` is how customs take the vehicle in the sums;
    where it `may_be_collectors`, they may take it as a collector's piece all the same, and what that asks for is needed.
    `seller_pays` are the cost stages on the seller's account, all others are the buyer's; `leaves` the first and the last day on
    which it may leave by ship, or by road, None where that is not known.
    What an unknown value (None) counts as stands with the condition columns (`ratebook/rows/paperwork.py`): rather one paper too
    many.
    """

    day: date
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


@dataclass(frozen=True, slots=True, eq=False)
class Rules(Generic[CodedRow]):
    """The rows of a table as they are asked, with their codes in lower case."""

    table: DecisionTable[CodedRow]
    codes: tuple[str, ...]

    @property
    def rows(self) -> tuple[CodedRow, ...]:
        """Return the rows, in the order of the sheet."""
        return self.table.rows


def rules_of(rows: Iterable[CodedRow]) -> Rules[CodedRow]:
    """Return the rows of a table as they are asked."""
    rows = tuple(rows)
    return Rules(decision_table(rows), tuple(row.code.casefold() for row in rows))


def documents_needed(rules: Rules[DocumentRow], facts: Facts) -> tuple[DocumentRow, ...]:
    """Return the documents whose conditions hold, in the order of the sheet; of rows that share a code, the first."""
    return tuple(_holding(rules, facts).values())


def asked_of_buyer(rules: Rules[FromBuyerRow], facts: Facts) -> tuple[FromBuyerRow, ...]:
    """Return what the buyer must bring, in the order of the sheet; of rows that share a code, the first that holds."""
    return tuple(_holding(rules, facts).values())


def tasks_needed(rules: Rules[TaskRow], facts: Facts) -> tuple[TaskRow, ...]:
    """Return the tasks whose conditions hold, in the order of the sheet; of rows that share a code, the first.

    A task that falls away hands on what it waited for: where b comes after a and c after b, and b is not needed, c comes after a.
    """
    return _handed_on(rules, tuple(_numbers(rules, facts).values()))


@lru_cache(maxsize=256)
def _handed_on(rules: Rules[TaskRow], numbers: tuple[int, ...]) -> tuple[TaskRow, ...]:
    """Return the tasks of some rows; those that fell away are replaced by what they waited for."""
    needed = {rules.codes[number]: rules.rows[number] for number in numbers}
    fallen: dict[str, tuple[str, ...]] = {}
    for code, row in zip(rules.codes, rules.rows, strict=True):
        if code not in needed:
            fallen[code] = (*fallen.get(code, ()), *row.after)
    before = [_standing_before(code, row, needed, fallen) for code, row in needed.items()]
    return tuple(
        row if row.after == after else replace(row, after=after)
        for row, after in zip(needed.values(), before, strict=True)
    )


def _holding(rules: Rules[CodedRow], facts: Facts) -> dict[str, CodedRow]:
    """Return the rows whose conditions all hold, by their code in lower case; of those that share one, the first."""
    return {code: rules.rows[number] for code, number in _numbers(rules, facts).items()}


def _numbers(rules: Rules[CodedRow], facts: Facts) -> dict[str, int]:
    told = told_by(rules.table, facts)
    if facts.may_be_collectors:
        told["treatment"] = frozenset({facts.treatment, "collector"})
    held: dict[str, int] = {}
    for number in holding_numbers(rules.table, told):
        held.setdefault(rules.codes[number], number)
    return held


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
