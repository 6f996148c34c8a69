"""Desks that die at any moment: the register opens afterwards, what somebody was told is there, and nothing is half there.

`KILLS=200 pytest -s tests/register/test_kills.py` kills so many desks in each of saving, accepting, reading a checklist back and
bringing an older register up to date, on both databases, and says how many died in the midst of it.
"""

import os
import random
import shutil
import signal
import sys
import time
from collections.abc import Callable
from datetime import date
from multiprocessing import get_context
from multiprocessing.connection import Connection as Pipe
from pathlib import Path

import pytest
from sqlalchemy import func, inspect, select, text

import shipcalc.checklist.returned
from shipcalc.actions import kept_quotes, kept_register, shipments
from shipcalc.actions.kept_quotes import Desk
from shipcalc.actions.quoting import Made
from shipcalc.checklist.making import checklist
from shipcalc.quote.as_data import quote_to_json
from shipcalc.records import replace
from shipcalc.register import schema
from shipcalc.register.deciding import accept
from shipcalc.register.opening import Register, open_register, url_of_file
from shipcalc.register.quotes import find_kept, keep_quote
from shipcalc.register.tables import copies, events, promises, quotes, tasks
from shipcalc.register.tables import shipments as shipments_table
from shipcalc.settings import Settings
from tests.register.handed_out import hand_out, read_back
from tests.register.test_many_desks import check_numbers

pytestmark = pytest.mark.soak

KILLS = int(os.environ.get("KILLS", "9"))
TURNS = 4  # the longest life of a desk, in turns of its work as this machine takes them now
READY, BEGUN = "ready", ""
DAY, AT = date(2026, 12, 1), "2026-12-01T16:20:05Z"
DESK = Desk(Settings(), DAY, AT, "Nadia")
NUMBER = "Q-2026-0001"
FORMER = tuple(f"{step:04d}" for step in range(1, int(schema.NEWEST)))

Tell = Callable[[str], None]


def killed(work: Callable[[Tell], None], after_s: float) -> list[str]:
    """Let a desk work in a process of its own, kill it a while after it was ready, and return what it had told by then."""
    ours, theirs = get_context("fork").Pipe(duplex=False)

    def desk(pipe: Pipe) -> None:
        work(pipe.send)

    process = get_context("fork").Process(target=desk, args=(theirs,))
    process.start()
    theirs.close()
    assert ours.recv() == READY
    time.sleep(after_s)
    process.kill()
    process.join()
    assert process.exitcode in (-signal.SIGKILL, 0), "a desk ends by being killed, not by a fault"
    process.close()
    told = []
    while ours.poll():
        try:
            told.append(ours.recv())
        except EOFError:
            break
    ours.close()
    return told


def took_s(doing: Callable[[], object]) -> float:
    began = time.monotonic()
    doing()
    return time.monotonic() - began


def say(told: str) -> None:
    sys.stdout.write(f"{told}\n")


@pytest.fixture
def chance() -> random.Random:
    return random.Random(os.environ.get("SEED", "1"))


def count(register: Register, table: object, *where: object) -> int:
    with register.reading() as connection:
        return connection.execute(select(func.count()).select_from(table).where(*where)).scalar_one()  # type: ignore[arg-type]


def _kept_elsewhere(made: Made, folder: Path) -> None:
    """Keep a quote in a register of its own, which is made for it."""
    register = open_register(url_of_file(folder / "elsewhere.sqlite"))
    keep_quote(register, made.quote, made.request, made.rates, at=AT)
    register.close()


