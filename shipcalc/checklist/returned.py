"""A checklist that came back from people: what it says now, line by line, and what it said when it was last written.

Columns may have been moved, rows sorted, columns and rows added; what counts are the headers and the id of each line.
"""

from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path

from shipcalc.checklist.columns import HEADERS, LAST_VERSION, SHEET
from shipcalc.checklist.items import Item
from shipcalc.checklist.last_version import LastVersion, last_version
from shipcalc.checklist.typed import day_in, state_in, text_in
from shipcalc.errors import FaultyWorkbook, Problem, WrongInput
from shipcalc.ratebook.workbook.misread import Misread
from shipcalc.records import dataclass, replace
from shipcalc.sheets.reading import CellValue, Sheet, WorkbookFile, is_blank, read_workbook

# What people may fill in or change on a line; the other columns only say what the program knows.
TYPED = ("state", "due", "title", "owner", "done_on", "done_by", "remark")
NEEDED = ("id", *TYPED)
NO_DATE = date.max


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnLine:
    """A line that somebody added, in a row of the sheet counted from 1: it has no id. `due` is NO_DATE where none was given."""

    row: int
    item: Item
    cells: Mapping[str, CellValue]  # by header


@dataclass(frozen=True, slots=True, kw_only=True)
class Returned:
    """One copy of a checklist, as it came back.

    `columns` are the columns of the sheet by header, `rows` the rows of the lines by id, both counted from 1. `added` are the
    values of columns that people added, by id and header.
    """

    path: Path
    last: LastVersion
    items: tuple[Item, ...]
    own: tuple[OwnLine, ...]
    header_row: int
    columns: Mapping[str, int]
    rows: Mapping[str, int]
    added: Mapping[str, Mapping[str, CellValue]]
    book: WorkbookFile

    @property
    def missing(self) -> tuple[Item, ...]:
        """Return the lines of the last version that are no longer there."""
        return tuple(item for key, item in self.last.items.items() if key not in self.rows)


def read_returned(path: Path) -> Returned:
    """Read a checklist back.

    Raises WrongInput for a file that is no checklist or has lost what the program needs, FaultyWorkbook with every cell that
    cannot be read.
    """
    book = read_workbook(path)
    sheet, last_sheet = book.find_sheet(SHEET), book.find_sheet(LAST_VERSION)
    if sheet is None:
        raise WrongInput(
            f"has no sheet {SHEET}", where=book.name, remedy="name a workbook that shipcalc checklist has written"
        )
    if last_sheet is None:
        raise WrongInput(
            f"has no sheet {LAST_VERSION}, from which the program knows the shipment",
            where=book.name,
            remedy="undo its deletion, or take it from an earlier copy of the file",
        )
    last = last_version(last_sheet)
    header_row, columns = _headers(sheet)
    problems: list[Problem] = []
    lines = list(_lines(sheet, header_row, columns, last, problems))
    if problems:
        remedy = f"correct {'it' if len(problems) == 1 else 'them'} and read the file again"
        raise FaultyWorkbook(_count(problems), tuple(problems), where=book.name, remedy=remedy)
    named = [line for line in lines if line.item.id in last.items]
    ours = frozenset(HEADERS.values())
    return Returned(
        path=path,
        last=last,
        items=tuple(line.item for line in named),
        own=tuple(line for line in lines if line.item.id not in last.items),
        header_row=header_row + 1,
        columns={header: place + 1 for header, place in columns.items()},
        rows={line.item.id: line.row for line in named},
        added={
            line.item.id: {
                header: value for header, value in line.cells.items() if header not in ours and not is_blank(value)
            }
            for line in named
        },
        book=book,
    )


def _count(problems: list[Problem]) -> str:
    cells = "1 cell" if len(problems) == 1 else f"{len(problems)} cells"
    return f"{cells} cannot be read"


def _headers(sheet: Sheet) -> tuple[int, dict[str, int]]:
    """Return the row of the headers and the column of each header, counted from 0. Raises WrongInput where one is missing."""
    wanted = {HEADERS[field] for field in NEEDED}
    best: tuple[int, dict[str, int]] = (0, {})
    for number, row in sheet.filled_rows():
        found: dict[str, int] = {}
        for place, value in enumerate(row):
            if isinstance(value, str) and value.strip():
                found.setdefault(_header(value), place)
        if len(wanted & set(found)) > len(wanted & set(best[1])):
            best = (number, found)
    missing = [HEADERS[field] for field in NEEDED if HEADERS[field] not in best[1]]
    if missing:
        told = f'the column "{missing[0]}" is missing'
        if len(missing) > 1:
            told = "these columns are missing: " + ", ".join(f'"{header}"' for header in missing)
        raise WrongInput(
            told,
            where=f"{sheet.workbook} › {sheet.name}",
            remedy="undo the deletion, or take an earlier copy of the file: without it no line can be told from another"
            if HEADERS["id"] in missing
            else "undo the deletion, or give the column its header again",
        )
    return best


