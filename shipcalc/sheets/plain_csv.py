"""Text for a CSV file: a spreadsheet takes a cell that begins with a sign of arithmetic for a formula, and computes it."""

import re

_BEGINS_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")
_FIGURES = re.compile(r"[-+][\d.,\s-]+")  # a point on the map: -33.92, 18.42


def as_text(cell: str | None) -> str | None:
    """Return a text as it may stand in a CSV file: with an apostrophe before it where it would be taken for a formula."""
    if cell is None or not cell.startswith(_BEGINS_FORMULA) or _FIGURES.fullmatch(cell):
        return cell
    return f"'{cell}"
