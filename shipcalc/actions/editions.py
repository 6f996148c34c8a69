"""Work on a copy of a rate book, put it in force, see what was in force when, go back."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

from shipcalc.actions.rates import check_rates
from shipcalc.errors import FaultyWorkbook, Problem, ShipcalcError, WrongInput, asked
from shipcalc.files import read_file
from shipcalc.ratebook.changes.torn import torn_columns
from shipcalc.ratebook.editions import (
    KEPT,
    Edition,
    History,
    file_days,
    has_workbooks,
    keep_edition,
    kept_folder,
    put_in_force,
    read_history,
    write_history,
)
from shipcalc.records import dataclass, replace
from shipcalc.sheets.saving import copy_folder

FEWEST_LETTERS = 4
COPIED, GONE_BACK, FOUND = "from {folder}", "gone back to", "found in the folder"
CHANGED = "changed in the folder itself"


@dataclass(frozen=True, slots=True)
class Adopted:
    """What became of a rate book that was to be put in force.

    `former` is the fingerprint of the edition that it takes the place of, empty where there was none; `is_new` is False where it
    was in force already; `notes` are what the former edition gives away; `waiting` are those whose day is still to come.
    """

    folder: Path
    fingerprint: str
    since: date
    former: str
    waits: bool = False
    is_new: bool = True
    notes: tuple[Problem, ...] = ()
    waiting: tuple[Edition, ...] = ()


@dataclass(frozen=True, slots=True)
class Shown:
    """An edition as the history shows it: since when, until when (None: it counts), the days of its workbooks."""

    edition: Edition
    until: date | None
    files: tuple[tuple[str, date], ...]
    counts: bool


def copy_rates(source: Path, target: Path, *, today: date) -> tuple[Path, ...]:
    """Copy a rate book's folder to work on, and return the copied files; what is kept of former editions stays behind.

    Raises WrongInput where there is no rate book, or something stands where the copy is to be.
    """
    if not has_workbooks(source):
        raise WrongInput("there is no trucking.xlsx in it", where=str(source), remedy="name the folder of a rate book")
    if target.exists():
        raise WrongInput("is there already", where=str(target), remedy="name a folder that is not there yet")
    if target.resolve().is_relative_to(source.resolve()):
        raise WrongInput("lies in the folder that is copied", where=str(target), remedy="name a folder beside it")
    if read_history(source).editions:
        _settled(source, today)
    files = tuple(_files_to_copy(source))
    copy_folder(source, target, files)
    return tuple(target / file.relative_to(source) for file in files)


def adopt_rates(named: str, target: Path, *, today: date, since: date | None = None) -> Adopted:
    """Put the rate book in the folder `named`, or the kept edition of that fingerprint, in force in `target`.

    Raises FaultyWorkbook where it has faults, WrongInput where it is no rate book or `since` has passed.
    """
    if since is not None and since < today:
        raise WrongInput(f"{since} has passed", where=asked("from"), remedy="leave it out, or name a day from today on")
    history = _settled(target, today)
    source, came = _source(named, target, history)
    found = check_rates(source, as_of=since or today)
    if found.faults:
        what = "has 1 fault" if len(found.faults) == 1 else f"has {len(found.faults)} faults"
        raise FaultyWorkbook(
            f"{what} and is not put in force",
            found.faults,
            where=str(source),
            remedy="correct the cells that are named",
        )
    edition = Edition(fingerprint=found.fingerprint, since=since or today, came=came, waits=(since or today) > today)
    former = history.in_force.fingerprint if history.in_force is not None else ""
    if edition.fingerprint == former:
        if since is None:
            write_history(target, History(tuple(one for one in history.editions if not one.waits)))
        return Adopted(target, former, since or today, former, is_new=False)
    notes = tuple(_torn(source, kept_folder(target, former))) if former else ()
    keep_edition(target, edition.fingerprint, source)
    if edition.waits:
        write_history(target, History((*history.editions, edition)))
    else:
        put_in_force(target, history, edition)
    waiting = tuple(one for one in read_history(target).editions if one.waits and one != edition)
    return Adopted(
        target, edition.fingerprint, since or today, former, waits=edition.waits, notes=notes, waiting=waiting
    )


def history_of(folder: Path, *, today: date) -> tuple[Shown, ...]:
    """Return the editions of a folder, the latest first."""
    history = _settled(folder, today)
    in_order = sorted(history.editions, key=lambda one: one.waits)
    shown = []
    for one, later in zip(in_order, (*in_order[1:], None), strict=True):
        files = file_days(kept_folder(folder, one.fingerprint))
        counts = one is history.in_force
        shown.append(Shown(one, later.since if later is not None else None, files, counts))
    return tuple(reversed(shown))


def _settled(folder: Path, today: date) -> History:
    """Return the history with all that has happened since it was written: a half exchange undone, a day that has come, and
    workbooks that were changed in the folder itself."""
    history = read_history(folder)
    if history.counts_meanwhile:
        counts = history.counts_meanwhile
        found = Edition(fingerprint=counts, since=None, came=FOUND)
        put_back = next((one for one in reversed(history.editions) if one.fingerprint == counts), found)
        put_in_force(folder, replace(history, editions=_without(history, put_back)), put_back)
        history = read_history(folder)
    history = _with_what_is_there(folder, history)
    due = history.find_due(today)
    if due is not None:
        put_in_force(folder, history, due)
        history = read_history(folder)
    return history


def _without(history: History, edition: Edition) -> tuple[Edition, ...]:
    return tuple(one for one in history.editions if one is not edition)


def _with_what_is_there(folder: Path, history: History) -> History:
    """Return the history with the workbooks of the folder in it, which are kept if they were not."""
    if not has_workbooks(folder):
        return history
    fingerprint = _fingerprint(folder)
    known = history.in_force
    if known is not None and known.fingerprint == fingerprint:
        return history
    keep_edition(folder, fingerprint, folder)
    since = max(day for _, day in file_days(folder)) if known is not None else None
    found = Edition(fingerprint=fingerprint, since=since, came=CHANGED if known is not None else FOUND)
    history = replace(history, editions=(*history.editions, found))
    write_history(folder, history)
    return history


def _fingerprint(folder: Path) -> str:
    """Return the fingerprint of workbooks, also of those with faults; of those that cannot be read, their bytes'."""
    from shipcalc.ratebook.book import checked
    from shipcalc.ratebook.drafting import draft_of

    try:
        return checked(folder)[1] or draft_of(folder).fingerprint
    except WrongInput:
        import hashlib

        read = b"".join(read_file(folder / name) for name, _ in file_days(folder))
        return hashlib.sha256(read).hexdigest()[:16]