def test_desks_are_killed_while_they_save(
    url: str, made: dict[str, Made], chance: random.Random, tmp_path: Path
) -> None:
    """The first of them while the register is being made."""
    home, told, amid = made["home"], [], 0
    takes_s = took_s(lambda: _kept_elsewhere(home, tmp_path))

    def work(tell: Tell) -> None:
        tell(READY)
        register = open_register(url)
        while True:
            tell(BEGUN)
            tell(keep_quote(register, home.quote, home.request, home.rates, at=AT).number or "")

    for _ in range(KILLS):
        said = killed(work, chance.uniform(0, TURNS * takes_s))
        amid += said[-1:] == [BEGUN]
        told += [number for number in said if number]
        check_numbers(url, told, all_told=False)
    say(f"saving: {KILLS} kills, {amid} in the midst of it, {len(told)} numbers told")
    assert told, "at least one desk lived long enough to keep something"


def test_desks_are_killed_while_they_accept(url: str, made: dict[str, Made], chance: random.Random) -> None:
    home = made["home"]
    vehicle = home.quote.vehicles[0]
    lines = len(checklist(home.quote, home.quote.options[home.quote.recommended]))
    told, amid = [], 0

    def work(tell: Tell) -> None:
        register = open_register(url)
        tell(READY)
        while True:
            name = f"X-{os.getpid()}-{time.monotonic_ns()}"
            quote = replace(home.quote, vehicles=(replace(vehicle, stock_number=name),))
            number = keep_quote(register, quote, home.request, home.rates, at=AT).number or ""
            tell(BEGUN)
            accept(register, number, choice=None, on=DAY, by="Marsh", at=AT)
            tell(number)

    register = open_register(url)
    first = keep_quote(register, home.quote, home.request, home.rates, at=AT).number or ""
    takes_s = took_s(lambda: accept(register, first, choice=None, on=DAY, by="Marsh", at=AT))
    register.close()
    for _ in range(KILLS):
        said = killed(work, chance.uniform(0, TURNS * takes_s))
        amid += said[-1:] == [BEGUN]
        told += [number for number in said if number]
        register = open_register(url)
        with register.reading() as connection:
            yes = set(connection.execute(select(quotes.c.number).where(quotes.c.state == "accepted")).scalars())
            begun = set(connection.execute(select(shipments_table.c.number)).scalars())
            promised = list(connection.execute(select(promises.c.number)).scalars())
            noted = list(connection.execute(select(events.c.number).where(events.c.what == "accepted")).scalars())
            listed = select(tasks.c.number, func.count()).group_by(tasks.c.number)
            of_each = {row[0]: row[1] for row in connection.execute(listed)}
        register.close()
        assert set(told) <= yes
        assert yes == begun == set(promised) == set(noted), "a yes is there with all that belongs to it, or not at all"
        assert len(promised) == len(noted) == len(yes)
        assert of_each == dict.fromkeys(yes, lines)
    say(f"accepting: {KILLS} kills, {amid} in the midst of it, {len(told)} told")
    assert told


