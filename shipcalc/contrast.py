"""Whether letters of a colour can be read: the contrast of WCAG 2.1 (its definitions "relative luminance", "contrast ratio")."""

import re

WHITE = "#FFFFFF"
PALE = "#EEF3F3"  # the darkest ground that the accent is written on: that of what is recommended
LEAST = 4.5  # WCAG 2.1, success criterion 1.4.3, for letters of the usual size
_COLOUR = re.compile("#[0-9A-F]{6}")


def is_colour(text: str) -> bool:
    """Return whether a text is a colour as #RRGGBB, in capitals."""
    return _COLOUR.fullmatch(text) is not None


def contrast(one: str, other: str) -> float:
    """Return the contrast of two colours (#RRGGBB): from 1, the same, to 21, black on white."""
    darker, lighter = sorted((_luminance(one), _luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def _luminance(colour: str) -> float:
    red, green, blue = (_linear(int(colour[at : at + 2], 16) / 255) for at in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(part: float) -> float:
    return part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4
