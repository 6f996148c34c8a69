"""The first face of a quote: how much, when, what else is to be paid, what is not included; the choices side by side."""

from collections.abc import Sequence
from decimal import Decimal

from shipcalc.documents import wording
from shipcalc.documents.buyer.cover_rows import (
    FIGURE,
    LABEL,
    STRONG_FIGURE,
    TOTAL,
    TOTAL_LABEL,
    WORDS,
    CoverRows,
)
from shipcalc.documents.buyer.lines import ChoiceCells, part_sums
from shipcalc.documents.notes import Notes, notes
from shipcalc.documents.offer.differences import days_beside
from shipcalc.documents.offer.first_answer import answers
from shipcalc.documents.offer.landing import altogether, has_more, landed_label, less_as
from shipcalc.documents.pages.letterhead import put_letterhead
from shipcalc.documents.parts import PARTS
from shipcalc.quote.model import Quote
from shipcalc.records import dataclass, replace
from shipcalc.sheets import look
from shipcalc.sheets.charts import put_bars
from shipcalc.sheets.paging import between, flow
from shipcalc.sheets.reading import letter
from shipcalc.sheets.writing import Book, Page

_ALL_UNITS = 90  # what fits the width of a page at full size
_LABEL_UNITS = {1: 42, 2: 34, 3: 25, 4: 22}
_MOST_UPRIGHT = 4  # choices side by side on an upright page
_MANY_UNITS, _MANY_LABEL_UNITS = (
    114,
    24,
)  # for more choices, printed smaller: all of them are to stand on the first page
_LEAST_PERCENT = 62  # of full size, if all of it then stands on one page
_CHART_CM, _MANY_CHART_CM = 16.6, 21.0
_CM_PER_BAR, _CM_BESIDE = 0.75, 2.2
_MOST_DECISIVE = 3  # warnings above the price; further ones stand with the notes
_ANSWER_LABEL = look.Style("Answer, label", size=9, bold=True, ink=look.ACCENT, upright="top")
_ANSWER = look.Style("Answer", wrap=True, upright="top")
_PRICE = look.Style("Answer, price", size=12, bold=True, ink=look.ACCENT, wrap=True, upright="top")


def new_cover(book: Book, quote: Quote) -> Page:
    """Add the still empty cover, so that it is the first sheet."""
    choices = len(quote.options)
    units, label = (_MANY_UNITS, _MANY_LABEL_UNITS) if lies(quote) else (_ALL_UNITS, _LABEL_UNITS[choices])
    page = book.page("Your choices", widths=(label, *[(units - label) / choices] * choices))
    page.footer(f"{quote.dealer.name}  ·  {wording.reference(quote)}")
    return page


def lies(quote: Quote) -> bool:
    """Return whether there are too many choices for an upright page."""
    return len(quote.options) > _MOST_UPRIGHT


def fill_cover(page: Page, quote: Quote, cells: Sequence[ChoiceCells], savings: Sequence[str | None] = ()) -> None:
    """Write the cover, its sums taken from the sheets of the choices.

    `savings` are the cells of what is less to pay if the customs take the vehicle as a collector's piece.
    """
    cover = _Cover(page, quote, cells, letter(len(quote.options)))
    cover.opening()
    cover.choices(savings)
    starts = [1]
    for write in (cover.beside, cover.needed, cover.noted, cover.makeup):
        starts.append(cover.row)
        write()
    blocks = between(starts, cover.row)
    sections = [blocks[:2], *([block] for block in blocks[2:])]
    flow(page, f"A:{cover.last}", sections, least_percent=_LEAST_PERCENT)


