"""The rate workbooks keep the rules that Excel holds a file to, so that it opens without repair.

ECMA-376 part 1, 18.5.1 (tables): a table's id and name are unique in the workbook, a column is named as its header cell and
once, the filter covers the table, and 18.3.1.95 allows one <tablePart> each. 18.2.5 (definedName). 18.3.1.33 (dataValidation):
a list in quotation marks has 255 letters at most. That tables hold no merged cells, do not overlap a filter of the sheet, and
that names must not look like a cell are from memory of how the program behaves.
"""

import io
import re
from pathlib import Path

import openpyxl
import pytest
from openpyxl.worksheet.filters import FilterColumn, Filters

from shipcalc.ratebook.book import check_rate_book
from shipcalc.ratebook.rows.sheet_kind import OVERVIEW
from shipcalc.ratebook.rows.tables import WORKBOOKS
from shipcalc.sheets.editing import Draft
from shipcalc.sheets.tabled import fit_tables, plain_name

RATES = Path(__file__).parents[2] / "rates"
_NAME = re.compile(r"[A-Za-z_\\][A-Za-z0-9_.\\]{0,254}")
_LIKE_A_CELL = re.compile(r"[A-Za-z]{1,3}[0-9]{1,7}|[Rr][0-9]*[Cc][0-9]*")


@pytest.fixture(params=WORKBOOKS)
def book(request):
    return openpyxl.load_workbook(RATES / request.param)


def test_names_of_tables_and_cells_are_allowed_and_stand_once(book):
    names = [name for page in book for name in page.tables] + list(book.defined_names)
    assert len({name.casefold() for name in names}) == len(names) > 3
    assert all(_NAME.fullmatch(name) and not _LIKE_A_CELL.fullmatch(name) for name in names)
    ids = [table.id for page in book for table in page.tables.values()]
    assert len(set(ids)) == len(ids)


def test_columns_of_a_table_are_called_as_its_headers(book):
    for page in book:
        for table in page.tables.values():
            headers = [cell.value for cell in page[table.ref][0]]
            assert [column.name for column in table.tableColumns] == headers
            assert all(isinstance(header, str) for header in headers)
            assert len({header.casefold() for header in headers}) == len(headers)
            assert len({column.id for column in table.tableColumns}) == len(headers)
            assert table.autoFilter.ref == table.ref
            assert page.auto_filter.ref is None
            assert not page.merged_cells.ranges
            assert len(page[table.ref]) >= 2


def test_drop_downs_are_short_and_lead_to_names_that_there_are(book):
    listed = 0
    for page in book:
        for rule in page.data_validations.dataValidation:
            if rule.formula1.startswith('"'):
                assert len(rule.formula1) <= 255, (page.title, rule.sqref)
            else:
                listed += 1
                assert rule.formula1.removeprefix("=") in book.defined_names, (page.title, rule.formula1)
    assert listed or "Countries" in book.sheetnames


def test_every_link_of_the_front_sheet_leads_to_a_sheet(book):
    links = [cell.hyperlink.location for row in book[OVERVIEW] for cell in row if cell.hyperlink]
    assert {link.partition("'!")[0].strip("'") for link in links} == set(book.sheetnames) - {OVERVIEW}


def test_sheets_print_with_their_headers_on_every_page_and_stay_in_sight(book):
    for page in book.worksheets[1:-1]:
        assert page.print_title_rows == "$1:$1"
        assert page.page_setup.orientation == "landscape"
        assert page.sheet_properties.pageSetUpPr.fitToPage
        assert page.print_area
        assert page.freeze_panes.endswith("2")
        assert page.sheet_properties.tabColor is not None


def test_columns_that_no_row_uses_are_folded_and_no_other(book):
    folded = 0
    for page in book.worksheets[1:-1]:
        for cells in page.iter_cols(min_row=1):
            if page.column_dimensions[cells[0].column_letter].hidden:
                folded += 1
                assert all(cell.value is None for cell in cells[1:]), (page.title, cells[0].value)
                assert page.column_dimensions[cells[0].column_letter].outlineLevel == 2
    assert folded


def test_a_row_that_is_added_through_the_draft_is_in_the_table(book):
    content = io.BytesIO()
    book.save(content)
    draft = Draft(content.getvalue(), "mine.xlsx")
    name = book.worksheets[1].title
    row = draft.add_row(name, as_row=2)
    (table,) = openpyxl.load_workbook(io.BytesIO(draft.to_bytes()))[name].tables.values()
    assert table.ref.endswith(str(row))
    assert table.autoFilter.ref == table.ref


def test_a_table_reaches_to_rows_written_below_it_and_follows_its_headers(book):
    page = book.worksheets[1]
    (table,) = page.tables.values()
    last = int(table.ref.rpartition(":")[2].lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ"))
    page.cell(last + 1, 1).value, page.cell(last + 2, 2).value, page["B1"].value = "new", "newer", "My own word"
    fit_tables(page)
    assert table.ref.endswith(str(last + 2))
    assert table.tableColumns[1].name == "My own word"
    page["B1"].value = None
    fit_tables(page)
    assert not page.tables
    assert page.auto_filter.ref == table.ref


def test_rows_that_a_tables_filter_leaves_out_are_told_as_such(tmp_path):
    book = openpyxl.load_workbook(RATES / "trucking.xlsx")
    page = book["Per mile"]
    (table,) = page.tables.values()
    table.autoFilter.filterColumn.append(FilterColumn(colId=0, filters=Filters(filter=["nobody"])))
    page.row_dimensions[4].hidden = True
    book.save(tmp_path / "trucking.xlsx")
    assert any("Per mile!A4: row 4 is left out by a filter" in str(one) for one in check_rate_book(tmp_path))


@pytest.mark.parametrize("name", ["Fuel", "Tax 2026", "On-carriage", "40′ boxes & more"])
def test_any_name_of_a_sheet_gives_one_that_is_allowed(name):
    made = plain_name(name, "rows")
    assert not _LIKE_A_CELL.fullmatch(made)
    assert re.fullmatch(r"[A-Za-z0-9_]+", made)
