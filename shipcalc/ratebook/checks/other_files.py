"""Files of a rate book's folder that somebody may take for a part of it, and that are not read."""

from collections.abc import Iterator
from pathlib import Path

from shipcalc.errors import Problem
from shipcalc.ratebook.rows.tables import WORKBOOKS

_OTHER_KINDS = (".csv", ".xls", ".xlsm", ".xlsb", ".ods")


def other_files(folder: Path) -> Iterator[Problem]:
    """What is saved as .csv, or a workbook of another kind under a workbook's name, counts nowhere."""
    workbooks = {Path(name).stem.casefold(): name for name in WORKBOOKS}
    try:
        files = sorted(path for path in folder.iterdir() if path.suffix.lower() in _OTHER_KINDS)
    except OSError:
        return
    for file in files:
        name = workbooks.get(file.stem.casefold())
        if name is None and file.suffix.lower() != ".csv":
            continue
        counts = f": what counts is {name}" if name and (folder / name).exists() else ""
        yield Problem(str(file), f"is not read{counts}", _saved_again(file, name), "warning")


def one_sheet_only(near: str, name: str) -> str:
    """Return what to do where a .csv stands in the place of a workbook."""
    return f"{near} holds one sheet only: open the workbook it is from and save that as Excel Workbook (*.xlsx), {name}"


def _saved_again(file: Path, name: str | None) -> str:
    if file.suffix.lower() != ".csv":
        return f"open it in Excel and save it as Excel Workbook (*.xlsx), {name}"
    into = name or "the workbook it belongs to"
    copied = f"a .csv holds one sheet only: copy what is new in it into its sheet of {into}"
    return f"{copied}, save that as Excel Workbook (*.xlsx), and move the .csv away"
