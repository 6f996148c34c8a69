"""Names a letter away from others. What counts as one letter: a slip of the finger in the sense of Damerau (Communications of the
ACM 7(3), 1964): one letter left out, added, changed, or two neighbours swapped; the examples here are our own."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.ratebook.checks.misspelt import is_one_letter_off, names_are_spelt_alike
from shipcalc.ratebook.drafting import draft_of
from shipcalc.ratebook.rows.areas import Area
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.columns import RowRef, columns_of
from shipcalc.records import replace

LETTERS = {field: "ABCDEFGHIJKLMNOPQ"[n] for n, field in enumerate(columns_of(Area))}


def slow_distance(one: str, other: str) -> int:
    """Return Damerau's distance, neighbours swapped once, letter by letter: the obvious table."""
    table = [[max(a, b) if not a * b else 0 for b in range(len(other) + 1)] for a in range(len(one) + 1)]
    for a in range(1, len(one) + 1):
        for b in range(1, len(other) + 1):
            same = one[a - 1] == other[b - 1]
            table[a][b] = min(table[a - 1][b] + 1, table[a][b - 1] + 1, table[a - 1][b - 1] + (not same))
            if a > 1 and b > 1 and one[a - 1] == other[b - 2] and one[a - 2] == other[b - 1]:
                table[a][b] = min(table[a][b], table[a - 2][b - 2] + 1)
    return table[-1][-1]


@given(st.text("abc", min_size=5, max_size=8), st.text("abc", min_size=5, max_size=8))
def test_one_letter_off_is_a_distance_of_one_by_the_slow_table(one: str, other: str) -> None:
    assert is_one_letter_off(one, other) == (slow_distance(one, other) == 1)


@pytest.mark.parametrize(("one", "other"), [("charge-1", "charge-2"), ("zone a", "zone b"), ("area 51", "area 5")])
def test_digits_and_lone_letters_tell_names_apart(one: str, other: str) -> None:
    assert not is_one_letter_off(one, other)


def areas(*names: str) -> Tables:
    rows = (
        Area(at=RowRef("trucking.xlsx", "Areas", number, LETTERS), area=name, state=state)
        for number, (name, state) in enumerate(zip(names, ("WA", "OR", "ID", "MT", "WY"), strict=False), 2)
    )
    return Tables(areas=tuple(rows))


def test_a_name_mistyped_once_is_told_with_the_one_that_is_meant() -> None:
    (told,) = names_are_spelt_alike(areas("Northwest", "Northwest", "Nortwest"))
    assert (told.cell, told.severity) == ("trucking.xlsx › Areas!A4", "warning")
    assert told.message == '"Nortwest" is a letter away from "Northwest", which stands 2 times (Areas!A2)'


def test_two_names_that_each_stand_once_are_two_names() -> None:
    assert list(names_are_spelt_alike(areas("Northwest", "Nortwest", "South"))) == []


def test_the_shipped_books_hold_no_such_name() -> None:
    tables = draft_of(Path(__file__).parents[2] / "rates").tables
    assert list(names_are_spelt_alike(tables)) == []
    mistyped = (*tables.areas[:-1], replace(tables.areas[-1], area=f"{tables.areas[0].area}s"))
    assert len(list(names_are_spelt_alike(replace(tables, areas=mistyped)))) == 1
