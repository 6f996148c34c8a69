"""Problems of checked rows, named by field: what the checks across rows return."""

from shipcalc.errors import Problem
from shipcalc.ratebook.columns import Row


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
