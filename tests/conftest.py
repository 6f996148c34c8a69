"""What several rooms' tests share: an independent spreadsheet program that computes our workbooks anew, and what it must show."""

import fcntl
import gc
import os
import re
import shutil
import subprocess
from collections.abc import Callable, Sequence
from decimal import ROUND_HALF_UP, Decimal
from functools import lru_cache
from pathlib import Path
from types import SimpleNamespace

import pytest
from hypothesis import HealthCheck, settings

from shipcalc.money import decimals
from shipcalc.quote.model import Quote
from shipcalc.sheets.reading import Sheet, WorkbookFile, read_workbook

# Compute every formula when a file is opened, whatever results are stored in it (Tools, Options, Calc, Formula: "always").
_ALWAYS_COMPUTE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
"""
_SECONDS = 300
# What Poppler finds odd and is as ISO 32000-1 has it: a boolean (table 321), and one colour for each edge (table 343).
_POPPLERS_OWN = (
    "Syntax Error: Suspects object is wrong type (boolean)",
    "Syntax Warning: Attribute BorderColor value is of wrong type (array)",
)

# No test is timed: a machine that others use as well is slow, and that is no fault of the program.
# `EXAMPLES=1000 pytest tests/properties` tries more of whatever is drawn at random, as `.ci/run` does.
settings.register_profile(
    "untimed",
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
    max_examples=int(os.environ.get("EXAMPLES", "50")),
)
settings.load_profile("untimed")
gc.set_threshold(100_000)  # as a process of shipcalc has it


def pytest_xdist_auto_num_workers(config: pytest.Config) -> int | None:
    """Let the whole suite run on all cores; named files run sooner in this process, where a debugger and benchmarks work."""
    is_whole = config.args_source is not pytest.Config.ArgsSource.ARGS
    config.option.dist = "worksteal" if is_whole else "no"
    return None if is_whole else 0


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave soak runs out of the whole suite; they run where they are named, by their file or by `-m soak`."""
    if config.args_source is pytest.Config.ArgsSource.ARGS or config.option.markexpr:
        return
    soaking = [item for item in items if item.get_closest_marker("soak")]
    if soaking:
        config.hook.pytest_deselected(items=soaking)
        items[:] = [item for item in items if item not in soaking]


MakeOnce = Callable[[str, Callable[[Path], None]], Path]


@pytest.fixture(scope="session")
def made_once(tmp_path_factory: pytest.TempPathFactory) -> MakeOnce:
    """Return what fills a folder once for the whole run, whichever worker asks first: `made_once(name, fill)` → the folder."""
    base = tmp_path_factory.getbasetemp()
    shared = base.parent if os.environ.get("PYTEST_XDIST_WORKER") else base

    def once(name: str, fill: Callable[[Path], None]) -> Path:
        folder, ready = shared / name, shared / f"{name}.ready"
        with (shared / f"{name}.lock").open("w") as lock:
            fcntl.flock(lock, fcntl.LOCK_EX)
            if not ready.exists():
                folder.mkdir()
                fill(folder)
                ready.touch()
        return folder

    return once


Books = dict[str, WorkbookFile]
Recalculate = Callable[[Sequence[Path]], Books]


def libreoffice() -> str:
    """Return LibreOffice's command. Without it a test is skipped, but fails where CI is set: the gate may not lose a check."""
    return _command("soffice", "LibreOffice")


def _command(name: str, program: str) -> str:
    command = shutil.which(name)
    if command is None:
        if os.environ.get("CI"):
            pytest.fail(f"{program} ({name}) is not installed, and this check may not be left out in CI")
        pytest.skip(f"{program} ({name}) is not installed")
    return command


ReadPdf = Callable[..., str]


@pytest.fixture(scope="session")
def read_pdf() -> ReadPdf:
    """Return a reader of PDFs that is not ours, Poppler: `read(pdf, "pdftotext", "-layout")` → what it writes.

    A PDF that breaks the format makes Poppler say so, and the test fails. What many tests ask of one PDF is read once.
    """

    @lru_cache(maxsize=64)
    def read(pdf: bytes, tool: str = "pdftotext", *options: str) -> str:
        into = ("-",) if tool == "pdftotext" else ()
        command = [_command(tool, "Poppler"), *options, "-", *into]
        run = subprocess.run(command, input=pdf, capture_output=True, check=True, timeout=_SECONDS)
        assert [line for line in run.stderr.decode().splitlines() if line not in _POPPLERS_OWN] == []
        return run.stdout.decode()

    return read


@pytest.fixture(scope="session")
def saved_elsewhere(tmp_path_factory: pytest.TempPathFactory) -> Callable[[Sequence[Path]], Path]:
    """Return a function that has LibreOffice open, compute and save many workbooks in one start: paths → the folder of the copies.

    One profile serves the whole session: to make a new one takes LibreOffice longer than to save a workbook.
    """
    command = libreoffice()
    profile = tmp_path_factory.mktemp("profile")
    (profile / "user").mkdir()
    (profile / "user" / "registrymodifications.xcu").write_text(_ALWAYS_COMPUTE)

    def saved(paths: Sequence[Path]) -> Path:
        assert len({path.name for path in paths}) == len(paths), "names must differ: the results stand in one folder"
        folder = tmp_path_factory.mktemp("computed")
        subprocess.run(
            [command, f"-env:UserInstallation={profile.as_uri()}", "--headless", "--convert-to", "xlsx",
             "--outdir", str(folder), *map(str, paths)],
            check=True, capture_output=True, timeout=_SECONDS,
        )  # fmt: skip
        return folder

    return saved


