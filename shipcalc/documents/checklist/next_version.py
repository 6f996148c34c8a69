"""The next version of a checklist: the workbook that came back, with other copies' entries and new dates in it.

It is the same workbook, changed in a few cells: whatever people wrote, added, sorted or coloured stays.
"""

from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.checklist.columns import HEADERS, LAST_VERSION, LINE_HEADERS, SHEET
from shipcalc.checklist.items import Item
from shipcalc.checklist.joining import Joined, added_cells
from shipcalc.checklist.ordering import in_working_order
from shipcalc.checklist.returned import NO_DATE, TYPED, OwnLine, Returned
from shipcalc.checklist.typed import text_in
from shipcalc.documents.checklist.last_version_sheet import line_values
from shipcalc.documents.checklist.other_sheets import carry_other_sheets, writable
from shipcalc.documents.checklist.sheet import told_when
from shipcalc.quote.model import Window
from shipcalc.records import dataclass
from shipcalc.sheets.editing import Draft, open_draft
from shipcalc.sheets.reading import is_blank, letter
from shipcalc.sheets.saving import save

if TYPE_CHECKING:
    from shipcalc.sheets.writing import Value


@dataclass(frozen=True, slots=True, kw_only=True)
class NextVersion:
    """What the next version says: its number and day, moments and lines. `sorts`: its rows are put in order of date."""

    version: int
    written_on: date
    moments: Mapping[str, Window]
    items: tuple[Item, ...]
    sorts: bool = False


def write_next_version(joined: Joined, copies: Sequence[Returned], to_say: NextVersion, path: Path) -> tuple[str, ...]:
    """Write the next version and return what has to be said about it.

    Raises WrongInput where it cannot be read or written, FileExistsError where somebody has just written one of that name.
    """
    into = joined.into
    draft = open_draft(into.path)
    said = []
    if draft.left_out:
        said.append(f"{into.path.name} has {' and '.join(draft.left_out)}, which stay behind in it: keep that file too")
    rows = dict(into.rows)
    gone = [item for item in to_say.items if item.id not in into.rows]
    rows.update(_put_back(draft, into, gone))
    said += [f"{item.title} ({item.id}) was deleted and is put back: set it to not needed instead" for item in gone]
    _put_lines(draft, into, to_say, rows)
    for line in joined.own:
        _put_own(draft, into, line)
    said += _put_added(draft, joined, copies, rows)
    said += carry_other_sheets(draft, into, copies)
    if to_say.sorts:
        _sort(draft, into, to_say, rows)
    _put_last_version(draft, into, to_say)
    save(path, draft.to_bytes(), new=True)
    return tuple(said)


def _cell(into: Returned, field: str, row: int) -> str:
    return f"{letter(into.columns[HEADERS[field]] - 1)}{row}"


def _put_back(draft: Draft, into: Returned, gone: Sequence[Item]) -> dict[str, int]:
    """Put lines back that somebody deleted, at the foot; nothing of a shipment may fall out."""
    rows = {}
    for item in gone:
        row = _free_row(draft, into)
        for field in ("title", "owner"):
            draft.put(SHEET, _cell(into, field, row), getattr(item, field))
        draft.put(SHEET, _cell(into, "id", row), item.id)
        if HEADERS["critical"] in into.columns:
            draft.put(SHEET, _cell(into, "critical", row), "critical" if item.critical else "")
        rows[item.id] = row
    return rows


def _free_row(draft: Draft, into: Returned) -> int:
    """Return a row at the foot in which nothing stands but what shows by itself: a spare one, or a new one that looks like it."""
    last = draft.last_row(SHEET)
    fields = [HEADERS[field] for field in HEADERS if field not in ("when", "state") and HEADERS[field] in into.columns]
    others = [header for header in into.columns if header not in HEADERS.values()]
    columns = [letter(into.columns[header] - 1) for header in (*fields, *others)]
    row = last + 1
    while row - 1 > into.header_row and all(is_blank(text_in(draft.value(SHEET, f"{at}{row - 1}"))) for at in columns):
        row -= 1
    if row > last:
        draft.look_like(SHEET, row, as_row=row - 1)
    return row


