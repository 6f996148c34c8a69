"""Whatever people do to a checklist in Excel, reading it back loses nothing: five hundred edits by an independent library."""

import random
from datetime import date, timedelta

import openpyxl
from openpyxl.comments import Comment
from openpyxl.styles import PatternFill

from shipcalc.actions.checklist import read_checklist
from shipcalc.checklist.columns import HEADERS, LAST_VERSION, SHEET
from shipcalc.checklist.items import STATES
from shipcalc.checklist.returned import read_returned
from shipcalc.documents.checklist.workbook import write_checklist_workbook
from shipcalc.records import replace

ROUNDS, EDITS = 10, 50
DAY = date(2026, 12, 1)
HEADER_ROW = 5
WORDS = (
    "call first",
    "twice",
    "déjà vu",
    "日本",
    "=1+1",
    "-5",
    "0042",
    "line one\nline two",
    '"quoted"',
    "a; b",
    "1,234",
    " / ",
)


class Clerk:
    """Somebody with a workbook and a die: every edit is noted in `knows`, what the program must find afterwards."""

    def __init__(self, seed: int) -> None:
        self.chance = random.Random(seed)
        self.knows: dict[str, dict[str, object]] = {}
        self.own: list[str] = []

    def edit(self, book) -> None:
        page = self.page = book[SHEET]
        self.columns = {cell.value: cell.column for cell in page[HEADER_ROW] if cell.value}
        ids = self.columns[HEADERS["id"]]
        self.lines = {page.cell(row, ids).value: row for row in range(HEADER_ROW + 1, page.max_row + 1)}
        self.lines.pop(None, None)
        self.book = book
        self.chance.choice(EDIT_KINDS)(self)

    def _type(self, row: int, column: int, value: object) -> None:
        cell = self.page.cell(row, column)
        cell.value = value
        if isinstance(value, str):
            cell.data_type = "s"

    def _fill(self, field: str, value: object) -> None:
        key = self.chance.choice(sorted(self.lines))
        self._type(self.lines[key], self.columns[HEADERS[field]], value)
        self.knows.setdefault(key, {})[field] = value

    def tick(self) -> None:
        self._fill("state", self.chance.choice(STATES))

    def date(self) -> None:
        self._fill("done_on", DAY + timedelta(days=self.chance.randrange(60)))

    def sign(self) -> None:
        self._fill("done_by", self.chance.choice(("Ines", "Bo", "Ågot Ö.")))

    def note(self) -> None:
        self._fill("remark", f"{self.chance.choice(WORDS)} {self.chance.randrange(1000)}".strip())

    def hand_over(self) -> None:
        self._fill("owner", self.chance.choice(("yard", "office", "Ines")))

    def put_off(self) -> None:
        self._fill("due", DAY + timedelta(days=self.chance.randrange(60)))

    def own_line(self) -> None:
        text = f"own line {len(self.own)}"
        self._type(self.page.max_row + 1, self.columns[HEADERS["title"]], text)
        self.own.append(text)

    def own_column(self) -> None:
        last = max(self.columns.values()) + 1
        self._type(HEADER_ROW, last, f"Own {last}")
        self._type(self.chance.choice(sorted(self.lines.values())), last, self.chance.choice(WORDS))

    def swap_columns(self) -> None:
        one, other = self.chance.sample(sorted(self.columns.values()), 2)
        for row in range(HEADER_ROW, self.page.max_row + 1):
            self._swap(self.page.cell(row, one), self.page.cell(row, other))

    def swap_rows(self) -> None:
        one, other = self.chance.sample(sorted(self.lines.values()), 2)
        for column in range(1, self.page.max_column + 1):
            self._swap(self.page.cell(one, column), self.page.cell(other, column))

    def _swap(self, one, other) -> None:
        first, second = (one.value, one.data_type), (other.value, other.data_type)
        for cell, (value, kind) in ((one, second), (other, first)):
            cell.value = value
            cell.data_type = kind

    def blank_row(self) -> None:
        self.page.insert_rows(self.chance.choice(sorted(self.lines.values())))

    def colour(self) -> None:
        row = self.chance.choice(sorted(self.lines.values()))
        self.page.cell(row, self.columns[HEADERS["title"]]).fill = PatternFill("solid", fgColor="FFF2CC")

    def comment(self) -> None:
        row = self.chance.choice(sorted(self.lines.values()))
        self.page.cell(row, self.columns[HEADERS["owner"]]).comment = Comment(self.chance.choice(WORDS), "Bo")

    def elsewhere(self) -> None:
        self.book["Contacts"].cell(self.chance.randrange(6, 15), self.chance.randrange(2, 7)).value = "+1 555 0199"

    def own_sheet(self) -> None:
        self.book.create_sheet("Scribbles")["B2"] = self.chance.choice(WORDS[:4])


EDIT_KINDS = (
    *[Clerk.tick] * 6, *[Clerk.note] * 6, *[Clerk.date] * 4, *[Clerk.sign] * 3, Clerk.hand_over, Clerk.put_off, Clerk.own_line,
    Clerk.own_column, Clerk.swap_columns, Clerk.swap_rows, Clerk.blank_row, Clerk.colour, Clerk.comment, Clerk.elsewhere,
    Clerk.own_sheet,
)  # fmt: skip


def everything(book):
    """Return all that stands in a workbook, cell by cell, with looks and comments; the program's own sheet left out."""
    return {
        (sheet.title, cell.coordinate): (
            str(cell.value).removesuffix(" 00:00:00") if cell.value is not None else None,
            cell.fill.fgColor.rgb,
            cell.comment.text if cell.comment else None,
        )
        for sheet in book
        if sheet.title != LAST_VERSION
        for row in sheet
        for cell in row
        if cell.value is not None or cell.comment
    }


def returned_as_last(returned):
    """Return the lines of the last version, with what only the checklist's own sheet says."""
    items = {item.id: item for item in returned.items}
    extra = ("wanted", "note", "source")
    return {
        key: replace(item, **{name: getattr(items[key], name) for name in extra})
        for key, item in returned.last.items.items()
    }


def test_five_hundred_edits_are_read_back_without_a_loss(tmp_path, make_shipment, fleet):
    path = tmp_path / "checklist.xlsx"
    write_checklist_workbook(make_shipment(*fleet[:2]), 0, path)
    clerk = Clerk(seed=20261201)
    for _ in range(ROUNDS):
        book = openpyxl.load_workbook(path)
        for _ in range(EDITS):
            clerk.edit(book)
        book.save(path)

        before = everything(openpyxl.load_workbook(path))
        path = read_checklist([path], out=None, today=DAY).file
        assert everything(openpyxl.load_workbook(path)) == before

        returned = read_returned(path)
        items = {item.id: item for item in returned.items}
        for key, fields in clerk.knows.items():
            assert {field: getattr(items[key], field) for field in fields} == fields, key
        assert {line.item.title for line in returned.own} >= set(clerk.own)
        assert items == returned_as_last(returned), "what was written last is what stands there"
    assert len(clerk.knows) > 40
    assert clerk.own
