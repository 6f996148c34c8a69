"""Checklists handed out and worked in: as the workbooks that people get, or as what the program reads in one, which is quick."""

import pickle
from collections.abc import Mapping
from datetime import date
from pathlib import Path

import openpyxl

from shipcalc.actions.kept_quotes import Desk
from shipcalc.actions.shipments import show, write_checklist
from shipcalc.checklist.columns import HEADERS
from shipcalc.checklist.items import Item
from shipcalc.checklist.last_version import LastVersion
from shipcalc.checklist.making import shipment_key
from shipcalc.checklist.returned import OwnLine, Returned
from shipcalc.records import replace
from shipcalc.register.shipments import Shipment
from tests.register.plain_register import Copy, Tick

HEADER_ROW = 5
OWN_DUE = date(2026, 12, 24)
# Field of a line → what somebody typed.
Typed = Mapping[str, object]


def copy_of(desk: Desk, number: str, folder: Path, changes: Mapping[tuple[str, str], object]) -> Path:
    """Write a checklist as it stands and change cells in it: (id, field) → value; ("", field) is a line of one's own."""
    _, file, _ = write_checklist(number, desk, out=folder, paper="letter")
    book = openpyxl.load_workbook(file)
    sheet = book["Checklist"]
    headers = {cell.value: cell.column for cell in sheet[HEADER_ROW]}
    rows = {sheet.cell(row, headers[HEADERS["id"]]).value: row for row in range(HEADER_ROW + 1, sheet.max_row + 1)}
    for (key, field), value in changes.items():
        row = rows[key] if key in rows else next(row for row in range(HEADER_ROW + 1, 200) if row not in rows.values())
        sheet.cell(row, headers[HEADERS[field]]).value = value
    book.save(file)
    return file


def hand_out(
    desk: Desk, number: str, folder: Path, typed: Mapping[int, Typed], own: str, *, as_workbook: bool
) -> tuple[Path, Copy]:
    """Hand out the checklist of a shipment, in which somebody types into lines (by place, counted from 0) and adds one."""
    shipment = show(number, desk).shipment
    was = {line.item.id: replace(line.item, owner=line.who) for line in shipment.lines}
    keys = list(was)
    now = dict(was)
    for place, fields in typed.items():
        key = keys[place % len(keys)]
        now[key] = replace(now[key], **fields)
    if as_workbook:
        changed = {
            (key, field): getattr(now[key], field)
            for key in now
            for field in ("state", "done_on", "done_by", "remark", "title", "owner", "due")
            if getattr(now[key], field) != getattr(was[key], field)
        }
        new = {("", "title"): own, ("", "owner"): "yard", ("", "due"): OWN_DUE} if own else {}
        file = copy_of(desk, number, folder, {**changed, **new})
    else:
        file = folder / "copy.pickle"
        folder.mkdir()
        file.write_bytes(pickle.dumps(_as_read(shipment, was, now, own)))
    copied = Copy(
        number=number,
        key=shipment_key(shipment.quote, shipment.option),
        version=shipment.version,
        was={key: _said(item) for key, item in was.items()},
        now={key: _said(item) for key, item in now.items()},
        own=(own,) if own else (),
        own_due=OWN_DUE,
    )
    return file, copied


def read_back(file: Path) -> Returned:
    """Return what was laid into a file that is no workbook, as reading a workbook would."""
    return replace(pickle.loads(file.read_bytes()), path=file)


def _said(item: Item) -> tuple[Tick, str, str, str, date]:
    return (item.state, item.done_on, item.done_by), item.remark, item.title, item.owner, item.due


def _as_read(shipment: Shipment, was: Mapping[str, Item], now: Mapping[str, Item], own: str) -> Returned:
    last = LastVersion(
        key=shipment_key(shipment.quote, shipment.option),
        title="",
        version=shipment.version,
        written_on=shipment.accepted_on,
        moments=shipment.moments,
        items=was,
        free_days=shipment.free_days,
        moment_rows={},
        line_rows={},
        version_row=1,
        added={},
    )
    lines = tuple(replace(item, due_by_hand=item.due_by_hand or item.due != was[item.id].due) for item in now.values())
    added = (OwnLine(row=90, item=Item(id="row 90", title=own, owner="yard", due=OWN_DUE), cells={}),) if own else ()
    return Returned(
        path=Path(),
        last=last,
        items=lines,
        own=added,
        header_row=HEADER_ROW,
        columns={},
        rows=dict.fromkeys(now, 1),
        added={},
        book=None,  # type: ignore[arg-type]
    )
