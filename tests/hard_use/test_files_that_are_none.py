"""Pipes, devices, loops and names that no system allows, given where a file is wanted. Found on 28 November 2026: a pipe hung."""

import ast
import errno
import os
from pathlib import Path

import pytest

import shipcalc
from tests.hard_use.conftest import assert_told

QUOTE = ("quote", "--vehicle", "HV-1153", "--to", "53703", "--as-of", "2026-12-01")
# What reads files that lie inside the package, or that it has just written itself, or none at all.
OUR_OWN = {
    "desk/handing_out.py", "desk/pages/rates_effect.py", "desk/pages/shipment.py", "actions/demo_office.py", "actions/rates.py", "bulk/plan.py", "pictures/outlines.py", "places/gazetteer/areas.py",
    "places/gazetteer/other_spellings.py", "places/road/borders.py", "places/road/reach.py", "ratebook/checks/thinned.py",
    "ratebook/embargoed.py", "ratebook/kept.py", "ratebook/taking/vocabulary.py", "ratebook/workbook/typed.py",
    "register/sqlite.py", "typeset/characters.py",
}  # fmt: skip


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="there are no such pipes on Windows")
@pytest.mark.parametrize(
    "words",
    [
        ("stock", "--stock", "pipe.xlsx"),
        ("stock", "--stock", "pipe.csv"),
        ("checklist", "pipe.json"),
        ("checklist", "read", "pipe.xlsx"),
        ("lanes", "--to", "cities", "pipe.csv", "--out", "prices.csv"),
        ("rates", "take", "pipe.xlsx", "--carrier", "Wren and Thistle", "--into", "next-week"),
        (*QUOTE, "--rates", "rates"),
    ],
)
@pytest.mark.fault("a pipe in the place of a file", tried="stock list, quote, checklist, mail, rate book", outcome="a sentence at once; nothing is read or written")  # fmt: skip
def test_a_pipe_is_named_and_never_waited_for(say, here: Path, words: tuple[str, ...]) -> None:
    (here / "rates").mkdir()
    for name in ("pipe.xlsx", "pipe.csv", "pipe.json", "rates/trucking.xlsx"):
        os.mkfifo(here / name)
    assert_told(say(*words), "it is a pipe or a device, not a file")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="there are no such pipes on Windows")
def test_a_pipe_in_the_place_of_the_settings_is_named(say, here: Path) -> None:
    os.mkfifo(here / "shipcalc.toml")
    assert_told(say("stock"), "shipcalc.toml", "it is a pipe or a device")


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="a file without end")
def test_a_device_without_end_is_never_read(say) -> None:
    assert_told(say("stock", "--stock", "/dev/zero"), "/dev/zero", "it is a pipe or a device")


def test_every_file_that_somebody_names_is_read_through_the_one_door() -> None:
    """`read_file` is that door; who reads otherwise reads only what is our own."""
    package = Path(shipcalc.__file__).parent
    others = set()
    for path in package.rglob("*.py"):
        name = path.relative_to(package).as_posix()
        calls = (node for node in ast.walk(ast.parse(path.read_text())) if isinstance(node, ast.Call))
        reads = any(
            isinstance(call.func, ast.Attribute) and call.func.attr in ("read_bytes", "read_text") for call in calls
        )
        if reads and "/making/" not in name:
            others.add(name)
    assert others == OUR_OWN


LONG = "n" * 300


@pytest.mark.parametrize(
    "words",
    [
        ("stock", "--stock", f"{LONG}.xlsx"),
        ("rates", "check", LONG),
        ("rates", "new", LONG),
        ("checklist", f"{LONG}.json"),
        ("lanes", "--to", "states", "--vehicle", "HV-1042", "--out", f"{LONG}.csv"),
        (*QUOTE, "--out", LONG),
        (*QUOTE, "--rates", LONG),
        ("demo", "--out", LONG),
    ],
)
@pytest.mark.fault("a name longer than the system allows", tried="every option that names a file or a folder", outcome="a sentence that says so, exit status 2")  # fmt: skip
def test_a_name_of_three_hundred_letters_is_told(say, here: Path, words: tuple[str, ...]) -> None:
    assert_told(say(*words), "file name too long")
    assert list(here.iterdir()) == []


@pytest.mark.skipif(os.name == "nt", reason="links need rights there")
@pytest.mark.parametrize(
    "words",
    [
        ("stock", "--stock", "loop"),
        ("rates", "check", "loop"),
        ("rates", "new", "loop"),
        ("checklist", "loop"),
        ("checklist", "read", "loop"),
        (*QUOTE, "--out", "loop"),
        (*QUOTE, "--rates", "loop"),
        ("demo", "--out", "loop"),
    ],
)
@pytest.mark.fault("a link that leads back to itself", tried="as a file and as a folder, to read and to write", outcome="a sentence that names it, exit status 2")  # fmt: skip
def test_a_link_that_leads_to_itself_is_told(say, here: Path, words: tuple[str, ...]) -> None:
    (here / "loop").symlink_to("other")
    (here / "other").symlink_to("loop")
    said = say(*words)
    assert (said.status, "mistake in shipcalc" in said.err) == (2, False), said.err
    assert "loop" in said.err or "a link leads back to itself" in said.err


@pytest.mark.skipif(os.name == "nt", reason="names are always text there")
def test_letters_that_are_no_text_are_told(command, here: Path) -> None:
    broken = os.fsdecode(b"caf\xe9")
    done = command("lanes", "--to", "states", "--vehicle", "HV-1042", "--out", f"{broken}.csv")
    assert (done.returncode, "a name holds signs that are no text" in done.stderr) == (2, True), done.stderr


@pytest.mark.parametrize("number", ["EIO", "ESTALE", "EHOSTDOWN", "ETIMEDOUT"])
@pytest.mark.fault("a network drive gone", tried="the errors of a drive that went away, while a list is read, and while a quote's files are written", outcome="a sentence; nothing half written")  # fmt: skip
def test_a_drive_that_goes_away_is_told(say, here: Path, monkeypatch: pytest.MonkeyPatch, number: str) -> None:
    """The errors of POSIX (errno.h) that a server's drive ends in."""
    gone = OSError(getattr(errno, number), os.strerror(getattr(errno, number)))
    (here / "stock.csv").write_text("Stock number,Year,Make,Body\nA-1,1961,Larkspur,roadster\n")

    def fails(*_: object, **__: object) -> None:
        raise gone

    with monkeypatch.context() as meanwhile:
        meanwhile.setattr("shipcalc.files.os.fstat", fails)
        assert_told(say("stock", "--stock", "stock.csv"), "stock.csv", gone.strerror.lower())
    with monkeypatch.context() as meanwhile:
        meanwhile.setattr(Path, "write_bytes", fails)
        assert_told(say(*QUOTE, "--out", "out"), "out", "cannot be written", gone.strerror.lower())
    assert [path.name for path in here.iterdir()] == ["stock.csv"]
