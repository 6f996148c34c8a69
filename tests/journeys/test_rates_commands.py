"""The manager's commands, as a manager uses them."""

import json
from pathlib import Path

import pytest

from shipcalc.ratebook.tables import WORKBOOKS


def test_new_workbooks_can_be_quoted_from_at_once(say, here: Path) -> None:
    made = say("rates", "new", "mine")
    assert made.status == 0
    assert made.out.split() == [str(Path("mine") / name) for name in WORKBOOKS]
    assert "invented" in made.err
    checked = say("rates", "check", "mine", "--as-of", "2026-12-01")
    assert checked.status == 0
    assert "No faults. Fingerprint " in checked.out
    assert say("quote", "--vehicle", "HV-1042", "--to", "59715", "--rates", "mine", "--as-of", "2026-12-01").status == 0


def test_nothing_of_the_managers_is_written_over(say, here: Path) -> None:
    kept = here / "mine/trucking.xlsx"
    kept.parent.mkdir()
    kept.write_bytes(b"a year of work")
    told = say("rates", "new", "mine")
    assert told.status == 2
    assert "trucking.xlsx: is there already — name another folder, or move it away" in told.err
    assert kept.read_bytes() == b"a year of work"
    assert [path.name for path in kept.parent.iterdir()] == ["trucking.xlsx"]


def test_empty_workbooks_say_what_is_missing(say, here: Path) -> None:
    assert say("rates", "new", "mine", "--empty").status == 0
    told = say("rates", "check", "mine")
    assert told.status == 1
    assert "no quote can be made until they are mended" in told.out
    assert "Carriers" in told.out


def test_a_check_can_be_had_as_data(say, here: Path) -> None:
    say("rates", "new", "mine")
    told = json.loads(say("rates", "check", "mine", "--as-of", "2026-12-01", "--json").out)
    assert told["faults"] == []
    assert len(told["fingerprint"]) == 16
    assert any("later break" in warning for warning in told["warnings"])


@pytest.mark.parametrize("words", [("rates", "check", "nowhere"), ("rates", "new")])
def test_what_cannot_be_done_is_a_sentence(say, words: tuple[str, ...]) -> None:
    told = say(*words)
    assert told.status in (1, 2)
    assert "Traceback" not in told.out + told.err


@pytest.mark.parametrize("name", ["check", "new"])
def test_each_has_help_with_an_example(say, name: str) -> None:
    assert f"Example: shipcalc rates {name}" in say("rates", name, "--help").out
