"""Which papers and tasks a shipment needs: rows of decision tables, answered from facts.

A row holds when all its conditions hold; a blank condition holds always.
"""

from collections.abc import Iterable
from dataclasses import replace
from typing import TypeVar

from shipcalc.ratebook.paperwork_rows import Conditioned, DocumentRow, TaskRow
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """What the conditions ask about one vehicle of one shipment.

    `to_country` is ISO 3166-1 alpha-2. `treatment` is how the buyer's customs take the vehicle in the sums; where it
    `may_be_collectors`, they may take it as a collector's piece all the same, and what that asks for is needed too.
    An unknown value (None) counts as above every threshold and an unknown age as within every bound: rather one paper too many.
    """

    overseas: bool = False
    export_filing: bool = False
    to_country: str = "US"
    mode: str = "truck"
    term: str = "DAP"
    treatment: str | None = None
    may_be_collectors: bool = False
    trailer: str | None = None
    title: str = "clean"
    runs: bool = True
    lift_gate: bool = False
    value_minor: int | None = None
    age_years: int | None = None
    battery: bool = False


AnyRow = TypeVar("AnyRow", bound=Conditioned)


def documents_needed(rows: Iterable[DocumentRow], facts: Facts) -> tuple[DocumentRow, ...]:
    """Return the documents whose conditions hold, in the order of the sheet; of rows that share a code, the first."""
    return _first_of_each_code(_holding(rows, facts))


def tasks_needed(rows: Iterable[TaskRow], facts: Facts) -> tuple[TaskRow, ...]:
    """Return the tasks whose conditions hold, in the order of the sheet; of rows that share a code, the first.

    A task that falls away hands on what it waited for: where b comes after a and c after b, and b is not needed, c comes after a.
    """
    every_row = tuple(rows)
    needed = _first_of_each_code(_holding(every_row, facts))
    standing = {row.code.casefold(): row.code for row in needed}
    waits_for: dict[str, tuple[str, ...]] = {}
    for row in every_row:
        waits_for[row.code.casefold()] = (*waits_for.get(row.code.casefold(), ()), *row.after)
    before = [_standing_before(row, standing, waits_for) for row in needed]
    return tuple(
        row if row.after == after else replace(row, after=after) for row, after in zip(needed, before, strict=True)
    )


def holds(row: Conditioned, facts: Facts) -> bool:
    """Return whether all conditions of a row hold."""
    return (
        _is_any_or(row.overseas, facts.overseas)
        and _is_any_or(row.export_filing, facts.export_filing)
        and (_is_any_or(row.treatment, facts.treatment) or (facts.may_be_collectors and row.treatment == "collector"))
        and _is_any_or(row.battery, facts.battery)
        and _is_any_or(row.trailer, facts.trailer)
        and _is_any_or(row.runs, facts.runs)
        and _is_any_or(row.lift_gate, facts.lift_gate)
        and _is_listed(facts.to_country, row.to_country)
        and _is_listed(facts.title, row.title)
        and _is_listed(facts.mode, row.mode)
        and _is_listed(facts.term, row.term)
        and (row.age_from is None or facts.age_years is None or facts.age_years >= row.age_from)
        and (row.age_under is None or facts.age_years is None or facts.age_years < row.age_under)
        and (row.value_over_minor is None or facts.value_minor is None or facts.value_minor > row.value_over_minor)
    )


def _holding(rows: Iterable[AnyRow], facts: Facts) -> list[AnyRow]:
    return [row for row in rows if holds(row, facts)]


def _is_any_or(condition: bool | str | None, fact: bool | str | None) -> bool:
    return condition is None or condition == fact


def _is_listed(fact: str, listed: tuple[str, ...]) -> bool:
    return not listed or fact.casefold() in {entry.casefold() for entry in listed}


CodedRow = TypeVar("CodedRow", DocumentRow, TaskRow)


def _first_of_each_code(rows: list[CodedRow]) -> tuple[CodedRow, ...]:
    first: dict[str, CodedRow] = {}
    for row in rows:
        first.setdefault(row.code.casefold(), row)
    return tuple(first.values())


def _standing_before(row: TaskRow, standing: dict[str, str], waits_for: dict[str, tuple[str, ...]]) -> tuple[str, ...]:
    """Return the codes a task waits for, those that fell away replaced by what they waited for themselves."""
    found: dict[str, None] = {}
    seen = {row.code.casefold()}
    ahead = list(row.after)
    while ahead:
        code = ahead.pop(0).casefold()
        if code in seen:
            continue
        seen.add(code)
        if code in standing:
            found[standing[code]] = None
        else:
            ahead.extend(waits_for.get(code, ()))
    return tuple(found)
