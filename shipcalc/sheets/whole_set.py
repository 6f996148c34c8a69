"""A set of files takes the place of a former set in one move: whoever looks into the folder sees the old set or the new one.

The set is written into a folder beside, which takes along what else stands in the old one; then the two change places. Linux
has one move for that (`renameat2`); elsewhere the old folder steps aside and the new one takes its name, and a stop just between
the two moves leaves the old set under a name that begins with `.old-`.

Where the folder itself cannot be moved (somebody works in it, it is a drive, or nothing may be made beside it), its parts
change places one after the other: an error puts those back that have, only a stop of the machine just then would not.
"""

import os
import shutil
import sys
import tempfile
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from shipcalc.errors import WrongInput, asked, why
from shipcalc.sheets.saving import MOST_LETTERS, usual_folder_mode

_BESIDE, _ASIDE = ".new-", ".old-"
_LONGEST_WRITING_S = 3_600
# linux/fs.h: change the places of two names.
_HERE, _EXCHANGE = -100, 2


@contextmanager
def whole_set(folder: Path, names: Iterable[str]) -> Iterator[Path]:
    """Give a folder to write the files `names` (with / between folders) into, which take their places in `folder` at the end.

    On any failure all stays as it was. Raises WrongInput where the place cannot be written (no rights, a full disk, a file of it
    open in a program that locks it); what is raised inside names the files as they are meant to be called.
    """
    wanted = frozenset(names)
    beside: Path | None = None
    try:
        target = Path(os.path.realpath(folder))  # `resolve` ends in RuntimeError where a link leads to itself
        at_once = _can_be_moved(target)
        place = target.parent if at_once else target
        place.mkdir(parents=True, exist_ok=True)
        _put_back(target)
        beside = Path(tempfile.mkdtemp(prefix=_BESIDE + _short(target), dir=place))
        _clear(beside, _BESIDE + _short(target), _ASIDE + _short(target))
        yield beside
        _carry_over(target, beside, wanted)
        _take_place(beside, target, at_once=at_once)
    except WrongInput as wrong:
        if beside is None or not wrong.where.startswith(str(beside)):
            raise
        where = f"{folder}{wrong.where.removeprefix(str(beside))}"
        raise WrongInput(wrong.what, where=where, remedy=wrong.remedy) from None
    except OSError as error:
        remedy = f"close the files that are open in it, or name another folder with {asked('out')}"
        raise WrongInput(f"cannot be written ({why(error)})", where=str(folder), remedy=remedy) from None
    finally:
        if beside is not None:
            shutil.rmtree(beside, ignore_errors=True)


def _short(target: Path) -> str:
    return f"{target.name[:MOST_LETTERS]}-"


def _put_back(target: Path) -> None:
    """Give a set its place again that a stop has left aside, just between the two moves."""
    if target.exists() or not target.parent.is_dir():
        return
    aside = [path for path in target.parent.iterdir() if path.name.startswith(_ASIDE + _short(target))]
    if len(aside) == 1:
        aside[0].rename(target)


def _clear(beside: Path, *prefixes: str) -> None:
    """Remove what stops have left beside the folder, and nobody can be writing any more."""
    now = beside.stat().st_mtime
    for path in beside.parent.iterdir():
        if path.name.startswith(prefixes) and now - path.stat().st_mtime > _LONGEST_WRITING_S:
            shutil.rmtree(path, ignore_errors=True)


def _can_be_moved(target: Path) -> bool:
    """Return whether a folder can give its place to another: nobody is in it as far as we know, and its own folder lets us."""
    if not target.exists():
        return True
    here = Path.cwd()
    return not (here.is_relative_to(target) or os.path.ismount(target)) and os.access(target.parent, os.W_OK)


def _carry_over(old: Path, new: Path, wanted: frozenset[str]) -> None:
    """Have all else that stands in the old folder in the new one too: the same files, not copies, where the system can."""
    if not old.exists():
        new.chmod(usual_folder_mode())
        return
    if not old.is_dir():
        raise NotADirectoryError(20, os.strerror(20), str(old))
    for path in sorted(old.rglob("*")):
        name = path.relative_to(old)
        if name.as_posix() in wanted or new in (path, *path.parents):
            continue
        if path.is_dir() and not path.is_symlink():
            (new / name).mkdir(parents=True, exist_ok=True)
        else:
            _carry(path, new / name)
    for part in (new, *(path for path in new.rglob("*") if path.is_dir())):
        there = old / part.relative_to(new)
        part.chmod(there.stat().st_mode & 0o7777 if there.is_dir() else usual_folder_mode())


def _carry(path: Path, to: Path) -> None:
    to.parent.mkdir(parents=True, exist_ok=True)
    try:
        os.link(path, to, follow_symlinks=False)
    except (OSError, NotImplementedError):  # a drive without such links
        shutil.copy2(path, to, follow_symlinks=False)


def _take_place(new: Path, target: Path, *, at_once: bool) -> None:
    if at_once:
        _exchange(new, target)
        return
    done: list[Path] = []
    try:
        for part in sorted(new.iterdir()):
            _exchange(part, target / part.name)
            done.append(part)
    except OSError:
        for part in done:
            with suppress(OSError):
                _exchange(part, target / part.name)
        raise


def _exchange(new: Path, old: Path) -> None:
    """Put one folder, or file, in the place of another, which stands where the new one stood afterwards."""
    if not old.exists():
        new.rename(old)
        return
    if _exchanged_in_one_move(new, old):
        return
    aside = old.with_name(f"{_ASIDE}{_short(old)}{new.name[-8:]}")
    old.rename(aside)
    try:
        new.rename(old)
    except OSError:
        aside.rename(old)
        raise
    aside.rename(new)


def _exchanged_in_one_move(new: Path, old: Path) -> bool:
    if sys.platform != "linux":
        return False
    import ctypes

    move = getattr(ctypes.CDLL(None), "renameat2", None)  # glibc 2.28; a file system may not know it either
    return move is not None and move(_HERE, os.fsencode(new), _HERE, os.fsencode(old), _EXCHANGE) == 0
