"""A copy of the manager's workbooks with the cells marked that the check names. The originals are only read."""

from collections.abc import Sequence
from pathlib import Path

from shipcalc.actions.rates import Checked
from shipcalc.errors import Problem, WrongInput, asked
from shipcalc.files import read_file
from shipcalc.ratebook.workbook.addresses import address_in
from shipcalc.sheets.marking import Mark

ENDING = ".xlsx"
COPY_NAME = "{stem}-marked.xlsx"


def mark_rates(checked: Checked, target: Path) -> tuple[Path, ...]:
    """Write a marked copy of each workbook that has problems, and return them: into the folder `target`, or as that .xlsx file.

    Raises WrongInput where the copy would take the place of an original or of any other file but an earlier marked copy, and
    where one file is named for problems of several workbooks.
    """
    from shipcalc.sheets.marking import marked_copy
    from shipcalc.sheets.saving import save

    marks = _marks_by_workbook(checked)
    as_file = target.suffix.lower() == ENDING
    if as_file and len(marks) > 1:
        what = f"the problems are in {len(marks)} workbooks: {', '.join(marks)}"
        raise WrongInput(what, where=asked("mark"), remedy="name a folder instead of a file")
    written = []
    for name, found in marks.items():
        path = target if as_file else target / COPY_NAME.format(stem=Path(name).stem)
        _refuse_to_write_over(path, checked.folder)
        original = checked.folder / name
        if original.exists():
            save(path, marked_copy(name, read_file(original), found))
            written.append(path)
    return tuple(written)


def _marks_by_workbook(checked: Checked) -> dict[str, list[Mark]]:
    """Return the marks by workbook, in the order of the workbooks; what concerns no cell is told in the first one."""
    from shipcalc.ratebook.rows.tables import WORKBOOKS

    marks: dict[str, list[Mark]] = {name: [] for name in WORKBOOKS}
    first = next(iter(marks))
    for problem in checked.problems:
        address = address_in(problem.cell)
        book = address.workbook if address is not None else Path(problem.cell).name
        marks[book if book in marks and (checked.folder / book).exists() else first].append(_mark(problem))
    return {name: found for name, found in marks.items() if found}


def _mark(problem: Problem) -> Mark:
    address = address_in(problem.cell)
    sheet, cell = (address.sheet, address.cell) if address is not None else ("", "")
    return Mark(sheet, cell, problem.message, problem.remedy, stops=problem.severity == "fault")


def _refuse_to_write_over(path: Path, originals: Path) -> None:
    from shipcalc.ratebook.rows.tables import WORKBOOKS
    from shipcalc.sheets.marking import is_marked_copy

    if _is_one_of(path, [originals / name for name in WORKBOOKS]):
        raise WrongInput(
            "is the rate book's own workbook, which is never written to",
            where=str(path),
            remedy="name another file or folder",
        )
    if path.exists() and not (path.is_file() and is_marked_copy(read_file(path))):
        raise WrongInput(
            "is there already, and is no marked copy", where=str(path), remedy="name another file or folder"
        )


def _is_one_of(path: Path, others: Sequence[Path]) -> bool:
    return any(
        path.resolve() == other.resolve() or (path.exists() and other.exists() and path.samefile(other))
        for other in others
    )
