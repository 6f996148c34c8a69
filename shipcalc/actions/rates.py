"""The manager's verbs: new workbooks to begin with, and everything that is wrong with the ones there are."""

from datetime import date
from pathlib import Path

from shipcalc.actions.sources import invented_folder
from shipcalc.errors import Problem, WrongInput
from shipcalc.records import dataclass

SHIPPED = "the workbooks that come with the program"


@dataclass(frozen=True, slots=True)
class Checked:
    """A rate book's problems in the order of its sheets, and its fingerprint, empty where faults leave none.

    `missing` are those among them that tell of rows which the program ships and this book lacks.
    """

    folder: Path
    problems: tuple[Problem, ...]
    fingerprint: str
    missing: tuple[Problem, ...] = ()

    @property
    def faults(self) -> tuple[Problem, ...]:
        """Return the problems that stop every quote."""
        return tuple(problem for problem in self.problems if problem.severity == "fault")


def check_rates(folder: Path, *, as_of: date) -> Checked:
    """Read the rate book in `folder` and say everything that is wrong with it, also what is out of date on `as_of`."""
    from shipcalc.ratebook.book import checked, read_rate_book
    from shipcalc.ratebook.changes.torn import torn_columns
    from shipcalc.ratebook.checks.remarks import in_order
    from shipcalc.ratebook.checks.thinned import thinned

    problems, fingerprint = checked(folder, as_of=as_of)
    if not fingerprint:
        return Checked(folder, in_order(problems), fingerprint)
    book, shipped = read_rate_book(folder), read_rate_book(invented_folder("rates"))
    torn = torn_columns(book, shipped, SHIPPED) if book.fingerprint != shipped.fingerprint else ()
    missing = tuple(thinned(book))
    return Checked(folder, in_order((*missing, *torn, *problems)), fingerprint, missing)


def new_rates(folder: Path, *, empty: bool) -> tuple[Path, ...]:
    """Write starter workbooks into `folder` and return them: the invented ones to change, or, where `empty`, the same without a
    price, where holds, tasks, papers, countries and ports stay.

    Raises WrongInput where one of them is there already: nothing of the manager's is ever written over.
    """
    from shipcalc.ratebook.making.without_prices import rows_without_prices
    from shipcalc.ratebook.rows.tables import WORKBOOKS
    from shipcalc.ratebook.starter.workbooks import write_workbook
    from shipcalc.sheets.saving import save

    for name in WORKBOOKS:
        if (folder / name).exists():
            raise WrongInput(
                "is there already", where=str(folder / name), remedy="name another folder, or move it away"
            )
    for name in WORKBOOKS:
        if empty:
            write_workbook(folder / name, rows_without_prices(name))
        else:
            save(folder / name, (invented_folder("rates") / name).read_bytes())
    return tuple(folder / name for name in WORKBOOKS)