def test_desks_are_killed_while_they_read_a_checklist_back(
    url: str, made: dict[str, Made], chance: random.Random, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    home = made["home"]
    monkeypatch.setenv(kept_quotes.VARIABLE, url)
    monkeypatch.setattr(shipcalc.checklist.returned, "read_returned", read_back)
    kept_quotes.keep(home, DESK)
    kept_quotes.accept(NUMBER, DESK, choice=None, on=DAY, by="")

    def one_turn(tell: Tell, note: str) -> None:
        typed = {0: {"remark": note}, 1: {"owner": note}}
        file, _ = hand_out(DESK, NUMBER, tmp_path / note, typed, "", as_workbook=False)
        tell(BEGUN)
        shipments.read_copies(NUMBER, [file], DESK, look=False)
        tell(note)

    def work(tell: Tell) -> None:
        tell(READY)
        for turn in range(10_000):
            one_turn(tell, f"note {os.getpid()}-{turn}")

    takes_s = took_s(lambda: one_turn(str, "note"))
    told, amid, last = 0, 0, 1

    for _ in range(KILLS):
        said = killed(work, chance.uniform(0, TURNS * takes_s))
        amid += said[-1:] == [BEGUN]
        told += sum(note != BEGUN for note in said)
        register = open_register(url)
        now = shipments.show(NUMBER, DESK).shipment
        read = now.version - 1
        assert last + sum(note != BEGUN for note in said) <= read <= last + sum(note == BEGUN for note in said)
        assert count(register, copies) == read == count(register, events, events.c.what == "checklist read")
        assert {line.version for line in now.lines[:2]} == {read + 1}
        assert now.lines[0].item.remark == now.lines[1].item.owner, "one copy is read wholly"
        if said[-1:] not in ([BEGUN], []):
            assert now.lines[0].item.remark == said[-1]
        register.close()
        last = read
    say(f"reading back: {KILLS} kills, {amid} in the midst of it, {told} told")
    assert told


@pytest.mark.parametrize("step", FORMER)
def test_desks_are_killed_while_they_bring_a_register_up_to_date(
    url: str, step: str, made: dict[str, Made], chance: random.Random, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    kept, tables = older(url, step, made, monkeypatch)
    ended = {step: 0, schema.NEWEST: 0}
    monkeypatch.setenv(kept_quotes.VARIABLE, another(url, tmp_path / "whole"))
    takes_s = took_s(lambda: kept_register.upgrade(DESK, tmp_path))
    kills = max(KILLS // len(FORMER), 3)
    for turn in range(kills):
        again = another(url, tmp_path / str(turn))
        monkeypatch.setenv(kept_quotes.VARIABLE, again)
        beside = tmp_path / f"beside-{turn}"
        beside.mkdir()

        def work(tell: Tell, beside: Path = beside) -> None:
            tell(READY)
            kept_register.upgrade(DESK, beside)

        killed(work, chance.uniform(0, takes_s))
        register = open_register(again, any_version=True)
        with register.reading() as connection:
            version = schema.version_of(connection) or ""
            there = set(inspect(connection).get_table_names())
        register.close()
        ended[version] += 1
        assert version == schema.NEWEST or there == tables, "no half step"
        kept_register.upgrade(DESK, beside)
        register = open_register(again)
        with register.reading() as connection:
            found = [quote_to_json(find_kept(connection, number).quote) for number in kept]
            begun = list(connection.execute(select(shipments_table.c.number)).scalars())
        register.close()
        assert found == list(kept.values())
        assert begun == [NUMBER]
    say(f"from {step}: {kills} kills, {ended[step]} before its end")
    assert ended[step], "at least one died before it was done"


def older(
    url: str, step: str, made: dict[str, Made], monkeypatch: pytest.MonkeyPatch
) -> tuple[dict[str, str], set[str]]:
    """Make a register of a former version, of whose quotes the first is accepted; return the quotes, and its tables."""
    real = schema.upgrade
    with monkeypatch.context() as then:
        then.setattr(schema, "NEWEST", step)
        then.setattr(schema, "upgrade", lambda connection: real(connection, step))
        register = open_register(url)
        kept = [keep_quote(register, one.quote, one.request, one.rates, at=AT) for one in made.values()]
        yes = text("update quotes set state = 'accepted', choice = 0, decided_on = :day where number = :number")
        with register.writing() as connection:
            day = DAY.isoformat() if connection.dialect.name == "sqlite" else DAY
            connection.execute(yes, {"number": NUMBER, "day": day})
        with register.reading() as connection:
            tables = set(inspect(connection).get_table_names())
        register.close()
    return {one.number or "": quote_to_json(one) for one in kept}, tables


def another(url: str, folder: Path) -> str:
    """Return where a copy of a register is."""
    if url.startswith("sqlite"):
        folder.mkdir()
        return url_of_file(Path(shutil.copy(url.removeprefix("sqlite:///"), folder / "register.sqlite")))
    psycopg = pytest.importorskip("psycopg")
    server, _, name = url.rpartition("/")
    with psycopg.connect(f"{server}/postgres", autocommit=True) as connection:
        connection.execute(f'create database "{name}-{folder.name}" template "{name}"')
    return f"{server}/{name}-{folder.name}"
