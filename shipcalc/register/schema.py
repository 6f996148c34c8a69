"""Which tables a register has: made on first use, and changed by `upgrade` alone, by the steps of `migrations/`."""

from pathlib import Path
from typing import Protocol

from sqlalchemy import Connection, Engine, inspect, text

from shipcalc.errors import WrongInput

# The last step of `migrations/versions`; a test holds it to the files there. Alembic is imported only to take a step.
NEWEST = "0006"
_VERSION = "alembic_version"


class MakingRoom(Protocol):
    """What making and upgrading ask of a database."""

    def writing(self, engine: Engine, what: str) -> "object":
        """Give a connection that alone may write."""

    def lock_for_making(self, connection: Connection) -> None:
        """Let nobody else make the tables meanwhile."""


def make_or_check(engine: Engine, name: str, room: MakingRoom) -> None:
    """Make the tables of a register that has none. Raises WrongInput for one of another version of the program."""
    with engine.connect() as connection:
        version = version_of(connection)
    if version is None:
        with room.writing(engine, "making the register") as connection:  # type: ignore[attr-defined]
            room.lock_for_making(connection)
            version = version_of(connection) or _make(connection, name)
    if version > NEWEST:
        remedy = "take a newer version of the program; nothing was changed"
        raise WrongInput(
            f"this register is newer than the program ({version}, not {NEWEST})", where=name, remedy=remedy
        )
    if version < NEWEST:
        remedy = "shipcalc register upgrade brings it up to date and keeps a copy of it; nothing was changed"
        raise WrongInput(f"this register is of an older version ({version}, not {NEWEST})", where=name, remedy=remedy)


def version_of(connection: Connection) -> str | None:
    """Return the last step that a register has taken, None where it has no tables yet."""
    if not inspect(connection).has_table(_VERSION):
        return None
    found = connection.execute(text(f"select version_num from {_VERSION}")).scalar()  # noqa: S608 - a name of our own
    return str(found) if found is not None else None


def upgrade(connection: Connection, to: str = NEWEST) -> None:
    """Take the steps up to `to` that a register has not taken yet, within the connection's transaction."""
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations").replace("%", "%%"))
    config.attributes["connection"] = connection
    command.upgrade(config, to)


def _make(connection: Connection, name: str) -> str:
    others = inspect(connection).get_table_names()
    if others:
        remedy = "name a database of its own as register in shipcalc.toml"
        raise WrongInput(f"holds other tables ({', '.join(sorted(others)[:3])})", where=name, remedy=remedy)
    upgrade(connection)
    return NEWEST
