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
    return set(in_order(here, words))


def in_order(here: Path, words: tuple[str, ...]) -> list[str]:
    """Return the same in the order in which they were there."""
    done = subprocess.run(
        [sys.executable, "-X", "importtime", "-m", "shipcalc", *words],
        cwd=here,
        text=True,
        capture_output=True,
        timeout=60,
        check=True,
    )
    return re.findall(r"^import time:.*\|\s*([\w.]+)$", done.stderr, re.MULTILINE)


@pytest.mark.parametrize("name", WORDS)
def test_nothing_heavy_is_imported(here: Path, name: str) -> None:
    modules = imported(here, WORDS[name])
    assert "shipcalc.cli.main" in modules
    assert [module for module in HEAVY if module in modules] == []


def test_help_does_not_even_need_numbers(here: Path) -> None:
    assert "numpy" not in imported(here, WORDS["help"])


@pytest.mark.parametrize("name", ["quote", "place", "stock"])
def test_numbers_are_there_before_what_makes_their_import_slow(here: Path, name: str) -> None:
    """`typing_extensions` has each of the thousands of names in numpy's `Literal` types cost two calls more, 30 ms of 250 in all."""
    modules = in_order(here, WORDS[name])
    assert modules.index("numpy") < modules.index("typing_extensions")


def test_the_gate_sees_what_is_imported(here: Path) -> None:
    assert "openpyxl" in imported(here, (*WORDS["quote"], "--out", "files"))