def _source(named: str, target: Path, history: History) -> tuple[Path, str]:
    folder = Path(named)
    if folder.is_dir():
        if folder.resolve() == target.resolve():
            what = "is the rate book that is in force"
            raise WrongInput(what, where=named, remedy="change a copy of it: shipcalc rates copy")
        return folder, COPIED.format(folder=folder.name or named)
    wanted = named.casefold()
    kept = {one.fingerprint for one in history.editions}
    found = [one for one in sorted(kept) if len(wanted) >= FEWEST_LETTERS and one.startswith(wanted)]
    if len(found) == 1:
        return kept_folder(target, found[0]), GONE_BACK
    if found:
        raise WrongInput(
            f"{len(found)} kept rate books begin with that", where=named, remedy=f"write more: {', '.join(found)}"
        )
    known = f"; kept are {', '.join(sorted(kept))}" if kept else ""
    raise WrongInput(
        "is neither a folder nor the fingerprint of a kept rate book",
        where=named,
        remedy=f"name the folder of a rate book, or a fingerprint from shipcalc rates history{known}",
    )


def _torn(source: Path, former: Path) -> Iterator[Problem]:
    from shipcalc.ratebook.book import read_rate_book

    try:
        yield from torn_columns(read_rate_book(source), read_rate_book(former), "the book that was in force")
    except ShipcalcError:  # the former one has faults, and nothing can be told from it
        return


def _files_to_copy(folder: Path) -> Iterator[Path]:
    for file in sorted(folder.rglob("*")):
        inside = file.relative_to(folder)
        if file.is_file() and inside.parts[0] != KEPT and not inside.name.startswith(("~$", ".")):
            yield file
