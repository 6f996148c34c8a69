"""How wide text is, so that wrapped rows get the height they need.

Excel does not fit the height of merged cells by itself. The widths are those of Arial (and of Liberation Sans and Helvetica,
which have the same), in thousandths of the letter size.
"""

import math

_REGULAR = {
    191: "'",
    222: "ijl‘’",
    278: " \u00a0!,./:;I[\\]ft|",
    333: "()-`r·“”›{}•",
    370: '"*°',
    500: "Jcksvxyz^",
    584: "+<=>~×",
    611: "FTZ",
    667: "&ABEKPSVXY",
    722: "CDHNRUw",
    778: "GOQ",
    833: "Mm",
    900: "%W",
    1000: "—…@",
}
_BOLD = {
    238: "'",
    278: " \u00a0,./I\\ijl‘’|",
    333: "!()-:;[]`ft·›•",
    389: "*r{}°",
    480: '"z“”',
    584: "+<=>^~×",
    611: "?FLTZbdghnopqu",
    667: "EPSVXY",
    722: "&ABCDHKNRU",
    778: "GOQw",
    900: "M%mW",
    1000: "—…@",
}
_OTHER = 556  # figures and most small letters
_REGULAR_WIDTHS = {letter: width for width, letters in _REGULAR.items() for letter in letters}
_BOLD_WIDTHS = {letter: width for width, letters in _BOLD.items() for letter in letters}

PIXELS_PER_POINT = 96 / 72
# A column's width is counted in figures of Arial 10. Excel takes each as 7 whole pixels, LibreOffice as 5.56 points (7.4 pixels):
# text must fit the narrower of the two, the printed page the wider.
PIXELS_PER_UNIT = 7
WIDEST_PIXELS_PER_UNIT = 10 * 0.556 * PIXELS_PER_POINT
_CELL_PADDING_PX = 7
_LINE_SPACING = 1.25  # row height for a line of text, in sizes


def text_width_px(text: str, size: float, *, bold: bool = False) -> float:
    """Return the width of one line of text in pixels, set in `size` points."""
    widths = _BOLD_WIDTHS if bold else _REGULAR_WIDTHS
    thousandths = sum(widths.get(letter, _OTHER if ord(letter) < 0x2E80 else 1000) for letter in text)
    return thousandths / 1000 * size * PIXELS_PER_POINT


def lines_needed(text: str, width_px: float, size: float, *, bold: bool = False) -> int:
    """Return how many lines the text takes when it is wrapped between words into `width_px`."""
    room = max(width_px - _CELL_PADDING_PX, 1)
    return sum(_paragraph_lines(paragraph, room, size, bold) for paragraph in text.split("\n"))


def _paragraph_lines(paragraph: str, room: float, size: float, bold: bool) -> int:
    blank = text_width_px(" ", size, bold=bold)
    lines, used = 1, 0.0
    for word in paragraph.split(" "):
        width = text_width_px(word, size, bold=bold)
        if used and used + blank + width > room:
            lines, used = lines + 1, 0.0
        if width > room:  # a word longer than the line is broken
            lines += math.ceil(width / room) - 1
            used = width % room
        else:
            used += (blank if used else 0.0) + width
    return lines


def height_points(lines: int, size: float) -> float:
    """Return the row height in points that so many lines need."""
    return round(lines * size * _LINE_SPACING + 2.5, 1)


def column_px(width_units: float) -> float:
    """Return the pixels of a column that is `width_units` wide (its padding is among them)."""
    return width_units * PIXELS_PER_UNIT
