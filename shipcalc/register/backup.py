"""The whole register as one file, and back: readable by either database, so that a register can move from one to the other.

A zip with a page of JSON lines for each table, and what they come to (`contents.json`: version, rows and SHA-256 of each page).
Bytes stand in it as base64, days as they are written.
"""

import base64
import hashlib
import io
import json
import zipfile
import zlib
from datetime import date
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Date, LargeBinary, MetaData, Table, func, insert, select, text, update
from sqlalchemy.exc import StatementError

from shipcalc.errors import NoAnswer, WrongInput, how_many
from shipcalc.files import read_file
from shipcalc.records import dataclass
from shipcalc.register.opening import Register
from shipcalc.register.schema import NEWEST, upgrade, version_of
from shipcalc.register.shipments import begin_missing
from shipcalc.register.tables import counts
from shipcalc.sheets.saving import PRIVATE_MODE, whole

CONTENTS = "contents.json"
_VERSION_TABLE = "alembic_version"
_ROWS_AT_ONCE = 500
_NOT_READ = (zipfile.BadZipFile, NotImplementedError, EOFError, OSError)
LARGEST_BACKUP_BYTES = 4_000_000_000
_BROKEN = "name a file that shipcalc register backup wrote, as it was written"


@dataclass(frozen=True, slots=True, kw_only=True)
class Contents:
    """What a backup holds: the version of its tables, and their rows."""

    version: str
    rows: dict[str, int]


def back_up(register: Register, file: Path) -> Contents:
    """Write the whole register, as it stood at one moment, into a file for nobody else's eyes."""
    with register.reading() as connection, whole(file, mode=PRIVATE_MODE) as beside:
        tables = _tables(connection)
        version = version_of(connection) or NEWEST
        pages: dict[str, tuple[int, str]] = {}
        with zipfile.ZipFile(beside, "w", zipfile.ZIP_DEFLATED) as archive:
            for table in tables:
                with archive.open(f"{table.name}.jsonl", "w") as page:
                    pages[table.name] = _write(connection, table, page)
            told = {name: {"rows": rows, "sha256": digest} for name, (rows, digest) in pages.items()}
            archive.writestr(CONTENTS, json.dumps({"version": version, "tables": told}, indent=2))
    return Contents(version=version, rows={name: rows for name, (rows, _) in pages.items()})


def restore(register: Register, file: Path, *, over: bool = False) -> Contents:
    """Fill a register from a backup, in one transaction; an older one is brought up to date on the way.

    Numbers that were given before are not given again, also where the backup does not know of them.
    Raises WrongInput for what is no whole backup, or one of a newer program; NoAnswer where the register holds quotes, unless it
    is meant to be written `over`.
    """
    with _opened(file) as archive:
        contents = _contents(archive, file)
        with register.writing("restoring a backup") as connection:
            given = _given(connection)
            _make_room(connection, register.name, over=over)
            upgrade(connection, contents.version)
            for table in _tables(connection):
                if table.name in contents.rows:
                    _fill_from(connection, table, archive, file)
            _count_on(connection)
            upgrade(connection)
            _not_again(connection, given)
            begin_missing(connection)
            if connection.dialect.name == "postgresql":  # or its first searches go by what it knew of empty tables
                connection.execute(text("analyze"))
    return contents


def _given(connection: Connection) -> dict[int, int]:
    """Return the last number of each year that was given so far."""
    there = next((table for table in _tables(connection) if table.name == counts.name), None)
    if there is None:
        return {}
    return {row.year: row.last for row in connection.execute(select(there))}


def _not_again(connection: Connection, given: dict[int, int]) -> None:
    """Count on from the last number that was ever given: it stands on papers that are with buyers."""
    restored = _given(connection)
    for year, last in given.items():
        if year not in restored:
            connection.execute(insert(counts).values(year=year, last=last))
        elif restored[year] < last:
            connection.execute(update(counts).where(counts.c.year == year).values(last=last))


def _tables(connection: Connection) -> list[Table]:
    """Return the tables that there are, each after those it refers to."""
    found = MetaData()
    found.reflect(connection)
    return [table for table in found.sorted_tables if table.name != _VERSION_TABLE]


