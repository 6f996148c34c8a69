"""All that is kept, in one file and back: into either database, from older steps, never from a damaged or a newer one."""

import json
import stat
import zipfile
from pathlib import Path

import pytest
from sqlalchemy import create_engine, text

from shipcalc.actions.quoting import Made
from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.register import sqlite
from shipcalc.register.backup import back_up, restore
from shipcalc.register.deciding import accept
from shipcalc.register.opening import Register, open_register, url_of_file
from shipcalc.register.quotes import keep_quote
from shipcalc.register.schema import NEWEST, upgrade, version_of
from shipcalc.register.tables import metadata
from shipcalc.register.verifying import verify
from tests.register.conftest import AT, DAY


@pytest.fixture
def filled(register: Register, made: dict[str, Made]) -> Register:
    """A register with two quotes, one accepted."""
    for one in made.values():
        keep_quote(register, one.quote, one.request, one.rates, at=AT)
    accept(register, "Q-2026-0001", choice=None, on=DAY, by="Åsa", at=AT)
    return register


def rows_of(register: Register) -> dict[str, list[tuple[object, ...]]]:
    """Everything in a register."""
    with register.reading() as connection:
        return {
            name: sorted((tuple(row) for row in connection.execute(table.select())), key=repr)
            for name, table in metadata.tables.items()
        }


def test_a_backup_comes_back_row_by_row(filled: Register, tmp_path: Path) -> None:
    file = tmp_path / "all.zip"
    done = back_up(filled, file)
    assert done.rows["quotes"] == 2
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    other = open_register(url_of_file(tmp_path / "other.sqlite"))
    restore(other, file)
    assert rows_of(other) == rows_of(filled)
    assert all(one.same for one in verify(other))
    other.close()


def test_what_is_restored_goes_on_counting(filled: Register, made: dict[str, Made], tmp_path: Path) -> None:
    back_up(filled, tmp_path / "all.zip")
    restore(filled, tmp_path / "all.zip", over=True)
    one = made["home"]
    assert keep_quote(filled, one.quote, one.request, one.rates, at=AT).number == "Q-2026-0003"


def test_a_number_that_was_given_after_the_backup_is_not_given_again(
    filled: Register, made: dict[str, Made], tmp_path: Path
) -> None:
    """Found on 28 November 2026: the paper with Q-2026-0003 is with its buyer, whatever is restored."""
    back_up(filled, tmp_path / "all.zip")
    one = made["home"]
    assert keep_quote(filled, one.quote, one.request, one.rates, at=AT).number == "Q-2026-0003"
    restore(filled, tmp_path / "all.zip", over=True)
    assert keep_quote(filled, one.quote, one.request, one.rates, at=AT).number == "Q-2026-0004"


def test_a_full_register_is_not_written_over_unasked(filled: Register, tmp_path: Path) -> None:
    back_up(filled, tmp_path / "all.zip")
    before = rows_of(filled)
    with pytest.raises(NoAnswer, match="holds 2 quotes already"):
        restore(filled, tmp_path / "all.zip")
    assert rows_of(filled) == before


@pytest.mark.parametrize("harm", ["cut", "changed page", "no zip", "newer", "no contents", "missing"])
def test_a_faulty_backup_changes_nothing(filled: Register, tmp_path: Path, harm: str) -> None:
    file = tmp_path / "all.zip"
    back_up(filled, file)
    with zipfile.ZipFile(file) as archive:
        pages = {name: archive.read(name) for name in archive.namelist()}
    contents = json.loads(pages["contents.json"])
    if harm == "changed page":
        pages["quotes.jsonl"] = pages["quotes.jsonl"].replace(b"Lindqvist", b"Lindquist")
    elif harm == "newer":
        pages["contents.json"] = json.dumps(contents | {"version": "9999"}).encode()
    elif harm == "no contents":
        del pages["contents.json"]
    with zipfile.ZipFile(file, "w") as archive:
        for name, page in pages.items():
            archive.writestr(name, page)
    if harm == "cut":
        file.write_bytes(file.read_bytes()[:-300])
    elif harm == "no zip":
        file.write_bytes(b"once upon a time")
    elif harm == "missing":
        file.unlink()
    before = rows_of(filled)
    with pytest.raises(WrongInput):
        restore(filled, file, over=True)
    assert rows_of(filled) == before


def test_a_newer_register_is_told_and_not_touched(url: str) -> None:
    register = open_register(url)
    with register.writing() as connection:
        connection.execute(text("update alembic_version set version_num = '9999'"))
    register.close()
    with pytest.raises(WrongInput, match="newer than the program"):
        open_register(url)


def test_an_older_register_is_told_and_not_touched(url: str) -> None:
    register = open_register(url)
    with register.writing() as connection:
        connection.execute(text("update alembic_version set version_num = '0000'"))
    register.close()
    with pytest.raises(WrongInput, match=r"of an older version.*shipcalc register upgrade"):
        open_register(url)


def test_the_newest_step_is_the_last_file() -> None:
    from alembic.config import Config
    from alembic.script import ScriptDirectory

    import shipcalc.register

    config = Config()
    config.set_main_option("script_location", str(Path(shipcalc.register.__file__).parent / "migrations"))
    assert ScriptDirectory.from_config(config).get_current_head() == NEWEST


def test_a_database_with_other_tables_is_left_alone(tmp_path: Path) -> None:
    file = tmp_path / "other.sqlite"
    engine = create_engine(url_of_file(file))
    with engine.begin() as connection:
        connection.execute(text("create table recipes (name text)"))
    engine.dispose()
    with pytest.raises(WrongInput, match=r"holds other tables \(recipes\)"):
        open_register(url_of_file(file))


def test_making_is_one_transaction(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A stop in the middle of making leaves a file with no tables, which the next start makes."""
    url = url_of_file(tmp_path / "r.sqlite")
    real = upgrade

    def stops(connection: object, to: str = NEWEST) -> None:
        real(connection, to)  # type: ignore[arg-type]
        raise KeyboardInterrupt

    monkeypatch.setattr("shipcalc.register.schema.upgrade", stops)
    with pytest.raises(KeyboardInterrupt):
        open_register(url)
    monkeypatch.undo()
    engine = create_engine(url)
    with engine.connect() as connection:
        assert version_of(connection) is None
    engine.dispose()
    open_register(url).close()


def test_the_file_is_for_nobody_else(tmp_path: Path) -> None:
    register = open_register(url_of_file(tmp_path / "mine" / "r.sqlite"))
    with register.reading() as connection:
        connection.execute(text("select 1"))
    kept = [stat.S_IMODE(file.stat().st_mode) for file in (tmp_path / "mine").iterdir()]
    register.close()
    assert set(kept) == {0o600}
    assert stat.S_IMODE((tmp_path / "mine").stat().st_mode) == 0o700


def test_who_waits_too_long_is_told_for_whom(url: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sqlite, "PATIENCE_S", 0.2)
    monkeypatch.setattr(
        "shipcalc.register.postgresql.CONNECTION", {"connect_timeout": 10, "options": "-c lock_timeout=200"}
    )
    one, other = open_register(url), open_register(url)

    def write() -> None:
        with other.writing("keeping a quote"):
            pass

    with (
        one.writing("restoring a backup"),
        pytest.raises(WrongInput, match=r"another desk is writing in it .*restoring a backup"),
    ):
        write()
    write()
    one.close()
    other.close()
