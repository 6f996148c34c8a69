"""The register on a server: PostgreSQL, for an office of several desks."""

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy import Connection, Engine, text
from sqlalchemy.exc import DBAPIError

PATIENCE_MS = 20_000
CONNECTION = {"connect_timeout": 10, "application_name": "shipcalc", "options": f"-c lock_timeout={PATIENCE_MS}"}
# Any number will do that nobody else's program on the server takes for its own lock.
_MAKING, _WRITING = 7_160_411, 7_160_412
_BUSY = "55P03"  # lock_not_available, PostgreSQL 15 documentation, appendix A


class PostgresRoom:
    """What differs between the two databases, for a server."""

    @contextmanager
    def writing(self, engine: Engine, what: str) -> Iterator[Connection]:
        """Give a connection that alone may write: what it does is short, and nothing is ever half seen."""
        with engine.begin() as connection:
            connection.execute(
                text("select set_config('application_name', :said, true)"), {"said": f"shipcalc {what}"[:63]}
            )
            connection.execute(text("select pg_advisory_xact_lock(:lock)"), {"lock": _WRITING})
            yield connection

    def lock_for_making(self, connection: Connection) -> None:
        """Let nobody else make the tables meanwhile."""
        connection.execute(text("select pg_advisory_xact_lock(:lock)"), {"lock": _MAKING})

    def is_busy(self, error: DBAPIError) -> bool:
        """Return whether somebody else holds what was asked for."""
        return getattr(error.orig, "sqlstate", "") == _BUSY

    def holder(self, engine: Engine) -> str:
        """Return who holds the register, as the server knows them."""
        asked = text(
            "select a.usename, a.client_addr, a.application_name from pg_locks l join pg_stat_activity a on a.pid = l.pid "
            "where l.locktype = 'advisory' and l.granted and l.objid = :lock"
        )
        with engine.connect() as connection:
            found = connection.execute(asked, {"lock": _WRITING}).first()
        return f"{found[0]} on {found[1] or 'the server'}, {found[2].removeprefix('shipcalc ')}" if found else ""


ROOM = PostgresRoom()
