"""Which characters the shipped fonts can show, and text that is made only of them.

A tagged paper must not hold a character that no font shows, and must not be turned round by an invisible one.
"""

import re
import unicodedata
from bisect import bisect_right
from functools import cache
from pathlib import Path

FONTS = Path(__file__).parent / "fonts"
FILE = FONTS / "characters.txt"
UNKNOWN = "\N{WHITE SQUARE}"
_JOINERS = "\N{ZERO WIDTH NON-JOINER}\N{ZERO WIDTH JOINER}"  # which Persian and Urdu names are spelt with
# What most text is made of, all of it shown (a test asks the fonts): so that it need not be looked at letter by letter.
_COMMON = re.compile("[\n -~\u00a1-\u00ac\u00ae-\u017f–—‘’“”…′×−]*")
_UNSEEN = ("Cc", "Cf", "Cs", "Co", "Cn")
_BLANK = ("Zl", "Zp")


def printable(text: str) -> str:
    """Return text as it can be printed: a line's end stays one, what is not seen is left out, what no font has is a square."""
    if _COMMON.fullmatch(text):
        return text
    composed = unicodedata.normalize("NFC", text.replace("\r\n", "\n").replace("\r", "\n"))
    return "".join(_printed(letter) for letter in composed)


def _printed(letter: str) -> str:
    if letter == "\n" or letter in _JOINERS:
        return letter
    if letter == "\t":
        return " "
    kind = unicodedata.category(letter)
    if kind in _BLANK:
        return "\n"
    if kind in _UNSEEN:
        return ""
    return letter if is_shown(ord(letter)) else UNKNOWN


def is_shown(point: int) -> bool:
    """Return whether one of the fonts has a picture of a character."""
    firsts, lasts = _runs()
    place = bisect_right(firsts, point) - 1
    return place >= 0 and point <= lasts[place]


@cache
def _runs() -> tuple[list[int], list[int]]:
    """Return the first and the last of each run of characters that are shown, in rising order."""
    runs = [line.split() for line in FILE.read_text(encoding="ascii").splitlines()]
    return [int(first, 16) for first, _ in runs], [int(last, 16) for _, last in runs]
