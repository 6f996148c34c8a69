"""How a made-up rate mail is written to disk, with the truth of it beside: what a careful person would take from it."""

import csv
import io
import json
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import openpyxl
import xlwt
from openpyxl.styles import Font
from openpyxl.worksheet.worksheet import Worksheet

HERE = Path(__file__).parent
MADE = datetime(2026, 11, 27, 9, 0, tzinfo=UTC)


class Truth:
    """Collects what is to be taken from one mail, in the order of the mail; `save` writes it as JSON."""

    def __init__(self, mail: str, what: str, **sender: str) -> None:
        self.data: dict[str, Any] = {
            "mail": mail,
            "what": what,
            "sender": sender,
            "take": [],
            "may_ask": [],
            "name": [],
            "refuse": [],
        }

    def take(self, target: str, row: int, *, sheet: str = "", cell: str = "", **values: str | bool | int) -> None:
        """One row for the book: amounts as decimal text, days as ISO 8601, places as `kind:value`."""
        where = {"sheet": sheet, "row": row} | ({"cell": cell} if cell else {})
        self.data["take"].append({"target": target, "source": where, "values": values})

    def may_ask(self, *questions: str) -> None:
        """What the mail leaves open, so that a question is fair."""
        self.data["may_ask"] += questions

    def name(self, cell: str, why: str, *, sheet: str = "") -> None:
        """A cell that cannot be read in one way alone, or a condition no column takes: the manager must be told of it."""
        self.data["name"].append({"sheet": sheet, "cell": cell, "why": why})

    def refuse(self, rows: list[int], why: str, *, sheet: str = "") -> None:
        """Rows with figures that must not become rates."""
        self.data["refuse"].append({"sheet": sheet, "rows": rows, "why": why})

    def save(self, folder: Path) -> None:
        path = folder / Path(self.data["mail"]).with_suffix(".truth.json")
        path.write_text(json.dumps(self.data, indent=1, ensure_ascii=False) + "\n", encoding="utf-8", newline="\n")


def new_workbook(*sheets: str) -> tuple[openpyxl.Workbook, list[Worksheet]]:
    book = openpyxl.Workbook()
    book.properties.created = book.properties.modified = MADE
    first = book.active
    assert isinstance(first, Worksheet)
    first.title = sheets[0]
    return book, [first, *(book.create_sheet(name) for name in sheets[1:])]


def put(sheet: Worksheet, row: int, *cells: object, column: int = 1, bold: bool = False) -> int:
    """Cells of one row, from `column` on; None leaves a cell empty. Gives the row's number back."""
    for number, cell in enumerate(cells, column):
        if cell is not None:
            written = sheet.cell(row, number, cell)  # type: ignore[arg-type]
            if bold:
                written.font = Font(bold=True)
    return row


def widen(sheet: Worksheet, *widths: int) -> None:
    for number, width in enumerate(widths, 1):
        sheet.column_dimensions[openpyxl.utils.get_column_letter(number)].width = width


def save_csv(path: Path, rows: list[list[str]], *, separator: str, encoding: str, line_end: str = "\r\n") -> None:
    text = io.StringIO(newline="")
    csv.writer(text, delimiter=separator, lineterminator=line_end).writerows(rows)
    path.write_bytes(text.getvalue().encode(encoding))


def save_xls(path: Path, sheet: str, rows: list[list[Any]]) -> None:
    """The old binary format; days as serial numbers with a format, as its users' programs keep them."""
    book = xlwt.Workbook()
    written = book.add_sheet(sheet)
    as_day = xlwt.easyxf(num_format_str="DD-MMM-YY")
    for number, row in enumerate(rows):
        for column, cell in enumerate(row):
            if cell is not None:
                written.write(number, column, cell, *((as_day,) if isinstance(cell, date) else ()))
    book.save(str(path))
