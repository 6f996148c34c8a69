"""Rows are the same by what they name, wherever they stand."""

from datetime import date

import pytest

from shipcalc.ratebook.book import read_rate_book
from shipcalc.ratebook.changes.at_cell import find_cell
from shipcalc.ratebook.changes.differences import changed_rows, differences
from shipcalc.ratebook.changes.identity import identity_fields
from shipcalc.ratebook.rows.tables import SHEETS
from shipcalc.ratebook.workbook.columns import columns_of
from shipcalc.records import replace


def book(folder):
    return read_rate_book(folder)


def told(changes):
    return [(c.what, c.sheet, c.name, *[(cell.header, cell.old, cell.new) for cell in c.cells]) for c in changes]


def test_a_book_does_not_differ_from_itself(sound_book):
    assert differences(book(sound_book), book(sound_book)) == ()


def test_a_changed_cell_is_told_with_what_it_said_and_says_as_the_manager_sees_it(sound_book, broken):
    changes = {
        "Per mile": {"E2": 1.05},
        "Extra charges": {"AC3": 0.15},
        "Carriers": {"K2": 160000, "E2": "Keys"},
        "Fuel": {"B2": date(2026, 11, 30)},
    }
    found = differences(book(sound_book), book(broken(changes)))

    assert told(found) == [
        (
            "changed",
            "Carriers",
            "Owl and Anchor, open",
            ("Delivers to", "Northwest; Keys", "Keys"),
            ("Cargo cover ($)", "150,000", "160,000"),
        ),
        ("changed", "Per mile", "Owl and Anchor, open, over 0", ("Rate ($ per mile)", "1", "1.05")),
        ("changed", "Extra charges", "express", ("Percent", "12 %", "15 %")),
        ("added", "Fuel", "Per mile, 2026-11-30"),
        ("removed", "Fuel", "Per mile, 2026-11-23"),
    ]
    assert found[1].cells[0].cell == "trucking.xlsx › Per mile!E2"


def test_rows_that_only_moved_are_the_same(sound_book):
    old = book(sound_book)
    new = replace(old, **{kind.rows: getattr(old, kind.rows)[::-1] for kind in SHEETS})

    assert differences(old, new) == ()


def test_letter_case_of_a_name_makes_no_other_row(sound_book, broken):
    found = differences(book(sound_book), book(broken({"Extra charges": {"A2": "LOW"}})))

    assert told(found) == [("changed", "Extra charges", "LOW", ("Code", "low", "LOW"))]


def test_two_rows_of_one_name_are_paired_with_their_like(sound_book):
    old = book(sound_book)
    summer = replace(old.carriers[0], valid_to=date(2026, 9, 30))
    winter = replace(old.carriers[0], valid_from=date(2026, 10, 1), base_minor=5_000)
    one, other = (
        replace(old, carriers=(summer, winter)),
        replace(old, carriers=(replace(winter, base_minor=6_000), summer)),
    )

    (change,) = differences(one, other)

    assert [(cell.header, cell.old, cell.new) for cell in change.cells] == [("Base fee ($)", "50", "60")]


def test_changed_rows_are_given_as_they_were_and_as_they_are(sound_book, broken):
    was, is_now = changed_rows(book(sound_book), book(broken({"Per mile": {"E2": 1.05}})))

    assert [row.rate_e4 for row in was["bands"]] == [10_000]
    assert [row.rate_e4 for row in is_now["bands"]] == [10_500]
    assert not any(rows for field, rows in was.items() if field != "bands")


@pytest.mark.parametrize("kind", SHEETS, ids=lambda kind: kind.name)
def test_every_sheet_has_fields_that_tell_its_rows_apart(kind):
    fields = identity_fields(kind)

    assert fields
    assert set(fields) <= set(columns_of(kind.row_type))


def test_what_stands_at_a_cell_is_found_as_the_manager_sees_it(sound_book):
    found = find_cell(book(sound_book), "trucking.xlsx › Per mile!E3")

    assert (found.row_name, found.header, found.told) == ("Owl and Anchor, open, over 500", "Rate ($ per mile)", "0.8")
    assert find_cell(book(sound_book), "trucking.xlsx › Per mile!E99") is None
    assert find_cell(book(sound_book), "trucking.xlsx › Per mile") is None
    assert find_cell(book(sound_book), "nowhere") is None
