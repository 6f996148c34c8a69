"""Which rows of a decision table hold: the conditions of their columns, answered from facts.

A row holds where it meets all that its cells ask; a blank cell asks nothing. Facts are told by their names
(`workbook/conditions.py: FACTS`): scalars, None where unknown, a set where several things are so at once; or columns of numpy,
UNKNOWN where unknown, which answer row for row. Rows that ask the same share the question, so it is answered once.
"""

import operator
from collections.abc import Callable, Collection, Iterator, Mapping
from datetime import date
from functools import lru_cache, reduce
from typing import TYPE_CHECKING, Any, Generic, TypeVar, cast

from shipcalc.ratebook.rows.yearly import touches_yearly
from shipcalc.ratebook.workbook.columns import Row, conditions_of
from shipcalc.ratebook.workbook.conditions import FACTS, Condition, How
from shipcalc.records import dataclass

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Bool = NDArray[np.bool_]

# What is not known in a column of whole numbers.
UNKNOWN = -1

RowT = TypeVar("RowT", bound=Row)
Facts = Mapping[str, Any]
Told = Callable[[Any], Any]


@dataclass(frozen=True, slots=True)
class Question:
    """What one cell asks, ready to be answered: `wanted` is a set of answers, a bound, words, the name of an area or a season."""

    fact: str
    how: How
    wanted: Any
    unknown: bool


@dataclass(frozen=True, slots=True, eq=False)
class Asked:
    """What is asked of one fact: how what is told is `read`, and of each question its bit and what misses it.

    `unknown` are the bits that are missed where the fact is unknown.
    """

    fact: str
    read: Told
    misses: tuple[tuple[int, Callable[[Any], bool]], ...]
    unknown: int


@dataclass(frozen=True, slots=True, eq=False)
class DecisionTable(Generic[RowT]):
    """Rows with what they ask: each question once; `places` are the questions of each row, `bits` the same as one number."""

    rows: tuple[RowT, ...]
    questions: tuple[Question, ...]
    places: tuple[tuple[int, ...], ...]
    bits: tuple[int, ...]
    asked: tuple[Asked, ...]


def decision_table(rows: tuple[RowT, ...], *about: str) -> DecisionTable[RowT]:
    """Return the rows with what they ask, of all facts or only of some, by their names or by what bears them.

    It is made once for the same rows.
    """
    return cast("DecisionTable[RowT]", _remembered(_TABLES, rows, about))


def holding(table: DecisionTable[RowT], facts: Facts) -> tuple[RowT, ...]:
    """Return the rows that hold, in order. Every fact that the table asks for must be told."""
    return tuple([table.rows[number] for number in holding_numbers(table, facts)])


def holding_numbers(table: DecisionTable[RowT], facts: Facts) -> list[int]:
    """Return the numbers of the rows that hold, in order."""
    missed = _missed(table, facts)
    return [number for number, bits in enumerate(table.bits) if not bits & missed]


def holds(row: Row, facts: Facts, *about: str) -> bool:
    """Return whether a single row holds, as far as it asks for some facts, by their names or by what bears them, or for all."""
    return not _missed(_remembered(_SINGLE, row, about), facts)


def where_holding(
    table: DecisionTable[RowT], facts: Facts, numbers: Collection[int] | None = None
) -> "Iterator[Bool | None]":
    """Yield where each row, or each of some, holds over columns of facts; None where it asks nothing."""
    answered: dict[int, Bool] = {}
    for number in range(len(table.rows)) if numbers is None else numbers:
        places = table.places[number]
        for place in places:
            if place not in answered:
                question = table.questions[place]
                answered[place] = _where(question, facts[question.fact])
        yield reduce(operator.and_, [answered[place] for place in places]) if places else None


def told_by(table: DecisionTable[RowT], record: object) -> dict[str, Any]:
    """Return what a table asks for from a record that has a field for every fact."""
    return {asked.fact: getattr(record, asked.fact) for asked in table.asked}


def questions_of(row: Row, about: Collection[str] = ()) -> Iterator[Question]:
    """Yield what a row's cells ask, of all facts or only of some, by their names or by what bears them."""
    for name, condition in conditions_of(type(row)):
        if about and condition.fact not in about and FACTS[condition.fact].about not in about:
            continue
        cell, unknown = getattr(row, name), condition.unknown == "met"
        if condition.how == "season":
            if condition.part == "first" and (season := _season(row, condition)):
                yield Question(condition.fact, "season", season, unknown)
        elif cell not in (None, (), ""):
            yield Question(condition.fact, condition.how, _wanted(condition.how, cell), unknown)
        elif condition.blank_bars:
            yield Question(condition.fact, "none of", _wanted("none of", condition.blank_bars), unknown=True)


def _season(row: Row, first: Condition) -> tuple[date, date, bool] | None:
    """Return the first and the last day of a row's season, and whether it returns every year; None where one is blank."""
    parts: dict[str, Any] = {"first": None, "last": None, "every year": True}
    for name, condition in conditions_of(type(row)):
        if condition.how == "season" and condition.fact == first.fact:
            parts[str(condition.part)] = getattr(row, name)
    begins, ends, every_year = parts.values()
    return None if begins is None or ends is None else (begins, ends, every_year)


