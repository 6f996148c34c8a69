"""What people typed on the other sheets of several copies: contacts, handover, securing, sheets of their own."""

from collections.abc import Iterator, Sequence
from datetime import timedelta

from shipcalc.checklist.columns import LAST_VERSION, SHEET
from shipcalc.checklist.returned import Returned
from shipcalc.checklist.typed import text_in
from shipcalc.sheets.editing import Draft
from shipcalc.sheets.reading import CellValue, Sheet, is_blank, letter
from shipcalc.sheets.writing import Value


def writable(value: CellValue) -> Value:
    """Return a cell's value as it can be written: a span of time, which only some programs know, as text."""
    return str(value) if isinstance(value, timedelta) else value


# Their cells are the program's own: the rest of the workbook follows from them.
_NOT_CARRIED = frozenset({SHEET.casefold(), LAST_VERSION.casefold()})


def carry_other_sheets(draft: Draft, into: Returned, copies: Sequence[Returned]) -> Iterator[str]:
    """Fill cells that are blank in the draft and not in another copy; yield what differs or came as a new sheet, in sentences."""
    for copy in copies:
        if copy is into:
            continue
        for sheet in copy.book.sheets:
            if sheet.name.casefold() in _NOT_CARRIED:
                continue
            here = into.book.find_sheet(sheet.name)
            if here is None:
                _copy_sheet(draft, sheet)
                yield f"the sheet {sheet.name} is in {copy.path.name} only: its texts and figures are added, without their look"
            else:
                yield from _fill(draft, here, sheet)


def _cells(sheet: Sheet) -> Iterator[tuple[int, int, CellValue]]:
    for number, row in sheet.filled_rows():
        for place, value in enumerate(row):
            if not is_blank(value):
                yield number, place, value


def _fill(draft: Draft, here: Sheet, sheet: Sheet) -> Iterator[str]:
    for number, place, value in _cells(sheet):
        cell = f"{letter(place)}{number + 1}"
        stands = here.rows[number][place] if number < len(here.rows) and place < len(here.rows[number]) else None
        if not draft.can_hold(here.name, cell) or draft.is_formula(here.name, cell):
            continue
        if is_blank(stands):
            draft.put(here.name, cell, writable(value))
        elif text_in(stands) != text_in(value):
            yield (
                f'{sheet.cell(number, place)}: "{text_in(value)}" differs from "{text_in(stands)}" in {here.workbook}, '
                "which stays"
            )


def _copy_sheet(draft: Draft, sheet: Sheet) -> None:
    name = draft.add_sheet(sheet.name)
    for number, place, value in _cells(sheet):
        draft.put(name, f"{letter(place)}{number + 1}", writable(value))
