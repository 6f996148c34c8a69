"""Workbooks written from the descriptions of the rows, and read back."""

from datetime import date
from decimal import Decimal
from typing import get_type_hints

import openpyxl
import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from shipcalc.ratebook.rows.tables import SHEETS, WORKBOOKS
from shipcalc.ratebook.starter.order import columns_in_order
from shipcalc.ratebook.starter.styles import REQUIRED_MARK
from shipcalc.ratebook.starter.workbooks import write_workbook
from shipcalc.ratebook.workbook.cells import value_of
from shipcalc.ratebook.workbook.columns import NOWHERE, Kind, columns_of
from shipcalc.ratebook.workbook.reader import read_rows
from shipcalc.ratebook.workbook.written import cell_of
from shipcalc.records import fields, replace
from shipcalc.sheets.reading import Sheet, read_workbook

NAMES = st.from_regex(r"[=+@A-Za-zÄé&'][A-Za-z é&'=-]{0,12}[A-Za-z]", fullmatch=True).map(
    lambda text: " ".join(text.split())
)
VALUES = {
    Kind.TEXT: NAMES,
    Kind.CODE: NAMES,
    Kind.YES_NO: st.booleans(),
    Kind.WHOLE: st.integers(0, 100_000),
    Kind.MILES: st.integers(0, 100_000),
    Kind.LENGTH: st.integers(0, 30_000),
    Kind.MASS: st.integers(0, 90_000_000),
    Kind.MONEY: st.integers(0, 10_000_000_000),
    Kind.RATE: st.integers(0, 1_000_000),
    Kind.PERCENT: st.integers(0, 500_000),
    Kind.FACTOR: st.integers(0, 10_000_000).map(lambda n: n / 1000),
    Kind.DATE: st.dates(date(1990, 1, 1), date(2099, 12, 31)),
    Kind.LIST: st.lists(NAMES, min_size=1, max_size=3, unique=True).map(tuple),
    Kind.ZIP: st.from_regex(r"[0-9]{1,5}", fullmatch=True),
    Kind.STATE: st.sampled_from(["WA", "GA", "Baden"]),
    Kind.COUNTRY: st.sampled_from(["US", "CA", "DE"]),
    Kind.PLACE: st.sampled_from(["US", "US-WA", "98225", "021"]),
    Kind.END: st.sampled_from(
        ["MT", "US-WA", "98225", "590-599", "021", "Bozeman, MT", "yard North", "Canada", "USSEA"]
    ),
}


def values(column):
    if column.choices and column.kind is Kind.LIST:
        return st.lists(st.sampled_from(column.choices), min_size=1, unique=True).map(tuple)
    return st.sampled_from(column.choices) if column.choices else VALUES[column.kind]


def rows_of(row_type):
    defaults = {field.name: field.default for field in fields(row_type)}
    drawn = {
        field: values(column) if column.required else st.just(defaults[field]) | values(column)
        for field, column in columns_of(row_type).items()
    }
    # A row with nothing in it is no row.
    return st.builds(row_type, **drawn).filter(
        lambda row: any(cell_of(getattr(row, field), column, "USD") for field, column in columns_of(row_type).items())
    )


@pytest.mark.parametrize("kind", SHEETS, ids=lambda kind: kind.name)
@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(data=st.data())
def test_rows_turned_into_cells_are_read_back_the_same(kind, data):
    """Without a workbook between them, so that many rows are tried, and what fails is soon made small."""
    rows, columns = data.draw(st.lists(rows_of(kind.row_type), max_size=3)), columns_of(kind.row_type)
    cells = [tuple(as_saved(cell_of(getattr(row, field), columns[field], "USD")) for field in columns) for row in rows]
    headers = tuple(column.header for column in columns.values())

    reading = read_rows(Sheet("w.xlsx", kind.name, (headers, *cells)), kind.row_type)

    assert [problem for problem in reading.problems if problem.severity == "fault"] == []
    assert [replace(row, at=NOWHERE) for row in reading.rows] == rows


def as_saved(cell):
    """Every number in a workbook is a binary one of 64 bits (ECMA-376 part 1, 18.3.1.96)."""
    return float(cell) if isinstance(cell, Decimal | int) and not isinstance(cell, bool) else cell


