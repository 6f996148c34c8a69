"""Files are written whole or not at all, and a set of them in one move. Found on 28 November 2026: sets were mixed after a kill.

A kill is a process that ends without a word (`os._exit`); a full disk is a small one in memory where that may be mounted, and else
the system's own limit on the size of a file.
"""

import json
import os
import signal
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from shipcalc.errors import WrongInput
from shipcalc.sheets import saving, whole_set
from shipcalc.sheets.saving import save
from tests.hard_use.conftest import assert_told

QUOTE = ("quote", "--vehicle", "HV-1153", "--as-of", "2026-12-01")
NAMES = tuple(
    f"{folder}/{name}" for folder in ("buyer", "office") for name in ("quote.txt", "message.txt", "data.json")
)
not_on_windows = pytest.mark.skipif(os.name == "nt", reason="a matter of POSIX")
has_fork = pytest.mark.skipif(not hasattr(os, "fork"), reason="there is no fork on Windows")


def contents(folder: Path) -> dict[str, bytes]:
    """Return all that stands in a folder, by its name in it."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()
    }


def write_set(folder: Path, told: str) -> None:
    with whole_set.whole_set(folder, NAMES) as beside:
        for name in NAMES:
            save(beside / name, told.encode())


def killed(work: Callable[[], None]) -> None:
    """Do some work in a process of its own, which is killed where the work says so: what it leaves is left."""
    child = os.fork()
    if not child:
        try:
            work()
        finally:
            os._exit(9)
    _, status = os.waitpid(child, 0)
    assert os.waitstatus_to_exitcode(status) == 9


OLD, NEW = (dict.fromkeys(sorted(NAMES), told) for told in (b"old", b"new"))


@has_fork
@pytest.mark.fault("power cut while a quote's files are written over former ones", tried="a kill before, at and after each step, and just before and after the exchange", outcome="the old set or the new one, never a mixture; what else lay there is there")  # fmt: skip
def test_a_kill_at_any_step_leaves_the_old_set_or_the_new_one(tmp_path: Path) -> None:
    steps: list[str] = []

    def traced(function: Callable[..., object], die_at: int) -> Callable[..., object]:
        def told(*args: object, **named: object) -> object:
            if len(steps) == die_at:
                os._exit(9)
            steps.append(function.__name__)
            return function(*args, **named)

        return told

    def work(folder: Path, die_at: int) -> None:
        for module, name in ((os, "link"), (os, "chmod"), (os, "replace"), (os, "rename"), (os, "mkdir"), (os, "unlink"), (whole_set, "_exchanged_in_one_move"), (whole_set, "_take_place"), (whole_set, "_carry"), (whole_set.shutil, "rmtree")):  # fmt: skip
            setattr(module, name, traced(getattr(module, name), die_at))
        write_set(folder, "new")

    seen: list[bytes] = []
    for die_at in range(100):
        folder = tmp_path / f"out-{die_at}"
        write_set(folder, "old")
        (folder / "office/checklist-2.xlsx").write_bytes(b"worked in")
        killed(lambda folder=folder, die_at=die_at: work(folder, die_at))
        left = contents(folder)
        assert left.pop("office/checklist-2.xlsx") == b"worked in"
        assert left in (OLD, NEW), die_at
        seen.append(left["buyer/quote.txt"])
        if seen.count(b"new") == 3:
            break
    assert seen.count(b"old") > 15
    assert seen.count(b"new") == 3


@pytest.mark.parametrize("in_one_move", [True, False], ids=["the system's own move", "by way of a third name"])
def test_a_set_takes_the_place_of_another_and_all_else_stays(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, in_one_move: bool
) -> None:
    if not in_one_move:
        monkeypatch.setattr(whole_set, "_exchanged_in_one_move", lambda *_: False)
    folder = tmp_path / "lindqvist"
    write_set(folder, "old")
    (folder / "letters/2026").mkdir(parents=True)
    (folder / "letters/2026/yes.txt").write_text("yes")
    (folder / "buyer/photo.jpg").write_bytes(b"JPEG")
    write_set(folder, "new")
    assert contents(folder) == {**NEW, "letters/2026/yes.txt": b"yes", "buyer/photo.jpg": b"JPEG"}
    assert [path.name for path in tmp_path.iterdir()] == ["lindqvist"]


@has_fork
def test_what_a_stop_has_left_is_put_back_or_cleared_away(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the system has no move that exchanges, a stop between the two moves leaves the old set aside."""
    folder = tmp_path / "lindqvist"
    write_set(folder, "old")
    rename = Path.rename

    def work() -> None:
        monkeypatch.setattr(whole_set, "_exchanged_in_one_move", lambda *_: False)
        monkeypatch.setattr(Path, "rename", lambda self, to: (rename(self, to), os._exit(9)))
        write_set(folder, "new")

    killed(work)
    assert not folder.exists()
    left = sorted(path.name.partition("lindqvist-")[0] for path in tmp_path.iterdir())
    assert left == [".new-", ".old-"]
    whole_set._put_back(folder)
    assert contents(folder) == OLD
    (stale,) = tmp_path.glob(".new-*")
    os.utime(stale, (1, 1))
    (tmp_path / ".new-lindqvist-whoever").mkdir()  # somebody who is writing now
    write_set(folder, "new")
    assert contents(folder) == NEW
    assert sorted(path.name for path in tmp_path.iterdir()) == [".new-lindqvist-whoever", "lindqvist"]


