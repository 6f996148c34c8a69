"""Stock lists as people write them, made on the spot."""

import csv
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest
from openpyxl import Workbook

Rows = Sequence[Sequence[Any]]


@pytest.fixture
def write_list(tmp_path: Path) -> Callable[..., Path]:
    """Return a function that writes rows into a file (Excel, or CSV by its ending) and returns its path.

    `more` are further sheets by name; a name that begins with "hidden" is hidden.
    """

    def write(
        rows: Rows, name: str = "stock.xlsx", *, merged: Sequence[str] = (), more: dict[str, Rows] | None = None
    ) -> Path:
        path = tmp_path / name
        if name.endswith(".csv"):
            with path.open("w", newline="", encoding="utf-8") as file:
                csv.writer(file).writerows(rows)
            return path
        book = Workbook()
        sheet = book.active
        assert sheet is not None
        sheet.title = "Stock"
        for row in rows:
            sheet.append(list(row))
        for cells in merged:
            sheet.merge_cells(cells)
        for title, further in (more or {}).items():
            page = book.create_sheet(title)
            page.sheet_state = "hidden" if title.startswith("hidden") else "visible"
            for row in further:
                page.append(list(row))
        book.save(path)
        return path

    return write
