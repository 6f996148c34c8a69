"""A quote is on the screen at once, because what it does not need is not imported."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

HEAVY = (
    "pandas",
    "pyarrow",
    "PIL",
    "openpyxl",
    "geopy",
    "rich",
    "pydantic",
    "scipy",
    "rapidfuzz",
    "click.testing",
    "asyncio",
)
WORDS = {
    "quote": ("quote", "--vehicle", "HV-1153", "--to", "53703", "--as-of", "2026-12-01"),
    "place": ("place", "Portland"),
    "stock": ("stock", "camper"),
    "help": ("quote", "--help"),
}


def imported(here: Path, words: tuple[str, ...]) -> set[str]:
    """Return the modules that a cold command imports, as Python's own -X importtime lists them."""
    program = Path(sys.executable).with_name("shipcalc")
    done = subprocess.run(
        [sys.executable, "-X", "importtime", program, *words],
        cwd=here,
        text=True,
        capture_output=True,
        timeout=60,
        check=True,
    )
    return set(re.findall(r"^import time:.*\|\s*([\w.]+)$", done.stderr, re.MULTILINE))


@pytest.mark.parametrize("name", WORDS)
def test_nothing_heavy_is_imported(here: Path, name: str) -> None:
    modules = imported(here, WORDS[name])
    assert "shipcalc.cli.main" in modules
    assert [module for module in HEAVY if module in modules] == []


def test_help_does_not_even_need_numbers(here: Path) -> None:
    assert "numpy" not in imported(here, WORDS["help"])


def test_the_gate_sees_what_is_imported(here: Path) -> None:
    assert "openpyxl" in imported(here, (*WORDS["quote"], "--out", "files"))