@pytest.fixture(scope="session")
def recalculate(saved_elsewhere: Callable[[Sequence[Path]], Path]) -> Recalculate:
    """Return a function that has many workbooks computed in one call: paths (names all different) → values by file name."""

    def computed(paths: Sequence[Path]) -> Books:
        folder = saved_elsewhere(paths)
        return {path.name: read_workbook(folder / path.name) for path in paths}

    return computed


@pytest.fixture(scope="session")
def printed(tmp_path_factory: pytest.TempPathFactory) -> Callable[[Sequence[Path]], dict[str, list[str]]]:
    """Return a function that prints many workbooks in one call: paths → the text of every page by file name."""
    command = libreoffice()
    profile = tmp_path_factory.mktemp("profile")

    def pages(paths: Sequence[Path]) -> dict[str, list[str]]:
        folder = tmp_path_factory.mktemp("printed")
        subprocess.run(
            [command, f"-env:UserInstallation={profile.as_uri()}", "--headless", "--convert-to", "pdf",
             "--outdir", str(folder), *map(str, paths)],
            check=True, capture_output=True, timeout=_SECONDS,
        )  # fmt: skip
        told = {}
        for path in paths:
            command_line = ["pdftotext", "-layout", str(folder / f"{path.stem}.pdf"), "-"]
            text = subprocess.run(command_line, check=True, capture_output=True, timeout=60).stdout.decode()
            told[path.name] = text.split("\f")[:-1]
        return told

    return pages


@pytest.fixture(scope="session")
def amounts_shown() -> SimpleNamespace:
    """Return what compares a recalculated workbook with its quote: every amount of every line, every total, to the cent."""
    return SimpleNamespace(
        SHEET=SHEET, choices_on=choices_on, seen=seen, check_buyer=check_buyer, check_office=check_office
    )


SHEET = "Line by line"


def choices_on(sheet: Sheet) -> list[list[tuple]]:
    """Return the rows of each choice, cut at the headings "Choice 1 · …"; the sheet may have the recommended one first."""
    parts: dict[int, list[tuple]] = {}
    number = 0
    for row in sheet.rows:
        if isinstance(row[0], str) and row[0].startswith("Choice "):
            number = int(row[0].split()[1])
            assert number not in parts
            parts[number] = []
        elif number:
            parts[number].append(row)
    assert sorted(parts) == list(range(1, len(parts) + 1))
    return [parts[number] for number in sorted(parts)]


def seen(value, currency: str) -> Decimal:
    """Return what a cell shows in the currency's decimals; a value that is off by more than a display's rounding is an error."""
    assert isinstance(value, int | float), f"{value!r} is not a number"
    shown = Decimal(repr(value)).quantize(Decimal(1).scaleb(-decimals(currency)), ROUND_HALF_UP)
    assert abs(Decimal(repr(value)) - shown) < Decimal("1e-6"), f"{value!r} has more decimals than {currency}"
    return shown


def by_label(rows, label: str, column: int):
    found = [row[column] for row in rows if row[1] == label]
    assert len(found) == 1, f"{label}: found {len(found)} times"
    return found[0]


def check_buyer(book, quote: Quote) -> None:
    money = lambda value: seen(value, quote.currency)  # noqa: E731
    for index, option in enumerate(quote.options):
        rows = book.find_sheet(SHEET if index == quote.recommended else f"Choice {index + 1}").rows
        lines = {row[0]: row for row in rows if str(row[0]).isdecimal() and row[5] is not None}
        assert set(lines) == {charge.line for charge in option.charges}
        for charge in option.charges:
            assert money(lines[charge.line][5]) == charge.amount, (option.title, charge.label)
            quantity = lines[charge.line][2]
            if charge.unit == "%":
                assert money(quantity) == charge.quantity.quantize(charge.amount), charge.label
            else:
                assert Decimal(repr(quantity)) == charge.quantity, charge.label
        assert money(by_label(rows, "Total", 5)) == option.total
        assert money(by_label(rows, "Deposit, when you accept", 5)) == option.deposit
        assert money(by_label(rows, f"Balance, {option.balance_due}", 5)) == option.total - option.deposit
    if len(quote.options) > 1:
        front = [row for row in book.find_sheet("Offer").rows if str(row[0]).isdecimal()]
        price = 3 if any(option.buyer_pays_locally for option in quote.options) else 4
        assert [money(row[price]) for row in front] == [option.total for option in quote.options]


def check_office(book, quote: Quote) -> None:
    money = lambda value: seen(value, quote.currency)  # noqa: E731
    for option, rows in zip(quote.options, choices_on(book.find_sheet(SHEET)), strict=True):
        lines = {row[0]: row for row in rows if row[0] and row[5] is not None}
        assert set(lines) == {charge.line for charge in option.charges}
        for charge in option.charges:
            row = lines[charge.line]
            if charge.payer == "buyer":
                assert (money(row[5]), *row[6:11]) == (charge.amount, *[None] * 5), charge.label
                continue
            assert (money(row[5]), money(row[8])) == (charge.amount, charge.cost.amount), charge.label
            assert money(row[9]) == charge.amount - charge.cost.amount, charge.label
            assert row[11] == ". ".join(part for part in (charge.source, charge.offer) if part)
        assert money(by_label(rows, "Total", 5)) == option.total
        assert money(by_label(rows, "Total", 8)) == option.total_cost
        assert money(by_label(rows, "Total", 9)) == option.total - option.total_cost
        assert by_label(rows, "Total", 10) == pytest.approx(float((option.total - option.total_cost) / option.total))
    overview = [row for row in book.find_sheet("Overview").rows if re.match(r"Choice \d  ·", str(row[0]))]
    for option, row in zip(quote.options, overview, strict=True):
        assert money(row[1]) == money(row[5]) == option.total
        assert row[6] == pytest.approx(0, abs=1e-9)
