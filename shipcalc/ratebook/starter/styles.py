"""The look of the rate workbooks: what is typed most often stands on the warm ground, headers by what a column is about."""

from collections.abc import Mapping

from shipcalc.ratebook.workbook.columns import Column
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import replace
from shipcalc.sheets import look
from shipcalc.sheets.look import Style

# A blank that does not break: the star never stands on a line of its own.
REQUIRED_MARK = "\u00a0*"

_HEADER = Style("Rate header", size=9, bold=True, wrap=True, upright="bottom", below="thin")
# Ink and ground of the headers.
HEADER_COLOURS: Mapping[Theme, tuple[str, str]] = {
    Theme.NAME: (look.WHITE, look.ACCENT),
    Theme.PRICE: (look.INK, look.PRICE_HEAD),
    Theme.DETAIL: (look.INK, look.DETAIL_HEAD),
    Theme.DAYS: (look.INK, look.DETAIL_HEAD),
    Theme.LIMIT: (look.INK, look.DETAIL_HEAD),
    Theme.WHEN: (look.INK, look.WHEN_HEAD),
    Theme.VALID: (look.INK, look.WHEN_HEAD),
    Theme.SOURCE: (look.GREY, look.WHITE),
}
FIGURE_CELL = Style("Rate figure", upright="top", align="right")
TEXT_CELL = Style("Rate text", upright="top", indent=1, wrap=True)
SOURCE_CELL = Style("Rate source", size=9, ink=look.GREY, upright="top", indent=1, wrap=True)


def header_style(theme: Theme, column: Column, *, is_figure: bool) -> Style:
    """Return the style of a column's header: bold where it must be filled."""
    ink, ground = HEADER_COLOURS[theme]
    name = f"{_HEADER.name}, {theme.name.lower()}{'' if column.required else ', may be blank'}"
    style = replace(_HEADER, name=name, bold=column.required, ink=ink, ground=ground)
    return style.aligned("right") if is_figure else replace(style, name=f"{name}, text", indent=1)


def cell_style(theme: Theme, *, is_figure: bool) -> Style:
    """Return the style of a column's cells."""
    if is_figure:
        return FIGURE_CELL
    return SOURCE_CELL if theme is Theme.SOURCE else TEXT_CELL
