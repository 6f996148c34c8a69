"""A ticked checklist comes back: what people did to it in Excel, and what the program makes of it."""

import io
import shutil
from datetime import date
from pathlib import Path

import openpyxl
import pytest

from shipcalc.actions.checklist import move_checklist, read_checklist
from shipcalc.checklist.columns import HEADERS, LAST_VERSION, SHEET
from shipcalc.checklist.returned import read_returned
from shipcalc.documents.checklist.workbook import write_checklist_workbook
from shipcalc.errors import FaultyWorkbook, WrongInput

TODAY = date(2026, 12, 4)
HEADER_ROW, FIRST_ROW = 5, 6


@pytest.fixture
def written(tmp_path, make_shipment):
    path = tmp_path / "checklist.xlsx"
    write_checklist_workbook(make_shipment(), 0, path)
    return path


def place(sheet, header):
    return next(cell.column for cell in sheet[HEADER_ROW] if cell.value == header)


def line(sheet, key):
    column = place(sheet, HEADERS["id"])
    return next(row for row in range(FIRST_ROW, sheet.max_row + 1) if sheet.cell(row, column).value == key)


def fill(sheet, key, **fields):
    row = line(sheet, key)
    for field, value in fields.items():
        cell = sheet.cell(row, place(sheet, HEADERS[field]))
        cell.value = value
        if isinstance(value, str):
            cell.data_type = "s"  # typed as text, whatever it begins with


@pytest.fixture
def edited(written):
    """Return a function that edits a copy of the checklist in an independent library: name, edit → its path."""

    def copy(name, edit, source=None):
        path = written.with_name(name)
        shutil.copy(source or written, path)
        book = openpyxl.load_workbook(path)
        edit(book)
        book.save(path)
        return path

    return copy


@pytest.fixture
def libreoffice_saves(saved_elsewhere):
    """Return a function that has LibreOffice open a workbook and save it: path → the path of what it saved."""
    return lambda path: saved_elsewhere([path]) / path.name


def as_read(path):
    return {item.id: item for item in read_returned(path).items}


def values(path):
    """Return everything that stands in a workbook, by sheet, as texts."""
    book = openpyxl.load_workbook(path)
    return {sheet.title: [str(cell.value) for row in sheet for cell in row if cell.value is not None] for sheet in book}


def test_untouched_it_comes_back_as_it_was_written(written, make_shipment):
    done = read_checklist([written], out=None, today=TODAY)
    assert (done.changed, done.said, done.version, done.file.name) == ((), (), 2, "checklist-2.xlsx")
    assert as_read(done.file) == as_read(written)
    assert read_returned(done.file).last.key == read_returned(written).last.key


def test_ticks_and_notes_are_told_and_stay(edited):
    def tick(book):
        fill(book[SHEET], "wash", state="done", done_on=date(2026, 12, 3), done_by="Ines", remark="twice")
        fill(book[SHEET], "fuel", remark="=gauge broken")
        fill(book[SHEET], "claim", state="Not needed ")

    done = read_checklist([edited("ticked.xlsx", tick)], out=None, today=TODAY)
    assert len(done.changed) == 3
    told = "\n".join(done.changed)
    for words in (
        'done by Ines on 2026-12-03, was open; note: "twice"',
        'note: "=gauge broken"',
        "not needed, was open",
    ):
        assert words in told
    again = as_read(done.file)
    assert (again["wash"].state, again["wash"].done_on, again["wash"].remark) == ("done", date(2026, 12, 3), "twice")
    assert again["fuel"].remark == "=gauge broken"
    assert again["claim"].state == "not needed"
    assert read_checklist([done.file], out=None, today=TODAY).changed == (), "what was told once is not told again"


def test_what_is_late_next_and_odd_is_told(edited):
    def tick(book):
        fill(book[SHEET], "invoice", state="done")

    done = read_checklist([edited("ticked.xlsx", tick)], out=None, today=TODAY)
    assert "acceptance" in {item.id for item in done.late}
    assert all(item.due < TODAY for item in done.late)
    assert all(item.due >= TODAY for item in done.next)
    assert ("invoice", "acceptance") in {(item.id, other.id) for item, other in done.asked}


