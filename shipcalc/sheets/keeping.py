"""The user's cache folder: what took long to work out is kept there by its content, and is safe to delete.

JSON, never a pickle from a place that others can write; whatever is amiss with a file (deleted, half of another version, no
rights, a single bit) counts as not kept. Its first line is the SHA-256 of all the others. Two programs that keep the same thing
at once write the same bytes, each in one move.

What is kept decides prices: so a folder or a file that belongs to somebody else, or that others may write into, counts as not
kept either, and nobody else may read a dealer's rates here. Windows keeps the folder of a user for that user itself.
"""

import hashlib
import os
from contextlib import suppress
from pathlib import Path

from shipcalc.errors import WrongInput
from shipcalc.files import read_file

PRIVATE_FOLDER = 0o700
_OTHERS_WRITE = 0o022


def kept_in(name: str) -> Path:
    """Return the folder of one kind of things that are kept."""
    import platformdirs

    return Path(platformdirs.user_cache_path("shipcalc", appauthor=False)) / name


def find_kept_file(file: Path) -> bytes | None:
    """Return what `keep_file` kept in a file, or None where it is not there as it was kept, by this user for this user."""
    try:
        if not (_is_ours_alone(file.parent) and _is_ours_alone(file)):
            return None
        told, _, content = read_file(file).partition(b"\n")
    except OSError:
        return None
    return content if told == _sum(content) else None


def keep_file(file: Path, content: bytes, *, most: int) -> None:
    """Keep a file and forget the oldest of its kind beyond `most`; where that is not possible, nothing happens."""
    from shipcalc.sheets.saving import PRIVATE_MODE, save

    with suppress(WrongInput, OSError):
        _make_ours_alone(file.parent)
        save(file, _sum(content) + b"\n" + content, mode=PRIVATE_MODE)
        kept = sorted(file.parent.glob("[!.]*"), key=lambda path: path.stat().st_mtime)
        for path in kept[:-most]:
            path.unlink(missing_ok=True)


def _sum(content: bytes) -> bytes:
    return hashlib.sha256(content).hexdigest().encode()


def _is_ours_alone(path: Path) -> bool:
    """Return whether a file or folder belongs to this user, and nobody else may write into it."""
    if os.name == "nt":
        return True
    told = path.stat()
    return told.st_uid == os.geteuid() and not told.st_mode & _OTHERS_WRITE


def _make_ours_alone(folder: Path) -> None:
    """Make a folder that nobody else looks into. One that others could write into is emptied first: who knows what they left."""
    folder.mkdir(parents=True, mode=PRIVATE_FOLDER, exist_ok=True)
    if not _is_ours_alone(folder):
        for path in folder.iterdir():
            path.unlink()
        folder.chmod(PRIVATE_FOLDER)  # refused where it is somebody else's: then nothing is kept
