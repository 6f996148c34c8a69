"""The dealer's stock list: an Excel workbook or a CSV file → vehicles, and everything wrong with it by cell.

A row with a fault is left out and the others stay usable; a warning leaves its row in use.
"""

from collections import defaultdict
from collections.abc import Sequence
from pathlib import Path

from shipcalc.errors import Problem, WrongInput
from shipcalc.records import replace
from shipcalc.sheets.reading import Sheet, WorkbookFile, read_workbook
from shipcalc.vehicles.sizes import BodySize, body_keys
from shipcalc.vehicles.stock import Stock, stock_key
from shipcalc.vehicles.stock_columns import LEAST_HEADERS, Layout, find_layout, headers_seen
from shipcalc.vehicles.stock_rows import StockRow, rows_of
from shipcalc.vehicles.units import quoted
from shipcalc.vehicles.vehicle import Vehicle


def read_stock(path: Path, *, currency: str = "USD", sizes: Sequence[BodySize] = ()) -> Stock:
    """Read a stock list. Values are in `currency`; the bodies of `sizes`, the rate book's table, are known ones too.

    Raises WrongInput where the file cannot be read, or no sheet of it has the headers of a stock list.
    """
    book = read_workbook(path)
    bodies = body_keys(sizes)
    layouts = [(sheet, find_layout(sheet, currency)) for sheet in book.sheets if not sheet.hidden]
    lists = [(sheet, layout, rows_of(sheet, layout, currency, bodies)) for sheet, layout in layouts if layout]
    if not lists:
        raise _no_list(book, currency)
    rows = _doubles_marked([row for _, _, rows in lists for row in rows])
    of_headers = tuple(problem for one in lists for problem in _of_headers(*one))
    return Stock(
        vehicles=tuple(Vehicle(**row.values, currency=currency) for row in rows if row.is_usable),
        problems=(*of_headers, *(problem for row in rows for problem in row.problems)),
        unusable=tuple((row.stock_number, _why(row, of_headers)) for row in rows if not row.is_usable),
        file=book.name,
    )


def _doubles_marked(rows: Sequence[StockRow]) -> list[StockRow]:
    """Return the rows, those that share a stock number with a fault each: nobody could tell which vehicle is meant."""
    by_key: defaultdict[str, list[StockRow]] = defaultdict(list)
    for row in rows:
        by_key[stock_key(row.stock_number)].append(row)
    return [_double_marked(row, by_key[stock_key(row.stock_number)]) for row in rows]


def _double_marked(row: StockRow, same: Sequence[StockRow]) -> StockRow:
    others = [other for other in same if other is not row]
    if not others or not row.stock_number:
        return row
    cells = ", ".join(other.sheet.cell(other.number, other.columns["stock_number"]) for other in others)
    message = f"the stock number {row.stock_number} stands in {cells} too"
    problem = row.problem("stock_number", message, "give each vehicle a number of its own")
    return replace(row, problems=(*row.problems, problem))


def _of_headers(sheet: Sheet, layout: Layout, rows: Sequence[StockRow]) -> tuple[Problem, ...]:
    """Return what is to be said about a sheet's headers; a unit that is missing is said once, where it is to be corrected."""
    missing = []
    for found in layout.found:
        count = sum(found.index in row.without_unit for row in rows)
        if count:
            numbers = "1 number has" if count == 1 else f"{count:,} numbers have"
            message = f"{numbers} no unit below the header {quoted(sheet.rows[layout.header_row][found.index])}"
            remedy = f"write the unit into the header, e.g. {found.column.header}"
            missing.append(Problem(sheet.cell(layout.header_row, found.index), message, remedy))
    return (*layout.problems, *missing)


def _why(row: StockRow, of_headers: Sequence[Problem]) -> Problem:
    """Return the fault that makes a row unusable: its own, else that of the header which has no unit."""
    return next(problem for problem in (*row.problems, *of_headers) if problem.severity == "fault")


def _no_list(book: WorkbookFile, currency: str) -> WrongInput:
    visible = [sheet for sheet in book.sheets if not sheet.hidden]
    seen = max((headers_seen(sheet, currency) for sheet in visible), key=len, default=())
    found = f"only the headers {', '.join(seen)} were found" if seen else "no headers were found that the program knows"
    return WrongInput(
        f"this is not a stock list: {found}",
        where=book.name,
        remedy=f"a row of headers needs Stock number and at least {LEAST_HEADERS - 1} more, such as Year, Make, Model, "
        "Body, Length (in), Width (in), Height (in), Weight (lb), Runs, Value ($), Yard",
    )
