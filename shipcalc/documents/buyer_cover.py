"""The first face of a quote: how much, when, what else is to be paid, what is not included; the choices side by side."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import zip_longest

from shipcalc.documents import wording
from shipcalc.documents.buyer_lines import ChoiceCells, part_sums
from shipcalc.documents.letterhead import put_letterhead
from shipcalc.documents.parts import PARTS
from shipcalc.money import decimals
from shipcalc.quote.model import Option, Quote
from shipcalc.sheets import look
from shipcalc.sheets.charts import put_bars
from shipcalc.sheets.reading import letter
from shipcalc.sheets.writing import Book, Page, Value

_ALL_UNITS = 90  # what fits the width of a page at full size
_LABEL_UNITS = {1: 42, 2: 34, 3: 25, 4: 22}
_CHART_CM = 16.6
_CM_PER_BAR, _CM_BESIDE = 0.75, 2.2


_RECOMMENDED = look.Style("Recommended", size=8, bold=True, ink=look.WHITE, ground=look.ACCENT, align="right", indent=1)
_CHOICE = look.Style(
    "Choice", bold=True, ink=look.ACCENT, align="right", wrap=True, upright="bottom", below="thin", rule_ink=look.ACCENT,
    indent=1,
)  # fmt: skip
_SECTION = look.Style("Question", size=9, bold=True, ink=look.ACCENT, upright="bottom")
_LABEL = look.Style("Choice, label", wrap=True, upright="top")
_WORDS = look.Style("Choice, in words", align="right", wrap=True, upright="top", indent=1)
_FIGURE = look.Style("Choice, figure", align="right", upright="top", indent=1)
_COLUMN = look.Style("Choice, column", size=9, ink=look.GREY, align="right", upright="bottom", below="thin", indent=1)
_TOTAL_LABEL = look.Style("Grand total label", size=12, bold=True)
_TOTAL = look.Style("Grand total", size=15, bold=True, ink=look.ACCENT, align="right", indent=1)


def new_cover(book: Book, quote: Quote) -> Page:
    """Add the still empty cover, so that it is the first sheet."""
    choices = len(quote.options)
    label = _LABEL_UNITS.get(choices, 20)
    page = book.page("Your choices", widths=(label, *[(_ALL_UNITS - label) / choices] * choices))
    page.print_on(book.paper, pages_high=1)
    page.footer(f"{quote.dealer.name}  ·  {wording.reference(quote)}")
    return page


def fill_cover(page: Page, quote: Quote, cells: Sequence[ChoiceCells]) -> None:
    """Write the cover, its sums taken from the sheets of the choices."""
    cover = _Cover(page, quote, cells, letter(len(quote.options)))
    cover.opening()
    cover.choices()
    cover.beside()
    cover.makeup()
    page.print_area(f"A1:{cover.last}{cover.row - 1}")


@dataclass(slots=True)
class _Cover:
    """The cover while it is written, from `row` on."""

    page: Page
    quote: Quote
    cells: Sequence[ChoiceCells]
    last: str
    row: int = 0

    def opening(self) -> None:
        """Write whose quote it is, for whom, until when, and what we recommend and why."""
        quote, page, across = self.quote, self.page, f"A:{self.last}"
        self.row = put_letterhead(page, quote, self.last)
        self.text(wording.headline(quote), look.TITLE_WRAPPED)
        said = [f"For {quote.buyer}"] if quote.buyer else []
        said += [
            f"Good until {wording.long_day(quote.valid_until)}",
            f"Amounts in {wording.currency_name(quote.currency)}",
        ]
        self.text("  ·  ".join(said), look.SUBTITLE_WRAPPED)
        if len(quote.vehicles) > 1:
            self.text(_sentence("The vehicles: ", [vehicle.name for vehicle in quote.vehicles]), look.SMALL)
        self.gap(8)
        best = quote.options[quote.recommended]
        name = f"{wording.choice_name(quote.recommended)}, {wording.lower_first(best.title)}"
        if len(quote.options) > 1:
            page.paragraph(self.row, across, f"We recommend {name}.  {quote.reason}", look.TEXT)
        else:
            page.paragraph(self.row, across, quote.reason, look.TEXT)
        self.row += 1
        self.gap(8)

    def choices(self) -> None:
        """Write the choices side by side."""
        self.head()
        self.section("How much")
        self.sums("Total", lambda at: at.total, lambda option: option.total, _TOTAL_LABEL, _TOTAL, 24)
        self.sums("Deposit, when you say yes", lambda at: at.deposit, lambda option: option.deposit)
        self.sums("Balance, on delivery", lambda at: at.balance, lambda option: option.total - option.deposit)
        self.section("When")
        self.words("Pickup", lambda option: wording.window(option.dates.pickup))
        self.words("Delivery", lambda option: wording.window(option.dates.delivery))
        self.section("What else you pay")
        self.at_home()
        self.section("How it travels")
        self.words("Trailer", lambda option: wording.trailer(option))
        self.words("Cargo cover, for each", lambda option: f"{option.cover:,}")
        if any(option.good_for for option in self.quote.options):
            self.words("Good for", lambda option: wording.sentence_case("; ".join(option.good_for)))

    def beside(self) -> None:
        """Write what is not included, and what to note about single choices."""
        missing = by_choice([option.not_included for option in self.quote.options])
        if missing:
            self.heading("What is not included")
            for line in missing:
                self.text(f"–  {line}", look.TEXT)
        noted = by_choice([option.warnings for option in self.quote.options])
        if noted:
            self.heading("Please note")
            for line in noted:
                self.text(f"!  {line}", look.CAUTION)

    def makeup(self) -> None:
        """Write what makes up the price, and draw it where there are prices to compare."""
        sums = [part_sums(option) for option in self.quote.options]
        parts = [part for part, _ in PARTS if any(part in own for own in sums)]
        if len(parts) < 2 or len(self.quote.options) < 2:
            return
        self.heading("What makes up the price")
        head = self.row
        self.page.put(f"A{head}", "", look.HEADER)
        for index, column in self.columns():
            self.page.put(f"{column}{head}", wording.choice_name(index), _COLUMN)
        self.row += 1
        for part in parts:
            self.page.put(f"A{self.row}", part, _LABEL)
            self.page.fit_height(self.row, "A", part, _LABEL, least_height=15)
            for index, column in self.columns():
                terms, shows = self.cells[index].parts.get(part, "0"), sums[index].get(part, Decimal(0))
                self.page.put_formula(f"{column}{self.row}", f"SUM({terms})", _FIGURE, self.amounts, shows=shows)
            self.row += 1
        series = [(part, f"B{head + 1 + n}:{self.last}{head + 1 + n}") for n, part in enumerate(parts)]
        height_cm = _CM_BESIDE + _CM_PER_BAR * len(self.quote.options)
        put_bars(self.page, f"A{self.row}", labels=f"B{head}:{self.last}{head}", series=series, width_cm=_CHART_CM,
                 height_cm=height_cm)  # fmt: skip
        self.gap(height_cm * 72 / 2.54)

    # Rows

    def head(self) -> None:
        """Write the choices' names, with the word over the recommended one."""
        page, best = self.page, self.quote.recommended
        if len(self.quote.options) > 1:
            page.put(f"{letter(best + 1)}{self.row}", "RECOMMENDED", _RECOMMENDED)
            page.height(self.row, 16)
            self.row += 1
        for index, column in self.columns():
            name = f"{wording.choice_name(index)}\n{self.quote.options[index].title}"
            style = self.tinted(_CHOICE, index)
            page.put(f"{column}{self.row}", name, style)
            page.fit_height(self.row, column, name, style)
        page.put(f"A{self.row}", "", _CHOICE)
        self.row += 1

    def section(self, title: str) -> None:
        """Write a small heading within the table, its ground running on under the recommended choice."""
        self.page.put(f"A{self.row}", title, _SECTION)
        for index, column in self.columns():
            self.page.put(f"{column}{self.row}", None, self.tinted(look.BODY, index))
        self.page.height(self.row, 21)
        self.row += 1

    def sums(
        self,
        label: str,
        address: Callable[[ChoiceCells], str | None],
        shows: Callable[[Option], Decimal],
        label_style: look.Style = look.BODY,
        style: look.Style = _FIGURE,
        height: float = 15,
    ) -> None:
        """Write one amount of every choice, taken from its own sheet."""
        self.page.put(f"A{self.row}", label, label_style)
        for index, column in self.columns():
            cell, amount = f"{column}{self.row}", shows(self.quote.options[index])
            self.page.put_formula(
                cell, str(address(self.cells[index])), self.tinted(style, index), self.amounts, shows=amount
            )
        self.page.height(self.row, height)
        self.row += 1

    def words(self, label: str, said: Callable[[Option], Value]) -> None:
        """Write what is said of every choice."""
        self.page.put(f"A{self.row}", label, _LABEL)
        self.page.height(self.row, 15)
        for index, column in self.columns():
            text, style = str(said(self.quote.options[index])), self.tinted(_WORDS, index)
            self.page.put(f"{column}{self.row}", text, style)
            self.page.fit_height(self.row, column, text, style)
        self.row += 1

    def at_home(self) -> None:
        """Write what the buyer pays at home beside the total."""
        label = "At your end, to others (estimate)" if any(at.local for at in self.cells) else "At your end, to others"
        self.page.put(f"A{self.row}", label, _LABEL)
        self.page.fit_height(self.row, "A", label, _WORDS, least_height=15)
        for index, column in self.columns():
            cell, local = f"{column}{self.row}", self.cells[index].local
            if local:
                shows = self.quote.options[index].buyer_pays_locally
                self.page.put_formula(cell, local, self.tinted(_FIGURE, index), self.amounts, shows=shows)
            else:
                self.page.put(cell, "nothing we know of", self.tinted(_WORDS, index))
                self.page.fit_height(self.row, column, "nothing we know of", _WORDS)
        self.row += 1

    def heading(self, title: str) -> None:
        """Write a heading across the page."""
        self.gap(6)
        self.page.fill_style(f"A{self.row}:{self.last}{self.row}", look.HEADING)
        self.page.put(f"A{self.row}", title, look.HEADING)
        self.page.height(self.row, 20)
        self.row += 1
        self.gap(3)

    def text(self, text: str, style: look.Style) -> None:
        """Write text across the page."""
        self.page.paragraph(self.row, f"A:{self.last}", text, style)
        self.row += 1

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


def by_choice(lists: Sequence[Sequence[str]]) -> list[str]:
    """Return every sentence once, in order, and after it the choices it belongs to where it is not for all."""
    told: dict[str, list[int]] = {}
    for abreast in zip_longest(*lists):  # so that sentences which differ from choice to choice stand together
        for index, sentence in enumerate(abreast):
            if sentence is not None:
                told.setdefault(sentence, []).append(index)
    everywhere = len(lists)
    return [
        sentence if len(where) == everywhere else f"{sentence} ({wording.lower_first(wording.choices_named(where))})"
        for sentence, where in told.items()
    ]


def _sentence(opening: str, names: Sequence[str]) -> str:
    return f"{opening}{wording.listed(names)}."
