"""A basket of the manager's own: a table of transports, Excel or CSV, read as the sheets of the rate book are."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

from shipcalc.actions.quoting import Books, Order, request_for
from shipcalc.actions.sources import Sources
from shipcalc.compare.basket import Asked
from shipcalc.errors import FaultyWorkbook, Problem, WrongInput
from shipcalc.ratebook.rows.baskets import BasketRow
from shipcalc.ratebook.workbook.reader import read_rows
from shipcalc.sheets.reading import read_workbook


def basket_from(path: Path, sources: Sources, books: Books, as_of: date) -> tuple[Asked, ...]:
    """Return the transports of a table. Raises FaultyWorkbook with every cell that cannot be used, WrongInput for no table."""
    sheet = next((sheet for sheet in read_workbook(path).sheets if any(sheet.filled_rows())), None)
    if sheet is None:
        raise WrongInput(
            "there is nothing in it", where=str(path), remedy="write Vehicle and To into row 1, transports below"
        )
    reading = read_rows(sheet, BasketRow)
    basket, problems = [], [problem for problem in reading.problems if problem.severity == "fault"]
    for row in reading.rows:
        try:
            basket.append(_asked(row, sources, books, as_of))
        except WrongInput as wrong:
            problems.append(Problem(row.at.cell("vehicle"), str(wrong)))
    if problems:
        what = "has 1 fault" if len(problems) == 1 else f"has {len(problems)} faults"
        raise FaultyWorkbook(f"the basket {what}", tuple(problems), where=str(path), remedy="correct the cells named")
    return tuple(_told_apart(basket))


def _asked(row: BasketRow, sources: Sources, books: Books, as_of: date) -> Asked:
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


def _told_apart(basket: list[Asked]) -> Iterator[Asked]:
    """Yield each transport once: the same one twice would count twice."""
    seen = set()
    for asked in basket:
        if asked.request not in seen:
            seen.add(asked.request)
            yield asked