def test_moved_columns_sorted_rows_and_additions_stay(edited):
    def rework(book):
        sheet = book[SHEET]
        state, remark = place(sheet, "State"), place(sheet, "Your note")
        for row in range(HEADER_ROW, sheet.max_row + 1):  # two columns change places
            one, other = sheet.cell(row, state), sheet.cell(row, remark)
            one.value, other.value = other.value, one.value
        last = sheet.max_column + 1
        sheet.cell(HEADER_ROW, last).value = "Cost centre"
        fill(sheet, "wash", state="done", remark="with soap")
        sheet.cell(line(sheet, "wash"), last).value = "B-7"
        ids = place(sheet, HEADERS["id"])
        lines = [row for row in range(FIRST_ROW, sheet.max_row + 1) if sheet.cell(row, ids).value]
        kept = [[cell.value for cell in sheet[row]] for row in lines]
        for row, cells in zip(lines, sorted(kept, key=lambda cells: cells[ids - 1]), strict=True):  # sorted by id
            for column, value in enumerate(cells, 1):
                sheet.cell(row, column).value = value
        sheet.cell(lines[-1] + 1, place(sheet, HEADERS["title"])).value = "Ask the neighbour for the gate"
        sheet.cell(lines[-1] + 1, place(sheet, HEADERS["due"])).value = date(2026, 12, 3)
        book["Contacts"]["C8"] = "+1 555 0199"
        book.create_sheet("Scribbles")["B2"] = "call twice"

    source = edited("reworked.xlsx", rework)
    done = read_checklist([source], out=None, today=TODAY)
    assert done.changed == (
        'Wash and dry the vehicle, so that every mark can be seen (wash): done, was open; note: "with soap"',
    )
    assert "Ask the neighbour for the gate" in [item.title for item in done.late]
    before, after = values(source), values(done.file)
    for sheet in before:
        if sheet != LAST_VERSION:
            assert after[sheet] == before[sheet]


def test_of_two_copies_the_later_tick_counts_both_notes_stay_and_it_is_said(edited):
    def ines(book):
        fill(book[SHEET], "fuel", state="done", done_on=date(2026, 12, 3), done_by="Ines", remark="quarter")
        fill(book[SHEET], "wash", state="done", done_by="Ines")
        book["Contacts"]["C8"] = "+1 555 0199"

    def bo(book):
        sheet = book[SHEET]
        fill(sheet, "fuel", state="not needed", done_on=date(2026, 12, 4), done_by="Bo", remark="gauge broken")
        fill(sheet, "alarm", remark="code 0000", owner="sales")
        sheet.cell(HEADER_ROW, sheet.max_column + 1).value = "Cost centre"
        sheet.cell(line(sheet, "keys"), sheet.max_column).value = "B-7"
        free = max(
            row for row in range(FIRST_ROW, sheet.max_row + 1) if sheet.cell(row, place(sheet, HEADERS["id"])).value
        )
        sheet.cell(free + 1, place(sheet, HEADERS["title"])).value = "Ask the neighbour for the gate"
        book["Contacts"]["C9"] = "+1 555 0177"
        book["Contacts"]["C8"] = "+1 555 0000"

    done = read_checklist([edited("ines.xlsx", ines), edited("bo.xlsx", bo)], out=None, today=TODAY)
    again = as_read(done.file)
    fuel = again["fuel"]
    assert (fuel.state, fuel.done_on, fuel.done_by, fuel.remark) == (
        "not needed",
        date(2026, 12, 4),
        "Bo",
        "quarter / gauge broken",
    )
    assert (again["wash"].state, again["alarm"].remark, again["alarm"].owner) == ("done", "code 0000", "sales")
    said = "\n".join(done.said)
    assert "done by Ines on 2026-12-03 in one copy and not needed by Bo on 2026-12-04 in the other" in said
    assert "both copies have a note" in said
    assert '"+1 555 0000" differs from "+1 555 0199" in ines.xlsx, which stays' in said
    book = openpyxl.load_workbook(done.file)
    assert (book["Contacts"]["C8"].value, book["Contacts"]["C9"].value) == ("+1 555 0199", "+1 555 0177")
    sheet = book[SHEET]
    assert sheet.cell(line(sheet, "keys"), place(sheet, "Cost centre")).value == "B-7"
    assert [item.item.title for item in read_returned(done.file).own] == ["Ask the neighbour for the gate"]


