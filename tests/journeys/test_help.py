"""Every command says what it does, with one example that works."""

import io
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

import shipcalc
from shipcalc.cli import (
    contacts,
    costs,
    kept,
    kept_register,
    lanes,
    manager,
    newcomer,
    office,
    people,
    sales,
    setup,
    shipments,
    today,
)
from shipcalc.cli.main import SINGLE, commands_of
from tests.journeys.conftest import with_yes

COMMANDS = [*newcomer.COMMANDS, *setup.COMMANDS, *sales.COMMANDS, *lanes.COMMANDS, *today.COMMANDS]
NAMES = [name for name, *_ in COMMANDS] + [
    "checklist",
    "quotes",
    "shipments",
    "contacts",
    "costs",
    "people",
    "register",
]
VERBS = [("checklist", *command) for command in office.COMMANDS] + [("rates", *command) for command in manager.COMMANDS]
VERBS += [("quotes", *command) for command in kept.COMMANDS]
VERBS += [("contacts", *command) for command in contacts.COMMANDS]
VERBS += [("shipments", *command) for command in shipments.COMMANDS]
VERBS += [("costs", *command) for command in costs.COMMANDS]
VERBS += [("people", *command) for command in people.COMMANDS]
VERBS += [("register", *command) for command in kept_register.COMMANDS]


def test_the_commands_are_those_of_the_three_people() -> None:
    assert NAMES == [
        "demo",
        "setup",
        "quote",
        "stock",
        "place",
        "miles",
        "lanes",
        "today",
        "checklist",
        "quotes",
        "shipments",
        "contacts",
        "costs",
        "people",
        "register",
    ]


def test_a_command_is_found_in_the_module_that_has_it() -> None:
    found = {name: module for module in set(SINGLE.values()) for name, *_ in commands_of(module)}
    assert found == SINGLE


def test_the_bare_command_shows_every_verb_and_where_to_begin(say) -> None:
    bare = say()
    assert bare.status == 0
    assert bare.out == say("--help").out
    assert all(f"  {name} " in bare.out for name in NAMES)
    assert "Begin with: shipcalc demo" in bare.out


def test_the_module_is_the_command(here: Path) -> None:
    asked = [sys.executable, "-m", "shipcalc", "--version"]
    done = subprocess.run(asked, capture_output=True, text=True, check=True, timeout=120)
    assert done.stdout == f"shipcalc {shipcalc.__version__}\n"


def test_the_version_is_told(say) -> None:
    assert say("--version").out == f"shipcalc {shipcalc.__version__}\n"


@pytest.mark.parametrize("name", NAMES)
def test_every_command_has_help_with_an_example_of_itself(say, name: str) -> None:
    told = say(name, "--help")
    assert told.status == 0
    assert told.err == ""
    assert f"Example: shipcalc {name}" in told.out


@pytest.mark.parametrize(("name", "verb"), [words[:2] for words in VERBS])
def test_every_verb_has_help_with_an_example_of_itself(say, name: str, verb: str) -> None:
    told = say(name, verb, "--help")
    assert (told.status, told.err) == (0, "")
    assert f"Example: shipcalc {name}" in told.out


@pytest.mark.parametrize("name", ["checklist", "rates"])
def test_a_command_with_verbs_alone_says_what_they_are(say, name: str) -> None:
    bare = say(name)
    assert (bare.status, bare.err) == (0, "")
    assert bare.out == say(name, "--help").out
    assert all(f"  {verb} " in bare.out for command, verb, *_ in VERBS if command == name)


def test_every_example_in_the_help_works(say, downloads, monkeypatch) -> None:
    """That of `demo`, which takes longer than all others, is what `test_demo.py` goes by."""
    for place in ("59715", "53703"):
        assert say("quote", "--vehicle", "HV-1042", "--to", place, "--save").status == 0
    assert say("quote", "--vehicle", "HV-1027", "--to", "59715", "--save").status == 0
    assert say("quotes", "accept", "3").status == 0
    for *_, example in (*COMMANDS[len(newcomer.COMMANDS) :], *VERBS):
        program, *words = shlex.split(example)
        assert program == "shipcalc"
        monkeypatch.setattr("sys.stdin", io.StringIO("mossy otter umbrella\n"))  # who is added has a password
        done = say(*with_yes(words))
        assert (done.status, done.err.count("shipcalc:")) == (0, 0), f"{example}: {done.err}"
        assert done.out