def _header(text: str) -> str:
    """Return a header as the program writes it, whatever blanks and capitals somebody made of it."""
    plain = " ".join(text.split())
    return next((known for known in HEADERS.values() if known.casefold() == plain.casefold()), plain)


def _lines(
    sheet: Sheet, header_row: int, columns: Mapping[str, int], last: LastVersion, problems: list[Problem]
) -> Iterator[OwnLine]:
    seen: dict[str, int] = {}
    by_fold = {key.casefold(): key for key in last.items}
    for number in range(header_row + 1, len(sheet.rows)):
        row = sheet.rows[number]
        cells = {header: row[place] for header, place in columns.items() if place < len(row)}
        typed = {field: cells.get(HEADERS[field]) for field in NEEDED}
        if all(is_blank(value) for header, value in cells.items() if header != HEADERS["when"]):
            continue
        own_id = by_fold.get(text_in(typed["id"]).casefold(), text_in(typed["id"]))
        where = sheet.cell(number, columns[HEADERS["id"]])
        if own_id and own_id not in last.items:
            problems.append(
                Problem(where, f'no line of this shipment has the id "{own_id}"', "restore it, or clear it")
            )
        elif own_id in seen:
            first = sheet.cell(seen[own_id], columns[HEADERS["id"]]).rpartition("!")[2]
            problems.append(
                Problem(where, f'the id "{own_id}" is already in {first}', "clear it on the line that you added")
            )
        elif own_id:
            seen[own_id] = number
        base = last.items.get(own_id) or Item(id=f"row {number + 1}", title="", owner="", due=NO_DATE)
        item = _read(sheet, number, columns, cells, base, problems)
        if own_id or _says_something(item) or _has_more(cells):
            yield OwnLine(row=number + 1, item=item, cells=cells)


def _says_something(item: Item) -> bool:
    return bool(item.title or item.remark or item.owner or item.done_by or item.done_on or item.due != NO_DATE)


def _has_more(cells: Mapping[str, CellValue]) -> bool:
    ours = {HEADERS[field] for field in ("when", "state", "id")}
    return any(not is_blank(value) for header, value in cells.items() if header not in ours)


def _check_not_lost(sheet: Sheet, number: int, place: int) -> None:
    """A cell that reads as empty and is not is told: a due date would silently be another."""
    shown = sheet.lost.get((number, place))
    if shown:
        raise Misread(f"the cell shows {shown}", "type the day")
    if shown is not None:
        raise Misread(
            "a formula without a result stands here", "open the file in Excel and save it, or type the day in its place"
        )


def _read(
    sheet: Sheet,
    number: int,
    columns: Mapping[str, int],
    cells: Mapping[str, CellValue],
    base: Item,
    problems: list[Problem],
) -> Item:
    """Return the line as it stands now; what cannot be read becomes a problem and stays as it was."""
    typed = {field: cells.get(header) for field, header in HEADERS.items()}

    def told(field: str, error: Misread) -> None:
        problems.append(Problem(sheet.cell(number, columns[HEADERS[field]]), error.message, error.remedy))

    days: dict[str, date | None] = {"due": None, "done_on": None}
    for field in days:
        try:
            _check_not_lost(sheet, number, columns[HEADERS[field]])
            days[field] = day_in(typed[field])
        except Misread as error:
            told(field, error)
    state = base.state
    try:
        state = state_in(typed["state"])
    except Misread as error:
        told("state", error)
    return replace(
        base,
        state=state,
        due=days["due"] or base.due,
        due_by_hand=base.due_by_hand or days["due"] not in (None, base.due),
        done_on=days["done_on"],
        title=text_in(typed["title"]) or base.title,
        owner=text_in(typed["owner"]),
        done_by=text_in(typed["done_by"]),
        remark=text_in(typed["remark"]),
        wanted=text_in(typed["wanted"]),
        note=text_in(typed["note"]),
        source=text_in(typed["source"]),
    )