def test_a_copy_of_an_older_version_still_comes_in(edited, written):
    newer = read_checklist(
        [edited("one.xlsx", lambda book: fill(book[SHEET], "wash", state="done"))], out=None, today=TODAY
    )
    older = edited("two.xlsx", lambda book: fill(book[SHEET], "fuel", state="done", remark="dipstick"))
    done = read_checklist([older, newer.file], out=None, today=TODAY)
    again = as_read(done.file)
    assert (again["wash"].state, again["fuel"].state, again["fuel"].remark) == ("done", "done", "dipstick")
    assert done.version == 3


def test_no_file_is_ever_written_over(written):
    names = [read_checklist([written], out=None, today=TODAY).file.name for _ in range(3)]
    assert names == ["checklist-2.xlsx", "checklist-3.xlsx", "checklist-4.xlsx"]


def test_a_line_that_was_deleted_is_put_back(edited):
    def delete(book):
        sheet = book[SHEET]
        sheet.delete_rows(line(sheet, "photographs"))

    done = read_checklist([edited("short.xlsx", delete)], out=None, today=TODAY)
    assert any("photographs" in sentence and "put back" in sentence for sentence in done.said)
    assert as_read(done.file)["photographs"].state == "open"


def test_the_workbook_of_another_shipment_is_refused(written, make_shipment, fleet, tmp_path):
    other = tmp_path / "other.xlsx"
    write_checklist_workbook(make_shipment(fleet[1]), 0, other)
    with pytest.raises(
        WrongInput, match=r"other\.xlsx: is the checklist of another shipment than checklist\.xlsx — give copies"
    ):
        read_checklist([written, other], out=None, today=TODAY)


def _delete_ids(book):
    sheet = book[SHEET]
    sheet.delete_cols(place(sheet, HEADERS["id"]))


def _twice(book):
    sheet = book[SHEET]
    sheet.cell(line(sheet, "wash"), place(sheet, HEADERS["id"])).value = "fuel"


@pytest.mark.parametrize(
    ("edit", "told"),
    [
        (_delete_ids, 'Checklist: the column "Id (do not change)" is missing — undo the deletion, or take an earlier copy'),
        (lambda book: book.remove(book[LAST_VERSION]), "has no sheet Last version, from which the program knows the shipment"),
        (lambda book: book.remove(book[SHEET]), "has no sheet Checklist — name a workbook that shipcalc checklist has written"),
        (lambda book: book[LAST_VERSION].delete_rows(1, 9), "Last version: was changed, and can no longer be read — undo"),
    ],
)  # fmt: skip
def test_what_the_program_cannot_do_without_is_named(edited, edit, told):
    with pytest.raises(WrongInput) as error:
        read_checklist([edited("broken.xlsx", edit)], out=None, today=TODAY)
    assert told in str(error.value)
    assert str(error.value).startswith("broken.xlsx")


@pytest.mark.parametrize(
    ("edit", "told"),
    [
        (lambda book: fill(book[SHEET], "wash", done_on="last Tuesday"),
         '"last Tuesday" is not a date — write a date as year-month-day, e.g. 2026-12-31'),
        (lambda book: fill(book[SHEET], "wash", due="4/12/2026"),
         '"4/12/2026" can be read as 2026-04-12 or as 2026-12-04 — write 2026-04-12 or 2026-12-04'),
        (lambda book: fill(book[SHEET], "wash", state="nearly"),
         '"nearly" is not a state of a line — choose open, done or not needed'),
        (lambda book: book[SHEET].cell(line(book[SHEET], "wash"), place(book[SHEET], "Due"), "=B1+gone"),
         "a formula without a result stands here — open the file in Excel and save it, or type the day in its place"),
        (_twice, 'the id "fuel" is already in'),
        (lambda book: fill(book[SHEET], "wash", id="washing"),
         'no line of this shipment has the id "washing" — restore it, or clear it'),
    ],
)  # fmt: skip
def test_a_cell_that_cannot_be_read_is_named_with_the_way_to_mend_it(edited, edit, told):
    path = edited("typed.xlsx", edit)
    with pytest.raises(FaultyWorkbook) as error:
        read_checklist([path], out=None, today=TODAY)
    (problem,) = error.value.problems
    assert problem.cell.startswith("typed.xlsx › Checklist!")
    assert told in str(problem)
    assert not path.with_name("typed-2.xlsx").exists()