@dataclass(slots=True)
class _Cover(CoverRows):
    """The cover: what is said, in which order."""

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
        self.gap(6)
        for line in notes("decisive", self.quote).sentences[:_MOST_DECISIVE]:
            self.text(f"!  {line}", look.CAUTION)
        self.answers()
        best = quote.options[quote.recommended]
        name = f"{wording.choice_name(quote.recommended)} ({best.title})"
        if len(quote.options) > 1:
            page.paragraph(self.row, across, f"We recommend {name}. {quote.reason}", look.TEXT)
        else:
            page.paragraph(self.row, across, quote.reason, look.TEXT)
        self.row += 1
        self.gap(8)

    def answers(self) -> None:
        """Write the answer in one breath, as every face gives it: how much, by when, what else, what is not included."""
        for answer in answers(self.quote, self.quote.recommended, wording.money_told):
            strong = answer.what == "price"
            self.page.put(f"A{self.row}", answer.label, _ANSWER_LABEL)
            self.page.paragraph(
                self.row, f"B:{self.last}", wording.sentence_case(answer.text), _PRICE if strong else _ANSWER
            )
            self.row += 1
        self.gap(8)

    def choices(self, savings: Sequence[str | None]) -> None:
        """Write the choices side by side."""
        self.head()
        self.section("How much")
        self.in_both("Total", lambda at: at.total, lambda option: option.total, TOTAL_LABEL, TOTAL, 24)
        if not self.has_more:
            self.more()
        deposits, balances = [at.deposit for at in self.cells], [at.balance for at in self.cells]
        self.sums("Deposit, when you accept", deposits, lambda option: option.deposit)
        due = self.quote.options[self.quote.recommended].balance_due
        self.sums(f"Balance, {due}", balances, lambda option: option.total - option.deposit)
        if any(option.risk_passes for option in self.quote.options):
            self.words("Delivery term", wording.term)
        self.section("When")
        self.words("Pickup", lambda option: wording.window(option.dates.pickup))
        self.words("Delivery", lambda option: wording.window(option.dates.delivery))
        self.sooner()
        if self.quote.by is not None:
            self.words(f"Ready at the latest, to be there by {wording.day(self.quote.by)}", wording.latest_ready)
        self.section("What else you pay")
        self.to_others()
        if self.has_more:
            self.altogether(savings)
        self.section("How it travels")
        self.words("Trailer", wording.trailer)
        self.words("Covered up to", lambda option: f"{option.cover:,.0f}" if option.cover else "not in this price")
        if any(option.cover_conditions for option in self.quote.options):
            self.words("Marine cover, conditions", lambda option: option.cover_conditions or "no marine cover")

    @property
    def has_more(self) -> bool:
        """Return whether anything comes beside the total of any choice."""
        return any(has_more(option) for option in self.quote.options)

    def more(self) -> None:
        """Write what each choice costs more than the recommended one, less with a minus."""
        if len(self.quote.options) < 2:
            return
        best = self.quote.recommended
        ours, base = self.cells[best].altogether.ours, altogether(self.quote.options[best])
        self.page.put(f"A{self.row}", f"More than choice {best + 1}", LABEL)
        for index, column in self.columns():
            cell = f"{column}{self.row}"
            if index == best:
                self.page.put(cell, "–", self.tinted(FIGURE, index))
            else:
                formula = f"{self.cells[index].altogether.ours}-{ours}"
                difference = altogether(self.quote.options[index]) - base
                self.page.put_formula(cell, formula, self.tinted(FIGURE, index), self.amounts, shows=difference)
        self.row += 1

    def sooner(self) -> None:
        """Write how many days or weeks each choice is sooner or later than the recommended one."""
        told = [days_beside(option, self.quote) for option in self.quote.options]
        if any(told):
            said = iter(told)
            self.words(f"Beside choice {self.quote.recommended + 1}", lambda _: next(said) or "–")

    def needed(self) -> None:
        """Write what the buyer must bring."""
        self.listed(notes("needed", self.quote), "–", look.TEXT)

    def beside(self) -> None:
        """Write what is not included."""
        self.listed(notes("missing", self.quote), "–", look.TEXT)

    def noted(self) -> None:
        """Write what to note about single choices, and what there was no room for above the price."""
        noted, decisive = notes("noted", self.quote), notes("decisive", self.quote).sentences[_MOST_DECISIVE:]
        self.listed(replace(noted, sentences=(*decisive, *noted.sentences)), "!", look.CAUTION)

    def listed(self, told: Notes, sign: str, style: look.Style) -> None:
        """Write sentences under their title, where there are any."""
        if told.sentences:
            self.heading(told.title)
            for line in told.sentences:
                self.text(f"{sign}  {line}", style)

    def makeup(self) -> None:
        """Write what makes up the price, and draw it where there are prices to compare."""
        sums = [part_sums(option) for option in self.quote.options]
        parts = [part for part in PARTS if any(part in own for own in sums)]
        if len(parts) < 2 or len(self.quote.options) < 2:
            return
        self.heading(
            "What makes up all that you pay, without the vehicle" if self.has_more else "What makes up the price"
        )
        head = self.row
        self.names()
        for part in parts:
            self.page.paragraph(self.row, "A", part, LABEL, least_height=15)
            for index, column in self.columns():
                terms, shows = self.cells[index].parts.get(part, "0"), sums[index].get(part, Decimal(0))
                self.page.put_formula(f"{column}{self.row}", f"SUM({terms})", FIGURE, self.amounts, shows=shows)
            self.row += 1
        series = [(part, f"B{head + 1 + n}:{self.last}{head + 1 + n}") for n, part in enumerate(parts)]
        height_cm = _CM_BESIDE + _CM_PER_BAR * len(self.quote.options)
        put_bars(self.page, f"A{self.row}", labels=f"B{head}:{self.last}{head}", series=series,
                 width_cm=_MANY_CHART_CM if lies(self.quote) else _CHART_CM, height_cm=height_cm)  # fmt: skip
        self.gap(height_cm * 72 / 2.54)

    def altogether(self, savings: Sequence[str | None]) -> None:
        """Write all that the buyer pays, without and with the vehicle."""
        first = self.quote.options[0]
        self.in_both("Altogether", lambda at: at.altogether, altogether, look.STRONG, STRONG_FIGURE, 18)
        self.more()
        self.less(savings)
        if all(option.landed is not None for option in self.quote.options):
            label = f"Landed, {landed_label(self.quote, first)}"
            self.in_both(label, lambda at: at.landed, lambda option: option.landed or Decimal(0), LABEL)

    def less(self, savings: Sequence[str | None]) -> None:
        """Write what it comes to altogether if the customs take the vehicle as a collector's piece."""
        if not any(savings):
            return
        label = "or, as a collector's piece"
        self.page.paragraph(self.row, "A", label, LABEL, least_height=15)
        for index, column in self.columns():
            cell, saving = f"{column}{self.row}", savings[index]
            if saving is None:
                self.page.put(cell, "–", self.tinted(FIGURE, index))
            else:
                option = self.quote.options[index]
                formula = f"{self.cells[index].altogether.ours}-{saving}"
                shows = altogether(option) - (less_as(option, "collector") or 0)
                self.page.put_formula(cell, formula, self.tinted(FIGURE, index), self.amounts, shows=shows)
        self.row += 1

    def to_others(self) -> None:
        """Write what the buyer pays to others beside the total."""
        label = "To others (estimate)" if any(at.local for at in self.cells) else "To others"
        self.page.put(f"A{self.row}", label, LABEL)
        self.page.fit_height(self.row, "A", label, WORDS, least_height=15)
        for index, column in self.columns():
            cell, local = f"{column}{self.row}", self.cells[index].local
            if local:
                shows = self.quote.options[index].buyer_pays_locally
                self.page.put_formula(cell, local, self.tinted(FIGURE, index), self.amounts, shows=shows)
            else:
                self.page.put(cell, "nothing", self.tinted(WORDS, index))
                self.page.fit_height(self.row, column, "nothing", WORDS)
        self.row += 1


def _sentence(opening: str, names: Sequence[str]) -> str:
    return f"{opening}{wording.listed(names)}."
