"""The sheet of notes in a rate workbook: how to fill it, and what every sheet means in full."""

from collections.abc import Sequence

from shipcalc.ratebook.rows.sheet_kind import NOTES, SheetKind
from shipcalc.sheets import look
from shipcalc.sheets.writing import Book

_BELOW_A_RULE_POINTS = 4


def write_notes(book: Book, kinds: Sequence[SheetKind], about: Sequence[str]) -> None:
    """Write the sheet."""
    page = book.page(NOTES, widths=(22, 100))
    page.tab(look.TAB_FRONT)
    page.put("A1", NOTES, look.TITLE)
    page.height(1, 30)
    row = 2
    for paragraph in (*about, *_HOW_TO):
        row = page.paragraph(row, "A:B", paragraph, look.TEXT)
    for kind in kinds:
        row += 1
        page.put(f"A{row}", kind.name, look.HEADING)
        page.put(f"B{row}", "", look.HEADING)
        page.link(f"A{row}", kind.name)
        row += 1
        page.height(row, _BELOW_A_RULE_POINTS)
        for line in kind.about:
            row += 1
            page.paragraph(row, "B", line, look.TEXT)
        row += 1


_COLUMNS = """\
Columns marked * must be filled; the others may be blank, and the note on each header says what blank means: rest the pointer
on a header to read it. Columns may stand in any order; keep their headers. Columns and sheets of your own are welcome, and are
left as they are."""
_UNITS = """\
Money in dollars, percentages as 18 % or 0.18, dates as 2026-12-31, lengths in inches, weights in pounds, road distances in
miles. Where a cell cannot be read, the program names the cell and says how to correct it."""
_HOW_TO = tuple(" ".join(paragraph.split()) for paragraph in (_COLUMNS, _UNITS))
