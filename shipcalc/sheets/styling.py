"""From our plain styles and texts to what openpyxl wants; used by `writing` alone."""

import re
from typing import TYPE_CHECKING

from shipcalc.sheets.look import FONT, INK, Rule, Style

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.cell.cell import Cell
    from openpyxl.styles import NamedStyle, Side
    from openpyxl.worksheet.properties import PageSetupProperties

# What XML 1.0 does not allow (its production 2, Char), half surrogate pairs among them.
_NOT_IN_XML = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_LONGEST_TEXT = 32_767  # of one cell, in Excel
_FORMULA_SIGNS = ("=", "+", "-", "@", "\t", "\r", "\n")


def clean(text: str) -> str:
    """Return text without the characters that no workbook can hold."""
    return _NOT_IN_XML.sub("", text)


def put_text(cell: "Cell", text: str) -> None:
    """Store text as text: what begins like a formula also stays text when somebody edits the cell in Excel."""
    kept = clean(text)[:_LONGEST_TEXT]
    cell.value = kept
    cell.data_type = "s"
    if kept.startswith(_FORMULA_SIGNS):
        cell.quotePrefix = True


def named_style(style: Style) -> "NamedStyle":
    """Return openpyxl's form of a style."""
    from openpyxl.styles import Alignment, Border, Font, NamedStyle, PatternFill

    return NamedStyle(
        name=style.name,
        font=Font(name=FONT, size=style.size, bold=style.bold, italic=style.italic, color=style.ink),
        fill=PatternFill("solid", fgColor=style.ground) if style.ground else PatternFill(),
        border=Border(top=_side(style.above, style.rule_ink), bottom=_side(style.below, style.rule_ink)),
        alignment=Alignment(
            horizontal=style.align, vertical=style.upright, wrap_text=style.wrap or None, indent=style.indent
        ),
        number_format=style.number_format,
    )


def set_normal_letters(book: "Workbook") -> None:
    """Set what cells without a style look like; the widths of columns are counted in these letters."""
    from openpyxl.styles import Alignment, Font
    from openpyxl.utils.indexed_list import IndexedList

    letters = Font(name=FONT, size=10, color=INK)
    book._fonts = IndexedList([letters])  # type: ignore[attr-defined] # noqa: SLF001
    normal = next(style for style in book._named_styles if style.name == "Normal")  # type: ignore[attr-defined] # noqa: SLF001
    normal.font, normal.alignment = letters, Alignment(vertical="center")
    normal.bind(book)


def page_fitting(fitted: bool) -> "PageSetupProperties":
    """Return the setting by which a sheet is scaled to its pages, or not."""
    from openpyxl.worksheet.properties import PageSetupProperties

    return PageSetupProperties(fitToPage=fitted)


def _side(rule: Rule | None, ink: str) -> "Side":
    from openpyxl.styles import Side

    return Side(rule, color=ink) if rule else Side()
