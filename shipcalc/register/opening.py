"""Open the register: a file of SQLite or a server of PostgreSQL, named by an URL, made on first use."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import Connection, Engine, create_engine, make_url
from sqlalchemy.engine import URL
from sqlalchemy.exc import ArgumentError, DatabaseError, DBAPIError, NoSuchModuleError, OperationalError

from shipcalc.errors import WrongInput
from shipcalc.records import dataclass
from shipcalc.register import postgresql, sqlite
from shipcalc.register.schema import make_or_check, version_of

DRIVERS = {"sqlite": "sqlite", "postgresql": "postgresql+psycopg"}


@dataclass(frozen=True, slots=True, eq=False)
class Register:
    """An open register. `name` is how people are told of it: the file, or the URL without its password."""

    engine: Engine
    name: str

    @contextmanager
    def writing(self, what: str = "writing") -> Iterator[Connection]:
        """Give a connection whose writes are kept together at the end, or not at all; others wait meanwhile.

        `what` is told to those who wait. Raises WrongInput where another desk holds the register for too long.
        """
        with self.told(), _engine_room(self.engine).writing(self.engine, what) as connection:
            yield connection

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Give a connection that sees the register as it stood when it was first asked."""
        with self.told(), self.engine.connect() as connection:
            yield connection

    def close(self) -> None:
        """Let go of the file or the server."""
        self.engine.dispose()

    @contextmanager
    def told(self) -> Iterator[None]:
        """Tell what the database says in a sentence."""
        try:
            yield
        except OperationalError as error:
            raise _cannot(error, self.name, self.engine) from None
        except DatabaseError as error:
            if (
                type(error) is not DatabaseError
            ):  # its other kinds are mistakes of ours; it alone says that a file is none
                raise
            why = str(error.orig or error).strip().splitlines()[0]
            remedy = "it is left as it is; shipcalc register restore brings a backup back into another place"
            raise WrongInput(f"is damaged, or no register ({why})", where=self.name, remedy=remedy) from None


def open_register(url: str, *, any_version: bool = False) -> Register:
    """Return the register at an URL, made where there is none yet.

    Raises WrongInput for an URL that names no database of these two kinds, for a register that cannot be reached, and for one
    that another version of the program made, unless `any_version` is wanted.
    """
    parsed = _parsed(url)
    name = parsed.database or "" if parsed.get_backend_name() == "sqlite" else parsed.render_as_string()
    engine = _engine(parsed, name)
    register = Register(engine, name)
    try:
        with register.told():
            if any_version and _has_tables(engine):
                return register
            make_or_check(engine, name, _engine_room(engine))
    except BaseException:
        engine.dispose()
        raise
    return register


def _has_tables(engine: Engine) -> bool:
    with engine.connect() as connection:
        return version_of(connection) is not None


def default_url(folder: Path | None = None) -> str:
    """Return the URL of the user's own register, a file in the system's place for such data."""
    if folder is None:
        import platformdirs

        folder = platformdirs.user_data_path("shipcalc", appauthor=False)
    return url_of_file(folder / "register.sqlite")


def url_of_file(file: Path) -> str:
    """Return the URL of a register that is a file."""
    return URL.create("sqlite", database=str(file)).render_as_string()


def _parsed(url: str) -> URL:
    remedy = "write sqlite:////folder/register.sqlite or postgresql://user@host/name"
    try:
        parsed = make_url(url)
        kind = parsed.get_backend_name()
    except (ArgumentError, NoSuchModuleError, ValueError):
        raise WrongInput("is not the URL of a register", where=_without_password(url), remedy=remedy) from None
    if kind not in DRIVERS:
        raise WrongInput(f"{kind} is not a database that the register can be kept in", where="register", remedy=remedy)
    if kind == "sqlite" and not parsed.database:
        raise WrongInput("names no file", where=url, remedy=remedy)
    return parsed if "+" in parsed.drivername else parsed.set(drivername=DRIVERS[kind])


def _without_password(url: str) -> str:
    """Return an URL that nobody understood, without what may be a password."""
    return url.partition("@")[2] or url


def _engine(url: URL, name: str) -> Engine:
    if url.get_backend_name() == "sqlite":
        sqlite.make_private_folder(Path(name))
        engine = create_engine(url, connect_args={"timeout": sqlite.PATIENCE_S, "check_same_thread": False})
        sqlite.prepare(engine)
        return engine
    try:
        return create_engine(url, connect_args=postgresql.CONNECTION)
    except ModuleNotFoundError:
        remedy = "install it with pip install 'shipcalc[postgresql]'"
        raise WrongInput("the driver for PostgreSQL is not installed", where="register", remedy=remedy) from None


def _engine_room(engine: Engine) -> "sqlite.SqliteRoom | postgresql.PostgresRoom":
    return sqlite.ROOM if engine.dialect.name == "sqlite" else postgresql.ROOM


def _cannot(error: DBAPIError, name: str, engine: Engine) -> WrongInput:
    room = _engine_room(engine)
    if room.is_busy(error):
        by = room.holder(engine)
        return WrongInput(
            f"another desk is writing in it{f' ({by})' if by else ''}", where=name, remedy="try again in a minute"
        )
    why = str(error.orig or error).strip().splitlines()[0]
    return WrongInput(
        f"the register cannot be used ({why})", where=name, remedy="check that the place is there and yours"
    )
