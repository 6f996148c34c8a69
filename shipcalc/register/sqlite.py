"""The register as one file: SQLite with a write-ahead log, so that reading never waits for writing."""

import getpass
import os
import socket
import sqlite3
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, event
from sqlalchemy.exc import DBAPIError

from shipcalc.errors import WrongInput

PATIENCE_S = 20.0
_PAUSE_S = 0.02
PRIVATE_FOLDER, PRIVATE_FILE = 0o700, 0o600


class SqliteRoom:
    """What differs between the two databases, for a file."""

    @contextmanager
    def writing(self, engine: Engine, what: str) -> Iterator[Connection]:
        """Give a connection that alone may write; who it is stands beside the file for as long."""
        with engine.connect() as connection:
            connection.execution_options(shipcalc_writes=True)
            with connection.begin(), _said_beside(engine, what):
                yield connection

    def lock_for_making(self, connection: Connection) -> None:
        """Let nobody else make the tables: the transaction holds the whole file already."""

    def is_busy(self, error: DBAPIError) -> bool:
        """Return whether somebody else holds the file."""
        return "locked" in str(error.orig)

    def holder(self, engine: Engine) -> str:
        """Return who writes in the file, as they said themselves."""
        with suppress(OSError):
            return _note(engine).read_text(encoding="utf-8").strip()
        return ""


ROOM = SqliteRoom()


def make_private_folder(file: Path) -> None:
    """Make the file's folder and the file, for nobody else's eyes, where they are not there yet."""
    try:
        if not file.parent.is_dir():
            file.parent.mkdir(parents=True, mode=PRIVATE_FOLDER, exist_ok=True)
        if not file.exists():
            os.close(os.open(file, os.O_CREAT | os.O_RDWR, PRIVATE_FILE))
    except OSError as error:
        why = (error.strerror or str(error)).lower()
        remedy = "name another place as register in shipcalc.toml"
        raise WrongInput(f"the register cannot be made ({why})", where=str(file), remedy=remedy) from None


def prepare(engine: Engine) -> None:
    """Have every connection keep what it was told to keep, and begin its transactions itself."""
    event.listen(engine, "connect", _prepared)
    event.listen(engine, "begin", _begin)


def _prepared(connection: Any, _record: object) -> None:
    # Python's own beginning of transactions is put off: it would begin too late, and never for a read.
    connection.isolation_level = None
    cursor = connection.cursor()
    _keep_a_log(cursor)
    for said in ("synchronous=FULL", "foreign_keys=ON", "secure_delete=ON"):
        cursor.execute(f"PRAGMA {said}")
    cursor.close()


def _keep_a_log(cursor: sqlite3.Cursor) -> None:
    """Have the file written by way of a log beside it. SQLite does not wait for others when it turns to that, so we do."""
    until = time.monotonic() + PATIENCE_S
    while True:
        try:
            cursor.execute("PRAGMA journal_mode=WAL")
        except sqlite3.OperationalError as error:
            if "locked" not in str(error) or time.monotonic() > until:
                raise
            time.sleep(_PAUSE_S)
        else:
            return


def _begin(connection: Connection) -> None:
    writes = connection.get_execution_options().get("shipcalc_writes")
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


@contextmanager
def _said_beside(engine: Engine, what: str) -> Iterator[None]:
    """Leave a note of who writes beside the file; a stop leaves the note, which nobody reads once the file is free."""
    note = _note(engine)
    with suppress(OSError):
        note.write_text(f"{_user()} on {socket.gethostname()}, {what}\n", encoding="utf-8")
    try:
        yield
    finally:
        with suppress(OSError):
            note.unlink(missing_ok=True)


def _note(engine: Engine) -> Path:
    return Path(f"{engine.url.database}-writer")


def _user() -> str:
    try:
        return getpass.getuser()
    except (OSError, KeyError):  # a system that has no name for its user
        return "somebody"
