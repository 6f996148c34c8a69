"""Rows written down as a manager would type them: tables with | between the cells, and TOML files with one `[[row]]` each."""

import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, TypeVar

from shipcalc.ratebook.workbook.cells import value_of
from shipcalc.ratebook.workbook.columns import Row, columns_of
from shipcalc.ratebook.workbook.misread import Doubt

R = TypeVar("R", bound=Row)

DATA = Path(__file__).parents[1] / "data"


def row(row_type: type[R], cells: Mapping[str, str]) -> R:
    """Return a row from what a manager would type, by field; blank cells keep their default."""
    columns = columns_of(row_type)
    values: dict[str, Any] = {field: value_of(cell, columns[field], "USD") for field, cell in cells.items() if cell}
    doubtful = [field for field, value in values.items() if isinstance(value, Doubt)]
    assert not doubtful, (row_type.__name__, cells, doubtful)
    return row_type(**values)


def lines(names: str, table: str) -> Iterator[dict[str, str]]:
    """Yield the cells of each line of a table by field; `names` are the fields, divided by blanks."""
    fields = names.split()
    for line in table.strip().splitlines():
        yield dict(zip(fields, (cell.strip() for cell in line.split("|")), strict=True))


def rows_in(name: str, row_type: type[R]) -> tuple[R, ...]:
    """Return the rows of a TOML file among the data beside this module."""
    written = tomllib.loads((DATA / f"{name}.toml").read_text(encoding="utf-8"))
    return tuple(row(row_type, {field: _as_typed(value) for field, value in cells.items()}) for cells in written["row"])


def _as_typed(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "; ".join(value) if isinstance(value, list) else str(value)