# What fails here is not made small: every try writes a workbook, and there are hundreds.
@pytest.mark.parametrize("workbook", WORKBOOKS)
@settings(
    max_examples=8,
    deadline=None,
    phases=(Phase.explicit, Phase.reuse, Phase.generate),
    print_blob=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
)
@given(data=st.data())
def test_rows_written_into_a_workbook_are_read_back_the_same(workbook, tmp_path, data):
    written = {
        kind.name: tuple(data.draw(st.lists(rows_of(kind.row_type), max_size=3))) for kind in WORKBOOKS[workbook]
    }

    write_workbook(tmp_path / workbook, written)

    file = read_workbook(tmp_path / workbook)
    for kind in WORKBOOKS[workbook]:
        reading = read_rows(file.find_sheet(kind.name), kind.row_type)
        assert [problem for problem in reading.problems if problem.severity == "fault"] == []
        assert tuple(replace(row, at=NOWHERE) for row in reading.rows) == written[kind.name]


@pytest.mark.parametrize("kind", [Kind.MONEY, Kind.RATE, Kind.PERCENT, Kind.LENGTH, Kind.MASS, Kind.DATE])
@given(data=st.data())
def test_a_figure_written_into_a_cell_is_read_back_the_same(kind, data):
    column = next(c for sheet in SHEETS for c in columns_of(sheet.row_type).values() if c.kind is kind)
    value = data.draw(VALUES[kind])
    cell = cell_of(value, column, "USD")

    assert value_of(cell if kind is Kind.DATE else float(cell), column, "USD") == value


def test_the_same_rows_give_the_same_bytes(tmp_path):
    for name in ("one", "two"):
        write_workbook(tmp_path / name / "paperwork.xlsx", {})

    assert (tmp_path / "one" / "paperwork.xlsx").read_bytes() == (tmp_path / "two" / "paperwork.xlsx").read_bytes()


@pytest.mark.parametrize("workbook", WORKBOOKS)
def test_an_empty_workbook_has_every_column_with_its_note_and_drop_down(workbook, tmp_path):
    write_workbook(tmp_path / workbook, {})

    book = openpyxl.load_workbook(tmp_path / workbook)
    assert book.sheetnames == ["Overview", *(kind.name for kind in WORKBOOKS[workbook]), "Notes"]
    for kind in WORKBOOKS[workbook]:
        page, columns = book[kind.name], list(columns_in_order(kind.row_type).values())
        headers = [cell.value for cell in page[1]]
        assert headers == [column.header + REQUIRED_MARK * column.required for column in columns]
        assert all(column.note in cell.comment.text for cell, column in zip(page[1], columns, strict=True))
        assert page.freeze_panes[0] in "BCDEFG"
        assert page.freeze_panes[1:] == "2"
        chosen = [column for column in columns if column.kind in (Kind.CHOICE, Kind.YES_NO)]
        here = {kind.name for kind in WORKBOOKS[workbook]}
        referred = [column for column in columns if column.refers_to in here and column not in chosen]
        chosen += [column for column in columns if column.kind is Kind.LIST and column.choices]
        assert len(page.data_validations.dataValidation) == len(chosen) + len(referred)
        notes = [cell.value for row in book["Notes"] for cell in row]
        assert all(line in notes for line in kind.about)


def test_every_column_reads_into_the_type_its_field_says():
    kept = {
        Kind.YES_NO: bool, Kind.WHOLE: int, Kind.MILES: int, Kind.LENGTH: int, Kind.MASS: int, Kind.MONEY: int, Kind.RATE: int,
        Kind.PERCENT: int, Kind.FACTOR: float, Kind.DATE: date, Kind.LIST: tuple[str, ...],
    }  # fmt: skip
    for sheet in SHEETS:
        hints = get_type_hints(sheet.row_type)
        for field, column in columns_of(sheet.row_type).items():
            wanted = kept.get(column.kind, str)
            assert (
                hints[field] in (wanted, wanted | None) if column.kind is not Kind.LIST else hints[field] == wanted
            ), field
