"""A standard output that is full or closed, a folder that is gone. Found on 28 November 2026: all of them ended in a mistake."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

PROGRAM = Path(sys.executable).with_name("shipcalc")
PLACE = ("place", "98225")


def run(words: tuple[str, ...], shell: str, **more: object) -> "subprocess.CompletedProcess[str]":
    """Run the program as a shell starts it, with `shell` behind the command: `>/dev/full`."""
    line = ["sh", "-c", f'exec "$0" "$@" {shell}', str(PROGRAM), *words]
    return subprocess.run(line, text=True, capture_output=True, timeout=120, check=False, **more)  # type: ignore[call-overload, no-any-return]


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a file that is always full")
@pytest.mark.parametrize("words", [PLACE, ("--help",), (*PLACE, "--json")])
@pytest.mark.fault("standard output on a full disk", tried="an answer, JSON, help", outcome="a sentence on standard error, exit status 2")  # fmt: skip
def test_an_answer_that_cannot_be_written_is_told(words: tuple[str, ...]) -> None:
    done = run(words, ">/dev/full")
    assert done.returncode == 2
    assert (
        done.stderr
        == "shipcalc: the answer cannot be written (no space left on device) — make room, or send it elsewhere\n"
    )


@pytest.mark.skipif(os.name == "nt", reason="a way of shells to say it")
@pytest.mark.fault(
    "standard output closed", tried="an answer, help", outcome="a sentence on standard error, exit status 2"
)
def test_a_closed_output_is_told_before_anything_is_done() -> None:
    done = run(PLACE, ">&-")
    assert (done.returncode, done.stderr.count("\n")) == (2, 1)
    assert done.stderr.startswith("shipcalc: the answer has nowhere to go")


@pytest.mark.skipif(os.name == "nt", reason="a way of shells to say it")
def test_the_other_two_may_be_closed() -> None:
    assert run(PLACE, "2>&-").returncode == 0
    asked = run(("quote",), "<&-")
    assert (asked.returncode, "--vehicle and --to are missing" in asked.stderr) == (2, True)


@pytest.mark.skipif(os.name == "nt", reason="a folder that somebody works in cannot be removed there")
@pytest.mark.fault("the working folder removed", tried="a command that looks for its settings there", outcome="a sentence that says so, exit status 2")  # fmt: skip
def test_a_working_folder_that_is_gone_is_told(tmp_path: Path) -> None:
    gone = tmp_path / "gone"
    gone.mkdir()
    line = ["sh", "-c", f'rmdir "{gone}" && exec "{PROGRAM}" stock']
    done = subprocess.run(line, cwd=gone, text=True, capture_output=True, timeout=120, check=False)
    assert done.returncode == 2
    assert done.stderr == "shipcalc: the folder you are in is gone — go to one that is there (cd), and ask again\n"
