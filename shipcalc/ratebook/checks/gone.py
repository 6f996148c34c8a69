"""Whole workbooks that are not there: told in one sentence each, with what the others still ask of them."""

from collections.abc import Collection, Iterator, Sequence
from pathlib import Path

from shipcalc.errors import Problem
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.lanes import LaneRow
from shipcalc.ratebook.rows.overseas_sheets import CURRENCIES, OVERSEAS
from shipcalc.ratebook.rows.paperwork_sheets import PAPERWORK
from shipcalc.ratebook.rows.pricing_settings import currency_of
from shipcalc.ratebook.rows.tables import WORKBOOKS, Tables
from shipcalc.ratebook.rows.trucking_sheets import TRUCKING
from shipcalc.records import replace

NO_WORKBOOK = "there is no such workbook"
_BACK = "put it back from an earlier copy, or take it from shipcalc rates new"


def workbooks_are_there(tables: Tables, present: Collection[str], folder: Path) -> Iterator[Problem]:
    """A workbook that others count on is there. Nothing is asked for overseas where no other workbook speaks of it."""
    if PAPERWORK not in present:
        message = "so quotes name no papers, tasks, duty or tax; embargoes hold all the same"
        yield Problem(str(folder / PAPERWORK), f"{NO_WORKBOOK}, {message}", _BACK, "warning")
    if OVERSEAS not in present:
        yield from _overseas(tables, str(folder / OVERSEAS))


def lost_workbooks(problems: Sequence[Problem], folder: Path, beside: Path | None) -> Iterator[Problem]:
    """Yield the problems of a book; a workbook that the book beside it has, and it lacks, is told with where to copy it from."""
    lacks = [name for name in WORKBOOKS if not (folder / name).exists()]
    # Without its first workbook it is no rate book, and that is told.
    had = [name for name in lacks if beside and (beside / name).exists()] if TRUCKING not in lacks else []
    told = {str(folder / name): f"copy it from {beside}" for name in had}
    for problem in problems:
        yield replace(problem, remedy=told.pop(problem.cell)) if problem.cell in told else problem
    for where, remedy in told.items():
        message = f"{NO_WORKBOOK}, and {beside} has one: all that stands in it counts no more"
        yield Problem(where, message, f"{remedy}; nothing to do where that is meant", "warning")


def has_currencies(tables: Tables) -> bool:
    """Return whether there is the workbook that holds the currencies; where it is not, one sentence says so."""
    return not tables.unread or CURRENCIES.name in tables.unread


def _overseas(tables: Tables, where: str) -> Iterator[Problem]:
    own = currency_of(tables.settings)
    rows: tuple[Carrier | LaneRow, ...] = (*tables.carriers, *tables.lanes)
    foreign = [row for row in rows if row.currency and row.currency.upper() != own]
    nothing = f"{NO_WORKBOOK}, so nothing is priced by sea and no rate of exchange is known"
    if foreign:
        first, more = foreign[0], f" and {len(foreign) - 1} more" if len(foreign) > 1 else ""
        told = f"{nothing}, which {first.at.cell('currency')} ({first.currency}){more} asks for"
        yield Problem(where, told, f"{_BACK}, or write prices in {own}")
        return
    abroad = [
        f"{len(rows)} {what}" for rows, what in ((tables.countries, "countries"), (tables.holds, "holds")) if rows
    ]
    if abroad:
        told = f"{nothing}, though {PAPERWORK} has {' and '.join(abroad)}"
        yield Problem(where, told, f"{_BACK}; nothing to do where you sell at home alone", "warning")