def test_somebody_may_sit_in_the_folder_that_is_written_over(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_set(tmp_path, "old")
    monkeypatch.chdir(tmp_path)
    write_set(Path(), "new")
    assert contents(Path()) == NEW
    assert sorted(path.name for path in Path().iterdir()) == ["buyer", "office"]


@pytest.mark.parametrize("at", range(2))
@pytest.mark.fault("a file of the set open in a program that locks it", tried="the exchange refused, whole and for its second part", outcome="a sentence; all as it was")  # fmt: skip
def test_where_a_part_cannot_be_exchanged_those_that_were_are_put_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, at: int
) -> None:
    write_set(tmp_path, "old")
    monkeypatch.chdir(tmp_path)
    exchange, done = whole_set._exchange, []

    def locked(new: Path, old: Path) -> None:
        done.append(new)
        if len(done) == at + 1:
            raise PermissionError(13, "Permission denied", str(old))
        exchange(new, old)

    monkeypatch.setattr(whole_set, "_exchange", locked)
    with pytest.raises(
        WrongInput, match=r"cannot be written \(permission denied\) — close the files that are open in it"
    ):
        write_set(Path(), "new")
    assert contents(tmp_path) == OLD


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of 160 KB, where one may be mounted; the files of a quote need more."""
    place = tmp_path / "disk"
    place.mkdir()
    mounted = (
        os.name != "nt"
        and not subprocess.run(
            ["mount", "-t", "tmpfs", "-o", "size=160k", "tmpfs", place], capture_output=True, check=False
        ).returncode
    )
    if not mounted:
        pytest.skip("no disk may be mounted here")
    yield place
    subprocess.run(["umount", place], check=True)


@pytest.mark.skipif(sys.platform != "linux", reason="disks in memory are Linux's")
@pytest.mark.fault("disk full", tried="a quote's files on a disk of 160 KB, new and over a former set", outcome="a sentence; nothing new, the former set as it was")  # fmt: skip
def test_a_full_disk_is_told_and_leaves_what_was_there(say, small_disk: Path) -> None:
    out = small_disk / "lindqvist"
    for before in ({}, {"office/quote.json": b"{}", "buyer/quote.txt": b"a former one"}):
        for name, content in before.items():
            save(out / name, content)
        said = say(*QUOTE, "--to", "53703", "--out", str(out))
        assert_told(said, f"{out}", "cannot be written (no space left on device)")
        assert contents(small_disk) == {f"lindqvist/{name}": content for name, content in before.items()}
    assert [path.name for path in small_disk.iterdir()] == ["lindqvist"]


@pytest.fixture
def short_files() -> Iterator[None]:
    """No file may become longer than 2 KB: the system then refuses to write as it does on a full disk."""
    import resource

    before, heard = resource.getrlimit(resource.RLIMIT_FSIZE), signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (2_000, before[1]))
    yield
    resource.setrlimit(resource.RLIMIT_FSIZE, before)
    signal.signal(signal.SIGXFSZ, heard)


@not_on_windows
@pytest.mark.fault("a write that fails half way", tried="the system refuses from the 2,000th byte on: one file, a set of files, a table of prices", outcome="a sentence; the file as it was, no rest beside it")  # fmt: skip
def test_a_write_that_fails_half_way_leaves_the_file_as_it_was(tmp_path: Path, short_files: None) -> None:
    file = tmp_path / "quote.json"
    file.write_bytes(b"{}")
    with pytest.raises(WrongInput, match=r"quote\.json: cannot be written \(file too large\)"):
        save(file, b" " * 5_000)
    assert contents(tmp_path) == {"quote.json": b"{}"}


@not_on_windows
def test_a_table_of_prices_that_does_not_fit_leaves_the_former_one(say, here: Path, short_files: None) -> None:
    (here / "prices.csv").write_bytes(b"a former one")
    said = say("lanes", "--vehicle", "HV-1042", "--to", "states", "--out", "prices.csv", "--as-of", "2026-12-01")
    assert_told(said, "prices.csv: cannot be written (file too large)")
    assert contents(here) == {"prices.csv": b"a former one"}


@has_fork
@pytest.mark.fault("power cut between write and rename", tried="a kill before each move of saving one file", outcome="the file as it was or as it is to be, whole")  # fmt: skip
def test_a_kill_while_one_file_is_saved_leaves_it_old_or_new(tmp_path: Path) -> None:
    file = tmp_path / "shipcalc.toml"
    for step in ("write_bytes", "chmod", "replace"):
        file.write_bytes(b"old")

        def work(step: str = step) -> None:
            setattr(Path, step, lambda *_: os._exit(9))
            save(file, b"new")

        killed(work)
        assert file.read_bytes() == b"old"
    save(file, b"new")
    assert file.read_bytes() == b"new"


@not_on_windows
def test_a_long_name_that_the_system_allows_is_written(tmp_path: Path) -> None:
    """NAME_MAX is 255 bytes (limits.h): the file beside it must not be longer."""
    for name in ("n" * 250 + ".json", "漢" * 83 + ".txt"):
        save(tmp_path / name, b"{}")
    assert len(contents(tmp_path)) == 2


@pytest.fixture
def checklist(say, here: Path) -> Path:
    assert say(*QUOTE, "--to", "53703", "--out", "out").status == 0
    return here / "out/office/checklist.xlsx"


@pytest.mark.fault("two desks saving at once", tried="four read the same checklist back at the same moment", outcome="each has its own number, none is lost")  # fmt: skip
def test_four_who_read_a_checklist_back_at_once_each_get_a_number(checklist: Path) -> None:
    from datetime import date

    from shipcalc.actions.checklist import read_checklist

    with ThreadPoolExecutor(4) as desks:
        done = list(desks.map(lambda _: read_checklist([checklist], out=None, today=date(2026, 12, 2)), range(4)))
    assert sorted((one.version, one.file.name) for one in done) == [(n, f"checklist-{n}.xlsx") for n in (2, 3, 4, 5)]
    assert sorted(path.name for path in checklist.parent.glob("checklist-*.xlsx")) == [
        f"checklist-{n}.xlsx" for n in (2, 3, 4, 5)
    ]
    assert len(list(checklist.parent.glob("checklist-*.ics"))) == 4


@pytest.mark.parametrize("links", [True, False], ids=["by a link", "by taking the name"])
def test_of_two_who_want_a_name_one_gets_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, links: bool) -> None:
    if not links:
        monkeypatch.setattr(saving.os, "link", lambda *_: (_ for _ in ()).throw(OSError(95, "not supported")))
    file = tmp_path / "checklist-2.xlsx"
    save(file, b"first", new=True)
    with pytest.raises(FileExistsError):
        save(file, b"second", new=True)
    assert contents(tmp_path) == {"checklist-2.xlsx": b"first"}


@pytest.fixture
def folder_of_nobody() -> Iterator[Path]:
    """A folder that all may look into, where the administrator can step down to somebody without rights."""
    with tempfile.TemporaryDirectory(prefix="shipcalc-rights-") as name:
        Path(name).chmod(0o755)
        yield Path(name)
        if os.getuid() == 0:
            os.seteuid(0)
        Path(name).chmod(0o755)


@not_on_windows
@pytest.mark.fault("folder read-only", tried="a quote's files into it, new and over a former set; one file", outcome="a sentence; nothing is changed")  # fmt: skip
def test_a_folder_that_may_not_be_written_is_told_and_stays(folder_of_nobody: Path) -> None:
    write_set(folder_of_nobody / "out", "old")
    for path in (folder_of_nobody, *folder_of_nobody.rglob("*")):
        path.chmod(0o555 if path.is_dir() else 0o444)
    if os.getuid() == 0:
        os.seteuid(65534)
    for work in (
        lambda: write_set(folder_of_nobody / "out", "new"),
        lambda: save(folder_of_nobody / "out/buyer/quote.txt", b"new"),
        lambda: write_set(folder_of_nobody / "other", "new"),
    ):
        with pytest.raises(WrongInput, match=r"cannot be written \(permission denied\)"):
            work()
    assert contents(folder_of_nobody / "out") == OLD


def test_a_checklist_that_somebody_worked_in_meanwhile_stops_the_exchange(
    say, checklist: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import openpyxl

    from shipcalc.actions import files

    write_all = files._write_all

    def saved_meanwhile(*args: object, **named: object) -> object:
        book = openpyxl.load_workbook(checklist)
        book.active["B9"] = "done"
        book.save(checklist)
        return write_all(*args, **named)

    monkeypatch.setattr(files, "_write_all", saved_meanwhile)
    before = json.loads((checklist.parent / "quote.json").read_text())
    assert_told(say(*QUOTE, "--to", "98225", "--out", "out"), "somebody has worked in this checklist")
    assert json.loads((checklist.parent / "quote.json").read_text()) == before
    assert openpyxl.load_workbook(checklist).active["B9"].value == "done"
