"""A sound rate book is kept by the content of its files: read again it is the same, and whatever is amiss is not trusted."""

import shutil
from datetime import date
from pathlib import Path

import pytest

import shipcalc.ratebook.kept as kept
from shipcalc.actions.sources import invented_folder
from shipcalc.errors import FaultyWorkbook
from shipcalc.ratebook.book import RateBook, checked, read_rate_book
from shipcalc.records import fields


@pytest.fixture
def store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty cache folder."""
    monkeypatch.setattr(kept, "_folder", lambda: tmp_path / "store")
    return tmp_path / "store"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A copy of the invented rate book."""
    return Path(shutil.copytree(invented_folder("rates"), tmp_path / "rates"))


def content_of(book: RateBook) -> dict[str, object]:
    """Return everything in a book; the book itself is equal to no other."""
    return {
        field.name: getattr(book, field.name)
        for field in fields(book)
        if field.name not in ("overseas", "priced_lanes")
    }


def test_a_kept_book_is_the_book_that_was_read(store: Path, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    read = read_rate_book(folder)
    assert len(list(store.iterdir())) == 1
    monkeypatch.setattr("shipcalc.ratebook.drafting.draft_of", None)  # reading it again would fail
    again = read_rate_book(folder)
    assert content_of(again) == content_of(read)
    assert again.carriers[0].at.cell("base_minor") == read.carriers[0].at.cell("base_minor")


def with_base_fee(folder: Path, fee: object) -> None:
    """Change the first carrier's base fee; the file looks as old as before."""
    import os

    from openpyxl import load_workbook

    workbook = folder / "trucking.xlsx"
    stamp = workbook.stat()
    book = load_workbook(workbook)
    headers = [cell.value for cell in book["Carriers"][1]]
    column = next(n for n, header in enumerate(headers, 1) if str(header).startswith("Base fee"))
    book["Carriers"].cell(2, column).value = fee
    book.save(workbook)
    os.utime(workbook, ns=(stamp.st_atime_ns, stamp.st_mtime_ns))


def test_a_changed_cell_is_noticed_at_once_whatever_its_time_stamp(store: Path, folder: Path) -> None:
    before = read_rate_book(folder)
    with_base_fee(folder, 777)
    after = read_rate_book(folder)
    assert after.carriers[0].base_minor == 777_00
    assert after.fingerprint != before.fingerprint


def test_a_check_notices_a_changed_cell_at_once_and_its_mending(store: Path, folder: Path) -> None:
    def faults() -> list[str]:
        return [str(problem) for problem in checked(folder)[0] if problem.severity == "fault"]

    assert faults() == []
    with_base_fee(folder, "7O")
    (said,) = faults()
    assert said.startswith("trucking.xlsx › Carriers!")
    assert '"7O" is not' in said
    with_base_fee(folder, 70)
    assert faults() == []


def test_a_check_from_the_cache_says_on_a_later_day_what_has_grown_old_since(
    store: Path, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """All that grows old: the book, fuel, rates of exchange, sources."""
    days = date(2026, 12, 1), date(2027, 1, 20), date(2029, 6, 1)
    anew = []
    for day in days:
        shutil.rmtree(store, ignore_errors=True)
        anew.append(checked(folder, as_of=day))
    monkeypatch.setattr("shipcalc.ratebook.drafting.draft_of", None)  # reading it again would fail
    monkeypatch.setattr(kept, "_made", None)  # and so would making a row
    assert [checked(folder, as_of=day) for day in days] == anew
    said = " ".join(str(problem) for problem in anew[-1][0])
    for old in ("the rate book ended on", 'the price of "', "the rate of ", "the source was last looked at on"):
        assert old in said
        assert old not in " ".join(str(problem) for problem in anew[0][0])


def test_a_row_that_ends_is_told_from_the_cache_from_the_day_after_on(
    store: Path, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from openpyxl import load_workbook

    book = load_workbook(folder / "trucking.xlsx")
    headers = [str(cell.value) for cell in book["Carriers"][1]]
    book["Carriers"].cell(2, headers.index("Valid to") + 1).value = date(2026, 12, 31)
    book.save(folder / "trucking.xlsx")
    checked(folder)
    monkeypatch.setattr("shipcalc.ratebook.drafting.draft_of", None)
    ended = "the row ended on 2026-12-31 and is not used any more"
    assert ended not in str(checked(folder, as_of=date(2026, 12, 31))[0])
    assert ended in str(checked(folder, as_of=date(2027, 1, 1))[0])


def test_half_a_file_is_as_none(store: Path, folder: Path) -> None:
    read = read_rate_book(folder)
    (file,) = store.iterdir()
    whole = file.read_bytes()
    for length in (10, whole.index(b"\n") + 20, len(whole) - 5):
        file.write_bytes(whole[:length])
        assert content_of(read_rate_book(folder)) == content_of(read)
        assert file.read_bytes() == whole


@pytest.mark.parametrize("content", [b"", b"{}", b"[1, 2]", b'{"rows": {}}', b"\xff\xfe not JSON"])
def test_a_spoilt_file_is_as_none(store: Path, folder: Path, content: bytes) -> None:
    read = read_rate_book(folder)
    (file,) = store.iterdir()
    file.write_bytes(content)
    assert content_of(read_rate_book(folder)) == content_of(read)
    assert file.read_bytes() != content


def test_a_store_that_cannot_be_written_stops_no_quote(
    tmp_path: Path, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    blocked = tmp_path / "blocked"
    blocked.write_text("a file where the folder would be")
    monkeypatch.setattr(kept, "_folder", lambda: blocked / "store")
    assert read_rate_book(folder).carriers


def test_a_faulty_book_is_never_kept(store: Path, folder: Path) -> None:
    from openpyxl import load_workbook

    book = load_workbook(folder / "trucking.xlsx")
    book["Carriers"]["A2"].value = None
    book.save(folder / "trucking.xlsx")
    for _ in range(2):
        with pytest.raises(FaultyWorkbook):
            read_rate_book(folder)
    assert not store.exists()


def test_only_so_many_books_are_kept(store: Path, folder: Path) -> None:
    store.mkdir()
    for number in range(kept.MOST_BOOKS + 5):
        (store / f"{number}.json").write_text("{}")
    read_rate_book(folder)
    assert len(list(store.iterdir())) == kept.MOST_BOOKS


def test_a_quote_at_home_asks_for_nothing_of_the_overseas_sheets(store: Path, folder: Path) -> None:
    """In a program of its own, because the tests before have imported everything."""
    import subprocess
    import sys

    read_rate_book(folder)
    told = (
        "import sys; from pathlib import Path; import shipcalc.ratebook.kept as kept; "
        f"kept._folder = lambda: Path({str(store)!r}); "
        "from shipcalc.ratebook.book import read_rate_book; "
        f"book = read_rate_book(Path({str(folder)!r})); "
        "print(len(book.carriers) > 0, 'shipcalc.ratebook.rows.ocean' in sys.modules); "
        "print(len(book.ports) > 100, 'shipcalc.ratebook.rows.ocean' in sys.modules)"
    )
    said = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, check=True).stdout
    assert said.split() == ["True", "False", "True", "True"]


def test_a_kept_book_travels_to_another_process(store: Path, folder: Path) -> None:
    import pickle

    read = read_rate_book(folder)
    again = pickle.loads(pickle.dumps(read_rate_book(folder)))
    assert (again.ports, again.holds, again.carriers) == (read.ports, read.holds, read.carriers)
