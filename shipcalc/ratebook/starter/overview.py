"""The front sheet of a rate workbook: every sheet with a link, what it is for, and what on it ended, ends soon or grew old.

The counts are formulas of the days on the sheets, so they stay true while somebody types; `shows` is what they are on the day
the workbook is made.
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta

from shipcalc.ratebook.rows.sheet_kind import NOTES, OVERVIEW, SheetKind
from shipcalc.ratebook.starter.one_sheet import SheetTold
from shipcalc.ratebook.starter.order import columns_in_order, theme_of
from shipcalc.ratebook.starter.styles import HEADER_COLOURS
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.sheets import look
from shipcalc.sheets.look import Style
from shipcalc.sheets.writing import Book, Page

SOON_DAYS = 30
_WIDTHS = (22, 66, 9, 11, 13, 16, 16)
_HEADERS = (
    "Sheet",
    "What it is for",
    "Rows",
    "Ended",
    f"Ends within {SOON_DAYS} days",
    "Latest figure of",
    "Oldest look at a source",
)
_LINK = Style("Link", bold=True, ink=look.ACCENT, upright="top")
_TEXT = Style("Purpose", wrap=True, upright="top")
_COUNT = Style("Count", align="right", upright="top")
_LAST = "G"

# Which sheets stand together, by what their columns are: the word above them, and the colour of their tabs.
_KINDS: Mapping[str, tuple[str, str]] = {
    "weekly": ("Kept current from week to week", look.TAB_WEEKLY),
    "prices": ("Prices", look.TAB_PRICES),
    "rules": ("Papers, tasks and rules", look.TAB_RULES),
    "lists": ("Places, names and sizes", look.TAB_LISTS),
}
_WEEKLY = ("as_of", "week_of")


def group_of(kind: SheetKind) -> str:
    """Return among which sheets one stands: weekly figures, prices, rules (conditions without a price), or lists."""
    columns = columns_in_order(kind.row_type)
    themes = [theme_of(field, column) for field, column in columns.items()]
    if any(field in _WEEKLY and columns[field].required for field in columns):
        return "weekly"
    if Theme.PRICE in themes:
        return "prices"
    return "rules" if Theme.WHEN in themes else "lists"


def tab_of(kind: SheetKind) -> str:
    """Return the colour of a sheet's tab."""
    return _KINDS[group_of(kind)][1]


def begin_overview(book: Book) -> Page:
    """Add the front sheet, which is filled when the others stand."""
    page = book.page(OVERVIEW, widths=_WIDTHS, landscape=True)
    page.tab(look.TAB_FRONT)
    return page


def fill_overview(page: Page, stem: str, told: Sequence[SheetTold], about: Sequence[str], made: date) -> None:
    """Write what stands on the front sheet."""
    page.put("A1", f"Rate book: {stem}", look.TITLE)
    page.height(1, 30)
    row = 2
    for paragraph in about[:1]:
        row = page.paragraph(row, f"A:{_LAST}", paragraph, look.TEXT)
    for group, (title, _) in _KINDS.items():
        sheets = [sheet for sheet in told if group_of(sheet.kind) == group]
        if sheets:
            row = _group(page, row, title, sheets, made, is_first=row <= 3)
    row = _legend(page, row + 1)
    page.put(f"A{row}", NOTES, _LINK)
    page.link(f"A{row}", NOTES)
    page.put(f"B{row}", "How to fill the sheets, and what each of them means in full.", _TEXT)
    page.print_on(page.book.paper, landscape=False, pages_high=1)
    page.print_area(f"A1:{_LAST}{row}")


