"""The one thing both databases can do, and each says in its own way: insert, and do something else where the row is there."""

from typing import Any

from sqlalchemy import Connection, Table


def insert_into(connection: Connection, table: Table) -> Any:
    """Return an insert that knows `on_conflict_do_update` and `on_conflict_do_nothing`."""
    if connection.dialect.name == "sqlite":
        from sqlalchemy.dialects.sqlite import insert as of_sqlite

        return of_sqlite(table)
    from sqlalchemy.dialects.postgresql import insert as of_postgresql

    return of_postgresql(table)
