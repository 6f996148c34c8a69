"""The command as a user has it: in a folder of its own, with no settings but those that a test writes."""

import shutil
import subprocess
import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from shipcalc.cli.main import run
from shipcalc.records import dataclass
from tests.ratebook.weekly_files import NOVEMBER_2026, write_diesel_xls, write_rates_csv

Say = Callable[..., "Said"]
DAY = "2026-12-01"
BILLS = """Number,Carrier,Kind,Amount,Currency,Date
Q-2026-0001,Wren and Thistle,fuel,101.20,USD,2026-12-15
Q-2026-0002,Wren and Thistle,all-in,1210,USD,2026-12-18
"""
MAILS = Path(__file__).parents[1] / "ratebook" / "mails"


@dataclass(frozen=True)
class Said:
    """What a command line came to."""

    status: int
    out: str
    err: str


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty working folder of somebody who has set nothing."""
    folder = tmp_path / "here"
    folder.mkdir()
    monkeypatch.chdir(folder)
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.delenv("SHIPCALC_REGISTER", raising=False)
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    return folder


@pytest.fixture
def say(here: Path, capsys: pytest.CaptureFixture[str]) -> Say:
    """Carry out a command line in this process: `say("stock", "camper")`."""

    def told(*words: str) -> Said:
        capsys.readouterr()
        status = run(words)
        captured = capsys.readouterr()
        return Said(status, captured.out, captured.err)

    return told


@pytest.fixture
def downloads(here: Path) -> None:
    """What the commands that are shown read: a carrier's mail, bills, and the files of the publishers of weekly figures."""
    shutil.copy(MAILS / "m01_haulers_letter.xlsx", here / "lanes.xlsx")
    (here / "bills.csv").write_text(BILLS, encoding="utf-8")
    write_diesel_xls(here / "psw18vwall.xls")
    write_rates_csv(here / "eurofxref.csv", NOVEMBER_2026, date(2026, 11, 27))


def with_yes(words: list[str]) -> list[str]:
    """A command line as somebody answers it who says yes to what is shown: in a test nobody is there to be asked."""
    return [*words, "--yes"] if words[:2] == ["rates", "take"] else words


@pytest.fixture
def command(here: Path) -> Callable[..., "subprocess.CompletedProcess[str]"]:
    """Carry out a command line as the installed program, in a process of its own."""

    def told(*words: str, **more: object) -> "subprocess.CompletedProcess[str]":
        program = Path(sys.executable).with_name("shipcalc")
        return subprocess.run([program, *words], text=True, capture_output=True, timeout=240, check=False, **more)  # type: ignore[call-overload, no-any-return]

    return told
