"""A rate book put in force over another: the former one is kept, a stop anywhere leaves one of them whole, and there is a way back."""

import shutil
from datetime import date
from pathlib import Path

import openpyxl
import pytest

import shipcalc.ratebook.editions as editions
from shipcalc.actions.editions import adopt_rates, copy_rates, history_of
from shipcalc.actions.rates import check_rates, new_rates
from shipcalc.actions.sources import find_sources
from shipcalc.errors import FaultyWorkbook, WrongInput
from shipcalc.ratebook.book import read_rate_book
from shipcalc.ratebook.editions import folder_of_day
from shipcalc.sheets.saving import save

TODAY, NEW_YEAR = date(2026, 12, 1), date(2027, 1, 1)


@pytest.fixture
def rates(tmp_path: Path) -> Path:
    """The rate book in force: the invented one."""
    new_rates(tmp_path / "rates", empty=False)
    return tmp_path / "rates"


def dearer(rates: Path, name: str, rate: object) -> Path:
    """Return a copy of a rate book with another first rate."""
    folder = rates.parent / name
    copy_rates(rates, folder, today=TODAY)
    book = openpyxl.load_workbook(folder / "trucking.xlsx")
    book["Per mile"]["E2"].value = rate
    book.save(folder / "trucking.xlsx")
    return folder


def fingerprint(folder: Path) -> str:
    return read_rate_book(folder).fingerprint


def in_force(rates: Path, day: date) -> str:
    return fingerprint(folder_of_day(rates, day))


def test_a_copy_is_the_book_without_what_is_kept_beside_it(rates: Path, tmp_path: Path) -> None:
    adopt_rates(str(dearer(rates, "next", 1.7)), rates, today=TODAY)
    (rates / "~$trucking.xlsx").write_bytes(b"open in Excel")
    (rates / "mail").mkdir()
    (rates / "mail/carrier.txt").write_text("dear customer")
    made = copy_rates(rates, tmp_path / "copy", today=TODAY)
    assert {path.relative_to(tmp_path / "copy").as_posix() for path in made} == {
        "mail/carrier.txt",
        "overseas.xlsx",
        "paperwork.xlsx",
        "trucking.xlsx",
    }
    assert fingerprint(tmp_path / "copy") == fingerprint(rates)


def test_a_copy_takes_no_place_that_is_taken(rates: Path, tmp_path: Path) -> None:
    (tmp_path / "there").mkdir()
    with pytest.raises(WrongInput, match=r"there: is there already — name a folder that is not there yet"):
        copy_rates(rates, tmp_path / "there", today=TODAY)
    with pytest.raises(WrongInput, match=r"lies in the folder that is copied"):
        copy_rates(rates, rates / "copy", today=TODAY)


def test_a_book_put_in_force_counts_and_the_former_one_is_kept_whole(rates: Path) -> None:
    former, new = fingerprint(rates), dearer(rates, "next", 1.7)
    done = adopt_rates(str(new), rates, today=TODAY)
    assert (done.fingerprint, done.former, done.waits) == (fingerprint(new), former, False)
    assert in_force(rates, TODAY) == fingerprint(rates) == fingerprint(new)
    assert fingerprint(rates / "kept" / former) == former


def test_the_fingerprint_leads_back(rates: Path) -> None:
    former = fingerprint(rates)
    adopt_rates(str(dearer(rates, "next", 1.7)), rates, today=TODAY)
    adopt_rates(former[:6], rates, today=TODAY)
    assert fingerprint(rates) == former
    assert [(one.edition.came, one.counts) for one in history_of(rates, today=TODAY)] == [
        ("gone back to", True),
        ("from next", False),
        ("found in the folder", False),
    ]


def test_a_book_with_a_fault_is_refused_and_nothing_is_touched(rates: Path) -> None:
    before = {path.name: path.read_bytes() for path in rates.iterdir()}
    with pytest.raises(FaultyWorkbook, match="has 1 fault and is not put in force") as refused:
        adopt_rates(str(dearer(rates, "next", "1,9O")), rates, today=TODAY)
    assert "Per mile!E2" in str(refused.value.problems[0])
    assert {path.name: path.read_bytes() for path in rates.iterdir() if path.is_file()} == before


def test_a_book_may_wait_for_its_day(rates: Path) -> None:
    former, new = fingerprint(rates), dearer(rates, "january", 1.8)
    assert adopt_rates(str(new), rates, today=TODAY, since=NEW_YEAR).waits
    shutil.rmtree(new)
    assert in_force(rates, date(2026, 12, 31)) == former == fingerprint(rates)
    assert in_force(rates, NEW_YEAR) != former
    assert find_sources(folder=rates.parent, as_of=NEW_YEAR).rates.path == folder_of_day(rates, NEW_YEAR)
    assert any("and not from the workbooks here" in str(one) for one in check_rates(rates, as_of=NEW_YEAR).problems)
    assert [one.until for one in history_of(rates, today=NEW_YEAR)] == [None, NEW_YEAR]
    assert fingerprint(rates) == in_force(rates, NEW_YEAR) != former


