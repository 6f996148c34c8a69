"""Workbooks and lists as accidents and bad will leave them. Found on 28 November 2026, each with its whole kind.

The form of the files: ECMA-376 part 1 (workbooks), part 2 (packages); APPNOTE of PKWARE (zip).
"""

import io
import re
import shutil
import struct
import time
import zipfile
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import openpyxl
import pytest

from shipcalc.actions.sources import invented_folder
from shipcalc.errors import WrongInput
from shipcalc.sheets import extent
from shipcalc.sheets.reading import read_workbook, workbook_of
from tests.hard_use.conftest import assert_told, parts_changed, stock_with

DEMO = invented_folder("demo") / "stock.xlsx"
SHEET = "xl/worksheets/sheet1.xml"
Stock = Callable[..., Path]


def peak_mb(function: Callable[[], object]) -> float:
    """Return how much more the process holds at once while a function runs (Linux)."""
    import resource

    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    function()
    return (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1024


@pytest.mark.parametrize(
    ("cell", "told"),
    [
        ("XFD1048576", "far below"),
        ("XFD20000", "far to the right"),
        ("A1048576", "far below"),
        ("XFD2", "far to the right"),
        ("ZZ9999", "far below"),
        ("AAA1", "far to the right"),
    ],
)
@pytest.mark.fault("one blank in a cell far away", tried="the last cell of a sheet, the last row, the last column", outcome="a sentence with the cell; no memory is taken")  # fmt: skip
def test_a_cell_far_away_is_named_and_nothing_is_laid_out(say, stock: Stock, cell: str, told: str) -> None:
    row = re.sub("[A-Z]", "", cell)
    list_ = stock(
        stock_with(f'<row r="{row}"><c r="{cell}" t="inlineStr"><is><t xml:space="preserve"> </t></is></c></row>')
    )
    assert peak_mb(lambda: assert_told(say("stock", "--stock", str(list_)), f"stock.xlsx › Stock!{cell}: ", told)) < 150


def test_cells_that_hold_only_a_look_are_as_far_away_as_they_like(say, stock: Stock) -> None:
    """Whoever colours whole columns has such: they hold nothing, and nothing is laid out for them."""
    list_ = stock(stock_with('<row r="1048576"><c r="A1048576" s="1"/><c r="XFD1048576" s="1"></c></row>'))
    assert say("stock", "HV-1153", "--stock", str(list_)).status == 0


@pytest.mark.parametrize(
    "row", ['<row r="200000"><c><v>1</v></c></row>', '<row r="5"/><row r="200000"><c t="n"><f>1</f><v>1</v></c></row>']
)
def test_a_cell_that_does_not_say_where_it_stands_is_found_all_the_same(row: str) -> None:
    with pytest.raises(WrongInput, match=r"Stock!A200000: something stands in this cell"):
        workbook_of("stock.xlsx", stock_with(row))


@pytest.mark.fault(
    "a list without end", tried="600,000 rows of CSV, 5,000 sheets", outcome="a sentence with the limit within seconds"
)
def test_more_rows_or_sheets_than_a_dealer_has_are_refused_quickly(say, stock: Stock) -> None:
    began = time.monotonic()
    rows = b"Stock number,Year,Make,Body\n" + b"A-1,1961,Larkspur,roadster\n" * 600_000
    assert_told(
        say("stock", "--stock", str(stock(rows, "rows.csv"))), "rows.csv: has more than 100,000 rows", "split it"
    )
    assert time.monotonic() - began < 20  # it was 25 s with nothing in the way; most of a second now


def test_more_sheets_than_a_workbook_has_are_refused() -> None:
    book = openpyxl.Workbook()
    for number in range(extent.MOST_SHEETS):
        book.create_sheet(f"s{number}")
    file = io.BytesIO()
    book.save(file)
    with pytest.raises(WrongInput, match=r"many\.xlsx: has 251 sheets, and no more than 250 are read"):
        workbook_of("many.xlsx", file.getvalue())


@pytest.mark.parametrize(
    "value", ["-1e300", "1e300", "NaN", "-NaN", "inf", "-inf", "1e400", "-5", "0", "3000000", "1e-320", "", "x"]
)
@pytest.mark.parametrize("look", ["M4", "K4"])  # a day, a number
@pytest.mark.fault("a number that is none", tried="NaN, infinity, −1e300 as a number and as a day", outcome="a sentence, or the cell named; never a trace")  # fmt: skip
def test_a_number_that_is_none_is_told(say, stock: Stock, value: str, look: str) -> None:
    list_ = stock(
        with_day(value)
        if look == "M4"
        else stock_with(f'<c r="K4" s="{{look}}"><v>{value}</v></c>', cell="K4", like="K4")
    )
    said = say("stock", "--stock", str(list_))
    assert said.status in (0, 1, 2)
    assert "mistake in shipcalc itself" not in said.err + said.out
    assert "panicked" not in said.err


def with_day(value: str) -> bytes:
    """Return a stock list with a cell that is shown as a day and holds a value."""
    book = openpyxl.load_workbook(DEMO)
    book.active["M4"].value, book.active["M4"].number_format = 46000, "yyyy-mm-dd"
    file = io.BytesIO()
    book.save(file)
    (Path("day.xlsx")).write_bytes(file.getvalue())
    changed = lambda xml: re.sub(rb'(<c r="M4"[^>]*>)<v>[^<]*</v>', rb"\g<1><v>" + value.encode() + b"</v>", xml)  # noqa: E731
    return parts_changed(Path("day.xlsx"), {SHEET: changed})


@pytest.mark.fault("a damaged workbook", tried="bits flipped, the end cut off, at many places", outcome="a sentence that names the file; never a trace")  # fmt: skip
def test_every_flipped_bit_and_every_half_file_is_told_or_harmless() -> None:
    """What a flip may leave readable is only what the sums of the zip do not cover: names of parts, days, attributes."""
    whole = DEMO.read_bytes()
    sound = [sheet.rows for sheet in read_workbook(DEMO).sheets]
    for place in range(0, len(whole), 97):
        flipped = bytearray(whole)
        flipped[place] ^= 1 << place % 8
        for content in (bytes(flipped), whole[:place]):
            with suppress(WrongInput):
                assert [sheet.rows for sheet in workbook_of("stock.xlsx", content).sheets] == sound


def old_workbook(tmp_path: Path) -> bytes:
    """Return a workbook as Excel 97 wrote them."""
    import xlwt

    book = xlwt.Workbook()
    page = book.add_sheet("Stock")
    for number in range(40):
        page.write(number, 0, f"HV-{number}")
        page.write(number, 1, number * 1.5)
    book.save(str(tmp_path / "old.xls"))
    return (tmp_path / "old.xls").read_bytes()


def test_an_old_workbook_that_is_cut_off_or_flipped_is_told(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    whole = old_workbook(tmp_path)
    for place in range(0, len(whole), 61):
        flipped = bytearray(whole)
        flipped[place] ^= 0xFF
        for content in (whole[:place], bytes(flipped)):
            with suppress(WrongInput):
                workbook_of("old.xls", content)
    assert capfd.readouterr().err == ""


@pytest.mark.fault("a zip that holds more than it looks", tried="1.2 GB of blanks in 1.2 MB; a part that says it is small", outcome="a sentence before it is unpacked")  # fmt: skip
def test_a_bomb_is_refused_before_it_is_unpacked() -> None:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as bomb, bomb.open("xl/worksheets/sheet1.xml", "w") as part:
        for _ in range(310):
            part.write(b" " * 1_000_000)
    content = file.getvalue()
    assert peak_mb(lambda: refused(content, "holds more than any workbook needs")) < 50
    # The same, with a list of contents that says it holds 100 bytes: what is more than that is never taken out.
    lying = bytearray(content)
    size_at = lying.rindex(b"PK\x01\x02") + 24  # APPNOTE 4.3.12: the uncompressed size
    lying[size_at : size_at + 4] = struct.pack("<I", 100)
    assert peak_mb(lambda: refused(bytes(lying), "is not a workbook that can be opened")) < 50


def refused(content: bytes, told: str) -> None:
    with pytest.raises(WrongInput, match=told):
        workbook_of("bomb.xlsx", content)


BILLION = "".join(f'<!ENTITY l{n} "{f"&l{n - 1};" * 10}">' for n in range(1, 10))


@pytest.mark.parametrize(
    ("declared", "used"),
    [
        (f'<!DOCTYPE x [<!ENTITY l0 "lol">{BILLION}]>', "&l9;"),
        ('<!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/passwd">]>', "&e;"),
    ],
    ids=["ten to the ninth", "another file"],
)
@pytest.mark.fault("entities and links inside a workbook", tried="entities a billion times, another file, a workbook on a server", outcome="nothing grows, nothing else is read")  # fmt: skip
def test_an_entity_never_grows_and_never_brings_another_file(here: Path, declared: str, used: str) -> None:
    from shipcalc.sheets.editing import open_draft

    def changed(xml: bytes) -> bytes:
        inside = f'<row r="300"><c r="A300" t="inlineStr"><is><t>{used}</t></is></c></row></sheetData>'.encode()
        return declared.encode() + xml.replace(b"</sheetData>", inside)

    content = parts_changed(DEMO, {SHEET: changed})
    (here / "evil.xlsx").write_bytes(content)
    for opened in (
        lambda: workbook_of("evil.xlsx", content).sheets[0].rows,
        lambda: open_draft(here / "evil.xlsx").to_bytes(),
    ):
        try:
            told = repr(opened())
        except WrongInput:
            continue
        assert "lollol" not in told
        assert "root:" not in told


def test_a_part_with_a_way_out_of_its_folder_writes_nothing(here: Path) -> None:
    with zipfile.ZipFile(here / "evil.xlsx", "w") as evil, zipfile.ZipFile(DEMO) as source:
        for name in source.namelist():
            evil.writestr(name, source.read(name))
        evil.writestr("../../outside.txt", b"here")
    read_workbook(here / "evil.xlsx")
    assert sorted(path.name for path in here.parent.rglob("*.txt")) == []


def test_a_name_of_more_than_five_hundred_letters_is_named_by_its_cell(say, here: Path) -> None:
    shutil.copytree(invented_folder("rates"), here / "rates")
    for workbook, sheet in (("trucking.xlsx", "Carriers"), ("overseas.xlsx", "Ports"), ("paperwork.xlsx", "Tasks")):
        book = openpyxl.load_workbook(here / "rates" / workbook)
        book[sheet]["A2"] = "N" * 600
        book.save(here / "rates" / workbook)
    said = say("rates", "check", "rates")
    assert said.status == 1
    for cell in ("trucking.xlsx › Carriers!A2", "overseas.xlsx › Ports!A2", "paperwork.xlsx › Tasks!A2"):
        assert re.search(rf"{cell}: .* is longer than 500 letters", said.out), said.out + said.err
    assert_told(say("quote", "--vehicle", "HV-1153", "--to", "53703", "--rates", "rates"), "fault")


@pytest.mark.parametrize("name", ["locked.xlsx", "locked.xls", "locked.ods"])
@pytest.mark.fault("a workbook with a password", tried=".xlsx, .xls and .ods as their programs lock them", outcome="a sentence that says so, and where the password is taken off")  # fmt: skip
def test_a_workbook_with_a_password_is_called_that(say, name: str) -> None:
    file = Path(__file__).parent / "data" / name
    assert_told(
        say("stock", "--stock", str(file)), f"{name}: is protected by a password", "empty the password under File"
    )


@pytest.mark.fault("a sheet renamed", tried="the tabs of a checklist in other letters, and under other names", outcome="read all the same, or a sentence with what is missing")  # fmt: skip
def test_a_tab_of_a_checklist_that_was_renamed_is_found_or_named(say, here: Path) -> None:
    assert say("quote", "--vehicle", "HV-1153", "--to", "53703", "--as-of", "2026-12-01", "--out", "out").status == 0
    file = here / "out/office/checklist.xlsx"
    for name, status in (("checklist ", 0), ("CHECKLIST", 0), ("To do", 2)):
        book = openpyxl.load_workbook(file)
        page = book["Checklist"]
        page.title = "meanwhile"  # or openpyxl would number the new name, which is the old one in other letters
        page.title = name
        book.save(here / "renamed.xlsx")
        for words in (("read", "renamed.xlsx"), ("move", "renamed.xlsx", "--stage", "pickup", "--days", "3")):
            said = say("checklist", *words, "--as-of", "2026-12-02")
            assert said.status == status, said.err
            if status:
                assert_told(said, "renamed.xlsx: has no sheet Checklist")
