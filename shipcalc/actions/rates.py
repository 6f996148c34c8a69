"""The manager's verbs: new workbooks to begin with, and everything that is wrong with the ones there are."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.actions.sources import invented_folder
from shipcalc.errors import Problem, WrongInput
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.ratebook.rows.tables import Tables

SHIPPED = "the workbooks that come with the program"


@dataclass(frozen=True, slots=True)
class Checked:
    """A rate book's problems in the order of its sheets, and its fingerprint, empty where faults leave none.

    `missing` are those among them that tell of rows which the program ships and this book lacks; `causes` those from which many
    others may follow: a column that was sorted by itself.
    """

    folder: Path
    problems: tuple[Problem, ...]
    fingerprint: str
    missing: tuple[Problem, ...] = ()

    @property
    def faults(self) -> tuple[Problem, ...]:
        """Return the problems that stop every quote."""
        return tuple(problem for problem in self.problems if problem.severity == "fault")

    @property
    def causes(self) -> tuple[Problem, ...]:
        """Return the problems from which faults may follow, one a sheet: what all its faults say comes first."""
        from shipcalc.ratebook.checks.sorted_alone import REMEDY
        from shipcalc.ratebook.checks.sorted_column import LOOKS_SORTED

        told = [problem for problem in self.problems if problem.remedy == REMEDY] if self.faults else []
        told.sort(key=lambda problem: LOOKS_SORTED not in problem.message)
        return tuple({problem.cell.partition("!")[0]: problem for problem in reversed(told)}.values())


def check_rates(folder: Path, *, as_of: date, beside: Path | None = None) -> Checked:
    """Read the rate book in `folder` and say everything that is wrong with it, also what is out of date on `as_of`.

    What only an earlier edition gives away is looked for in `beside`, the book in force; without one, in the shipped workbooks.
    """
    from shipcalc.ratebook.book import checked, read_rate_book
    from shipcalc.ratebook.checks.gone import lost_workbooks
    from shipcalc.ratebook.checks.remarks import in_order
    from shipcalc.ratebook.checks.thinned import thinned
    from shipcalc.ratebook.rows.paperwork_sheets import PAPERWORK

    problems, fingerprint = checked(folder, as_of=as_of)
    problems = (*_not_in_force(folder, as_of), *lost_workbooks(problems, folder, beside))
    if not fingerprint:
        return Checked(folder, in_order((*_torn_in_draft(folder, beside), *problems)), fingerprint)
    book = read_rate_book(folder)
    # What a whole workbook would hold is told once, by its name.
    missing = tuple(thinned(book)) if (folder / PAPERWORK).exists() else ()
    torn = _torn(book, folder, fingerprint, beside)
    return Checked(folder, in_order((*missing, *torn, *problems)), fingerprint, missing)


def _torn_in_draft(folder: Path, beside: Path | None) -> Iterator[Problem]:
    """Say it of a book with faults, too: a column that left its rows may be the cause of them all."""
    from shipcalc.ratebook.drafting import draft_of

    try:
        draft = draft_of(folder)
    except WrongInput:  # not one row could be read, and the check has said why
        return
    yield from _torn(draft.tables, folder, draft.fingerprint, beside)


def _torn(tables: "Tables", folder: Path, fingerprint: str, beside: Path | None) -> Iterator[Problem]:
    from shipcalc.ratebook.book import read_rate_book
    from shipcalc.ratebook.changes.torn import torn_columns

    former, told = invented_folder("rates"), SHIPPED
    if beside is not None and beside.resolve() != folder.resolve():
        former, told = beside, str(beside)
    try:
        earlier = read_rate_book(former)
    except WrongInput:  # it is not there, or has faults: nothing can be told from it
        return
    if earlier.fingerprint != fingerprint:
        yield from torn_columns(tables, earlier, told)


def _not_in_force(folder: Path, as_of: date) -> Iterator[Problem]:
    """Say it where quotes of the day are made from an edition that is kept in the folder."""
    from shipcalc.ratebook.editions import folder_of_day

    counts = folder_of_day(folder, as_of)
    if counts != folder:
        message = f"quotes of {as_of} are made from {counts}, and not from the workbooks here"
        yield Problem(str(folder), message, "shipcalc rates history puts it in their place", "warning")


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
