"""A short sheet of the shipped rate books is read whole: no sentence in it is cut off by the cell beside it."""

from pathlib import Path

import openpyxl
import pytest

RATES = Path(__file__).parents[2] / "rates"
_SHORT, _ONE_LINE_POINTS = 30, 15


@pytest.mark.parametrize("name", ["overseas", "trucking", "paperwork"])
def test_a_long_text_wraps_in_a_row_that_is_high_enough_to_show_it(name) -> None:
    seen = 0
    for sheet in openpyxl.load_workbook(RATES / f"{name}.xlsx").worksheets[1:-1]:
        if sheet.max_row - 1 > _SHORT:
            continue
        for cell in (cell for row in sheet.iter_rows(min_row=2) for cell in row if isinstance(cell.value, str)):
            width = sheet.column_dimensions[cell.column_letter].width
            if len(cell.value) > width:
                seen += 1
                assert cell.alignment.wrap_text, (sheet.title, cell.coordinate)
                if len(cell.value) > 1.5 * width:
                    assert sheet.row_dimensions[cell.row].height > _ONE_LINE_POINTS, (sheet.title, cell.coordinate)
    assert seen or name == "paperwork"
