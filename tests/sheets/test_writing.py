import zipfile
from datetime import date
from decimal import Decimal

import openpyxl
import pytest

from shipcalc.errors import WrongInput
from shipcalc.sheets import look
from shipcalc.sheets.charts import put_bars
from shipcalc.sheets.lettering import lines_needed, text_width_px
from shipcalc.sheets.long_table import LongColumn, write_long_book
from shipcalc.sheets.reading import read_workbook
from shipcalc.sheets.writing import Book, column_number

MADE = date(2026, 12, 1)
SAYINGS = ("=1+1", "+44 20 7946", "-5 °C in the yard", "@heron", '=HYPERLINK("http://x.invalid")', "#N/A", "2 + 2")


def small_book() -> Book:
    book = Book(title="Sample", creator="Heron & Vale Motors", made=MADE)
    page = book.page("First", widths=(20, 12))
    page.put("A1", "Sample", look.TITLE)
    page.put("B2", Decimal("12.50"), look.FIGURE, look.money_format(2))
    page.put("B3", Decimal("7.25"), look.FIGURE, look.money_format(2))
    page.put_formula("B4", "SUM(B2:B3)", look.SUM, look.money_format(2), shows=Decimal("19.75"))
    page.put_formula("A5", 'IF(B4>10,"dear & good","cheap")', look.BODY, shows="dear & good")
    page.note("A1", "A note")
    page.drop_down("A6:A9", ("open", "enclosed"))
    page.highlight("A2:B4", "$B2>10", ink=look.CAUTION_INK, ground=look.CAUTION_WASH)
    put_bars(page, "D2", labels="A2:A3", series=[("Amount", "B2:B3")], width_cm=10, height_cm=5)
    page.footer("Heron & Vale Motors · Q-1")
    return book


def test_the_same_calls_give_the_same_bytes() -> None:
    assert small_book().to_bytes() == small_book().to_bytes()


def test_text_that_begins_like_a_formula_stays_text(tmp_path) -> None:
    book = Book(title="Sample", creator="x", made=MADE)
    page = book.page("Notes")
    for row, saying in enumerate(SAYINGS, 1):
        page.put(f"A{row}", saying)
    book.save(tmp_path / "a.xlsx")
    sheet = openpyxl.load_workbook(tmp_path / "a.xlsx")["Notes"]
    for row, saying in enumerate(SAYINGS, 1):
        cell = sheet[f"A{row}"]
        assert (cell.value, cell.data_type, cell.hyperlink) == (saying, "s", None)
        assert bool(cell.quotePrefix) == saying.startswith(("=", "+", "-", "@"))


def test_a_formula_carries_its_result_for_programs_that_do_not_compute(tmp_path) -> None:
    small_book().save(tmp_path / "a.xlsx")
    rows = read_workbook(tmp_path / "a.xlsx").sheets[0].rows
    assert rows[3][1] == 19.75
    assert rows[4][0] == "dear & good"
    assert openpyxl.load_workbook(tmp_path / "a.xlsx")["First"]["B4"].value == "=SUM(B2:B3)"


def test_the_file_names_its_maker_and_no_other_program(tmp_path) -> None:
    small_book().save(tmp_path / "a.xlsx")
    with zipfile.ZipFile(tmp_path / "a.xlsx") as archive:
        everything = b"".join(archive.read(name) for name in archive.namelist())
        assert {entry.date_time for entry in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
    assert b"openpyxl" not in everything
    properties = openpyxl.load_workbook(tmp_path / "a.xlsx").properties
    assert properties.creator == "Heron & Vale Motors"
    assert properties.created == properties.modified
    assert properties.created.date() == MADE


def test_characters_no_workbook_can_hold_are_left_out(tmp_path) -> None:
    book = Book(title="a\x00b", creator="x", made=MADE)
    book.page("N: [x]/*?").put("A1", "bell\x07 and half \ud83d a pair")
    book.save(tmp_path / "a.xlsx")
    sheet = read_workbook(tmp_path / "a.xlsx").sheets[0]
    assert sheet.name == "N x"
    assert sheet.rows[0][0] == "bell and half  a pair"


def test_long_and_equal_sheet_names_are_told_apart() -> None:
    book = Book(title="t", creator="x", made=MADE)
    names = [book.page("A very long name of a choice that goes on").name for _ in range(3)]
    assert len(set(names)) == 3
    assert all(len(name) <= 31 for name in names)


def test_a_place_that_cannot_be_written_is_said_in_a_sentence(tmp_path) -> None:
    (tmp_path / "file").write_text("x")
    with pytest.raises(WrongInput, match="cannot be written"):
        small_book().save(tmp_path / "file" / "a.xlsx")


def luminance(colour: str) -> float:
    parts = [int(colour[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


STYLES = [style for style in vars(look).values() if isinstance(style, look.Style)]


def contrast(a: str, b: str) -> float:
    """WCAG 2.1, "contrast ratio"."""
    high, low = sorted((luminance(a), luminance(b)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_every_ink_reads_well_on_every_ground() -> None:
    assert contrast("000000", "FFFFFF") == pytest.approx(21)  # WCAG 2.1: black on white
    assert contrast("777777", "FFFFFF") == pytest.approx(4.48, abs=0.01)  # the well-known grey that just fails
    for ink in (look.INK, look.GREY, look.ACCENT, look.CAUTION_INK):
        for ground in (look.WHITE, look.WASH, look.CAUTION_WASH, look.ENTRY_WASH):
            assert contrast(ink, ground) >= 4.5, (ink, ground)
    assert all(contrast(look.INK, ground) >= 7 for ground in (look.CAUTION_WASH, look.FAULT_GROUND))
    for style in STYLES:
        assert contrast(style.ink, style.ground or look.WHITE) >= 4.5, style.name


def test_style_names_are_unique() -> None:
    names = [style.name for style in STYLES]
    assert len(set(names)) == len(names)


def test_text_is_measured_as_it_is_printed() -> None:
    # Adobe's font metrics for Helvetica: a figure is 556 thousandths wide, W 944, i 222.
    assert text_width_px("0000000000", 10) == pytest.approx(74.1, abs=0.1)
    assert text_width_px("W", 12) > 4 * text_width_px("i", 12) * 0.98
    assert lines_needed("one two three", 500, 10) == 1
    assert lines_needed("one two three\nfour", 500, 10) == 2
    assert lines_needed("word " * 40, 120, 10) > 10


def test_columns_are_counted_as_excel_does() -> None:
    assert [column_number(c) for c in ("A", "Z", "AA", "XFD")] == [0, 25, 26, 16383]


def test_in_a_long_table_figures_stand_off_the_text_of_the_next_column(tmp_path) -> None:
    write_long_book(
        tmp_path / "a.xlsx",
        title="Sample",
        creator="Heron & Vale Motors",
        made=MADE,
        sheet="Prices",
        columns=[LongColumn("Price", 12, look.money_format(2)), LongColumn("Currency", 10)],
        rows=[(Decimal("12.50"), "USD")],
        notes={},
    )
    sheet = openpyxl.load_workbook(tmp_path / "a.xlsx")["Prices"]
    assert sheet["A2"].number_format == "#,##0.00_0_0"
    assert (sheet["A1"].alignment.horizontal, sheet["A1"].alignment.indent) == ("right", 1)
