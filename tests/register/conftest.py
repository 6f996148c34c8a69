"""Registers to try things with, of both kinds; the server is PostgreSQL's own, started for the session in a folder of its own."""

import os
import pwd
import shutil
import signal
import socket
import subprocess
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from shipcalc.actions.quoting import Made, Order, made_quote, open_books
from shipcalc.actions.sources import invented_sources
from shipcalc.register.opening import Register, open_register, url_of_file

AT = "2026-12-01T16:20:05Z"
DAY = date(2026, 12, 1)


def _program(name: str) -> str | None:
    """Return one of PostgreSQL's programs, which Debian keeps off the path."""
    return shutil.which(name) or next(
        iter(sorted(map(str, Path("/usr/lib/postgresql").glob(f"*/bin/{name}")), reverse=True)), None
    )


def _as_nobody_special() -> dict[str, object]:
    """PostgreSQL does not run as root."""
    if os.getuid() != 0:
        return {}
    user = pwd.getpwnam("postgres")
    return {"user": user.pw_uid, "group": user.pw_gid, "extra_groups": []}


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """A server of PostgreSQL; its URL without a database. Without the program a test is skipped, but fails where CI is set."""
    initdb, postgres = _program("initdb"), _program("postgres")
    if initdb is None or postgres is None:
        if os.environ.get("CI"):
            pytest.fail("PostgreSQL is not installed, and this check may not be left out in CI")
        pytest.skip("PostgreSQL is not installed")
    folder = Path("/tmp") / f"shipcalc-pg-{os.getpid()}"
    folder.mkdir(mode=0o700)
    who = _as_nobody_special()
    if who:
        os.chown(folder, who["user"], who["group"])  # type: ignore[arg-type]
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    data = folder / "data"
    made = subprocess.run(
        [initdb, "-D", data, "-U", "desk", "-A", "trust", "-E", "UTF8", "--locale", "C", "-N"],
        capture_output=True,
        text=True,
        check=False,
        cwd=folder,
        **who,  # type: ignore[call-overload]
    )
    assert made.returncode == 0, made.stderr
    # What is killed here is a desk, and never the computer: nothing has to reach a disk. The server tidies up nothing by itself,
    # so that whatever is written there was written by a desk.
    settings = ("-c", "max_connections=60", "-c", "fsync=off", "-c", "autovacuum=off")
    run = [postgres, "-D", data, "-h", "127.0.0.1", "-p", str(port), "-k", folder, *settings]
    log = (folder / "log").open("w")
    process = subprocess.Popen(run, stdout=log, stderr=log, cwd=folder, **who)  # type: ignore[call-overload]
    try:
        _wait_for(port, process)
        yield f"postgresql://desk@127.0.0.1:{port}/"
    finally:
        process.send_signal(signal.SIGINT)  # a fast shutdown: it does not wait for who is still connected
        process.wait(timeout=120)
        log.close()
        shutil.rmtree(folder, ignore_errors=True)


def _wait_for(port: int, process: "subprocess.Popen[bytes]") -> None:
    import time

    import psycopg

    for _ in range(600):
        assert process.poll() is None, "the server ended at once"
        try:
            psycopg.connect(host="127.0.0.1", port=port, user="desk", dbname="postgres", connect_timeout=2).close()
        except psycopg.OperationalError:
            time.sleep(0.1)
        else:
            return
    pytest.fail("the server did not come up")


@pytest.fixture(params=["sqlite", "postgresql"])
def url(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """Where a register may be made, in each kind of database."""
    if request.param == "sqlite":
        return url_of_file(tmp_path / "kept" / "register.sqlite")
    import psycopg

    server = request.getfixturevalue("server")
    name = f"r{abs(hash(str(tmp_path))) % 10**12}"
    with psycopg.connect(f"{server}postgres", autocommit=True) as connection:
        connection.execute(f'create database "{name}"')  # type: ignore[call-overload]
    return f"{server}{name}"


@pytest.fixture
def register(url: str) -> Iterator[Register]:
    """A new register."""
    opened = open_register(url)
    yield opened
    opened.close()


@pytest.fixture(scope="session")
def made() -> dict[str, Made]:
    """A quote at home and one overseas, of the invented dealer."""
    sources = invented_sources()
    books = open_books(sources)
    orders = {
        "home": Order(vehicles=("HV-1042",), to="59715", buyer="Åsa Lindqvist"),
        "overseas": Order(vehicles=("HV-1027",), to="Bremen, Germany", buyer="K. Brandt"),
    }
    return {name: made_quote(order, sources, as_of=DAY, books=books) for name, order in orders.items()}