def _write(connection: Connection, table: Table, page: Any) -> tuple[int, str]:
    digest, count = hashlib.sha256(), 0
    order = list(table.primary_key.columns)
    found = connection.execution_options(yield_per=_ROWS_AT_ONCE).execute(select(table).order_by(*order))
    for row in found.mappings():
        line = json.dumps({name: _told(value) for name, value in row.items()}, ensure_ascii=False).encode() + b"\n"
        digest.update(line)
        page.write(line)
        count += 1
    return count, digest.hexdigest()


def _told(value: object) -> object:
    if isinstance(value, bytes | memoryview):
        return base64.b64encode(bytes(value)).decode()
    return value.isoformat() if isinstance(value, date) else value


def _opened(file: Path) -> zipfile.ZipFile:
    try:
        return zipfile.ZipFile(io.BytesIO(read_file(file, most=LARGEST_BACKUP_BYTES)))
    except OSError as error:
        raise WrongInput(
            f"cannot be read ({(error.strerror or str(error)).lower()})", where=str(file), remedy=_BROKEN
        ) from None
    except zipfile.BadZipFile:
        raise WrongInput("is no backup of a register", where=str(file), remedy=_BROKEN) from None


def _contents(archive: zipfile.ZipFile, file: Path) -> Contents:
    """Return what a backup holds, once every page of it has been held to its sum."""
    try:
        told = json.loads(archive.read(CONTENTS))
        version, pages = str(told["version"]), dict(told["tables"])
        whole_pages = all(
            hashlib.sha256(archive.read(f"{name}.jsonl")).hexdigest() == said["sha256"] for name, said in pages.items()
        )
        rows = {name: int(said["rows"]) for name, said in pages.items()}
    except (KeyError, ValueError, TypeError, AttributeError, RecursionError, zlib.error, *_NOT_READ):
        raise WrongInput("is no whole backup of a register", where=str(file), remedy=_BROKEN) from None
    if not whole_pages:
        raise WrongInput("is damaged: its pages are not as they were written", where=str(file), remedy=_BROKEN)
    if version > NEWEST:
        remedy = "take a newer version of the program; nothing was changed"
        raise WrongInput(f"is of a newer register ({version}, not {NEWEST})", where=str(file), remedy=remedy)
    return Contents(version=version, rows=rows)


def _make_room(connection: Connection, name: str, *, over: bool) -> None:
    there = _tables(connection)
    quotes = next((table for table in there if table.name == "quotes"), None)
    held = connection.execute(select(func.count()).select_from(quotes)).scalar_one() if quotes is not None else 0
    if held and not over:
        remedy = "restore into a register of its own, or say --over: what it holds is lost unless it is backed up"
        raise NoAnswer(f"it holds {how_many(held, 'quote')} already", where=name, remedy=remedy)
    for table in reversed(there):
        table.drop(connection)
    connection.execute(text(f"drop table if exists {_VERSION_TABLE}"))


def _fill_from(connection: Connection, table: Table, archive: zipfile.ZipFile, file: Path) -> None:
    """Fill a table. Raises WrongInput for a page that is as its sum says, and yet none that a backup writes."""
    try:
        _fill(connection, table, archive)
    except (ValueError, TypeError, AttributeError, RecursionError, StatementError):
        raise WrongInput(f"has a page {table.name} that is none", where=str(file), remedy=_BROKEN) from None


def _fill(connection: Connection, table: Table, archive: zipfile.ZipFile) -> None:
    rows: list[dict[str, object]] = []
    with archive.open(f"{table.name}.jsonl") as page:
        for line in page:
            told = json.loads(line)
            rows.append({column.name: _read(column.type, told.get(column.name)) for column in table.columns})
            if len(rows) == _ROWS_AT_ONCE:
                connection.execute(insert(table), rows)
                rows = []
    if rows:
        connection.execute(insert(table), rows)


def _read(kind: object, value: Any) -> object:
    if value is None:
        return None
    if isinstance(kind, LargeBinary):
        return base64.b64decode(value)
    return date.fromisoformat(value) if isinstance(kind, Date) else value


def _count_on(connection: Connection) -> None:
    """Have PostgreSQL's own counters go on behind what was restored; SQLite looks for itself."""
    if connection.dialect.name != "postgresql":
        return
    for table in _tables(connection):
        for column in table.primary_key.columns:
            counter = connection.execute(
                text("select pg_get_serial_sequence(:table, :column)"), {"table": table.name, "column": column.name}
            ).scalar()
            if counter:
                last = connection.execute(select(func.max(column))).scalar() or 0
                connection.execute(text("select setval(:counter, :last)"), {"counter": counter, "last": max(last, 1)})
