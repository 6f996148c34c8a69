"""Problems of checked rows, named by field: what the checks across rows return; and problems in the order of the sheets."""

from shipcalc.errors import Problem
from shipcalc.ratebook.rows.tables import WORKBOOKS
from shipcalc.ratebook.workbook.addresses import address_in
from shipcalc.ratebook.workbook.columns import Row


def fault(row: Row, field: str, message: str, remedy: str) -> Problem:
    """Return a fault in a row's cell."""
    return Problem(row.at.cell(field), message, remedy)


def warning(row: Row, field: str, message: str, remedy: str) -> Problem:
    """Return a warning about a row's cell, which stays in use."""
    return Problem(row.at.cell(field), message, remedy, "warning")


def short_cell(row: Row, field: str) -> str:
    """Return a cell as a sentence about the same workbook names it: `Per mile!D14`; the row where the sheet has no column."""
    if field not in row.at.letters:
        return f"{row.at.sheet}, row {row.at.row}"
    return row.at.cell(field).split(" › ", 1)[-1]


_SHEET_ORDER = {
    f"{book} › {sheet.name}": n for n, (book, sheet) in enumerate((b, s) for b in WORKBOOKS for s in WORKBOOKS[b])
}


def in_order(problems: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """Return problems by sheet, row and column; what concerns no cell first."""
    return tuple(sorted(problems, key=_position))


def _position(problem: Problem) -> tuple[int, int, int, str]:
    found = address_in(problem.cell)
    if found is None:
        return -1, 0, 0, ""
    sheet = _SHEET_ORDER.get(f"{found.workbook} › {found.sheet}", len(_SHEET_ORDER))
    return sheet, found.row, len(found.letters), found.letters
