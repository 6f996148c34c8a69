"""A name that is one letter off from one that stands in several other rows of its column: most likely the same, mistyped."""

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from shipcalc.ratebook.checks.remarks import short_cell, warning
from shipcalc.ratebook.rows.tables import SHEETS, Tables
from shipcalc.ratebook.workbook.columns import Column, Kind, Row, columns_of

if TYPE_CHECKING:
    from shipcalc.errors import Problem

# Shorter ones are codes, longer ones sentences.
_SHORTEST, _LONGEST = 5, 40
# So often a name stands somewhere before another, that stands once, is taken for it.
_FEWEST_OTHERS = 2
# What is told in words of one's own may well differ by a letter.
_OWN_WORDS = frozenset(("note", "office_note", "source", "trust", "remark", "unit", "value", "copies"))


def names_are_spelt_alike(tables: Tables) -> "Iterator[Problem]":
    """A name that stands once is not one letter away from one that stands in several rows of its column."""
    for kind in SHEETS:
        rows = getattr(tables, kind.rows)
        for field, column in columns_of(kind.row_type).items():
            if len(rows) > _FEWEST_OTHERS and _is_name(field, column):
                yield from _one_letter_off(rows, field)


def _is_name(field: str, column: Column) -> bool:
    return column.kind in (Kind.CODE, Kind.TEXT) and not column.refers_to and field not in _OWN_WORDS


def _one_letter_off(rows: Sequence[Row], field: str) -> "Iterator[Problem]":
    told = (name for row in rows if isinstance(name := getattr(row, field), str))
    names = Counter(name for name in told if _SHORTEST <= len(name) <= _LONGEST)
    often = {name for name, count in names.items() if count >= _FEWEST_OTHERS}
    by_part: dict[str, list[str]] = {}
    for name in often:
        for part in _without_a_letter(name.casefold()):
            by_part.setdefault(part, []).append(name)
    for row in rows if often else ():
        name = getattr(row, field)
        if names.get(name) != 1:
            continue
        near = {other for part in _without_a_letter(name.casefold()) for other in by_part.get(part, ())}
        meant = next((other for other in sorted(near) if is_one_letter_off(name.casefold(), other.casefold())), None)
        if meant is not None:
            twin = next(other for other in rows if getattr(other, field) == meant)
            message = f'"{name}" is a letter away from "{meant}", which stands {names[meant]} times ({short_cell(twin, field)})'
            yield warning(row, field, message, f'write "{meant}" if that is meant')


def _without_a_letter(name: str) -> set[str]:
    """Return a name and what it is without any one of its letters: names a letter apart have one of these in common."""
    return {name, *(name[:at] + name[at + 1 :] for at in range(len(name)))}


def is_one_letter_off(one: str, other: str) -> bool:
    """Return whether a letter was left out, added, changed or swapped with the next: none that is a digit or a lone letter."""
    if one == other:
        return False
    short, long = sorted((one, other), key=len)
    at = next((at for at, (a, b) in enumerate(zip(short, long, strict=False)) if a != b), len(short))
    if len(short) == len(long):
        swapped = long[:at] + long[at + 1 : at + 2] + long[at : at + 1] + long[at + 2 :]
        differs = short[at] + long[at]
        same = short[at + 1 :] == long[at + 1 :] or short == swapped
    else:
        differs, same = long[at], short[at:] == long[at + 1 :]
    return same and not any(letter.isdigit() for letter in differs) and not _is_lone(long, at)


def _is_lone(name: str, at: int) -> bool:
    """Return whether a letter stands by itself, as in "zone a" or "terminal-b", where it tells names apart."""
    beside = name[at - 1 : at] + name[at + 1 : at + 2]
    return not any(letter.isalpha() for letter in beside)


CHECKS = (names_are_spelt_alike,)
