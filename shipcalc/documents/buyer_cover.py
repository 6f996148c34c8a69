"""The first face of a quote: how much, when, what else is to be paid, what is not included; the choices side by side."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from shipcalc.documents import wording
from shipcalc.documents.buyer_lines import ChoiceCells, part_sums
from shipcalc.documents.landing import altogether, landed_label
from shipcalc.documents.letterhead import put_letterhead
from shipcalc.documents.overseas_sums import AbroadCells
from shipcalc.documents.parts import PARTS
from shipcalc.money import decimals
from shipcalc.quote.exchange import converted
from shipcalc.quote.model import Option, Quote
from shipcalc.quote.stages import is_staged
from shipcalc.sheets import look
from shipcalc.sheets.charts import put_bars
from shipcalc.sheets.paging import flow
from shipcalc.sheets.reading import letter
from shipcalc.sheets.writing import Book, Page, Value

_ALL_UNITS = 90  # what fits the width of a page at full size
_LABEL_UNITS = {1: 42, 2: 34, 3: 25, 4: 22}
_MOST_UPRIGHT = 4  # choices side by side on an upright page
_LYING_UNITS, _LYING_LABEL_UNITS = 124, 31
_CHART_CM, _LYING_CHART_CM = 16.6, 23.0
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
_STRONG_FIGURE = look.Style("Choice, strong figure", bold=True, align="right", indent=1)
_THEIRS = look.Style("Choice, their currency", size=9, ink=look.GREY, align="right", indent=1)
_COLUMN = look.Style("Choice, column", size=9, ink=look.GREY, align="right", upright="bottom", below="thin", indent=1)
_TOTAL_LABEL = look.Style("Grand total label", size=12, bold=True)
_TOTAL = look.Style("Grand total", size=15, bold=True, ink=look.ACCENT, align="right", indent=1)


def new_cover(book: Book, quote: Quote) -> Page:
    """Add the still empty cover, so that it is the first sheet."""
    choices = len(quote.options)
    lying = lies(quote)
    units, label = (_LYING_UNITS, _LYING_LABEL_UNITS) if lying else (_ALL_UNITS, _LABEL_UNITS[choices])
    page = book.page("Your choices", widths=(label, *[(units - label) / choices] * choices), landscape=lying)
    if not is_staged(quote.options[0]):
        page.print_on(book.paper, pages_high=1)
    page.footer(f"{quote.dealer.name}  ·  {wording.reference(quote)}")
    return page


def lies(quote: Quote) -> bool:
    """Return whether there are too many choices for an upright page."""
    return len(quote.options) > _MOST_UPRIGHT


def fill_cover(page: Page, quote: Quote, cells: Sequence[ChoiceCells]) -> None:
    """Write the cover, its sums taken from the sheets of the choices."""
    cover = _Cover(page, quote, cells, letter(len(quote.options)))
    cover.opening()
    cover.choices()
    starts = [1]
    for write in (cover.beside, cover.travels, cover.noted, cover.makeup):
        starts.append(cover.row)
        write()
    page.print_area(f"A1:{cover.last}{cover.row - 1}")
    if is_staged(quote.options[0]):
        blocks = [
            (first, after - 1) for first, after in zip(starts, [*starts[1:], cover.row], strict=True) if after > first
        ]
        flow(page, f"A:{cover.last}", [blocks[:2], *([block] for block in blocks[2:])], landscape=lies(quote))


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
        if self.abroad:
            name = f"{wording.choice_name(quote.recommended)} ({best.title})"
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
        self.in_theirs(lambda at: at.total_theirs, lambda option: option.total)
        self.sums("Deposit, when you say yes", lambda at: at.deposit, lambda option: option.deposit)
        self.sums("Balance, on delivery", lambda at: at.balance, lambda option: option.total - option.deposit)
        if self.abroad:
            self.words("Delivery term", wording.term)
        self.section("When")
        self.words("Pickup", lambda option: wording.window(option.dates.pickup))
        self.words("Delivery", lambda option: wording.window(option.dates.delivery))
        self.section("What else you pay")
        self.at_home()
        if self.abroad:
            self.altogether()
        if not self.abroad:
            self.section("How it travels")
            self.words("Trailer", lambda option: wording.trailer(option))
            self.words("Cargo cover, for each", lambda option: f"{option.cover:,}")
            self.good_for()

    def travels(self) -> None:
        """Write how the choices abroad travel, which comes after what is not included."""
        if not self.abroad:
            return
        self.heading("How it travels")
        self.names()
        self.words("Trucks", lambda option: option.trailer or "as agreed")
        self.words("Covered up to", lambda option: f"{option.cover:,.0f}")
        self.words("Conditions of the marine cover", lambda option: option.cover_conditions or "no marine cover")
        self.good_for()

    def good_for(self) -> None:
        """Write what each choice is good for."""
        if any(option.good_for for option in self.quote.options):
            self.words("Good for", lambda option: wording.sentence_case("; ".join(option.good_for)))

    def beside(self) -> None:
        """Write what is not included."""
        missing = wording.by_choice([option.not_included for option in self.quote.options])
        if missing:
            self.heading("What is not included")
            for line in missing:
                self.text(f"–  {line}", look.TEXT)

    def noted(self) -> None:
        """Write what to note about single choices."""
        noted = wording.by_choice([option.warnings for option in self.quote.options])
        if noted:
            self.heading("Please note")
            for line in noted:
                self.text(f"!  {line}", look.CAUTION)

    def makeup(self) -> None:
        """Write what makes up the price, and draw it where there are prices to compare."""
        sums = [part_sums(option) for option in self.quote.options]
        parts = [part for part in PARTS if any(part in own for own in sums)]
        if len(parts) < 2 or len(self.quote.options) < 2:
            return
        self.heading("What makes up all that you pay beside the vehicle" if self.abroad else "What makes up the price")
        head = self.row
        self.names()
        for part in parts:
            self.page.put(f"A{self.row}", part, _LABEL)
            self.page.fit_height(self.row, "A", part, _LABEL, least_height=15)
            for index, column in self.columns():
                terms, shows = self.cells[index].parts.get(part, "0"), sums[index].get(part, Decimal(0))
                self.page.put_formula(f"{column}{self.row}", f"SUM({terms})", _FIGURE, self.amounts, shows=shows)
            self.row += 1
        series = [(part, f"B{head + 1 + n}:{self.last}{head + 1 + n}") for n, part in enumerate(parts)]
        height_cm = _CM_BESIDE + _CM_PER_BAR * len(self.quote.options)
        put_bars(self.page, f"A{self.row}", labels=f"B{head}:{self.last}{head}", series=series,
                 width_cm=_LYING_CHART_CM if lies(self.quote) else _CHART_CM, height_cm=height_cm)  # fmt: skip
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

    def names(self) -> None:
        """Write what the choices are called, over further rows of them."""
        self.page.put(f"A{self.row}", "", look.HEADER)
        for index, column in self.columns():
            self.page.put(f"{column}{self.row}", wording.choice_name(index), _COLUMN)
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

    def in_theirs(self, address: Callable[[AbroadCells], str | None], ours: Callable[[Option], Decimal]) -> None:
        """Write one amount of every choice in the buyer's currency, where the quote has one."""
        exchange = self.quote.exchange
        if exchange is None or not self.abroad:
            return
        self.page.put(f"A{self.row}", f"in {wording.currency_name(exchange.currency)}", look.LABEL)
        for index, column in self.columns():
            shows = converted(ours(self.quote.options[index]), exchange)
            cell, amounts = f"{column}{self.row}", look.money_format(decimals(exchange.currency))
            found = address(_of(self.cells[index]))
            self.page.put_formula(cell, str(found), self.tinted(_THEIRS, index), amounts, shows=shows)
        self.row += 1

    def words(self, label: str, said: Callable[[Option], Value]) -> None:
        """Write what is said of every choice."""
        self.page.put(f"A{self.row}", label, _LABEL)
        self.page.fit_height(self.row, "A", label, _LABEL, least_height=15)
        for index, column in self.columns():
            text, style = str(said(self.quote.options[index])), self.tinted(_WORDS, index)
            self.page.put(f"{column}{self.row}", text, style)
            self.page.fit_height(self.row, column, text, style)
        self.row += 1

    def altogether(self) -> None:
        """Write all that the buyer pays, without and with the vehicle."""
        first = self.quote.options[0]
        self.sums("Altogether", lambda at: _of(at).altogether, altogether, look.STRONG, _STRONG_FIGURE, 18)
        self.in_theirs(lambda at: at.altogether_theirs, altogether)
        if all(option.landed is not None for option in self.quote.options):
            label = f"Landed, {landed_label(self.quote, first)}"
            self.sums(label, lambda at: _of(at).landed, lambda option: option.landed or Decimal(0), _LABEL)
            self.page.fit_height(self.row - 1, "A", label, _LABEL, least_height=15)
            self.in_theirs(lambda at: at.landed_theirs, lambda option: option.landed or Decimal(0))

    def at_home(self) -> None:
        """Write what the buyer pays at home beside the total."""
        told = "To others" if self.abroad else "At your end, to others"
        label = f"{told} (estimate)" if any(at.local for at in self.cells) else told
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
    def abroad(self) -> bool:
        """Return whether the choices go over the sea or a border."""
        return is_staged(self.quote.options[0])

    @property
    def amounts(self) -> str:
        """Return the number format of amounts."""
        return look.money_format(decimals(self.quote.currency))


def _of(cells: ChoiceCells) -> AbroadCells:
    assert cells.abroad is not None, "asked of choices abroad only"
    return cells.abroad


def _sentence(opening: str, names: Sequence[str]) -> str:
    return f"{opening}{wording.listed(names)}."
