"""What people type into a checklist's cells: states, days, texts."""

from datetime import date, datetime

from shipcalc.checklist.items import STATES, State
from shipcalc.ratebook.workbook.columns import Column, Kind
from shipcalc.ratebook.workbook.dates import day
from shipcalc.ratebook.workbook.misread import Misread
from shipcalc.ratebook.workbook.shown import shown
from shipcalc.sheets.reading import CellValue, is_blank

_DAY = Column("", Kind.DATE, "", example="2026-12-31")


def state_in(cell: CellValue) -> State:
    """Return the state in a cell; a blank one is open. Raises Misread for anything but the three words."""
    if is_blank(cell):
        return "open"
    word = " ".join(str(cell).split()).casefold()
    for state in STATES:
        if state == word:
            return state
    raise Misread(f"{shown(cell)} is not a state of a line", f"choose {', '.join(STATES[:-1])} or {STATES[-1]}")


def day_in(cell: CellValue) -> date | None:
    """Return the day in a cell, None for a blank one. Raises Misread for what is not a day, or could be two."""
    return None if is_blank(cell) else day(cell, _DAY, "")


def text_in(cell: CellValue) -> str:
    """Return what is typed in a cell as text, without blanks around it."""
    if is_blank(cell):
        return ""
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, float) and cell.is_integer():
        return str(int(cell))
    if isinstance(cell, datetime) and not (cell.hour or cell.minute or cell.second):
        return cell.date().isoformat()
    return str(cell).strip()
