"""Hard use: what nobody means to do and what happens all the same. Each test says what stands afterwards.

A test marked `fault` is a row of the table in FAULTS.md: what went wrong, what was tried, and the outcome that is promised.
"""

import re
import zipfile
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest

from shipcalc.actions.sources import invented_folder
from tests.journeys.conftest import Said, command, here, say

__all__ = ["command", "here", "say"]

Change = Callable[[bytes], bytes]


def parts_changed(source: Path, changes: dict[str, Change]) -> bytes:
    """Return a workbook with some of its parts changed as bytes, the rest as it was."""
    file = BytesIO()
    with zipfile.ZipFile(source) as old, zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            content = old.read(name)
            new.writestr(name, changes[name](content) if name in changes else content)
    return file.getvalue()


def stock_with(value: str, *, cell: str = "", like: str = "") -> bytes:
    """Return the demo's stock list with one cell more (or another in its place): its XML as given, `{look}` the look of `like`."""

    def changed(xml: bytes) -> bytes:
        look = re.search(rf'<c r="{like}" s="(\d+)"'.encode(), xml) if like else None
        told = value.replace("{look}", look[1].decode() if look else "0").encode()
        if cell:
            pattern = rf'<c r="{cell}"[^>]*?(?:/>|>.*?</c>)'.encode()
            assert re.search(pattern, xml), cell
            return re.sub(pattern, told, xml, count=1)
        return xml.replace(b"</sheetData>", told + b"</sheetData>")

    return parts_changed(invented_folder("demo") / "stock.xlsx", {"xl/worksheets/sheet1.xml": changed})


def assert_told(said: Said, *parts: str, status: int = 2) -> None:
    """One sentence on standard error, nothing printed, no trace of the program's inside."""
    sentences = [line for line in said.err.splitlines() if line.startswith("shipcalc: ")]
    assert said.status == status, said.err or said.out
    assert len(sentences) == 1, said.err
    for inside in ("Traceback", "mistake in shipcalc itself", "panicked"):
        assert inside not in said.err
    for part in parts:
        assert part in sentences[0]


@pytest.fixture
def stock(here: Path) -> Callable[[bytes], Path]:
    """Write a stock list, as stock.xlsx unless named otherwise."""

    def written(content: bytes, name: str = "stock.xlsx") -> Path:
        (here / name).write_bytes(content)
        return here / name

    return written
