"""Somebody who has nothing but the README: a clean home, an empty folder, the list to begin with; other terminals and code pages.

The code pages are those that Windows consoles have (Western, the older DOS one, Japanese); they are tried here by the encoding
that Python is told, not on Windows.
"""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from shipcalc.cli.main import SINGLE
from tests.journeys.test_readme import begin_commands, begin_lines

PROGRAM = Path(sys.executable).with_name("shipcalc")
QUOTE = ("quote", "--vehicle", "HV-1042", "--to", "59715", "--as-of", "2026-12-01")
OVERSEAS = ("quote", "--vehicle", "HV-1027", "--to", "Bremen, Germany", "--as-of", "2026-12-01", "--full")
MOST_LINES = 10
NARROWEST = 50  # columns: below, a table keeps its figures and the terminal breaks the line


def test_a_salesperson_begins_in_ten_lines_and_each_command_works(here: Path, tmp_path: Path) -> None:
    """In the order of the page, by the installed program, with nothing that somebody set before."""
    assert len(begin_lines()) <= MOST_LINES
    commands = begin_commands()
    assert {words[0] for words in commands} >= {"quote", "quotes"}
    clean = {"HOME": str(tmp_path / "home"), "PATH": os.environ["PATH"], "COLUMNS": "80"}
    for words in commands:
        if words[0] == "setup":  # it asks, and here is nobody: tests/journeys/test_setup.py
            continue
        done = subprocess.run([PROGRAM, *words], capture_output=True, text=True, check=False, env=clean, timeout=240)
        assert (done.returncode, done.stdout != "") == (0, True), f"{words}: {done.stderr}"


@pytest.mark.parametrize("code_page", ["cp1252", "cp437", "cp932", "ascii"])
@pytest.mark.parametrize("words", [QUOTE, OVERSEAS], ids=["home", "overseas"])
def test_a_code_page_without_our_signs_loses_none_of_the_figures(
    here: Path, code_page: str, words: tuple[str, ...]
) -> None:
    told = {}
    for name in ("utf-8", code_page):
        environment = os.environ | {"PYTHONIOENCODING": name, "PYTHONUTF8": "0"}
        done = subprocess.run([PROGRAM, *words], capture_output=True, check=False, env=environment, timeout=240)
        assert done.returncode == 0, done.stderr
        told[name] = re.findall(r"\d[\d,.]*", done.stdout.decode(name))
    assert told[code_page] == told["utf-8"]
    assert "1,045.00" in told[code_page] or words is OVERSEAS


@pytest.mark.parametrize(
    "name", [*SINGLE, "checklist", "rates", "quotes", "shipments", "contacts", "costs", "people", "register"]
)
def test_help_fits_a_narrow_terminal(say, monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    monkeypatch.setenv("COLUMNS", str(NARROWEST))
    told = say(name, "--help")
    assert told.status == 0
    assert [line for line in told.out.splitlines() if len(line) > NARROWEST] == []


def test_status_says_done_no_and_wrong(say) -> None:
    assert say(*QUOTE).status == 0
    assert say(*QUOTE, "--by", "2026-12-02").status == 1
    assert say("quote", "--vehicle", "HV-1042", "--to", "Portland").status == 2
