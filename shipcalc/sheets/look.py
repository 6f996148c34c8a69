"""The look of everything we write into Excel: colours, letters and named styles, as plain data.

Quiet, like good stationery: black-grey ink, one dark accent, one warm colour for cautions, white space and thin rules in
place of boxes. Nothing is said by colour alone. Every ink has a contrast of at least 4.5 : 1 on every ground it is used on
(WCAG 2.1, success criterion 1.4.3), which a test checks. Arial is in Excel everywhere, and LibreOffice sets Liberation Sans
with the same letter widths in its place; both have figures of equal width.
"""

from decimal import Decimal
from typing import Literal

from shipcalc.records import dataclass, replace

FONT = "Arial"

INK = "22282E"
GREY = "5A636C"
RULE = "C7CCD1"
ACCENT = "1B4B52"
CAUTION_INK = "8A3F0C"
WHITE = "FFFFFF"
WASH = "EEF3F3"  # the ground of what is recommended
CAUTION_WASH = "FBF2E8"
FAULT_GROUND = "F6D3BF"  # the ground of a cell that must be corrected
ENTRY_WASH = "FAF8F1"  # the ground of a cell to be filled in
# The rate workbooks: grounds of headers by what a column is about, of prices and of every other row; colours of tabs.
PRICE_HEAD, DETAIL_HEAD, WHEN_HEAD = "E6D3A3", "D5E2E3", "E1E4E7"
PRICE_WASH, PRICE_BAND, BAND = "FCF6E6", "F8EFD6", "F3F6F6"
TAB_FRONT, TAB_WEEKLY, TAB_PRICES, TAB_RULES, TAB_LISTS = "22282E", "8A3F0C", "C79A2E", "1B4B52", "9DB0B4"

ROW_POINTS = 15.0  # the height of a row of one line

Align = Literal["left", "center", "right"]
Upright = Literal["top", "center", "bottom"]
Rule = Literal["hair", "thin", "medium", "double"]


@dataclass(frozen=True, slots=True)
class Style:
    """A named style, as it shows in Excel's list of cell styles. `name` is unique within a workbook; `size` in points."""

    name: str
    size: float = 10
    bold: bool = False
    italic: bool = False
    ink: str = INK
    ground: str = ""
    align: Align = "left"
    upright: Upright = "center"
    wrap: bool = False
    indent: int = 0
    above: Rule | None = None
    below: Rule | None = None
    rule_ink: str = RULE
    number_format: str = "General"

    def on(self, ground: str) -> "Style":
        """Return the same style on another ground."""
        return replace(self, name=f"{self.name} on {ground}", ground=ground)

    def shown_as(self, number_format: str) -> "Style":
        """Return the same style with another number format."""
        return replace(self, name=f"{self.name}, {number_format.partition(';')[0]}", number_format=number_format)

    def set_in(self, steps: int = 1) -> "Style":
        """Return the same style a little off its edge: beside a column whose text may fill it, or a picture."""
        return replace(self, name=f"{self.name}, set in{'' if steps == 1 else f' {steps}'}", indent=steps)

    def aligned(self, align: Align) -> "Style":
        """Return the same style, aligned otherwise."""
        return replace(self, name=f"{self.name}, {align}", align=align)


def accented(style: Style, accent: str) -> Style:
    """Return a style with another dark colour (RRGGBB) wherever it has ours."""
    ink, ground, rule = (accent if one == ACCENT else one for one in (style.ink, style.ground, style.rule_ink))
    return replace(style, ink=ink, ground=ground, rule_ink=rule)


LETTERHEAD = Style("Letterhead", size=9, bold=True, ink=ACCENT)
TITLE = Style("Title line", size=20, ink=ACCENT, upright="bottom")
SUBTITLE = Style("Subtitle", size=11, ink=GREY)
HEADING = Style("Section", size=11, bold=True, ink=ACCENT, upright="bottom", below="thin", rule_ink=ACCENT)
TITLE_WRAPPED = Style("Title", size=15, ink=ACCENT, upright="bottom", wrap=True)
SUBTITLE_WRAPPED = Style("Subtitle, running", size=10, ink=GREY, upright="top", wrap=True)
LABEL = Style("Label", size=9, ink=GREY)
BODY = Style("Body")
STRONG = Style("Strong", bold=True)
TEXT = Style("Running text", wrap=True, upright="top")
SMALL = Style("Small text", size=9, ink=GREY, wrap=True, upright="top")
HEADER = Style("Column header", size=9, ink=GREY, wrap=True, upright="bottom", below="thin")
HEADER_FIGURE = Style(
    "Column header, figures", size=9, ink=GREY, wrap=True, upright="bottom", below="thin", align="right"
)
FIGURE = Style("Figure", align="right")
SMALL_FIGURE = Style("Small figure", size=9, ink=GREY, align="right")
SUM_LABEL = Style("Sum label", bold=True, above="thin", rule_ink=INK)
SUM = Style("Sum", bold=True, align="right", above="thin", rule_ink=INK)
CAUTION = Style("Caution", ink=CAUTION_INK, wrap=True, upright="top")
CAUTION_STRONG = Style("Caution, strong", bold=True, ink=CAUTION_INK)
ENTRY = Style("To be filled in", ground=ENTRY_WASH, below="thin")

TICK_BOX = "☐"

DATE = "ddd d mmm yyyy"
DAY = "d mmm yyyy"
WHOLE = "#,##0"
PERCENT = "0.0%"


def money_format(decimals: int) -> str:
    """Return the number format of an amount with so many decimals: 1,234.50."""
    return "#,##0" + ("." + "0" * decimals if decimals else "")


def plain_format(number: Decimal, least: int = 0, most: int = 6) -> str:
    """Return the number format that shows a number with its own decimals, at least `least` and at most `most`."""
    return money_format(min(max(_decimals(number), least), most))


def percent_format(percent: Decimal) -> str:
    """Return the number format of a percentage with its own decimals: 18 → 0%, 7.5 → 0.0%."""
    decimals = min(_decimals(percent), 4)
    return "0" + ("." + "0" * decimals if decimals else "") + "%"


def _decimals(number: Decimal) -> int:
    exponent = number.normalize().as_tuple().exponent
    assert isinstance(exponent, int), "a finite number"
    return max(-exponent, 0)
