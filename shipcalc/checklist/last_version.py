"""What a checklist said when it was last written, read from its sheet for the program."""

import json
from collections.abc import Mapping
from datetime import date, datetime
from typing import cast

from shipcalc.checklist.columns import (
    ABOUT,
    LINE_HEADERS,
    MOMENT_HEADERS,
    MOMENTS_IN_WORDS,
    SHIPMENT,
    VERSION,
    WRITTEN_ON,
)
from shipcalc.checklist.items import STATES, Item
from shipcalc.checklist.typed import text_in
from shipcalc.errors import WrongInput
from shipcalc.quote.model import Window
from shipcalc.ratebook.workbook.dates import EARLIEST_YEAR, LATEST_YEAR
from shipcalc.records import dataclass
from shipcalc.sheets.reading import CellValue, Sheet


@dataclass(frozen=True, slots=True, kw_only=True)
class LastVersion:
    """Which shipment, which version, its moments by stage, and its lines by id, as they were written.

    `moment_rows` and `line_rows` are where they stand, rows counted from 1. `added` is what stood in columns that people had
    added, by id and header; a list that was written before those were kept has none.
    """

    key: str
    title: str
    version: int
    written_on: date
    moments: Mapping[str, Window]
    items: Mapping[str, Item]
    free_days: Mapping[str, int]
    moment_rows: Mapping[str, int]
    line_rows: Mapping[str, int]
    version_row: int
    added: Mapping[str, Mapping[str, str]]


def last_version(sheet: Sheet) -> LastVersion:
    """Return what the sheet says. Raises WrongInput where it was changed so that it cannot be read."""
    first = [text_in(row[0]) if row else "" for row in sheet.rows]
    try:
        told = {label: sheet.rows[first.index(label)][1] for label in (SHIPMENT, ABOUT, VERSION, WRITTEN_ON)}
        moments_at, lines_at = first.index(MOMENT_HEADERS[0]) + 1, first.index(LINE_HEADERS["id"]) + 1
        moment_rows = {first[n]: n + 1 for n in range(moments_at, lines_at - 1) if first[n] in MOMENTS_IN_WORDS}
        line_rows = {first[n]: n + 1 for n in range(lines_at, len(first)) if first[n]}
        return LastVersion(
            key=text_in(told[SHIPMENT]),
            title=text_in(told[ABOUT]),
            version=int(cast("float", told[VERSION])),
            written_on=_day(told[WRITTEN_ON]),
            moments={
                stage: (_moment(sheet.rows[row - 1][1]), _moment(sheet.rows[row - 1][2]))
                for stage, row in moment_rows.items()
            },
            free_days=_free_days(sheet, moment_rows),
            items={key: _item(sheet.rows[row - 1]) for key, row in line_rows.items()},
            moment_rows=moment_rows,
            line_rows=line_rows,
            version_row=first.index(VERSION) + 1,
            added={key: _added(sheet.rows[row - 1]) for key, row in line_rows.items()},
        )
    except (ValueError, TypeError, IndexError, AttributeError, OverflowError, RecursionError, AssertionError):
        raise WrongInput(
            "was changed, and can no longer be read",
            where=f"{sheet.workbook} › {sheet.name}",
            remedy="undo the change, or take the sheet from an earlier copy of the file",
        ) from None


def _free_days(sheet: Sheet, moment_rows: Mapping[str, int]) -> dict[str, int]:
    """Return the free days of the ports; none on a list that was written before they were."""
    told = {stage: (*sheet.rows[row - 1], None, None, None, None)[3] for stage, row in moment_rows.items()}
    return {stage: int(days) for stage, days in told.items() if isinstance(days, int | float)}


def _item(row: tuple[CellValue, ...]) -> Item:
    cells = dict(zip(LINE_HEADERS, (*row, *[None] * len(LINE_HEADERS)), strict=False))
    key, state = text_in(cells["id"]), text_in(cells["state"])
    assert state in STATES, f"{state!r} is not a state"
    return Item(
        id=key,
        title=text_in(cells["title"]),
        owner=text_in(cells["owner"]),
        due=_day(cells["due"]),
        stage=text_in(cells["stage"]),
        after=tuple(part for part in text_in(cells["after"]).split("; ") if part),
        critical=text_in(cells["critical"]) != "",
        due_by_hand=text_in(cells["due_by_hand"]) != "",
        vehicle=key.partition("/")[2] or None,
        state=state,
        done_on=_day(cells["done_on"]) if cells["done_on"] is not None else None,
        done_by=text_in(cells["done_by"]),
        remark=text_in(cells["remark"]),
    )


def _added(row: tuple[CellValue, ...]) -> dict[str, str]:
    place = list(LINE_HEADERS).index("added")
    text = text_in(row[place]) if place < len(row) else ""
    return {str(header): str(value) for header, value in json.loads(text).items()} if text else {}


def _moment(cell: CellValue) -> date:
    day = _day(cell)
    assert EARLIEST_YEAR <= day.year <= LATEST_YEAR, f"{day} is no day of a shipment"
    return day


def _day(cell: CellValue) -> date:
    assert isinstance(cell, date), f"{cell!r} is not a day"
    return cell.date() if isinstance(cell, datetime) else cell
