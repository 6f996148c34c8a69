"""The lines of a choice on a page, computed by the page itself: amount = quantity × rate, sums, deposit, balance.

The buyer's and the office's workbook both stand on these lines, so that they show the same cents.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal

from shipcalc.documents.offer.itemised import groups, included_charges, label, with_title
from shipcalc.money import decimals, to_decimal
from shipcalc.quote.explain.stages import has_stages
from shipcalc.quote.model import Charge, Option, Quote
from shipcalc.records import dataclass, field
from shipcalc.sheets import look
from shipcalc.sheets.paging import Block, between
from shipcalc.sheets.reading import letter
from shipcalc.sheets.writing import Page

_UNITS = {"mi": "miles", "nmi": "sea miles", "lump": "flat", "W/M": "t or m³"}
_PERCENT = "%"
_RATE_FIGURES = 9  # shown of a rate; the cell holds all of them
_MANY = 60  # lines of a choice, as of five vehicles overseas: they stand closer
_KEPT_TOGETHER = 3  # lines at the beginning and at the end of a group


@dataclass(frozen=True, slots=True)
class Group:
    """Lines that belong together: of one vehicle, of the whole shipment, or of one stage, in the rows from `first` to `last`.

    `subtotal` is the row of their sum, if it has one.
    """

    charges: tuple[Charge, ...]
    rows: tuple[int, ...]
    first: int
    last: int
    subtotal: int | None

    @property
    def summands(self) -> tuple[int, ...]:
        """Return the rows that the total adds up."""
        return (self.subtotal,) if self.subtotal else self.rows


@dataclass(frozen=True, slots=True)
class Itemised:
    """Where the lines stand: the row of each line by its name, the groups, the row of the total."""

    rows: Mapping[str, int]
    groups: tuple[Group, ...]
    total: int


@dataclass(slots=True)
class LinesWriter:
    """Writes lines from `row` on into the columns A to F: line, what it is for, quantity, unit, rate, amount.

    The notes of lines whose code begins with `unsaid` are left to another page.
    """

    page: Page
    quote: Quote
    row: int
    last_column: str = "F"
    unsaid: tuple[str, ...] = ()
    rows: dict[str, int] = field(default_factory=dict)

    def header(self, amount: str = "Amount", more: Sequence[tuple[str, look.Style]] = ()) -> None:
        """Write the column headers, and those of further columns from G on."""
        words = (
            ("Line", look.HEADER),
            ("What it is for", look.HEADER),
            ("Quantity", look.HEADER_FIGURE),
            ("", look.HEADER),
            ("Rate", look.HEADER_FIGURE),
            (amount, look.HEADER_FIGURE),
            *more,
        )
        for number, (word, style) in enumerate(words):
            self.page.put(f"{letter(number)}{self.row}", word, style)
        self.page.height(self.row, 28 if more else 18)
        self.row += 1

    def gap(self, points: float) -> None:
        """Leave white space."""
        self.page.height(self.row, points)
        self.row += 1

    def all_groups(self, option: Option, *, total_label: str) -> Itemised:
        """Write the lines that the total covers, group by group, and the total."""
        groups = self.groups(option, included_charges(option))
        formula = sum_of("F", [row for group in groups for row in group.summands])
        self.sum_row(total_label, formula, option.total, look.SUM_LABEL, look.SUM, 20)
        return Itemised(dict(self.rows), groups, self.row - 1)

    def groups(self, option: Option, charges: Iterable[Charge]) -> tuple[Group, ...]:
        """Write lines in their groups: each stage under its name; each vehicle under its own, where there are several."""
        parts, staged = groups(option, charges, self.quote.vehicles), has_stages(option)
        alone = len(parts) == 1 and not staged
        return tuple(self._group(title, own, alone=alone, staged=staged) for title, own in parts)

    def sum_row(
        self, label: str, formula: str, shows: Decimal, style: look.Style, figure: look.Style, height: float = 15
    ) -> None:
        """Write one sum under the lines."""
        self.page.band(self.row, f"A:{self.last_column}", label, style, at="B")
        self.page.put_formula(f"F{self.row}", formula, figure, self.amounts, shows=shows)
        self.page.height(self.row, height)
        self.row += 1

    def line(self, charge: Charge, what: str) -> None:
        """Write one line, and its note beneath it."""
        row, page = self.row, self.page
        self.rows[charge.line] = row
        page.put(f"A{row}", charge.line, _NUMBER)
        page.put(f"B{row}", what, _WHAT)
        self._quantity(charge)
        page.put(f"D{row}", unit_words(charge, self.quote), _UNIT)
        put_rate(page, f"E{row}", charge.rate, charge.unit, self.quote.currency)
        page.put_formula(
            f"F{row}", product(f"C{row}", f"E{row}", self.quote), _FIGURE, self.amounts, shows=charge.amount
        )
        page.fit_height(row, "B", what, _WHAT, least_height=self.line_height)
        page.fit_height(row, "D", unit_words(charge, self.quote), _UNIT)
        self.row += 1
        if charge.note and not (self.unsaid and charge.code.startswith(self.unsaid)):
            self.row = page.paragraph(self.row, "B:E", charge.note, look.SMALL)

    @property
    def line_height(self) -> float:
        """Return how high a line is at least, in points: less where there are many."""
        return 13 if any(len(option.charges) > _MANY for option in self.quote.options) else 15

    @property
    def amounts(self) -> str:
        """Return the number format of amounts."""
        return look.money_format(decimals(self.quote.currency))

    def _quantity(self, charge: Charge) -> None:
        cell = f"C{self.row}"
        if charge.unit != _PERCENT:
            self.page.put(cell, charge.quantity, _FIGURE, look.plain_format(charge.quantity))
        elif charge.of:
            rows = [self.rows[line] for line in charge.of]
            self.page.put_formula(cell, sum_of("F", rows), _FIGURE, self.amounts, shows=charge.quantity)
        else:
            self.page.put(cell, charge.quantity, _FIGURE, self.amounts)

    def _group(self, title: str, charges: tuple[Charge, ...], *, alone: bool, staged: bool) -> Group:
        first, untitled = self.row, alone or (staged and len(charges) == 1)
        if not untitled:
            self.row = self.page.paragraph(self.row, f"A:{self.last_column}", title, _GROUP, least_height=20)
        for charge in charges:
            what = label(charge, self.quote, under_vehicle=not staged)
            self.line(charge, what if alone or not untitled else with_title(title, what))
        rows = tuple(self.rows[charge.line] for charge in charges)
        if alone or len(charges) == 1:
            return Group(charges, rows, first, self.row - 1, None)
        shows = sum((charge.amount for charge in charges), Decimal(0))
        self.sum_row("Together", sum_of("F", rows), shows, _SUBTOTAL_LABEL, _SUBTOTAL)
        return Group(charges, rows, first, self.row - 1, self.row - 1)


def paragraphs(groups: Sequence[Group], first: int, end: int) -> list[Block]:
    """Return what a page break should not tear apart: a heading and its first lines, the last lines and their sums."""
    starts = [first]
    for group in groups:
        if group.first > groups[0].first and len(group.rows) > 1:
            starts.append(group.first)
        starts += group.rows[_KEPT_TOGETHER : 1 - _KEPT_TOGETHER]
    return between(starts, end + 1)


def product(quantity: str, rate: str, quote: Quote) -> str:
    """Return the formula of a line's amount: quantity × rate, rounded once, to the currency's decimals."""
    return f"ROUND({quantity}*{rate},{decimals(quote.currency)})"


def sum_of(column: str, rows: Sequence[int]) -> str:
    """Return the sum of cells of one column, neighbours as ranges: SUM(F6:F9,F12)."""
    return f"SUM({','.join(ranges(column, rows)) or '0'})"


def ranges(column: str, rows: Sequence[int]) -> Iterator[str]:
    """Yield the cells of some rows, neighbours joined: F6:F9, F12."""
    for first, last in _runs(sorted(rows)):
        yield f"{column}{first}" if first == last else f"{column}{first}:{column}{last}"


def put_rate(page: Page, cell: str, rate: Decimal, unit: str, currency: str) -> None:
    """Write a rate; a percentage as Excel keeps it (18 % is 0.18)."""
    if unit == _PERCENT:
        page.put(cell, rate.scaleb(-2), _FIGURE, look.percent_format(rate))
    else:
        least, whole = decimals(currency), len(str(abs(int(rate))))
        page.put(cell, rate, _FIGURE, look.plain_format(rate, least, max(least, _RATE_FIGURES - whole)))


def unit_words(charge: Charge, quote: Quote) -> str:
    """Return what the quantity counts, or what a percentage is taken of: `miles`, `of lines 1–3`, `of the value`."""
    if charge.unit != _PERCENT:
        return _UNITS.get(charge.unit, charge.unit)
    if charge.of:
        numbers = [int(line) for line in charge.of if line.isdigit()]
        if len(numbers) != len(charge.of):
            return f"of lines {', '.join(charge.of)}"
        runs = [str(a) if a == b else f"{a}–{b}" for a, b in _runs(sorted(numbers))]
        return f"of {'line' if len(numbers) == 1 else 'lines'} {', '.join(runs)}"
    values = [to_decimal(v.value_minor, v.currency) for v in quote.vehicles
              if v.stock_number == charge.vehicle and v.value_minor is not None]  # fmt: skip
    return "of the value" if charge.quantity in values else "of this amount"


def _runs(numbers: Sequence[int]) -> Iterator[tuple[int, int]]:
    """Yield (first, last) of each run of neighbouring numbers."""
    first: int | None = None
    for place, number in enumerate(numbers):
        if first is None:
            first = number
        if place + 1 == len(numbers) or numbers[place + 1] != number + 1:
            yield first, number
            first = None


_WHAT = look.Style("Line", wrap=True, upright="top")
_NUMBER = look.Style("Line, number", ink=look.GREY, upright="top")
_UNIT = look.Style("Line, unit", ink=look.GREY, wrap=True, upright="top", indent=1)
_FIGURE = look.Style("Line, figure", align="right", upright="top")
_GROUP = look.Style("Vehicle", bold=True, wrap=True, upright="bottom")
_SUBTOTAL_LABEL = look.Style("Subtotal label", ink=look.GREY, upright="center")
_SUBTOTAL = look.Style("Subtotal", align="right", above="hair", rule_ink=look.INK)