def _group(page: Page, row: int, title: str, sheets: Sequence[SheetTold], made: date, *, is_first: bool) -> int:
    row = page.heading(row, f"A:{_LAST}", title, above=10)
    for at, header in zip("ABCDEFG", _HEADERS, strict=True) if is_first else ():
        page.put(f"{at}{row}", header, look.HEADER if at < "C" else look.HEADER_FIGURE)
        page.height(row, 27)
    row -= not is_first
    for sheet in sheets:
        row += 1
        page.put(f"A{row}", sheet.kind.name, _LINK)
        page.link(f"A{row}", sheet.kind.name)
        page.put(f"B{row}", sheet.kind.about[0], _TEXT)
        page.fit_height(row, "B", sheet.kind.about[0], _TEXT, least_height=look.ROW_POINTS)
        for at, formula, shows, number_format in _formulas(sheet, made):
            page.put_formula(f"{at}{row}", formula, _COUNT, number_format, shows=shows)
        page.highlight(f"D{row}:E{row}", f'AND(D{row}<>"",D{row}>0)', ink=look.CAUTION_INK, bold=True)
    return row + 1


def _formulas(sheet: SheetTold, made: date) -> Iterator[tuple[str, str, int, str]]:
    """Yield column, formula, what it shows on the day the workbook is made, and its number format."""

    def column(field: str) -> str:
        at = sheet.letters[field]
        return f"'{sheet.kind.name}'!${at}:${at}"

    def days(field: str) -> list[date]:
        return [day for row in sheet.rows if (day := getattr(row, field)) is not None]

    first = next(iter(sheet.letters))
    filled = sum(getattr(row, first) not in (None, ()) for row in sheet.rows)
    yield "C", f"MAX(0,COUNTA({column(first)})-1)", filled, "#,##0"
    if "valid_to" in sheet.letters:
        ends, soon = column("valid_to"), made + timedelta(SOON_DAYS)
        told = days("valid_to")
        yield "D", f'COUNTIF({ends},"<"&TODAY())', sum(day < made for day in told), "#,##0;;–"
        within = f'COUNTIFS({ends},">="&TODAY(),{ends},"<="&TODAY()+{SOON_DAYS})'
        yield "E", within, sum(made <= day <= soon for day in told), "#,##0;;–"
    for at, fields, which, best in (("F", _WEEKLY, "MAX", max), ("G", ("checked_on",), "MIN", min)):
        field = next((name for name in fields if name in sheet.letters), None)
        if field is not None and days(field):
            serial = (best(days(field)) - date(1899, 12, 30)).days  # ECMA-376 part 1, 18.17.4.1
            yield at, f"{which}({column(field)})", serial, "yyyy-mm-dd;;–"


def _legend(page: Page, row: int) -> int:
    """Write what the grounds of the headers and the marks mean; each is said by its words too."""
    row = page.heading(row, f"A:{_LAST}", "What the colours and marks mean", above=6)
    for theme, (ink, ground) in HEADER_COLOURS.items():
        style = Style(
            f"Legend, {theme.name.lower()}", size=9, bold=theme is Theme.NAME, ink=ink, ground=ground, indent=1
        )
        page.put(f"A{row}", _WORDS[theme], style)
        page.put(f"B{row}", theme.value[:1].upper() + theme.value[1:] + ".", _TEXT)
        row += 1
    for mark, meaning in _MARKS:
        page.put(f"A{row}", mark, Style("Legend, mark", bold=True, upright="top", indent=1))
        row = page.paragraph(row, "B", meaning, _TEXT, least_height=look.ROW_POINTS)
    return row + 1


_WORDS = {
    Theme.NAME: "Name",
    Theme.PRICE: "Price",
    Theme.DETAIL: "Further",
    Theme.DAYS: "Days",
    Theme.LIMIT: "Limit",
    Theme.WHEN: "Condition",
    Theme.VALID: "Validity",
    Theme.SOURCE: "Source",
}
_MARKS = (
    ("*", "Must be filled: a filled row that lacks it shows the cell on an orange ground."),
    (
        "+  1 2",
        "Above the columns: + opens conditions and limits that no row uses; 1 folds all of them, 2 shows those in use.",
    ),
    ("", "What is folded or hidden counts all the same."),
    (
        "Your own",
        "Columns and sheets of your own are welcome: the program leaves them as they are and reads past them.",
    ),
)