def test_a_day_typed_as_text_that_can_be_only_one_is_read_and_becomes_a_day(edited):
    done = read_checklist(
        [edited("text.xlsx", lambda book: fill(book[SHEET], "wash", state="done", done_on="3 Dec 2026"))],
        out=None,
        today=TODAY,
    )
    sheet = openpyxl.load_workbook(done.file)[SHEET]
    assert sheet.cell(line(sheet, "wash"), place(sheet, HEADERS["done_on"])).value.date() == date(2026, 12, 3)


def test_a_picture_in_the_workbook_is_said_to_stay_behind(edited):
    image = pytest.importorskip("PIL.Image")
    drawing = pytest.importorskip("openpyxl.drawing.image")
    picture = io.BytesIO()
    image.new("RGB", (4, 4)).save(picture, "png")
    path = edited("pictured.xlsx", lambda book: book["Handover"].add_image(drawing.Image(picture), "A1"))
    done = read_checklist([path], out=None, today=TODAY)
    assert any(sentence.startswith("pictured.xlsx has pictures, which stay behind") for sentence in done.said)


def test_what_another_spreadsheet_program_saved_is_read_and_changed_too(edited, libreoffice_saves):
    path = edited(
        "ticked.xlsx", lambda book: fill(book[SHEET], "wash", state="done", done_on=date(2026, 12, 3), remark="twice")
    )
    saved = libreoffice_saves(path)
    done = read_checklist([saved], out=None, today=TODAY)
    assert done.changed == (
        'Wash and dry the vehicle, so that every mark can be seen (wash): done on 2026-12-03, was open; note: "twice"',
    )
    assert as_read(done.file) == as_read(path)


# Dates move


def test_new_dates_move_what_is_open_and_keep_what_is_done(edited):
    def tick(book):
        fill(book[SHEET], "wash", state="done", done_on=date(2026, 12, 3), remark="twice")
        fill(book[SHEET], "fuel", remark="dipstick")

    path = edited("ticked.xlsx", tick)
    was = as_read(path)
    done = move_checklist(path, "pickup", to=None, days=7, out=None, today=TODAY)
    now = as_read(done.file)
    assert now["wash"] == was["wash"]
    assert (now["fuel"].due - was["fuel"].due).days == 7
    assert now["fuel"].remark == "dipstick"
    assert now["acceptance"].due == was["acceptance"].due, "what comes before pickup stays"
    days = read_returned(done.file).last.moments
    assert days["pickup"][0].isoformat() == "2026-12-14"
    assert days["delivery"][0].isoformat() == "2026-12-17"


def test_a_day_that_was_set_by_hand_survives_every_move_and_is_named(edited):
    def set_day(book):
        sheet = book[SHEET]
        sheet.cell(line(sheet, "title-sent"), place(sheet, HEADERS["due"])).value = date(2026, 12, 16)

    read = read_checklist([edited("by_hand.xlsx", set_day)], out=None, today=TODAY)
    assert as_read(read.file)["title-sent"].due_by_hand, "it is known in the next version too"
    done = move_checklist(read.file, "delivery", to=None, days=5, out=None, today=TODAY)
    now = as_read(done.file)
    assert now["title-sent"].due == date(2026, 12, 16)
    assert now["title-received"].due > as_read(read.file)["title-received"].due
    (told,) = (sentence for sentence in done.said if "(title-sent)" in sentence)
    assert told.endswith("(title-sent): stays on 2026-12-16, the day that was set by hand.")
    again = move_checklist(done.file, "pickup", to=None, days=3, out=None, today=TODAY)
    assert as_read(again.file)["title-sent"].due == date(2026, 12, 16)
    assert not as_read(again.file)["wash"].due_by_hand


