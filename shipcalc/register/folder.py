"""The files of a shipment: a scan of the title, photographs, signed papers. They stay where they are, or are copied in."""

import errno
import hashlib
import os
import shutil
from pathlib import Path
from typing import Literal

from sqlalchemy import Connection, insert, select

from shipcalc.errors import WrongInput, why
from shipcalc.records import dataclass
from shipcalc.register.tables import files
from shipcalc.sheets.saving import PRIVATE_MODE, whole

How = Literal["as it was", "changed", "missing"]
_CHUNK = 1 << 20


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A file of a shipment: what it is, the line of the checklist it shows, and how it stands to what was kept of it."""

    path: Path
    what: str
    task: str
    sha256: str
    bytes: int
    copied: bool
    added_at: str
    how: How


def add_file(
    connection: Connection, number: str, path: Path, *, what: str, task: str, into: Path | None, at: str
) -> Paper:
    """Keep where a file of a shipment is and what it holds; with `into`, a copy of it in that folder is the file.

    Raises WrongInput for what is no readable file, and for one that the shipment has already.
    """
    try:
        digest, size = _digest(path)
        kept = path.resolve() if into is None else _copied(path, into, digest)
    except OSError as error:
        raise WrongInput(f"cannot be read ({why(error)})", where=str(path), remedy="name a file") from None
    if any(row.path == str(kept) and row.sha256 == digest for row in _rows(connection, number)):
        raise WrongInput(f"is in the folder of {number} already", where=str(path), remedy="name another file")
    row = {
        "number": number,
        "path": str(kept),
        "what": what or path.stem,
        "task": task,
        "sha256": digest,
        "bytes": size,
        "copied": int(into is not None),
        "added_at": at,
    }
    connection.execute(insert(files), row)
    return files_of(connection, number)[-1]


def files_of(connection: Connection, number: str) -> tuple[Paper, ...]:
    """Return the files of a shipment, and of each whether it is still what it was."""
    return tuple(
        Paper(
            path=Path(row.path),
            what=row.what,
            task=row.task,
            sha256=row.sha256,
            bytes=row.bytes,
            copied=bool(row.copied),
            added_at=row.added_at,
            how=_how(Path(row.path), row.sha256),
        )
        for row in _rows(connection, number)
    )


def _rows(connection: Connection, number: str) -> list:  # type: ignore[type-arg]
    return list(connection.execute(select(files).where(files.c.number == number).order_by(files.c.id)).all())


def _how(path: Path, digest: str) -> How:
    try:
        return "as it was" if _digest(path)[0] == digest else "changed"
    except OSError:
        return "missing"


def _digest(path: Path) -> tuple[str, int]:
    if not path.is_file():  # to open a pipe would wait for ever
        raise FileNotFoundError(errno.ENOENT, os.strerror(errno.ENOENT), str(path))
    digest, size = hashlib.sha256(), 0
    with path.open("rb") as file:
        while part := file.read(_CHUNK):
            digest.update(part)
            size += len(part)
    return digest.hexdigest(), size


def _copied(path: Path, into: Path, digest: str) -> Path:
    """Return the copy of a file; one of the same name that holds something else stays, and this one is numbered."""
    into.mkdir(parents=True, exist_ok=True, mode=0o700)
    target, count = into / path.name, 1
    while target.exists() and _digest(target)[0] != digest:
        count += 1
        target = into / f"{path.stem}-{count}{path.suffix}"
    if not target.exists():
        with whole(target, mode=PRIVATE_MODE) as beside:
            shutil.copyfile(path, beside)
    return target.resolve()
