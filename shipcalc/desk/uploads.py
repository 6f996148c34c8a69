"""Files that a browser sends: held to a size, a kind and a harmless name, and a workbook read once where it can do no harm.

A file is kept in a folder of its own for the request, under a name made of the sender's without folders and signs. What it is is
told by its first bytes, not by its name. A workbook is looked through by a process of its own that may take so much memory and so
many seconds: one that unpacks without end, or ends the reader, ends that process and not the desk.
"""

import multiprocessing
import os
import re
import tempfile
import unicodedata
import zipfile
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from multiprocessing.connection import Connection
from pathlib import Path, PurePosixPath, PureWindowsPath

from fastapi import UploadFile
from fastapi.concurrency import run_in_threadpool

from shipcalc.desk.safety import LARGEST_UPLOAD
from shipcalc.errors import ShipcalcError, WrongInput

WORKBOOKS = (".xlsx", ".xls")
TABLES = (*WORKBOOKS, ".csv")
SCANS = (".pdf", ".jpg", ".jpeg", ".png", ".tif", ".tiff", ".heic", ".webp")
LARGEST_UNPACKED, MOST_PARTS = 200 * 1024 * 1024, 10_000
SECONDS, MEMORY = 20.0, 1024 * 1024 * 1024
_MOST_NAME = 100
_CHUNK = 1 << 16
# The first bytes of each kind; a text has none, and no NUL either.
_BEGINS: dict[str, tuple[bytes, ...]] = {
    ".xlsx": (b"PK\x03\x04",),
    ".xls": (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1",),
    ".pdf": (b"%PDF-",),
    ".jpg": (b"\xff\xd8\xff",),
    ".jpeg": (b"\xff\xd8\xff",),
    ".png": (b"\x89PNG\r\n\x1a\n",),
    ".tif": (b"II*\x00", b"MM\x00*"),
    ".tiff": (b"II*\x00", b"MM\x00*"),
    ".webp": (b"RIFF",),
}
_HEIC = b"ftyp"


@asynccontextmanager
async def received(file: UploadFile, endings: tuple[str, ...]) -> AsyncIterator[Path]:
    """Give a file that was sent, as long as it is needed. Raises WrongInput for what is not one of these kinds, or too long."""
    name = safe_name(file.filename or "")
    ending = Path(name).suffix.casefold()
    if ending not in endings:
        raise WrongInput(f"{name} is of no kind that can be taken", remedy=f"send one of {', '.join(endings)}")
    with tempfile.TemporaryDirectory(prefix="shipcalc-sent-") as folder:
        path = Path(folder) / name
        await _written(file, path)
        await run_in_threadpool(_check, path, ending)
        yield path


def safe_name(told: str) -> str:
    """Return a file name without folders and signs that some system does not take; "file" where nothing is left."""
    last = PureWindowsPath(PurePosixPath(told.replace("\x00", "")).name).name
    plain = unicodedata.normalize("NFC", last)
    kept = "".join(sign if sign.isalnum() or sign in " .-_()" else "_" for sign in plain).strip(" .")
    stem, ending = Path(kept).stem.rstrip(" ."), Path(kept).suffix
    stem = re.sub(r"(?i)^(con|prn|aux|nul|com\d|lpt\d)$", r"_\1", stem[:_MOST_NAME])
    return f"{stem or 'file'}{ending[:10]}"


async def _written(file: UploadFile, path: Path) -> None:
    size = 0
    with path.open("wb") as out:
        while chunk := await file.read(_CHUNK):
            size += len(chunk)
            if size > LARGEST_UPLOAD:
                what = f"has more than {LARGEST_UPLOAD // 1024**2} MB"
                raise WrongInput(what, where=path.name, remedy="send a smaller file")
            out.write(chunk)
    if not size:
        raise WrongInput("is empty", where=path.name, remedy="save it again and send that")


def _check(path: Path, ending: str) -> None:
    with path.open("rb") as opened:
        head = opened.read(64)
    begins = _BEGINS.get(ending)
    is_it = head.startswith(begins) if begins else _HEIC in head[:12] if ending == ".heic" else b"\x00" not in head
    if not is_it:
        raise WrongInput(f"is no {ending} inside", where=path.name, remedy="save it again from its program")
    if ending == ".xlsx":
        _check_unpacked(path)
    if ending in TABLES:
        look_through(path)


def _check_unpacked(path: Path) -> None:
    """Hold what a workbook says that it unpacks to; what it does not say ends in the process that looks it through."""
    try:
        with zipfile.ZipFile(path) as packed:
            parts = packed.infolist()
    except (zipfile.BadZipFile, ValueError, NotImplementedError):
        raise WrongInput("is damaged", where=path.name, remedy="save it again and send that") from None
    if len(parts) > MOST_PARTS or sum(part.file_size for part in parts) > LARGEST_UNPACKED:
        what = f"unpacks to more than {LARGEST_UNPACKED // 1024**2} MB"
        raise WrongInput(what, where=path.name, remedy="send what belongs to it alone")


def look_through(path: Path, *, seconds: float = SECONDS, memory: int = MEMORY) -> None:
    """Read every cell of a table in a process of its own. Raises WrongInput where it cannot be, or takes too long or too much."""
    context = multiprocessing.get_context("spawn")
    here, there = context.Pipe(duplex=False)
    reader = context.Process(target=_read_through, args=(there, str(path), memory, seconds), daemon=True)
    reader.start()
    there.close()
    try:
        told = here.recv() if here.poll(seconds) else None
    except EOFError:
        told = None
    finally:
        reader.kill()
        reader.join()
        here.close()
    if told is None:
        what = "takes too long or too much memory to read"
        raise WrongInput(what, where=path.name, remedy="send what belongs to it alone, without empty rows and sheets")
    if told:
        raise WrongInput(told[0], where=path.name, remedy=told[1])


def _read_through(told: Connection, path: str, memory: int, seconds: float) -> None:
    """Say () where every cell could be read, else what is wrong and what to do."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), 2)  # how it ends is told by the desk
    _limit(memory, seconds)
    from shipcalc.sheets.reading import read_workbook

    try:
        read_workbook(Path(path))
        told.send(())
    except ShipcalcError as error:
        told.send((error.what, error.remedy))


def _limit(memory: int, seconds: float) -> None:
    """Where the system has such limits; elsewhere the clock alone holds."""
    try:
        import resource
    except ImportError:
        return
    resource.setrlimit(resource.RLIMIT_AS, (memory, memory))
    resource.setrlimit(resource.RLIMIT_CPU, (int(seconds) + 1, int(seconds) + 1))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
