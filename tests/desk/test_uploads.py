"""Files that a browser sends: none leaves its place, none is taken for what it is not, and none ends the desk."""

import asyncio
import io
import zipfile
from pathlib import Path

import pytest
from fastapi import UploadFile

from shipcalc.desk.uploads import SCANS, TABLES, look_through, received, safe_name
from shipcalc.errors import WrongInput

ROOT = Path(__file__).parents[2]
RATES = ROOT / "rates" / "trucking.xlsx"


def taken(name: str, content: bytes, endings: tuple[str, ...] = TABLES) -> tuple[Path, bytes]:
    async def take() -> tuple[Path, bytes]:
        async with received(UploadFile(io.BytesIO(content), filename=name), endings) as path:
            return path, path.read_bytes()

    return asyncio.run(take())


def test_a_workbook_is_taken_as_it_was_sent_and_gone_afterwards() -> None:
    path, content = taken("My rates.xlsx", RATES.read_bytes())
    assert path.name == "My rates.xlsx"
    assert content == RATES.read_bytes()
    assert not path.exists()
    assert not path.parent.exists()


@pytest.mark.parametrize(
    ("told", "kept"),
    [
        ("../../etc/passwd.csv", "passwd.csv"),
        ("..\\..\\boot.csv", "boot.csv"),
        ("C:\\Users\\x\\list.csv", "list.csv"),
        ("a\x00b\n\r.csv", "ab__.csv"),
        ("=HYPERLINK(1).csv", "_HYPERLINK(1).csv"),
        ("CON.csv", "_CON.csv"),
        ("..", "file"),
        ("", "file"),
        ("x" * 400 + ".csv", "x" * 100 + ".csv"),
        ("Überführung 車.pdf", "Überführung 車.pdf"),
        ("<img src=x>.png", "_img src_x_.png"),
    ],
)
def test_a_name_is_harmless_on_every_system(told: str, kept: str) -> None:
    """Reserved names and signs: Microsoft, "Naming Files, Paths, and Namespaces"."""
    assert safe_name(told) == kept


@pytest.mark.parametrize(
    ("name", "content", "endings", "words"),
    [
        ("x.exe", b"MZ", TABLES, "no kind"),
        ("x", b"a,b", TABLES, "no kind"),
        ("x.xlsx", b"", TABLES, "is empty"),
        ("x.xlsx", b"a,b\n1,2", TABLES, "no .xlsx inside"),
        ("x.xlsx", b"PK\x03\x04" + b"\0" * 100, TABLES, "is damaged"),
        ("x.csv", RATES.read_bytes(), TABLES, "no .csv inside"),
        ("x.pdf", b"<html><script>", SCANS, "no .pdf inside"),
        ("x.png", b"GIF89a", SCANS, "no .png inside"),
        ("x.svg", b"<svg/>", SCANS, "no kind"),
        ("x.csv", b"a" * (26 * 1024 * 1024), TABLES, "more than 25 MB"),
    ],
)
def test_what_is_not_what_it_says_is_refused(name: str, content: bytes, endings: tuple[str, ...], words: str) -> None:
    with pytest.raises(WrongInput, match=words):
        taken(name, content, endings)


def with_part(name: str, size: int) -> bytes:
    """A workbook with one more part, of so many zeros."""
    out = io.BytesIO(RATES.read_bytes())
    with zipfile.ZipFile(out, "a", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr(name, b"0" * size)
    return out.getvalue()


def test_a_workbook_that_unpacks_without_end_is_refused_unread() -> None:
    with pytest.raises(WrongInput, match="unpacks to more than 200 MB"):
        taken("bomb.xlsx", with_part("xl/media/x.bin", 201 * 1024 * 1024))


def test_what_takes_too_long_or_too_much_ends_the_reader_and_not_the_desk(tmp_path: Path) -> None:
    file = tmp_path / "list.csv"
    file.write_bytes((b"abcdefgh," * 29 + b"x\n") * 99_000)  # as large as a list may be
    with pytest.raises(WrongInput, match="too long or too much memory"):
        look_through(file, memory=150 * 1024 * 1024)
    with pytest.raises(WrongInput, match="too long or too much memory"):
        look_through(file, seconds=0.0)
    small = tmp_path / "small.csv"
    small.write_bytes(b"a,b\n" * 10)
    look_through(small)


def test_a_sentence_of_the_reader_is_told(tmp_path: Path) -> None:
    file = tmp_path / "list.xlsx"
    file.write_bytes(with_part("x", 10)[:-40])
    with pytest.raises(WrongInput, match=r"list\.xlsx"):
        look_through(file)
