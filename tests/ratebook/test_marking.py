"""A copy with the faulty cells marked: told without the colour, the original as it was."""

import io
import tomllib
from datetime import date
from pathlib import Path

import openpyxl
import pytest

from shipcalc.actions.marking import mark_rates
from shipcalc.actions.rates import check_rates
from shipcalc.errors import WrongInput
from shipcalc.ratebook.book import read_rate_book
from shipcalc.ratebook.workbook.addresses import address_in
from shipcalc.records import replace
from shipcalc.sheets import look
from shipcalc.sheets.marking import LIST_NAME

CASES = Path(__file__).parent / "cases"
SLIPS = tomllib.loads((CASES / "slips.toml").read_text(encoding="utf-8"))["slip"]
SHAPES = tomllib.loads((CASES / "shapes.toml").read_text(encoding="utf-8"))["shape"]
TOLD_ELSEWHERE = ("a carrier twice",)  # by a cell of another sheet too
DAY = date(2026, 12, 1)


def marked(folder, tmp_path):
    checked = check_rates(folder, as_of=DAY)
    paths = mark_rates(checked, tmp_path / "marks")
    return checked, {path.name.replace("-marked", ""): openpyxl.load_workbook(path) for path in paths}


def assert_told(checked, books):
    """Every problem stands in the list in front and, where it has a cell, in that cell's comment, which says its weight."""
    for problem in checked.problems:
        address = address_in(problem.cell)
        word = "To correct" if problem.severity == "fault" else "To know"
        name = address.workbook if address else "trucking.xlsx"
        assert any(word == row[0] and problem.message == row[2] for row in books[name][LIST_NAME].values), problem
        if address and address.cell:
            cell = books[name][address.sheet][address.cell]
            merged = [area for area in books[name][address.sheet].merged_cells.ranges if address.cell in area]
            cell = merged[0].start_cell if merged else cell
            assert f"{word}: {problem.message}" in cell.comment.text, problem
            assert cell.border.left.style in ("medium", "dashed")


def together(slips):
    """Yield slips that can be made in one book: of each sheet one, so that none hides another."""
    yield from ([slip] for slip in slips if slip["is"] in TOLD_ELSEWHERE)
    left = [slip for slip in slips if slip["is"] not in TOLD_ELSEWHERE]
    while left:
        by_sheet = {}
        for slip in left:
            by_sheet.setdefault(slip["sheet"], slip)
        yield list(by_sheet.values())
        left = [slip for slip in left if slip is not by_sheet[slip["sheet"]]]


@pytest.mark.parametrize("slips", list(together(SLIPS)), ids=lambda slips: slips[0]["is"])
def test_the_cell_of_every_slip_is_marked(slips, broken, tmp_path):
    folder = broken({slip["sheet"]: slip["cells"] for slip in slips})
    before = {path.name: path.read_bytes() for path in folder.glob("*.xlsx")}

    checked, books = marked(folder, tmp_path)
    told = [told_of(problem) for problem in checked.problems]
    assert [(slip["is"], line) for slip in slips for line in slip["says"] if line not in told] == []
    assert_told(checked, books)
    assert {path.name: path.read_bytes() for path in folder.glob("*.xlsx")} == before


def told_of(problem):
    return f"{'warning: ' if problem.severity == 'warning' else ''}{problem}"


@pytest.mark.parametrize("shape", [shape for shape in SHAPES if shape["says"]], ids=lambda shape: shape["is"])
def test_what_is_wrong_with_a_workbook_is_marked(shape, shaped, tmp_path):
    assert_told(*marked(shaped(shape), tmp_path))


def test_weight_is_told_by_word_and_frame_and_the_managers_formatting_stays(broken, tmp_path):
    folder = broken({"Per mile": {"E2": "1,9O", "E3": 1.23456}})
    book = openpyxl.load_workbook(folder / "trucking.xlsx")
    book["Per mile"].column_dimensions["A"].width = 55
    book["Per mile"]["A3"].font = openpyxl.styles.Font(italic=True, color="0000AA")
    book.save(folder / "trucking.xlsx")

    _, books = marked(folder, tmp_path)

    copy = books["trucking.xlsx"]
    page = copy["Per mile"]
    assert copy.sheetnames[0] == copy.active.title == LIST_NAME
    assert page.column_dimensions["A"].width == 55
    assert (page["A3"].font.italic, page["A3"].font.color.rgb) == (True, "000000AA")
    assert page["E2"].value == "1,9O"
    assert (page["E2"].border.left.style, page["E3"].border.left.style) == ("medium", "dashed")
    assert page["E2"].fill.fgColor.rgb == f"00{look.FAULT_GROUND}"
    assert page["E3"].fill.fgColor.rgb == f"00{look.CAUTION_WASH}"
    assert page["D3"].comment is None


