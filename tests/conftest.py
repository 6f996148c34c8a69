"""What several rooms' tests share: an independent spreadsheet program that computes our workbooks anew."""

import os
import shutil
import subprocess
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from shipcalc.sheets.reading import WorkbookFile, read_workbook

# Compute every formula when a file is opened, whatever results are stored in it (Tools, Options, Calc, Formula: "always").
_ALWAYS_COMPUTE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
"""
_SECONDS = 300

Books = dict[str, WorkbookFile]
Recalculate = Callable[[Sequence[Path]], Books]


def libreoffice() -> str:
    """Return LibreOffice's command. Without it a test is skipped, but fails where CI is set: the gate may not lose a check."""
    command = shutil.which("soffice")
    if command is None:
        if os.environ.get("CI"):
            pytest.fail("LibreOffice (soffice) is not installed, and this check may not be left out in CI")
        pytest.skip("LibreOffice (soffice) is not installed")
    return command


@pytest.fixture(scope="session")
def recalculate(tmp_path_factory: pytest.TempPathFactory) -> Recalculate:
    """Return a function that has many workbooks computed in one call: paths (names all different) → values by file name."""
    command = libreoffice()
    profile = tmp_path_factory.mktemp("profile")
    (profile / "user").mkdir()
    (profile / "user" / "registrymodifications.xcu").write_text(_ALWAYS_COMPUTE)

    def computed(paths: Sequence[Path]) -> Books:
        assert len({path.name for path in paths}) == len(paths), "names must differ: the results stand in one folder"
        folder = tmp_path_factory.mktemp("computed")
        subprocess.run(
            [command, f"-env:UserInstallation={profile.as_uri()}", "--headless", "--convert-to", "xlsx",
             "--outdir", str(folder), *map(str, paths)],
            check=True, capture_output=True, timeout=_SECONDS,
        )  # fmt: skip
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