# Tables by the identity of their rows, which are held with them: to compare or hash rows takes longer than to ask them.
_MOST = 4_096
_Kept = dict[tuple[int, tuple[str, ...]], tuple[Any, DecisionTable[Row]]]
_TABLES: _Kept = {}
_SINGLE: _Kept = {}


def _remembered(kept: _Kept, rows: Any, about: tuple[str, ...]) -> DecisionTable[Row]:
    found = kept.get((id(rows), about))
    if found is None:
        if len(kept) >= _MOST:
            kept.clear()
        found = kept[id(rows), about] = rows, _compiled(rows if isinstance(rows, tuple) else (rows,), about)
    return found[1]


def _compiled(rows: tuple[Row, ...], about: tuple[str, ...]) -> DecisionTable[Row]:
    asks = [tuple(questions_of(row, about)) for row in rows]
    place_of: dict[Question, int] = {}
    for question in (question for questions in asks for question in questions):
        place_of.setdefault(question, len(place_of))
    places = tuple(tuple(dict.fromkeys(place_of[question] for question in questions)) for questions in asks)
    bits = tuple(sum(1 << place for place in own) for own in places)
    kinds = dict.fromkeys((question.fact, _READ.get(question.how, _as_told)) for question in place_of)
    asked = tuple(_asked(fact, read, place_of) for fact, read in kinds)
    return DecisionTable(rows, tuple(place_of), places, bits, asked)


def _asked(fact: str, read: Told, place_of: Mapping[Question, int]) -> Asked:
    own = [
        (1 << place, question)
        for question, place in place_of.items()
        if question.fact == fact and _READ.get(question.how, _as_told) is read
    ]
    misses = tuple((bit, _MISSES[question.how](question.wanted)) for bit, question in own)
    return Asked(fact, read, misses, sum(bit for bit, question in own if not question.unknown))


def _missed(table: DecisionTable[RowT], facts: Facts) -> int:
    """Return the bits of the questions that the facts do not meet."""
    missed = 0
    for asked in table.asked:
        told = facts[asked.fact]
        if told is None:
            missed |= asked.unknown
            continue
        told = asked.read(told)
        for bit, misses in asked.misses:
            if misses(told):
                missed |= bit
    return missed


@lru_cache(maxsize=4_096)
def _answers(told: Any) -> frozenset[Any]:
    """Return what is told as a set of answers in one case of letters."""
    several = told if isinstance(told, (frozenset, tuple)) else (told,)
    return frozenset(one.casefold() if isinstance(one, str) else one for one in several)


def _text(told: str) -> str:
    return told.casefold()


def _as_told(told: Any) -> Any:
    return told


_READ: Mapping[How, Told] = {
    **dict.fromkeys(("is", "one of", "none of", "all of"), _answers),
    **dict.fromkeys(("has a word of", "has no word of"), _text),
}


def _wanted(how: How, cell: Any) -> Any:
    read = _READ.get(how, _as_told)
    return tuple(read(word) for word in cell) if read is _text else read(cell)


def _out_of_season(leaves: date | tuple[date, date], season: tuple[date, date, bool]) -> bool:
    first, last, every_year = season
    window = leaves if isinstance(leaves, tuple) else (leaves, leaves)
    return not touches_yearly(window, first, last) if every_year else window[1] < first or last < window[0]


# For each way of asking what is wanted becomes a function that says whether what is told misses it.
_MISSES: Mapping[How, Callable[[Any], Callable[[Any], bool]]] = {
    "is": lambda wanted: wanted.isdisjoint,
    "one of": lambda wanted: wanted.isdisjoint,
    "none of": lambda wanted: lambda told: not wanted.isdisjoint(told),
    "all of": lambda wanted: lambda told: not wanted.issubset(told),
    "over": lambda wanted: lambda told: not told > wanted,
    "up to": lambda wanted: lambda told: not told <= wanted,
    "from": lambda wanted: lambda told: not told >= wanted,
    "under": lambda wanted: lambda told: not told < wanted,
    "has a word of": lambda words: lambda text: not any(word in text for word in words),
    "has no word of": lambda words: lambda text: any(word in text for word in words),
    "lies in": lambda name: lambda lies_in: not lies_in(name),
    "season": lambda season: lambda leaves: _out_of_season(leaves, season),
}
_BOUNDS: Mapping[How, Callable[[Any, Any], Any]] = {
    "over": operator.gt,
    "up to": operator.le,
    "from": operator.ge,
    "under": operator.lt,
}


def _where(question: Question, told: Any) -> "Bool":
    """Return where a column of facts meets a question."""
    if question.how == "lies in":
        return cast("Bool", told(question.wanted))
    if question.how in _BOUNDS:
        met = _BOUNDS[question.how](told, question.wanted)
    else:
        assert question.how in ("is", "one of", "none of"), f"{question.how} is not asked of columns"
        is_one = reduce(operator.or_, [told == answer for answer in question.wanted])
        met = ~is_one if question.how == "none of" else is_one
    if told.dtype.kind == "b":
        return cast("Bool", met)
    return cast("Bool", met | (told == UNKNOWN) if question.unknown else met & (told != UNKNOWN))