def _put_lines(draft: Draft, into: Returned, to_say: NextVersion, rows: Mapping[str, int]) -> None:
    """Write what a line says now where it says something else; a cell that says it already is left as somebody typed it."""
    stood = {item.id: item for item in into.items}
    for item in to_say.items:
        before, row = stood.get(item.id), rows[item.id]
        for field in TYPED:
            value: Value = getattr(item, field)
            if before is None or value != getattr(before, field) or _is_day_as_text(draft, into, field, row):
                draft.put(SHEET, _cell(into, field, row), value)
        if item.slack_days is not None and HEADERS["slack_days"] in into.columns:
            draft.put(SHEET, _cell(into, "slack_days", row), item.slack_days)
        if HEADERS["when"] in into.columns:
            draft.show(SHEET, _cell(into, "when", row), told_when(item, to_say.written_on))


def _is_day_as_text(draft: Draft, into: Returned, field: str, row: int) -> bool:
    if field not in ("due", "done_on"):
        return False
    value = draft.value(SHEET, _cell(into, field, row))
    return isinstance(value, str) and not value.startswith("=")


def _put_own(draft: Draft, into: Returned, line: OwnLine) -> None:
    """Write a line that somebody added to another copy, column by column, by the headers."""
    row = _free_row(draft, into)
    for header, value in line.cells.items():
        if header not in (HEADERS["when"], HEADERS["id"]) and not is_blank(value):
            draft.put(SHEET, f"{letter(_column(draft, into, header) - 1)}{row}", writable(value))


def _column(draft: Draft, into: Returned, header: str) -> int:
    """Return the column of a header, giving it a new one after the last where the workbook has none."""
    if header in into.columns:
        return into.columns[header]
    place = 1
    while not is_blank(text_in(draft.value(SHEET, f"{letter(place - 1)}{into.header_row}"))):
        if draft.value(SHEET, f"{letter(place - 1)}{into.header_row}") == header:
            return place
        place += 1
    draft.put(SHEET, f"{letter(place - 1)}{into.header_row}", header)
    return place


def _put_added(draft: Draft, joined: Joined, copies: Sequence[Returned], rows: Mapping[str, int]) -> list[str]:
    """Write what stands in columns that people added to other copies; where both say something, both stay."""
    said = []
    for key, header, value, file in added_cells(copies, joined.into):
        if key not in rows:
            continue
        cell = f"{letter(_column(draft, joined.into, header) - 1)}{rows[key]}"
        here = text_in(draft.value(SHEET, cell))
        if not here:
            draft.put(SHEET, cell, writable(value))
        elif here != text_in(value) and not draft.is_formula(SHEET, cell):
            draft.put(SHEET, cell, f"{here} / {text_in(value)}")
            said.append(f'{key}: "{header}" differs in {file}; both stay')
    return said


def _sort(draft: Draft, into: Returned, to_say: NextVersion, rows: Mapping[str, int]) -> None:
    """Put the rows in the order they can be worked off; added lines go by their own day, those without one to the end."""
    own = [line.item for line in into.own]
    places = {**rows, **{line.item.id: line.row for line in into.own}}
    dated = in_working_order([*to_say.items, *(item for item in own if item.due != NO_DATE)])
    undated = [item for item in own if item.due == NO_DATE]
    draft.reorder(SHEET, [places[item.id] for item in (*dated, *undated)])


def _put_last_version(draft: Draft, into: Returned, to_say: NextVersion) -> None:
    last = into.last
    draft.put(LAST_VERSION, f"B{last.version_row}", to_say.version)
    draft.put(LAST_VERSION, f"B{last.version_row + 1}", to_say.written_on)
    for stage, row in last.moment_rows.items():
        for at, day in zip("BC", to_say.moments[stage], strict=True):
            draft.put(LAST_VERSION, f"{at}{row}", day)
    header = min(last.line_rows.values(), default=2) - 1
    for place, told in enumerate(LINE_HEADERS.values()):  # an older version lacks the newest of them
        draft.put(LAST_VERSION, f"{letter(place)}{header}", told)
    for item in to_say.items:
        values = line_values(item)
        for place, field in enumerate(LINE_HEADERS):
            if field in values:  # what stands in columns that people added is known to the register alone
                draft.put(LAST_VERSION, f"{letter(place)}{last.line_rows[item.id]}", values[field])
