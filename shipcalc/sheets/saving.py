"""Files are written beside their place and then renamed: a stop in the middle leaves the old file whole."""

import os
import shutil
import tempfile
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

from shipcalc.errors import WrongInput, asked, why

USUAL_MODE, PRIVATE_MODE = 0o666, 0o600
MOST_LETTERS = 40  # of a name, in that of the file beside it, which is longer and must not be too long


def save(path: Path, content: bytes, *, mode: int = USUAL_MODE, new: bool = False) -> None:
    """Write `content` to `path`, making its folder; on any failure what stood there before is untouched.

    `mode` is what others may do with it, as far as the system's own mask lets them. Raises WrongInput where the place cannot be
    written (no rights, a full disk, open in a program that locks it), and FileExistsError where it is to be `new` and is not.
    """
    with whole(path, mode=mode, new=new) as beside:
        beside.write_bytes(content)


@contextmanager
def whole(path: Path, *, remedy: str = "", mode: int = USUAL_MODE, new: bool = False) -> Iterator[Path]:
    """Give a file beside `path`, which takes its place when all went well and is removed when not; raises as `save` does."""
    beside: Path | None = None
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(prefix=f".{path.name[:MOST_LETTERS]}.", dir=path.parent)
        os.close(handle)
        beside = Path(name)
        yield beside
        beside.chmod(_mode_for(path, mode))
        if new:
            _place_new(beside, path)
        else:
            beside.replace(path)
    except FileExistsError as error:
        if new and error.filename2 == str(path):
            raise
        raise _not_written(path, error, remedy) from None
    except OSError as error:
        raise _not_written(path, error, remedy) from None
    finally:
        if beside is not None:
            beside.unlink(missing_ok=True)


def _not_written(path: Path, error: OSError, remedy: str) -> WrongInput:
    remedy = remedy or f"close it where it is open, or name another folder with {asked('out')}"
    return WrongInput(f"cannot be written ({why(error)})", where=str(path), remedy=remedy)


def _place_new(beside: Path, path: Path) -> None:
    """Give a file a name that nobody has; of two who want the same one, one gets FileExistsError."""
    if os.name == "nt":
        beside.rename(path)  # which refuses there what stands already
        return
    try:
        os.link(beside, path)
    except FileExistsError:
        raise
    except OSError:  # a drive without such links: the name is taken first
        try:
            os.close(os.open(path, os.O_CREAT | os.O_EXCL))
        except FileExistsError as there:
            raise FileExistsError(there.errno, there.strerror, str(beside), None, str(path)) from None
        beside.replace(path)


def usual_folder_mode() -> int:
    """Return what others may do with a folder as the system's own mask has it."""
    return 0o777 & ~_umask()


def _mode_for(path: Path, mode: int) -> int:
    """Return the mode of a file that is to be: what somebody has closed to others stays closed when it is written anew."""
    try:
        return mode & path.stat().st_mode & 0o777
    except OSError:
        return mode & ~_umask()


def _umask() -> int:
    """Return the process's file mode mask, which can only be read by setting it."""
    mask = os.umask(0o022)
    os.umask(mask)
    return mask


def copy_folder(source: Path, target: Path, files: Iterable[Path]) -> None:
    """Copy files of `source`, with their dates, into a folder `target` that is not there yet: beside it first, then renamed.

    Raises WrongInput where a file cannot be read or the place cannot be written; then there is no `target`.
    """
    beside: str | None = None
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        beside = tempfile.mkdtemp(prefix=f".{target.name[:MOST_LETTERS]}.", dir=target.parent)
        for file in files:
            into = Path(beside) / file.relative_to(source)
            into.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(file, into)
        Path(beside).chmod(usual_folder_mode())
        Path(beside).rename(target)
        beside = None
    except OSError as error:
        what = f"cannot be copied to {target} ({why(error)})"
        raise WrongInput(what, where=str(source), remedy="close it where it is open, or name another folder") from None
    finally:
        if beside is not None:
            shutil.rmtree(beside, ignore_errors=True)
