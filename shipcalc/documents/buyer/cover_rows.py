"""The cover's table while it is written: rows of one thing said of every choice, side by side, and text across the page."""

from collections.abc import Callable, Sequence
from decimal import Decimal

from shipcalc.documents import wording
from shipcalc.documents.buyer.lines import ChoiceCells
from shipcalc.documents.pages.further_sums import Sum
from shipcalc.money import decimals
from shipcalc.quote.model import Option, Quote
from shipcalc.quote.price.exchange import converted
from shipcalc.records import dataclass
from shipcalc.sheets import look
from shipcalc.sheets.reading import letter
from shipcalc.sheets.writing import Page, Value

RECOMMENDED = look.Style("Recommended", size=8, bold=True, ink=look.WHITE, ground=look.ACCENT, align="right", indent=1)
CHOICE = look.Style(
    "Choice", bold=True, ink=look.ACCENT, align="right", wrap=True, upright="bottom", below="thin", rule_ink=look.ACCENT,
    indent=1,
)  # fmt: skip
SECTION = look.Style("Question", size=9, bold=True, ink=look.ACCENT, upright="bottom")
LABEL = look.Style("Choice, label", wrap=True, upright="top")
WORDS = look.Style("Choice, in words", align="right", wrap=True, upright="top", indent=1)
FIGURE = look.Style("Choice, figure", align="right", upright="top", indent=1)
STRONG_FIGURE = look.Style("Choice, strong figure", bold=True, align="right", indent=1)
THEIRS = look.Style("Choice, their currency", size=9, ink=look.GREY, align="right", indent=1)
COLUMN = look.Style("Choice, column", size=9, ink=look.GREY, align="right", upright="bottom", below="thin", indent=1)
TOTAL_LABEL = look.Style("Grand total label", size=12, bold=True)
TOTAL = look.Style("Grand total", size=15, bold=True, ink=look.ACCENT, align="right", indent=1)


@dataclass(slots=True)
class CoverRows:
    """A page with one column for each choice, written from `row` on."""

    page: Page
    quote: Quote
    cells: Sequence[ChoiceCells]
    last: str
    row: int = 0

    def head(self) -> None:
        """Write the choices' names, with the word over the recommended one."""
        page, best = self.page, self.quote.recommended
        if len(self.quote.options) > 1:
            page.put(f"{letter(best + 1)}{self.row}", "RECOMMENDED", RECOMMENDED)
            page.height(self.row, 16)
            self.row += 1
        for index, column in self.columns():
            name = f"{wording.choice_name(index)}\n{self.quote.options[index].title}"
            style = self.tinted(CHOICE, index)
            page.paragraph(self.row, column, name, style)
        page.put(f"A{self.row}", "", CHOICE)
        self.row += 1

    def names(self) -> None:
        """Write what the choices are called, over further rows of them."""
        self.page.put(f"A{self.row}", "", look.HEADER)
        for index, column in self.columns():
            self.page.put(f"{column}{self.row}", wording.choice_name(index), COLUMN)
        self.row += 1

    def section(self, title: str) -> None:
        """Write a small heading within the table, its ground running on under the recommended choice."""
        self.page.put(f"A{self.row}", title, SECTION)
        for index, column in self.columns():
            self.page.put(f"{column}{self.row}", None, self.tinted(look.BODY, index))
        self.page.height(self.row, 21)
        self.row += 1

    def sums(
        self,
        label: str,
        addresses: Sequence[str],
        shows: Callable[[Option], Decimal],
        label_style: look.Style = look.BODY,
        style: look.Style = FIGURE,
        height: float = 15,
    ) -> None:
        """Write one amount of every choice, taken from its own sheet."""
        self.page.put(f"A{self.row}", label, label_style)
        for index, column in self.columns():
            amount = shows(self.quote.options[index])
            cell = f"{column}{self.row}"
            self.page.put_formula(cell, addresses[index], self.tinted(style, index), self.amounts, shows=amount)
        self.page.height(self.row, height)
        if label_style.wrap:
            self.page.fit_height(self.row, "A", label, label_style, least_height=height)
        self.row += 1

    def in_both(
        self,
        label: str,
        which: Callable[[ChoiceCells], Sum | None],
        shows: Callable[[Option], Decimal],
        label_style: look.Style = look.BODY,
        style: look.Style = FIGURE,
        height: float = 15,
    ) -> None:
        """Write one amount of every choice, and below it the same in the buyer's currency, where the quote has one."""
        sums = [which(at) for at in self.cells]
        self.sums(label, [one.ours if one else "" for one in sums], shows, label_style, style, height)
        exchange = self.quote.exchange
        if exchange is None:
            return
        self.page.put(f"A{self.row}", f"in {wording.currency_name(exchange.currency)}", look.LABEL)
        amounts = look.money_format(decimals(exchange.currency))
        for (index, column), one in zip(self.columns(), sums, strict=True):
            theirs = converted(shows(self.quote.options[index]), exchange)
            address = one.theirs if one and one.theirs else ""
            self.page.put_formula(f"{column}{self.row}", address, self.tinted(THEIRS, index), amounts, shows=theirs)
        self.row += 1

    def words(self, label: str, said: Callable[[Option], Value]) -> None:
        """Write what is said of every choice."""
        self.page.paragraph(self.row, "A", label, LABEL, least_height=15)
        for index, column in self.columns():
            text, style = str(said(self.quote.options[index])), self.tinted(WORDS, index)
            self.page.paragraph(self.row, column, text, style)
        self.row += 1

    def heading(self, title: str) -> None:
        """Write a heading across the page."""
        self.row = self.page.heading(self.row, f"A:{self.last}", title, above=6)

    def text(self, text: str, style: look.Style) -> None:
        """Write text across the page."""
        self.row = self.page.paragraph(self.row, f"A:{self.last}", text, style)

    def gap(self, points: float) -> None:
        """Leave white space."""
        self.page.height(self.row, points)
        self.row += 1

    def columns(self) -> list[tuple[int, str]]:
        """Return (choice, column) from left to right."""
        return [(index, letter(index + 1)) for index in range(len(self.quote.options))]

    def tinted(self, style: look.Style, index: int) -> look.Style:
        """Return the style on the ground of the recommended choice, where there is anything to choose."""
        is_best = index == self.quote.recommended and len(self.quote.options) > 1
        return style.on(look.WASH) if is_best else style

    @property
    def amounts(self) -> str:
        """Return the number format of amounts."""
        return look.money_format(decimals(self.quote.currency))
