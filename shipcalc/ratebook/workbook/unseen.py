"""What nobody sees on a sheet and counts all the same: the sheet itself, its rows, its columns."""

from collections.abc import Iterator

from shipcalc.errors import Problem
from shipcalc.ratebook.workbook.headers import Headers
from shipcalc.sheets.reading import Sheet, is_blank, letter


def what_nobody_sees(sheet: Sheet, headers: Headers) -> Iterator[Problem]:
    """A manager sees every price that is used. One warning a hidden sheet, a run of hidden rows, a hidden column."""
    if sheet.hidden:
        where = f"{sheet.workbook} › {sheet.name}"
        yield Problem(where, "the sheet is hidden, and counts all the same", "show it, or remove it", "warning")
    if sheet.unseen.rows:
        yield from _rows(sheet, headers, set(headers.at.values()))
    yield from _columns(sheet, headers)


def _rows(sheet: Sheet, headers: Headers, used: set[int]) -> Iterator[Problem]:
    filled = {
        number
        for number, cells in sheet.filled_rows()
        if any(index < len(cells) and not is_blank(cells[index]) for index in used)
    }
    hidden = sorted(number for number in filled & sheet.unseen.rows if number > headers.row)
    how, show = ("left out by a filter", "clear the filter") if sheet.unseen.is_filtered else ("hidden", "show")
    for first, last in _runs(hidden):
        one = first == last
        joint = "and" if last == first + 1 else "to"
        told = f"row {first + 1} is" if one else f"rows {first + 1} {joint} {last + 1} are"
        message = f"{told} {how}, and {'counts' if one else 'count'} all the same"
        what = "the row" if one else "the rows"
        remedy = f"{show}, or remove {what}" if sheet.unseen.is_filtered else f"{show} or remove {what}"
        yield Problem(sheet.cell(first, min(used, default=0)), message, remedy, "warning")


def _columns(sheet: Sheet, headers: Headers) -> Iterator[Problem]:
    for index in sorted(set(headers.at.values()) & sheet.unseen.columns):
        below = sheet.rows[headers.row + 1 :]
        if any(index < len(cells) and not is_blank(cells[index]) for cells in below):
            message = f"the column {letter(index)} is hidden, and what stands in it counts all the same"
            yield Problem(sheet.cell(headers.row, index), message, "show it", "warning")


def _runs(numbers: list[int]) -> Iterator[tuple[int, int]]:
    """Yield the first and last of each run of neighbouring numbers: 3 4 5 9 → (3, 5), (9, 9)."""
    run: list[int] = []
    for number in numbers:
        if run and number != run[-1] + 1:
            yield run[0], run[-1]
            run = []
        run.append(number)
    if run:
        yield run[0], run[-1]