def test_a_header_keeps_its_note_below_the_mark(broken, tmp_path):
    _, books = marked(broken({"Per mile": {"E1": "Rate ($ per km)"}}), tmp_path)

    note = books["trucking.xlsx"]["Per mile"]["E1"].comment.text
    assert note.startswith("To correct: the figures under")
    assert "Dollars for one road mile." in note


def test_hidden_rows_are_shown_in_the_copy(shaped, tmp_path):
    shape = {"sheet": "Per mile", "hide_rows": [3]}
    _, books = marked(shaped(shape), tmp_path)

    assert not books["trucking.xlsx"]["Per mile"].row_dimensions[3].hidden


def test_the_originals_and_other_files_are_never_written_over(broken, tmp_path):
    folder = broken({"Per mile": {"E2": "1,9O"}})
    checked = check_rates(folder, as_of=DAY)
    original = (folder / "trucking.xlsx").read_bytes()
    with pytest.raises(WrongInput, match="the rate book's own workbook, which is never written to"):
        mark_rates(checked, folder / "trucking.xlsx")
    (tmp_path / "link").mkdir()
    (tmp_path / "link" / "other.xlsx").hardlink_to(folder / "trucking.xlsx")
    with pytest.raises(WrongInput, match="never written to"):
        mark_rates(checked, tmp_path / "link" / "other.xlsx")
    mine = tmp_path / "mine.xlsx"
    mine.write_bytes(b"a year of work")
    with pytest.raises(WrongInput, match="is there already, and is no marked copy"):
        mark_rates(checked, mine)
    assert (mine.read_bytes(), (folder / "trucking.xlsx").read_bytes()) == (b"a year of work", original)


def test_an_earlier_marked_copy_gives_way_to_the_new_one(broken, tmp_path):
    checked = check_rates(broken({"Per mile": {"E2": "1,9O"}}), as_of=DAY)
    for _ in range(2):
        (path,) = mark_rates(checked, tmp_path / "copy.xlsx")
    assert path == tmp_path / "copy.xlsx"


def test_one_file_does_not_do_for_two_workbooks(broken, tmp_path):
    folder = broken({"Per mile": {"E2": "1,9O"}, "Tasks": {"L3": "washing"}})
    with pytest.raises(WrongInput, match=r"in 2 workbooks: trucking.xlsx, paperwork.xlsx — name a folder"):
        mark_rates(check_rates(folder, as_of=DAY), tmp_path / "copy.xlsx")


def test_a_book_without_problems_is_not_copied(sound_book, tmp_path):
    checked = replace(check_rates(sound_book, as_of=DAY), problems=())  # its few papers and tasks are told to be few
    assert mark_rates(checked, tmp_path / "marks") == ()
    assert not (tmp_path / "marks").exists()


def test_what_is_no_workbook_cannot_be_marked_and_says_so(tmp_path):
    (tmp_path / "trucking.xlsx").write_bytes(b"PK\x03\x04 half written")
    with pytest.raises(WrongInput, match=r"trucking.xlsx: cannot be opened to mark its cells — open it in Excel"):
        mark_rates(check_rates(tmp_path, as_of=DAY), tmp_path / "marks")


def test_a_marked_copy_that_was_mended_reads_like_any_other(broken, tmp_path):
    _, books = marked(broken({"Per mile": {"E2": "1,9O"}}), tmp_path)
    books["trucking.xlsx"]["Per mile"]["E2"].value = 1.9
    saved = io.BytesIO()
    books["trucking.xlsx"].save(saved)
    (tmp_path / "corrected").mkdir()
    (tmp_path / "corrected" / "trucking.xlsx").write_bytes(saved.getvalue())

    assert read_rate_book(tmp_path / "corrected").bands[0].rate_e4 == 19_000
