"""Tables of transports, Excel or CSV, read as the sheets of the rate book are: a manager's basket, the demo's buyers."""

from collections.abc import Callable, Mapping
from datetime import date, timedelta
from pathlib import Path
from typing import TypeVar

from shipcalc.actions.quoting import Books, Order, request_for
from shipcalc.actions.sources import Sources
from shipcalc.compare.basket import Asked
from shipcalc.errors import FaultyWorkbook, Problem, WrongInput
from shipcalc.ratebook.rows.baskets import BasketRow, BuyerRow
from shipcalc.ratebook.workbook.columns import Row
from shipcalc.ratebook.workbook.headers import has_header
from shipcalc.ratebook.workbook.reader import read_rows
from shipcalc.sheets.reading import read_workbook

R = TypeVar("R", bound=Row)
T = TypeVar("T")


def basket_from(path: Path, sources: Sources, books: Books, as_of: date) -> tuple[Asked, ...]:
    """Return the transports of a table, each once: the same one twice would count twice.

    Raises FaultyWorkbook with every cell that cannot be used, WrongInput for no table.
    """

    def asked(row: BasketRow) -> Asked:
        order = Order(
            vehicles=(row.vehicle,),
            to=row.to,
            start=row.start or "",
            ready=row.ready,
            trailer=row.trailer or "",
            lift_gate=row.lift_gate,
            limited_access=row.limited_access,
            express=row.express,
            term=row.term or "",
        )
        return Asked(f"{row.vehicle} to {row.to}", request_for(order, sources, as_of=as_of, books=books))

    once: dict[object, Asked] = {}
    for one in each_row(path, "basket", BasketRow, asked):
        once.setdefault(one.request, one)
    return tuple(once.values())


def read_buyers(path: Path) -> tuple[BuyerRow, ...]:
    """Return the demo's buyers. Raises FaultyWorkbook and WrongInput as `basket_from` does."""
    return each_row(path, "list of buyers", BuyerRow, lambda row: row)


def order_of(row: BuyerRow, as_of: date) -> Order:
    """Return what a salesperson would type for a buyer on that day."""
    ready = as_of + timedelta(days=row.ready_in_days or 0)
    return Order(
        vehicles=row.vehicles,
        to=row.to,
        ready=ready,
        trailer=row.trailer or "",
        lift_gate=row.lift_gate,
        limited_access=row.limited_access,
        express=row.express,
        ocean=row.ocean or "",
        term=row.term or "",
        currency=row.currency or "",
        collect=row.collect,
        terminal=row.terminal,
        keep_until=ready + timedelta(days=row.keep_days) if row.keep_days else None,
        buyer=row.name,
    )


def each_row(
    path: Path,
    what: str,
    row_type: type[R],
    made_of: Callable[[R], T],
    *,
    by_header: Mapping[str, type[R]] | None = None,
    field: str = "vehicle",
    remedy: str = "write Vehicle and To into row 1, transports below",
) -> tuple[T, ...]:
    """Return what is made of each row of the first sheet that has any; what cannot be is told at the row's `field`.

    `by_header` are other types of row, each read in place of the first where its header stands in the table. Raises
    FaultyWorkbook with every cell that cannot be used, WrongInput for no table.
    """
    sheet = next((sheet for sheet in read_workbook(path).sheets if any(sheet.filled_rows())), None)
    if sheet is None:
        raise WrongInput("the file is empty", where=str(path), remedy=remedy)
    other = next((own for header, own in (by_header or {}).items() if has_header(sheet, header)), row_type)
    reading = read_rows(sheet, other)
    found, problems = [], [problem for problem in reading.problems if problem.severity == "fault"]
    for row in reading.rows:
        try:
            found.append(made_of(row))
        except WrongInput as wrong:
            problems.append(Problem(row.at.cell(field), str(wrong)))
    if problems:
        faults = "has 1 fault" if len(problems) == 1 else f"has {len(problems)} faults"
        raise FaultyWorkbook(f"the {what} {faults}", tuple(problems), where=str(path), remedy="correct the cells named")
    return tuple(found)