def test_a_day_by_hand_that_no_longer_fits_is_told_with_what_it_is_in_the_way_of(edited):
    def set_day(book):
        sheet = book[SHEET]
        sheet.cell(line(sheet, "title-sent"), place(sheet, HEADERS["due"])).value = date(2027, 3, 1)

    done = move_checklist(edited("late.xlsx", set_day), "pickup", to=None, days=7, out=None, today=TODAY)
    assert as_read(done.file)["title-sent"].due == date(2027, 3, 1)
    (told,) = (sentence for sentence in done.said if "(title-sent)" in sentence)
    assert (
        "look at it again: “Ask the buyer whether the title, keys and papers have arrived; note the day” waits for it"
        in told
    )


def test_after_a_move_the_rows_stand_by_date_with_all_that_belongs_to_them(edited):
    def note(book):
        sheet = book[SHEET]
        sheet.cell(line(sheet, "title-sent"), place(sheet, HEADERS["due"])).value = date(2026, 12, 23)
        fill(sheet, "keys", remark="two sets")
        row = line(sheet, "keys")
        sheet.cell(row, place(sheet, HEADERS["title"])).comment = openpyxl.comments.Comment("spare in the drawer", "Bo")
        sheet.cell(HEADER_ROW, sheet.max_column + 1).value = "Doubled"
        sheet.cell(
            row, sheet.max_column
        ).value = f"=2*{sheet.cell(row, place(sheet, HEADERS['slack_days'])).coordinate}"

    done = move_checklist(
        edited("noted.xlsx", note), "delivery", to=date(2026, 12, 21), days=None, out=None, today=TODAY
    )
    lines = read_returned(done.file)
    dues = [item.due for item in lines.items]
    assert dues == sorted(dues)
    sheet = openpyxl.load_workbook(done.file)[SHEET]
    row = line(sheet, "keys")
    assert sheet.cell(row, place(sheet, HEADERS["title"])).comment.text == "spare in the drawer"
    slack = sheet.cell(row, place(sheet, HEADERS["slack_days"])).coordinate
    assert sheet.cell(row, place(sheet, "Doubled")).value == f"=2*{slack}"
    when = sheet.cell(row, place(sheet, HEADERS["when"])).value
    assert sheet.cell(row, place(sheet, HEADERS["due"])).coordinate in when


def test_a_move_that_cannot_be_is_refused(written):
    with pytest.raises(WrongInput, match="this shipment has no sailing — name one of: ready, pickup, delivery"):
        move_checklist(written, "sailing", to=date(2026, 12, 30), days=None, out=None, today=TODAY)
    with pytest.raises(
        WrongInput, match="delivery on 2026-12-01 would come before pickup on 2026-12-07 — move pickup first"
    ):
        move_checklist(written, "delivery", to=date(2026, 12, 1), days=None, out=None, today=TODAY)


def test_a_pickup_on_a_holiday_is_asked_about(written):
    done = move_checklist(written, "pickup", to=date(2026, 12, 25), days=None, out=None, today=TODAY)
    assert "Pickup: 2026-12-25 is a Sunday or a holiday: ask whether anybody is there." in done.said


def test_the_same_copies_give_the_same_bytes(edited, tmp_path):
    path = edited("ticked.xlsx", lambda book: fill(book[SHEET], "wash", state="done"))
    one, other = (read_checklist([path], out=tmp_path / name, today=TODAY) for name in ("one", "other"))
    assert one.file.read_bytes() == other.file.read_bytes()
    assert one.calendar.read_bytes() == other.calendar.read_bytes()
    assert Path(one.file).parent.name == "one"


@pytest.mark.parametrize(
    ("note", "wrong"),
    [
        ("container CSQU 305438 3, seal 4471", ""),  # the example of ISO 6346
        ("container csqu3054384", '"csqu3054384" ends in 4, but its check digit would be 3'),
        ("rang ABCD 12 twice", ""),
    ],
)
def test_a_container_number_in_a_note_is_checked(edited, note, wrong) -> None:
    key = {}

    def write(book):
        sheet = book[SHEET]
        key["id"] = sheet.cell(FIRST_ROW, place(sheet, HEADERS["id"])).value
        fill(sheet, key["id"], remark=note)

    said = read_checklist([edited("back.xlsx", write)], out=None, today=TODAY).said
    assert [sentence for sentence in said if "check digit" in sentence] == [
        sentence for sentence in said if wrong and wrong in sentence
    ]
    assert any(wrong in sentence for sentence in said) or not wrong