def test_what_waits_is_given_up_by_naming_what_is_in_force(rates: Path) -> None:
    former = fingerprint(rates)
    adopt_rates(str(dearer(rates, "january", 1.8)), rates, today=TODAY, since=NEW_YEAR)
    assert not adopt_rates(former, rates, today=TODAY).is_new
    assert in_force(rates, NEW_YEAR) == former


def test_a_day_that_has_passed_is_refused(rates: Path) -> None:
    with pytest.raises(WrongInput, match="2026-11-30 has passed"):
        adopt_rates(str(dearer(rates, "next", 1.7)), rates, today=TODAY, since=date(2026, 11, 30))


def test_workbooks_changed_in_the_folder_itself_are_kept_before_others_take_their_place(rates: Path) -> None:
    adopt_rates(str(dearer(rates, "next", 1.7)), rates, today=TODAY)
    book = openpyxl.load_workbook(rates / "trucking.xlsx")
    book["Per mile"]["E2"].value = 1.72
    book.save(rates / "trucking.xlsx")
    typed = fingerprint(rates)
    done = adopt_rates(str(dearer(rates, "later", 1.8)), rates, today=TODAY)
    assert done.former == typed == fingerprint(rates / "kept" / typed)


@pytest.mark.parametrize("after", range(6))
def test_a_stop_anywhere_leaves_one_of_the_two_whole(rates: Path, monkeypatch, after: int) -> None:
    """Writing is cut off after so many files, as by Ctrl-C or a power cut; six are written in all."""
    former, new = fingerprint(rates), dearer(rates, "next", 1.7)
    wanted, written = fingerprint(new), []

    def cut_off(path: Path, content: bytes) -> None:
        if len(written) == after:
            raise KeyboardInterrupt
        written.append(path)
        save(path, content)

    with monkeypatch.context() as patch:
        patch.setattr(editions, "save", cut_off)
        try:
            adopt_rates(str(new), rates, today=TODAY)
        except KeyboardInterrupt:
            assert in_force(rates, TODAY) == former
        else:
            pytest.fail("all was written")
    history_of(rates, today=TODAY)
    assert fingerprint(rates) == in_force(rates, TODAY) == former
    adopt_rates(str(new), rates, today=TODAY)
    assert fingerprint(rates) == in_force(rates, TODAY) == wanted


def test_a_workbook_that_is_open_elsewhere_puts_the_former_ones_back(rates: Path, monkeypatch) -> None:
    former, new = fingerprint(rates), dearer(rates, "next", 1.7)
    refused = []

    def locked(path: Path, content: bytes) -> None:
        if path.name == "paperwork.xlsx" and not refused:
            refused.append(path)
            raise WrongInput("cannot be written (permission denied)", where=str(path), remedy="close it")
        save(path, content)

    monkeypatch.setattr(editions, "save", locked)
    with pytest.raises(WrongInput, match=r"paperwork.xlsx: cannot be written"):
        adopt_rates(str(new), rates, today=TODAY)
    assert fingerprint(rates) == in_force(rates, TODAY) == former


def test_a_history_that_cannot_be_read_is_said(rates: Path) -> None:
    (rates / "kept").mkdir()
    (rates / "kept/history.json").write_text("{half")
    with pytest.raises(WrongInput, match=r"history.json: the history of this rate book cannot be read — "):
        folder_of_day(rates, TODAY)


def test_a_column_sorted_alone_is_told_beside_the_former_book(rates: Path) -> None:
    adopt_rates(str(dearer(rates, "own", 1.7)), rates, today=TODAY)
    folder = dearer(rates, "next", 1.7)
    book = openpyxl.load_workbook(folder / "trucking.xlsx")
    sheet = book["Carriers"]
    column = next(cell.column for cell in sheet[1] if str(cell.value).startswith("Minimum"))
    cells = [sheet.cell(row, column) for row in range(2, sheet.max_row + 1) if sheet.cell(row, 1).value]
    for cell, value in zip(cells, sorted(cell.value or 0 for cell in cells), strict=True):
        cell.value = value
    book.save(folder / "trucking.xlsx")
    notes = [str(note) for note in adopt_rates(str(folder), rates, today=TODAY).notes]
    assert len(notes) == 1
    assert (
        'the figures under "Minimum ($)" are those of the book that was in force, but stand in other rows' in notes[0]
    )


def test_the_check_of_a_copy_looks_beside_the_book_in_force(rates: Path) -> None:
    adopt_rates(str(dearer(rates, "own", 1.7)), rates, today=TODAY)
    folder = dearer(rates, "next", 1.7)
    book = openpyxl.load_workbook(folder / "trucking.xlsx")
    sheet = book["Vehicle sizes"]
    cells = [sheet.cell(row, 3) for row in range(2, sheet.max_row + 1) if sheet.cell(row, 1).value]
    for cell, value in zip(cells, sorted(cell.value for cell in cells), strict=True):
        cell.value = value
    book.save(folder / "trucking.xlsx")
    said = [str(one) for one in check_rates(folder, as_of=TODAY, beside=rates).problems if "other rows" in str(one)]
    assert len(said) == 1
    assert f"are those of {rates}, but stand in other rows" in said[0]
