"""How cells of an .xlsx file are shown: their number formats, and whether they are struck out.

A price of 1,250 may be euros or dollars by its format alone, and a figure that is struck out no longer counts. ECMA-376 part 1,
18.8.30 (numFmt), 18.8.10 (cellXfs), 18.4.10 (strike).
"""

import re
from collections.abc import Iterator, Mapping
from pathlib import Path

from shipcalc.files import read_file
from shipcalc.records import dataclass, field
from shipcalc.sheets.package import Damaged, Locked, TooLarge, unpacked
from shipcalc.sheets.parts import attributes, is_true, parts_of, plain

Spot = tuple[int, int]
"""(row, column), both counted from 0."""

_STYLED = re.compile(rb"<c\b[^>]*>")
_ADDRESS = re.compile(rb"([A-Z]{1,3})([0-9]{1,7})")
_FORMAT = re.compile(rb"<numFmt\b[^>]*>")
_FONTS = re.compile(rb"<fonts\b.*?</fonts>", re.DOTALL)
_FONT = re.compile(rb"<font\b[^>]*/>|<font\b[^>]*>.*?</font>", re.DOTALL)
_STRIKE = re.compile(rb"<strike\b[^>]*>")
_LOOKS = re.compile(rb"<cellXfs\b.*?</cellXfs>", re.DOTALL)
_LOOK = re.compile(rb"<xf\b[^>]*>")
# Formats that every workbook has without naming them (18.8.30); only what tells of percent or of money matters here.
_BUILT_IN = {
    5: "$#,##0",
    6: "$#,##0",
    7: "$#,##0.00",
    8: "$#,##0.00",
    9: "0%",
    10: "0.00%",
    42: "$#,##0",
    44: "$#,##0.00",
}


@dataclass(frozen=True, slots=True)
class Shown:
    """The number format of each cell that has one of its own, and the cells that are struck out."""

    formats: Mapping[Spot, str] = field(default_factory=dict)
    struck: frozenset[Spot] = frozenset()


NOTHING_SHOWN = Shown()


def shown_as(path: Path) -> dict[str, Shown]:
    """Return how the cells of each sheet are shown, by the sheet's name; nothing for a file that is no .xlsx workbook."""
    try:
        package = unpacked(read_file(path))
    except (Damaged, Locked, TooLarge):
        return {}
    formats, struck = _looks(package.get("xl/styles.xml", b""))
    return {name: _in_sheet(xml, formats, struck) for name, xml in parts_of(package).sheets.items()}


def _looks(styles: bytes) -> tuple[dict[int, str], frozenset[int]]:
    """Return the number format by look, and the looks that strike out."""
    named = {
        int(told[b"numFmtId"]): plain(told.get(b"formatCode", b""))
        for told in (attributes(tag) for tag in _FORMAT.findall(styles))
        if told.get(b"numFmtId", b"").isdigit()
    }
    fonts = _FONTS.search(styles)
    struck_fonts = {number for number, font in enumerate(_FONT.findall(fonts[0]) if fonts else ()) if _strikes(font)}
    section = _LOOKS.search(styles)
    looks = [attributes(tag) for tag in _LOOK.findall(section[0])] if section else []
    known = {**_BUILT_IN, **named}
    formats = {n: known[code] for n, told in enumerate(looks) if (code := _number(told, b"numFmtId")) in known}
    return formats, frozenset(n for n, told in enumerate(looks) if _number(told, b"fontId") in struck_fonts)


def _number(told: Mapping[bytes, bytes], name: bytes) -> int:
    text = told.get(name, b"")
    return int(text) if text.isdigit() else -1


def _strikes(font: bytes) -> bool:
    found = _STRIKE.search(font)
    return found is not None and is_true(attributes(found[0]).get(b"val", b"1"))


def _in_sheet(xml: bytes, formats: Mapping[int, str], struck: frozenset[int]) -> Shown:
    if not formats and not struck:
        return NOTHING_SHOWN
    looks = dict(_styled(xml))
    return Shown(
        {spot: formats[look] for spot, look in looks.items() if look in formats},
        frozenset(spot for spot, look in looks.items() if look in struck),
    )


def _styled(xml: bytes) -> Iterator[tuple[Spot, int]]:
    for tag in _STYLED.findall(xml):
        told = attributes(tag)
        address = _ADDRESS.fullmatch(told.get(b"r", b""))
        if address and told.get(b"s", b"").isdigit():
            yield (int(address[2]) - 1, _column(address[1])), int(told[b"s"])


def _column(letters: bytes) -> int:
    number = 0
    for sign in letters:
        number = number * 26 + sign - ord("A") + 1
    return number - 1
