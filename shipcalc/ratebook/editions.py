"""Rate books that were in force in a folder: each kept whole beside it by its fingerprint, and since when each counts.

    my-rates/trucking.xlsx …             what quotes are made from
    my-rates/kept/384700dd056115c3/      a former edition, or one that waits for its day
    my-rates/kept/history.json           what was put in force when

While workbooks are exchanged, the history names an edition that is whole (`counts_meanwhile`), and quotes are made from that one.
"""

import os
from collections.abc import Iterator
from datetime import date, datetime
from pathlib import Path

from msgspec import DecodeError, ValidationError, json

from shipcalc.errors import WrongInput
from shipcalc.files import read_file
from shipcalc.ratebook.rows.tables import WORKBOOKS
from shipcalc.ratebook.rows.trucking_sheets import TRUCKING
from shipcalc.records import dataclass, replace
from shipcalc.sheets.saving import copy_folder, save

KEPT = "kept"
FILE_NAME = "history.json"


@dataclass(frozen=True, slots=True, kw_only=True)
class Edition:
    """A rate book as it was put in force. `since` is None where nobody said so: it was found in the folder."""

    fingerprint: str
    since: date | None
    came: str
    waits: bool = False


@dataclass(frozen=True, slots=True)
class History:
    """The editions of a folder in the order in which they were put in force, those that wait for their day as well.

    `counts_meanwhile` is the fingerprint of the edition that counts while, or because, an exchange of workbooks has not ended.
    """

    editions: tuple[Edition, ...] = ()
    counts_meanwhile: str = ""

    @property
    def in_force(self) -> Edition | None:
        """Return the edition that was put in force last."""
        return next((edition for edition in reversed(self.editions) if not edition.waits), None)

    def find_due(self, day: date) -> Edition | None:
        """Return the waiting edition that counts on a day: of several the one with the latest day."""
        due = [one for one in self.editions if one.waits and one.since is not None and one.since <= day]
        return max(due, key=lambda one: one.since or date.min, default=None)


def read_history(folder: Path) -> History:
    """Return the history of a folder, which is empty where none was written. Raises WrongInput where it cannot be read."""
    file = folder / KEPT / FILE_NAME
    try:
        return json.decode(read_file(file), type=History)
    except (FileNotFoundError, NotADirectoryError):
        return History()
    except (OSError, DecodeError, ValidationError):
        remedy = "bring it back from a backup, or move it away: the workbooks beside the folder kept then count"
        raise WrongInput("the history of this rate book cannot be read", where=str(file), remedy=remedy) from None


def write_history(folder: Path, history: History) -> None:
    """Write the history of a folder, in one move."""
    save(folder / KEPT / FILE_NAME, json.format(json.encode(history)) + b"\n")


def folder_of_day(folder: Path, day: date) -> Path:
    """Return where the rate book of a folder is read from on a day: the folder itself, or an edition that is kept in it."""
    history = read_history(folder)
    due = history.find_due(day)
    counts = history.counts_meanwhile or (due.fingerprint if due is not None else "")
    return kept_folder(folder, counts) if counts else folder


def kept_folder(folder: Path, fingerprint: str) -> Path:
    """Return where an edition of a folder is kept."""
    return folder / KEPT / fingerprint


def keep_edition(folder: Path, fingerprint: str, source: Path) -> None:
    """Keep the workbooks of `source` as an edition of `folder`, if they are not kept already."""
    if not kept_folder(folder, fingerprint).exists():
        copy_folder(source, kept_folder(folder, fingerprint), _workbooks(source))


def put_in_force(folder: Path, history: History, edition: Edition) -> None:
    """Put a kept edition in the place of the workbooks of a folder.

    A stop anywhere leaves quotes with the former edition whole, or with the new one. Where a workbook cannot be written
    (Excel has it open), the former ones are put back, and WrongInput says so.
    """
    known = history.in_force.fingerprint if history.in_force is not None else edition.fingerprint
    former = history.counts_meanwhile or known
    write_history(folder, replace(history, counts_meanwhile=former))
    try:
        _exchange(folder, kept_folder(folder, edition.fingerprint))
    except WrongInput:
        if former != edition.fingerprint:
            _exchange(folder, kept_folder(folder, former))
        write_history(folder, replace(history, counts_meanwhile=""))
        raise
    past = tuple(one for one in history.editions if not (one.waits and _comes_before(one, edition)))
    write_history(folder, History((*past, replace(edition, waits=False))))


def file_days(folder: Path) -> tuple[tuple[str, date], ...]:
    """Return the workbooks of a folder, each with the day on which it was saved."""
    return tuple((file.name, _day_of(file.stat().st_mtime)) for file in _workbooks(folder))


def has_workbooks(folder: Path) -> bool:
    """Return whether a rate book lies in a folder."""
    return (folder / TRUCKING).is_file()


def _exchange(folder: Path, source: Path) -> None:
    new = {file.name: file for file in _workbooks(source)}
    for name in WORKBOOKS:
        if name in new:
            save(folder / name, read_file(new[name]))
            saved = new[name].stat()
            os.utime(folder / name, ns=(saved.st_atime_ns, saved.st_mtime_ns))
        else:
            (folder / name).unlink(missing_ok=True)


def _comes_before(one: Edition, other: Edition) -> bool:
    return one.fingerprint == other.fingerprint or (one.since or date.min) <= (other.since or date.min)


def _workbooks(folder: Path) -> Iterator[Path]:
    return (folder / name for name in WORKBOOKS if (folder / name).is_file())


def _day_of(seconds: float) -> date:
    return datetime.fromtimestamp(seconds).astimezone().date()
