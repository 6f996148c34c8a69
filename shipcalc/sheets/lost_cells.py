"""Cells of an .xlsx file that hold a formula and yet no value: a reader of values takes them for blank.

An error (`#REF!`) and a formula whose result was never saved are such cells. Where blank means "any" or "none", reading them
so would give a wrong price without a word. ECMA-376 part 1, 18.3.1.4 (c) and 18.18.11 (ST_CellType): an error has t="e".
"""

import io
import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from zipfile import ZipFile

Lost = dict[tuple[int, int], str]
"""(row, column), both counted from 0 → the error shown, or an empty text where a formula has no saved result."""

LARGEST_SHEET_BYTES = 200_000_000

_SHEET = re.compile(rb"<sheet\b[^>]*>")
_RELATION = re.compile(rb"<Relationship\b[^>]*>")
_ATTRIBUTE = re.compile(rb"""([\w:]+)\s*=\s*["']([^"']*)["']""")
_CELL = re.compile(rb"<c\b([^>]*[^/])>(.*?)</c>", re.DOTALL)
_VALUE = re.compile(rb"<v\b[^>]*>(.+?)</v>", re.DOTALL)
_FORMULA = re.compile(rb"<f[ >/]")
# The five names that XML itself defines; the table of all names in HTML takes 5 ms to load.
_ENTITIES = (("&lt;", "<"), ("&gt;", ">"), ("&quot;", '"'), ("&apos;", "'"), ("&amp;", "&"))
_ADDRESS = re.compile(rb"([A-Z]{1,3})([0-9]{1,7})")


def lost_cells(content: bytes) -> dict[str, Lost]:
    """Return the lost cells of each sheet that has any, by the sheet's name; nothing for a file that is no .xlsx."""
    from zipfile import BadZipFile, ZipFile

    try:
        with ZipFile(io.BytesIO(content)) as parts:
            found = {name: dict(_in_sheet(xml)) for name, xml in _sheets(parts)}
    except (BadZipFile, KeyError, NotImplementedError, RuntimeError, OSError, EOFError):
        return {}
    return {name: lost for name, lost in found.items() if lost}


def _sheets(parts: "ZipFile") -> Iterator[tuple[str, bytes]]:
    """Yield (name, XML) of each sheet that may hold a lost cell."""
    relations = (_attributes(tag) for tag in _RELATION.findall(parts.read("xl/_rels/workbook.xml.rels")))
    targets = {relation.get(b"Id"): relation.get(b"Target", b"").decode() for relation in relations}
    for tag in _SHEET.findall(parts.read("xl/workbook.xml")):
        sheet = _attributes(tag)
        target = targets.get(sheet.get(b"r:id"), "")
        part = target.lstrip("/") if target.startswith("/") else f"xl/{target}"
        if part not in parts.namelist() or parts.getinfo(part).file_size > LARGEST_SHEET_BYTES:
            continue
        xml = parts.read(part)
        if b'"e"' in xml or _FORMULA.search(xml):
            yield _plain(sheet.get(b"name", b"")), xml


def _in_sheet(xml: bytes) -> Iterator[tuple[tuple[int, int], str]]:
    for attributes, inside in _CELL.findall(xml):
        told = _attributes(attributes)
        address = _ADDRESS.fullmatch(told.get(b"r", b""))
        value = _VALUE.search(inside)
        is_error = told.get(b"t") == b"e"
        if address and (is_error or (value is None and _FORMULA.search(inside) and b"<is" not in inside)):
            shown = _plain(value[1]) if is_error and value else ""
            yield (int(address[2]) - 1, _column(address[1])), shown


def _plain(xml: bytes) -> str:
    text = xml.decode()
    for name, sign in _ENTITIES:
        text = text.replace(name, sign)
    return text


def _column(letters: bytes) -> int:
    number = 0
    for sign in letters:
        number = number * 26 + sign - ord("A") + 1
    return number - 1


def _attributes(tag: bytes) -> dict[bytes, bytes]:
    return dict(_ATTRIBUTE.findall(tag))
