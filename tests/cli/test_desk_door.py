"""`shipcalc desk` is on this machine alone; it lets others in over TLS and by sign-in only."""

import io
from pathlib import Path

import pytest

from shipcalc.cli.desk import _door
from shipcalc.cli.main import run
from shipcalc.desk.safety import LOOPBACK

NO = {"host": "", "name": "", "certificate": None, "private_key": None, "proxy": False}


def test_it_is_on_this_machine_alone_unless_told_otherwise(tmp_path: Path) -> None:
    door = _door(tmp_path, **NO)
    assert (door.names, door.sign_in) == (LOOPBACK, False)


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"host": "0.0.0.0"}, "--name: it is missing"),
        ({"host": "0.0.0.0", "name": "a b"}, "is no name of a server"),
        ({"host": "0.0.0.0", "name": "desk.example"}, "must be encrypted"),
        ({"host": "0.0.0.0", "name": "desk.example", "certificate": Path("c.pem")}, "must be encrypted"),
        ({"host": "0.0.0.0", "name": "desk.example", "proxy": True}, "on this machine alone"),
        ({"name": "desk.example", "certificate": Path("c.pem"), "private_key": Path("k.pem")}, "no such file"),
        ({"name": "desk.example", "proxy": True}, "nobody may sign in yet"),
    ],
)
def test_others_do_not_reach_it_unsafely(
    tmp_path: Path, monkeypatch, capsys, more: dict[str, object], words: str
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "shipcalc.toml").write_text('[dealer]\nname = "Heron & Vale Motors"\n')
    options = {"host": "--host", "name": "--name", "certificate": "--certificate", "private_key": "--private-key"}
    words_of = [word for field, value in more.items() if field in options for word in (options[field], str(value))]
    assert run(["desk", *words_of, *(["--behind-proxy"] if more.get("proxy") else [])]) == 2
    assert words in capsys.readouterr().err


def test_whoever_was_added_may_sign_in(tmp_path: Path, monkeypatch, capsys) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "shipcalc.toml").write_text('[dealer]\nname = "Heron & Vale Motors"\n')
    monkeypatch.setattr("sys.stdin", io.StringIO("mossy otter umbrella\n"))
    assert run(["people", "add", "Ida Quarles", "--role", "office"]) == 0
    assert run(["people", "list"]) == 0
    assert "Ida Quarles" in capsys.readouterr().out
    door = _door(tmp_path, **{**NO, "name": "Desk.example", "proxy": True})
    assert (door.names[0], door.sign_in) == ("desk.example", True)
    assert run(["people", "add", "Ida Quarles", "--role", "owner"]) == 2
    assert "--role" in capsys.readouterr().err
